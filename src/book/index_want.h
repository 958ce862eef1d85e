/* index_want.h - what tables place and due should say of a job, from the tables of its
 * kinds. */
#ifndef MF_BOOK_INDEX_WANT_H
#define MF_BOOK_INDEX_WANT_H

#include "book/by_job.h"
#include <mistfold/book.h>

typedef struct mf_want {
    const char *what;
    char day[MF_DAY_TEXT], entry[MF_ENTRY_ID];
} mf_want;

typedef struct mf_wants {
    mf_buf key;
    bool house;     /* the job has one */
    mf_want due[4]; /* in the order of what */
    size_t n;
} mf_wants;

/* Where they are read. */
typedef struct mf_want_from {
    mf_by_job house, completion, invoice, handover;
} mf_want_from;

/* For one job, or for all in the order of their names. */
void mf_want_begin(mf_want_from *from, mf_db *db, bool all);
void mf_want_end(mf_want_from *from);

/* out->key is the caller's to free, also after a failure. */
mf_status mf_want_job(mf_wants *out, mf_want_from *from, const char *job, mf_err *err);

#endif
