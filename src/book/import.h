/* import.h - what the two imports share: a CSV whose heads are known columns, and
 * messages that name file, line and column. */
#ifndef MF_BOOK_IMPORT_H
#define MF_BOOK_IMPORT_H

#include "base/csv.h"
#include "book/room.h"
#include "journal/draft.h"

#define MF_MAX_FIELDS 64

typedef struct mf_import {
    mf_book *book;
    const char *job;  /* "" for the firm */
    const char *name; /* of the file */
    const mf_kind *kind;
    const mf_now *now;
    mf_csv csv; /* the head and the rows of the part at hand */
    mf_import_report *out;
    const mf_import_ask *ask;        /* NULL = stop at the first fault, say nothing */
    size_t column_of[MF_MAX_FIELDS]; /* by index of the field, 1 + column; 0 = none */
} mf_import;

#define MF_NO_COLUMN SIZE_MAX

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

/* The same from a text that stands for the cell. */
mf_status mf_import_put(mf_import *in, mf_draft *draft, const mf_field *field, size_t row,
                        size_t column, const char *unit, const char *text, mf_err *err);

/* Writes the draft of a row; a fault in a field is placed in its column. */
mf_status mf_import_write(mf_import *in, const mf_draft *draft, size_t row, char id[MF_ENTRY_ID],
                          mf_err *err);

/* What an import does: look at the heads, make an entry of every row after them,
 * and, when all rows are good, finish (NULL = nothing more to do). */
typedef struct mf_import_work {
    mf_status (*heads)(mf_import *in, void *data, mf_err *err);
    mf_status (*row)(mf_import *in, mf_draft *draft, size_t row, void *data, mf_err *err);
    mf_status (*finish)(mf_import *in, void *data, mf_err *err);
    void *data;
} mf_import_work;

/* Reads the source part by part; takes all back when a row fails or on dry_run. The
 * report holds the hash of the source (feed.h) and nothing else yet. */
mf_status mf_import_run(mf_import *in, const mf_import_source *source, bool dry_run,
                        const mf_import_work *work, mf_err *err);

#endif
