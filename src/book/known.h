/* known.h - which ids there are: whether one exists, and which one was meant. */
#ifndef MF_BOOK_KNOWN_H
#define MF_BOOK_KNOWN_H

#include "base/mem.h"
#include "book/room.h"

/* Whether a thing of kind with this id is in job (or the firm). */
mf_status mf_known(mf_book *book, const mf_kind *kind, const char *job, const char *id, bool *known,
                   mf_err *err);

/* Appends a mend for an unknown id: the nearest one, else the first ones. */
mf_status mf_known_mend(mf_buf *out, mf_book *book, const mf_kind *kind, const char *job,
                        const char *id, mf_err *err);

/* How many letters must be changed, added or taken away, at most 9. */
int mf_letters_apart(const char *a, const char *b);

#endif
