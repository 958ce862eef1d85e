/* index_want.h - what the tables over all jobs (index.h) should say of a job: from the job,
 * without the book. */
#ifndef MF_BOOK_INDEX_WANT_H
#define MF_BOOK_INDEX_WANT_H

#include "journal/fold.h"

/* A row of place: where a job is. After a merge one job may have two houses. */
typedef struct mf_want_place {
    const char *entry, *address, *unit;
    char start[MF_DAY_TEXT];
} mf_want_place;

/* A row of due. */
typedef struct mf_want_due {
    const char *what, *who, *entry;
    char day[MF_DAY_TEXT];
} mf_want_due;

/* Texts belong to the job. */
typedef struct mf_wants {
    mf_buf key; /* of the house that was said last */
    mf_want_place *place;
    mf_want_due *due;
    size_t n_place, n_due;
    mf_buf words, people; /* of table find */
} mf_wants;

/* Whether rows depend on an entry of this kind. */
bool mf_index_wants(const char *kind);

/* out is the caller's to free, also after a failure. job "" is the firm. */
mf_status mf_want(mf_wants *out, const mf_job *job, mf_err *err);
void mf_want_free(mf_wants *wants);

/* Appends what table place has of an address (mf_address_key). It finds the addresses that
 * may be the same (mf_may_be_one_place). */
void mf_place_key(mf_buf *out, const char *address);

/* Appends an id as one token of table find, whatever is in it. */
void mf_find_token(mf_buf *out, const char *id);

#endif
