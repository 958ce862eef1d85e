/* memo.h - what the cells of a long export say. The same few texts come again and
 * again: each is read once, by the draft like any other, and kept. Bounded: a text
 * that comes to the place of another takes it. */
#ifndef MF_BOOK_MEMO_H
#define MF_BOOK_MEMO_H

#include "book/bulk.h"

typedef struct mf_memo mf_memo;

/* For cells of kind in job, while nothing but kind is written. NULL when memory ran
 * out. */
mf_memo *mf_memo_new(mf_book *book, const mf_kind *kind, const char *job, mf_day today);
void mf_memo_free(mf_memo *memo);

/* The unit that goes with the cells from here on, as in mf_draft_set. */
void mf_memo_unit(mf_memo *memo, const char *unit);

/* Sets the values that a cell text gives to a field (and, with ">", to qualifier)
 * among values, by index of field. They live until the next call for the field.
 * *good is false when the draft refuses it, when it names a thing that is not there,
 * or when it is too long or odd to be kept: then it is for the slow way to say. */
mf_status mf_memo_set(mf_memo *memo, size_t field, const char *text, mf_value *values, bool *good,
                      mf_err *err);

#endif
