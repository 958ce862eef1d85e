/* entries_fit.h - whether what comes from elsewhere could have been typed here. A draft is
 * checked before it becomes an entry; an entry that somebody forged never was a draft. */
#ifndef MF_BOOK_ENTRIES_FIT_H
#define MF_BOOK_ENTRIES_FIT_H

#include "book/merge.h"

typedef struct mf_fit {
    mf_merge *m;
    const char *job; /* the one that something may come in for */
    const char *who; /* who alone may have logged it; NULL = any person of the book */
    const mf_now *now;
} mf_fit;

/* What one new entry says of itself: whose it is, its fields and their values. */
mf_status mf_fit_line(const mf_fit *f, const mf_line *line, mf_err *err);
/* What is in force once all entries are in, and came in with them: it has what it needs, the
 * things it names exist, corrections are of entries that are there. */
mf_status mf_fit_all(const mf_fit *f, mf_err *err);

#endif
