/* known.h - the entries of a job and of the firm, folded and kept up to date from one draft to
 * the next, which is checked against them. */
#ifndef MF_BOOK_KNOWN_H
#define MF_BOOK_KNOWN_H

#include "book/room.h"
#include "journal/lookup.h"

/* The items of job ("" = of the firm), but for its readings: there may be very many, and no
 * draft is checked against one. *out lives until the next call for another job, and until
 * a group ends. */
mf_status mf_known_fold(const mf_job_fold **out, mf_book *book, const char *job, mf_err *err);

/* An entry was added to the journal, under rowid. */
mf_status mf_known_learn(mf_book *book, const mf_line *line, int64_t rowid, mf_err *err);
/* A group begins or ends: another program may have written, or will. */
void mf_known_stale(mf_book *book);
/* Entries were taken back. */
void mf_known_forget(mf_book *book);

/* The same for whoever checks a draft. */
mf_folds mf_book_folds(mf_book *book);

#endif
