/* import_fast.h - rows of an export that are right and new, which is nearly all of
 * them, many at a time. Whatever it is not sure of it leaves to the slow way, which
 * says what is wrong: both write the same entries. */
#ifndef MF_BOOK_IMPORT_FAST_H
#define MF_BOOK_IMPORT_FAST_H

#include "book/import.h"
#include "book/import_heads.h"

typedef struct mf_fast mf_fast;

/* Inside the open group. *out is NULL, with MF_OK, when all must go the slow way. */
mf_status mf_fast_open(mf_fast **out, const mf_import *in, mf_err *err);
void mf_fast_free(mf_fast *fast);

/* The cells of a row by column (import_heads.h), "" = empty, and the unit of its
 * result. *taken is false when the row is for the slow way, and then nothing waits to
 * be written. */
mf_status mf_fast_row(mf_fast *fast, const char *const cells[MF_COL_COUNT], const char *unit,
                      bool *taken, mf_purpose *purpose, int64_t *seq, mf_err *err);

/* The slow way has logged this. */
void mf_fast_note(mf_fast *fast, const mf_draft *draft);

/* Writes what waits. */
mf_status mf_fast_finish(mf_fast *fast, mf_err *err);

#endif
