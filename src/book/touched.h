/* touched.h - the tables over all jobs (index.h) follow the journal once a group, not once
 * an entry: which jobs have entries that they do not know of yet. */
#ifndef MF_BOOK_TOUCHED_H
#define MF_BOOK_TOUCHED_H

#include "book/room.h"

typedef struct mf_touched {
    char *job, kind[24]; /* of its last entry, or of what that corrected */
    bool corrected;      /* something was */
    bool index, others;  /* its rows may be others; other jobs at its address may be judged anew */
    bool done;           /* the tables know, unless what they were told is taken back */
} mf_touched;

/* An entry of this kind came into job, or a correction of one; the kind correction is for one
 * of which is not known what it corrects. */
mf_status mf_touch(mf_book *book, const char *job, const char *kind, bool corrected, mf_err *err);
/* Reads back what the open group has written and brings the tables up to date with it;
 * nothing outside a group. Whoever reads them calls it first. */
mf_status mf_touched_settle(mf_book *book, mf_err *err);
/* A part of the group was taken back, and with it what it wrote into the tables. */
void mf_touched_again(mf_book *book);
/* The group is over. */
void mf_touched_forget(mf_book *book);

#endif
