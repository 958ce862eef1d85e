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

typedef struct book_out {
    lxw_workbook *workbook;
    lxw_worksheet *sheet;
    lxw_format *bold;
    lxw_row_t row;
    lxw_error error;
} book_out;

static void keep(book_out *out, lxw_error error)
{
    if (out->error == LXW_NO_ERROR)
        out->error = error;
}

static lxw_error write_text(book_out *out, lxw_col_t column, const char *text)
{
    mf_buf plain = {0};
    mf_export_text(&plain, text);
    lxw_error error = plain.failed ? LXW_ERROR_MEMORY_MALLOC_FAILED
                                   : worksheet_write_string(out->sheet, out->row, column,
                                                            mf_buf_str(&plain), NULL);
    mf_buf_free(&plain);
    return error;
}

static void xlsx_row(void *data, const mf_cell *cells, size_t n)
{
    book_out *out = data;
    for (size_t i = 0; i < n && out->sheet != NULL; i++) {
        lxw_col_t column = (lxw_col_t)i;
        char *end = NULL;
        double number = strtod(cells[i].text, &end);
        if (cells[i].number && end != cells[i].text && *end == '\0')
            keep(out, worksheet_write_number(out->sheet, out->row, column, number, NULL));
        else if (cells[i].text[0] != '\0')
            keep(out, write_text(out, column, cells[i].text));
    }
    out->row++;
}

static void xlsx_table(void *data, const char *name, const char *const *heads, size_t n)
{
    book_out *out = data;
    out->sheet = workbook_add_worksheet(out->workbook, name);
    out->row = 1;
    if (out->sheet == NULL) {
        keep(out, LXW_ERROR_MEMORY_MALLOC_FAILED);
        return;
    }
    for (size_t i = 0; i < n; i++)
        keep(out, worksheet_write_string(out->sheet, 0, (lxw_col_t)i, heads[i], out->bold));
    worksheet_freeze_panes(out->sheet, 1, 0);
    worksheet_set_column(out->sheet, 0, (lxw_col_t)(n - 1), 16, NULL);
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

static mf_status write_book(const mf_cli *cli, const mf_job *job, bool no_names, const char *path,
                            mf_err *err)
{
    book_out out = {.workbook = workbook_new(path)};
    if (out.workbook == NULL)
        return mf_fail_memory(err);
    out.bold = workbook_add_format(out.workbook);
    if (out.bold != NULL)
        format_set_bold(out.bold);
    const mf_sink sink = {&out, xlsx_table, xlsx_row};
    mf_status status = mf_export_findings(cli, job, &sink, err);
    mf_export_kinds(job, NULL, no_names, &sink);
    int kept = hush();
    errno = 0;
    keep(&out, workbook_close(out.workbook));
    int number = errno;
    speak(kept);
    if (status == MF_OK && out.error != LXW_NO_ERROR)
        status = fail(err, out.error, path, number);
    return status;
}

mf_status mf_export_xlsx(const mf_cli *cli, const mf_job *job, bool no_names, mf_buf *out,
                         mf_err *err)
{
    const char *folder = getenv("TMPDIR");
    char path[512];
    mf_bytes bytes = {0};
    snprintf(path, sizeof path, "%.400s/mistfold-XXXXXX",
             folder == NULL || folder[0] == '\0' ? "/tmp" : folder);
    int fd = mkstemp(path); /* for its owner alone */
    if (fd < 0)
        return mf_fail(err, MF_SYSTEM, path, "a temporary file cannot be made", "",
                       "set TMPDIR to a folder that can be written to");
    close(fd);
    mf_status status = write_book(cli, job, no_names, path, err);
    if (status == MF_OK)
        status = mf_file_read(&bytes, path, (size_t)256 << 20, err);
    if (status == MF_OK)
        mf_buf_add(out, bytes.data, bytes.len);
    mf_bytes_free(&bytes);
    unlink(path);
    return status;
}
