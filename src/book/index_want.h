/* index_want.h - what the tables over all jobs (index.h) should say of a job: from the job,
 * without the book. */
#ifndef MF_BOOK_INDEX_WANT_H
#define MF_BOOK_INDEX_WANT_H

#include "journal/fold.h"
#include <mistfold/address.h>

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
    /* Of the address that was said last. The same is in table place of each: it finds the
     * addresses that may be the same (mf_may_be_one_place). */
    char key[MF_ADDRESS_KEY];
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

/* Appends an id as one token of table find, whatever is in it. */
void mf_find_token(mf_buf *out, const char *id);

#endif
