/* index.h - tables that answer questions about all jobs without going through them: place
 * (which jobs there are, and which are at one address), due (what must be done by which
 * day), corrects (which entry corrects which), and those of settled.h. They say which jobs are
 * looked at, never what is so. */
#ifndef MF_BOOK_INDEX_H
#define MF_BOOK_INDEX_H

#include "book/settled.h"

/* The SQL of corrects, place and due and their indexes. */
extern const char mf_index_sql[];
/* Their names, with a blank before each. */
#define MF_INDEX_TABLES " corrects place due" MF_SETTLED_TABLES

/* The entries of a job from which its rows are made, finished; a word that is not known
 * here makes no difference to them. */
mf_status mf_index_job(mf_job_fold **out, mf_book *book, const char *job, mf_err *err);

/* Notes what corrects what in a job, and no more; job "" is the firm. */
mf_status mf_index_corrections(mf_book *book, const char *job, mf_err *err);
/* Makes all rows of one job anew. */
mf_status mf_index_refresh(mf_book *book, const char *job, mf_err *err);
/* Of the firm and of all jobs. */
mf_status mf_index_fill(mf_book *book, mf_err *err);

/* The rows of job (NULL = of all) against what they should be. */
mf_status mf_index_check(mf_checker *c, const char *job, mf_err *err);

#endif
