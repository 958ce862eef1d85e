/* import.h - what the two imports share: a CSV whose heads are known columns, and
 * messages that name file, line and column. */
#ifndef MF_BOOK_IMPORT_H
#define MF_BOOK_IMPORT_H

#include "base/csv.h"
#include "book/draft.h"
#include "book/room.h"

#define MF_MAX_FIELDS 64

typedef struct mf_import {
    mf_book *book;
    const char *job;  /* "" for the firm */
    const char *name; /* of the file */
    const mf_kind *kind;
    const mf_now *now;
    mf_csv csv;
    mf_import_report *out;
    size_t column_of[MF_MAX_FIELDS]; /* by index of the field, 1 + column; 0 = none */
} mf_import;

#define MF_NO_COLUMN SIZE_MAX

/* Where a row is: "name:line", with a column "name:line, column Head". */
void mf_import_where(const mf_import *in, size_t row, size_t column, char out[160]);
mf_status mf_import_refuse(const mf_import *in, size_t row, size_t column, const char *what,
                           const char *why, const char *mend, mf_err *err);

/* The column of a head, compared without regard to case; MF_NO_COLUMN when none. */
size_t mf_import_column(const mf_import *in, const char *head);
/* The trimmed cell; "" when there is no such column. */
const char *mf_import_cell(const mf_import *in, size_t row, size_t column);

/* Notes the column that gives a field, for messages. */
void mf_import_note(mf_import *in, const mf_field *field, size_t column);

/* Notes the column and sets a field from the cell; an empty cell leaves it out. */
mf_status mf_import_set(mf_import *in, mf_draft *draft, const mf_field *field, size_t row,
                        size_t column, const char *unit, mf_err *err);

/* Writes the draft of a row; a fault in a field is placed in its column. */
mf_status mf_import_write(mf_import *in, const mf_draft *draft, size_t row, char id[MF_ENTRY_ID],
                          mf_err *err);

/* Reads the CSV, has check look at the heads and each make an entry of every row
 * after them; takes all back when one fails or on dry_run. */
typedef mf_status mf_import_heads_fn(const mf_import *in, void *data, mf_err *err);
typedef mf_status mf_import_row_fn(mf_import *in, mf_draft *draft, size_t row, void *data,
                                   mf_err *err);
mf_status mf_import_run(mf_import *in, const char *csv, size_t len, bool dry_run,
                        mf_import_heads_fn *heads, mf_import_row_fn *each, void *data, mf_err *err);

#endif
