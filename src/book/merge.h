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
    const mf_adopt *adopt;                      /* NULL: no entries of our own name come in */
    char head[MF_HASH_HEX];                     /* of our book before */
    char first[MF_ENTRY_ID], last[MF_ENTRY_ID]; /* of our own name that came in; while there are
                                                 * none of all */
    bool contradicted;                          /* a witness does, and somebody says why */
} mf_merge;

/* Takes over the bytes of attachments, after the entries. */
mf_status mf_merge_contents(mf_merge *m, mf_err *err);

/* Whether what is said about adopting can be logged. */
mf_status mf_merge_may(const mf_adopt *adopt, mf_err *err);
/* Entries under our own name: refused, or counted when somebody says why. */
mf_status mf_merge_own(mf_merge *m, const mf_line *line, mf_err *err);
/* Remembers the first and the last that came in. */
void mf_merge_came(mf_merge *m, const mf_line *line);
/* Logs why they were taken over, if there were any. */
mf_status mf_merge_adopted(mf_merge *m, mf_err *err);

/* Counts and tells what the two books say differently. */
mf_status mf_merge_tell(mf_merge *m, mf_err *err);

#endif
