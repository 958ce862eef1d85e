/* csv.h - a CSV text in memory (RFC 4180), whole or part by part, as rows of cells.
 *
 * Quoted cells may hold separators, doubled quotes and line breaks. Lines end in
 * CRLF or LF. A UTF-8 byte order mark is skipped. The separator is ',', ';', '|' or
 * a tab, whichever the first line has most of outside quotes. Blank lines are
 * skipped. Cells are trimmed of blanks at both ends unless quoted. */
#ifndef MF_BASE_CSV_H
#define MF_BASE_CSV_H

#include "base/mem.h"

#define MF_CSV_MAX_ROWS  ((size_t)200000)
#define MF_CSV_MAX_CELLS ((size_t)256)

typedef struct mf_csv_row {
    size_t line; /* of its first character, from 1 */
    size_t n_cells;
    const char **cells;
} mf_csv_row;

typedef struct mf_csv {
    char separator;
    mf_csv_row *rows; /* rows[0] is the head */
    size_t n_rows;
    mf_arena arena;
    mf_arena head;    /* mf_csv_more: the head outlives its part */
    size_t next_line; /* after what was read */
} mf_csv;

/* A long text part by part, so that memory stays flat: each part ends at the end
 * of a row. mf_csv_begin reads the first len bytes, with the head; mf_csv_more replaces
 * the rows after the head by those of the next part; name is the file's name in messages.
 * Rows with a wrong number of cells are kept, for the caller to refuse by mf_csv_cells.
 * Fails MF_INPUT when the text is UTF-16, not UTF-8, has a NUL, a quote out of place or
 * not closed, or no head at all. */
mf_status mf_csv_begin(mf_csv *out, const char *name, const char *text, size_t len, mf_err *err);
mf_status mf_csv_more(mf_csv *csv, const char *name, const char *text, size_t len, mf_err *err);
/* MF_INPUT when a row has not the cells that the head has. */
mf_status mf_csv_cells(const mf_csv *csv, const char *name, size_t row, mf_err *err);
void mf_csv_free(mf_csv *csv);

#endif
