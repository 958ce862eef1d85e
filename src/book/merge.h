/* merge.h - the parts of mf_book_merge. */
#ifndef MF_BOOK_MERGE_H
#define MF_BOOK_MERGE_H

#include "book/check.h"

typedef struct mf_merge {
    mf_book *book;
    mf_db other;
    int64_t version; /* schema of the other */
    int64_t total;
    mf_checker checker; /* of the other's journal */
    mf_book_report found;
    const mf_watch *watch;
    mf_merge_report *out;
} mf_merge;

/* Takes over the bytes of attachments, after the entries. */
mf_status mf_merge_contents(mf_merge *m, mf_err *err);

/* Counts and tells what the two books say differently. */
mf_status mf_merge_tell(mf_merge *m, mf_err *err);

#endif
