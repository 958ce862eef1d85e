#include "base/csv.h"

#include "base/fail.h"
#include "base/utf8.h"
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct reader {
    mf_csv *csv;
    const char *name;
    const char *at, *end;
    size_t line;
    mf_buf cell; /* the quoted cell being read */
    const char *cells[MF_CSV_MAX_CELLS];
    size_t n_cells;
    size_t cap_rows;
} reader;

static mf_status refuse(const reader *r, size_t line, size_t column, const char *what,
                        const char *why, const char *mend, mf_err *err)
{
    char where[160];
    if (column > 0)
        snprintf(where, sizeof where, "%.100s:%zu, column %zu", r->name, line, column);
    else
        snprintf(where, sizeof where, "%.100s:%zu", r->name, line);
    return mf_fail(err, MF_INPUT, where, what, why, mend);
}

/* ---- the text as a whole -------------------------------------------------------- */

static bool is_utf16(const char *text, size_t len)
{
    return len >= 2 && (memcmp(text, "\xFF\xFE", 2) == 0 || memcmp(text, "\xFE\xFF", 2) == 0 ||
                        text[0] == '\0' || text[1] == '\0');
}

static size_t line_of(const char *text, size_t offset)
{
    size_t line = 1;
    for (size_t i = 0; i < offset; i++)
        line += text[i] == '\n';
    return line;
}

static mf_status check_text(const reader *r, mf_err *err)
{
    size_t len = (size_t)(r->end - r->at), at = 0;
    if (is_utf16(r->at, len))
        return mf_fail(err, MF_INPUT, r->name, "the file is UTF-16", "exports are read as UTF-8",
                       "export it as \"CSV UTF-8\" or convert it: iconv -f UTF-16 -t UTF-8");
    const char *nul = memchr(r->at, '\0', len);
    if (nul != NULL)
        return refuse(r, r->line - 1 + line_of(r->at, (size_t)(nul - r->at)), 0,
                      "there is a NUL byte in it", "a CSV is plain text", "export it as CSV", err);
    if (!mf_utf8_valid(r->at, len, &at))
        return refuse(r, r->line - 1 + line_of(r->at, at), 0, "this line is not UTF-8",
                      "exports are read as UTF-8",
                      "export it as \"CSV UTF-8\" or convert it: iconv -f WINDOWS-1252 -t UTF-8",
                      err);
    return MF_OK;
}

/* Ties go to the first of ",;\t|". */
static char find_separator(const char *text, const char *end)
{
    static const char known[] = {',', ';', '\t', '|'};
    enum { KNOWN = sizeof known };
    size_t count[KNOWN] = {0};
    bool quoted = false;
    for (; text < end && (quoted || *text != '\n'); text++) {
        if (*text == '"')
            quoted = !quoted;
        for (size_t i = 0; i < KNOWN && !quoted; i++)
            count[i] += *text == known[i];
    }
    size_t best = 0;
    for (size_t i = 1; i < KNOWN; i++)
        best = count[i] > count[best] ? i : best;
    return known[best];
}

/* ---- cells and rows ----------------------------------------------------------------- */

static bool at_line_end(const reader *r)
{
    return r->at == r->end || *r->at == '\n' ||
           (*r->at == '\r' && (r->at + 1 == r->end || r->at[1] == '\n'));
}

static bool is_blank(const reader *r, char c)
{
    return c == ' ' || (c == '\t' && r->csv->separator != '\t');
}

static void skip_blanks(reader *r)
{
    while (r->at < r->end && is_blank(r, *r->at))
        r->at++;
}

static mf_status read_quoted(reader *r, const char **cell, mf_err *err)
{
    size_t first_line = r->line, column = r->n_cells + 1;
    mf_buf_clear(&r->cell);
    for (r->at++;; r->at++) {
        if (r->at == r->end)
            return refuse(r, first_line, column, "the quote that opens here is never closed",
                          "a quoted cell ends in a quote", "close the quote", err);
        if (*r->at == '"') {
            if (r->at + 1 == r->end || r->at[1] != '"')
                break;
            r->at++;
        }
        r->line += *r->at == '\n';
        mf_buf_add(&r->cell, r->at, 1);
    }
    r->at++;
    skip_blanks(r);
    if (!at_line_end(r) && *r->at != r->csv->separator)
        return refuse(r, r->line, column, "there is text after the closing quote",
                      "a quote inside a quoted cell is written twice",
                      "write the quote twice or take the quotes away", err);
    *cell = mf_arena_piece(&r->csv->arena, mf_buf_str(&r->cell), r->cell.len);
    return *cell == NULL || r->cell.failed ? mf_fail_memory(err) : MF_OK;
}

/* Nearly every byte of an export is an ordinary one. */
static const char *skip_letters(const char *at, const char *end, char separator)
{
    while (at < end && *at != separator && *at != '\n' && *at != '\r' && *at != '"')
        at++;
    return at;
}

static mf_status read_plain(reader *r, const char **cell, mf_err *err)
{
    const char *start = r->at;
    for (;; r->at++) {
        r->at = skip_letters(r->at, r->end, r->csv->separator);
        if (at_line_end(r) || *r->at == r->csv->separator)
            break;
        if (*r->at == '"')
            return refuse(r, r->line, r->n_cells + 1, "there is a quote inside the cell",
                          "a cell with a quote in it must be quoted itself",
                          "put the cell in quotes and write each quote in it twice", err);
    }
    const char *stop = r->at;
    while (stop > start && is_blank(r, stop[-1]))
        stop--;
    *cell = mf_arena_piece(&r->csv->arena, start, (size_t)(stop - start));
    return *cell == NULL ? mf_fail_memory(err) : MF_OK;
}

static mf_status read_cell(reader *r, mf_err *err)
{
    if (r->n_cells == MF_CSV_MAX_CELLS)
        return refuse(r, r->line, 0, "the line has too many cells", "",
                      "check that the file is a CSV", err);
    const char *cell = "";
    skip_blanks(r);
    bool quoted = r->at < r->end && *r->at == '"';
    mf_status status = quoted ? read_quoted(r, &cell, err) : read_plain(r, &cell, err);
    if (status == MF_OK)
        r->cells[r->n_cells++] = cell;
    return status;
}

static mf_status keep_row(reader *r, size_t line, mf_err *err)
{
    mf_csv *csv = r->csv;
    if (csv->n_rows == MF_CSV_MAX_ROWS)
        return refuse(r, line, 0, "the file has too many lines", "", "split it in parts", err);
    mf_csv_row *rows = mf_grown(csv->rows, csv->n_rows, &r->cap_rows, sizeof *rows);
    if (rows == NULL)
        return mf_fail_memory(err);
    csv->rows = rows;
    const char **cells = mf_arena_alloc(&csv->arena, r->n_cells * sizeof *cells);
    if (cells == NULL)
        return mf_fail_memory(err);
    memcpy(cells, r->cells, r->n_cells * sizeof *cells);
    rows[csv->n_rows++] = (mf_csv_row){line, r->n_cells, cells};
    return MF_OK;
}

static mf_status read_row(reader *r, mf_err *err)
{
    size_t line = r->line;
    mf_status status = MF_OK;
    r->n_cells = 0;
    for (;;) {
        status = read_cell(r, err);
        if (status != MF_OK)
            return status;
        if (at_line_end(r))
            break;
        r->at++; /* the separator */
    }
    r->at += r->at < r->end && *r->at == '\r';
    r->at += r->at < r->end && *r->at == '\n';
    r->line++;
    if (r->n_cells == 1 && r->cells[0][0] == '\0')
        return MF_OK; /* a blank line */
    return keep_row(r, line, err);
}

/* Reads all rows of a text; the separator is found when it is not known yet. */
static mf_status read_all(mf_csv *csv, const char *name, const char *text, size_t len, mf_err *err)
{
    if (text == NULL)
        text = "";
    reader r = {.csv = csv, .name = name, .at = text, .end = text + len, .line = csv->next_line};
    r.cap_rows = csv->n_rows; /* grows by itself from what is there */
    mf_status status = check_text(&r, err);
    if (csv->separator == '\0')
        r.at += mf_utf8_mark(r.at, (size_t)(r.end - r.at));
    if (status == MF_OK && csv->separator == '\0')
        csv->separator = find_separator(r.at, r.end);
    while (status == MF_OK && r.at < r.end)
        status = read_row(&r, err);
    csv->next_line = r.line;
    mf_buf_free(&r.cell);
    return status;
}

mf_status mf_csv_begin(mf_csv *out, const char *name, const char *text, size_t len, mf_err *err)
{
    *out = (mf_csv){.next_line = 1};
    mf_status status = read_all(out, name, text, len, err);
    if (status == MF_OK && out->n_rows == 0)
        status = mf_fail(err, MF_INPUT, name, "the file is empty",
                         "its first line must name the columns", "export it again");
    if (status != MF_OK)
        mf_csv_free(out);
    return status;
}

/* Copies the head out of the part that is about to go. */
static bool keep_head(mf_csv *csv)
{
    mf_csv_row *head = &csv->rows[0];
    if (csv->head.top != NULL)
        return true;
    const char **cells = mf_arena_alloc(&csv->head, head->n_cells * sizeof *cells);
    for (size_t i = 0; cells != NULL && i < head->n_cells; i++) {
        cells[i] = mf_arena_text(&csv->head, head->cells[i]);
        if (cells[i] == NULL)
            return false;
    }
    head->cells = cells;
    return cells != NULL;
}

mf_status mf_csv_more(mf_csv *csv, const char *name, const char *text, size_t len, mf_err *err)
{
    if (!keep_head(csv))
        return mf_fail_memory(err);
    mf_arena_free(&csv->arena);
    csv->n_rows = 1;
    return read_all(csv, name, text, len, err);
}

mf_status mf_csv_cells(const mf_csv *csv, const char *name, size_t row, mf_err *err)
{
    size_t head = csv->rows[0].n_cells;
    if (csv->rows[row].n_cells == head)
        return MF_OK;
    char what[120];
    snprintf(what, sizeof what, "the line has %zu cells, the head line has %zu",
             csv->rows[row].n_cells, head);
    const reader r = {.name = name};
    return refuse(&r, csv->rows[row].line, 0, what, "every line must have the same columns",
                  "add or remove separators; quote a cell that has one in it", err);
}

void mf_csv_free(mf_csv *csv)
{
    if (csv == NULL)
        return;
    free(csv->rows);
    mf_arena_free(&csv->arena);
    mf_arena_free(&csv->head);
    *csv = (mf_csv){0};
}
