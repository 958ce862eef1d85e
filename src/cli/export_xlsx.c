/* The workbook; the one file that sees the spreadsheet library. It can only write
 * to a name, so it writes to a private temporary file that is read back. */
#include "cli/export.h"

#include "base/fail.h"
#include "base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <xlsxwriter.h>

enum { SHEETS = 64 };

struct mf_xlsx {
    char path[512];
    lxw_workbook *workbook;
    lxw_format *bold;
    lxw_error error;
    struct {
        lxw_worksheet *sheet;
        lxw_row_t row;
        char name[32];
    } table[SHEETS], *now; /* each begun so far, and that which is written to */
    int n;
};

static void keep(mf_xlsx *out, lxw_error error)
{
    if (out->error == LXW_NO_ERROR)
        out->error = error;
}

static lxw_error write_text(mf_xlsx *out, lxw_col_t column, const char *text)
{
    mf_buf plain = {0};
    mf_export_text(&plain, text);
    lxw_error error = plain.failed ? LXW_ERROR_MEMORY_MALLOC_FAILED
                                   : worksheet_write_string(out->now->sheet, out->now->row, column,
                                                            mf_buf_str(&plain), NULL);
    mf_buf_free(&plain);
    return error;
}

static void xlsx_row(void *data, const mf_cell *cells, size_t n)
{
    mf_xlsx *out = data;
    for (size_t i = 0; i < n && out->now != NULL; i++) {
        lxw_col_t column = (lxw_col_t)i;
        char *end = NULL;
        double number = strtod(cells[i].text, &end);
        if (cells[i].number && end != cells[i].text && *end == '\0')
            keep(out, worksheet_write_number(out->now->sheet, out->now->row, column, number, NULL));
        else if (cells[i].text[0] != '\0')
            keep(out, write_text(out, column, cells[i].text));
    }
    if (out->now != NULL)
        out->now->row++;
}

static void begin_sheet(mf_xlsx *out, const char *name, const char *const *heads, size_t n)
{
    lxw_worksheet *sheet = out->n == SHEETS ? NULL : workbook_add_worksheet(out->workbook, name);
    if (sheet == NULL) {
        keep(out, LXW_ERROR_MEMORY_MALLOC_FAILED);
        return;
    }
    out->now = &out->table[out->n++];
    out->now->sheet = sheet;
    out->now->row = 1;
    snprintf(out->now->name, sizeof out->now->name, "%s", name);
    for (size_t i = 0; i < n; i++)
        keep(out, worksheet_write_string(sheet, 0, (lxw_col_t)i, heads[i], out->bold));
    worksheet_freeze_panes(sheet, 1, 0);
    worksheet_set_column(sheet, 0, (lxw_col_t)(n - 1), 16, NULL);
}

static void xlsx_table(void *data, const char *name, const char *const *heads, size_t n)
{
    mf_xlsx *out = data;
    out->now = NULL;
    for (int i = 0; i < out->n; i++)
        if (strcmp(out->table[i].name, name) == 0)
            out->now = &out->table[i];
    if (out->now == NULL)
        begin_sheet(out, name, heads, n);
}

/* The library writes lines of its own to standard error, which are ours to write. */
static int hush(void)
{
    int kept = dup(STDERR_FILENO), nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
    fflush(stderr);
    if (kept >= 0 && nowhere >= 0)
        dup2(nowhere, STDERR_FILENO);
    if (nowhere >= 0)
        close(nowhere);
    return kept;
}

static void speak(int kept)
{
    fflush(stderr);
    if (kept >= 0 && dup2(kept, STDERR_FILENO) >= 0)
        close(kept);
}

static mf_status fail(mf_err *err, lxw_error error, const char *path, int number)
{
    if (number == ENOSPC || number == EDQUOT)
        return mf_file_fail(err, path, "write", number);
    return mf_fail(err, MF_SYSTEM, "workbook", "cannot be made", lxw_strerror(error),
                   "is there room in the temporary folder?");
}

mf_status mf_xlsx_new(mf_xlsx **out, mf_err *err)
{
    const char *folder = getenv("TMPDIR");
    mf_xlsx *book = calloc(1, sizeof *book);
    *out = book;
    if (book == NULL)
        return mf_fail_memory(err);
    snprintf(book->path, sizeof book->path, "%.400s/mistfold-XXXXXX",
             folder == NULL || folder[0] == '\0' ? "/tmp" : folder);
    int fd = mkstemp(book->path); /* for its owner alone */
    if (fd < 0) {
        mf_status status = mf_fail(err, MF_SYSTEM, book->path, "a temporary file cannot be made",
                                   "", "set TMPDIR to a folder that can be written to");
        book->path[0] = '\0'; /* there is none to take away */
        return status;
    }
    close(fd);
    book->workbook = workbook_new(book->path);
    if (book->workbook == NULL)
        return mf_fail_memory(err);
    book->bold = workbook_add_format(book->workbook);
    if (book->bold != NULL)
        format_set_bold(book->bold);
    return MF_OK;
}

mf_sink mf_xlsx_sink(mf_xlsx *book)
{
    return (mf_sink){book, xlsx_table, xlsx_row};
}

mf_status mf_xlsx_end(mf_xlsx *book, mf_buf *out, mf_err *err)
{
    mf_bytes bytes = {0};
    mf_status status = MF_OK;
    int kept = hush();
    errno = 0;
    keep(book, workbook_close(book->workbook)); /* frees it */
    int number = errno;
    speak(kept);
    book->workbook = NULL;
    if (book->error != LXW_NO_ERROR)
        status = fail(err, book->error, book->path, number);
    if (status == MF_OK)
        status = mf_file_read(&bytes, book->path, (size_t)256 << 20, err);
    if (status == MF_OK)
        mf_buf_add(out, bytes.data, bytes.len);
    mf_bytes_free(&bytes);
    return status;
}

void mf_xlsx_free(mf_xlsx *book)
{
    if (book == NULL)
        return;
    int kept = hush();
    if (book->workbook != NULL)
        workbook_close(book->workbook); /* the one way to free it */
    speak(kept);
    if (book->path[0] != '\0')
        unlink(book->path);
    free(book);
}
