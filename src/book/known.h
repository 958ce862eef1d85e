/* known.h - which ids there are: whether one exists, and which one was meant. */
#ifndef MF_BOOK_KNOWN_H
#define MF_BOOK_KNOWN_H

#include "base/mem.h"
#include "book/room.h"

/* Whether a thing of kind with this id is in job (or the firm). */
mf_status mf_known(mf_book *book, const mf_kind *kind, const char *job, const char *id, bool *known,
                   mf_err *err);

/* What there is where an id is unknown. */
typedef struct mf_known_ids {
    char nearest[48]; /* the one that was meant; "" = none is like it */
    int apart;        /* how many letters it is off */
    size_t count;
    mf_buf list; /* the first ones, the caller frees it */
} mf_known_ids;
mf_status mf_known_ids_of(mf_known_ids *out, mf_book *book, const mf_kind *kind, const char *job,
                          const char *id, mf_err *err);
/* The mend they make: the nearest one, else the first ones. */
void mf_known_ids_mend(mf_buf *out, const mf_known_ids *ids, const mf_kind *kind);

/* Appends such a mend for an unknown id. */
mf_status mf_known_mend(mf_buf *out, mf_book *book, const mf_kind *kind, const char *job,
                        const char *id, mf_err *err);

#endif
