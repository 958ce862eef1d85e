/* refs.h - whether there is such a job, and whether anything in the book names a thing. */
#ifndef MF_BOOK_REFS_H
#define MF_BOOK_REFS_H

#include "book/room.h"

/* MF_INPUT: there is no such job. */
mf_status mf_no_such_job(const char *job, const char *where, mf_err *err);
/* Whether the job exists ("" always does). */
mf_status mf_job_check(mf_book *book, const char *job, const char *where, mf_err *err);

/* Refuses when other entries name the id key of kind in job, so that it cannot
 * be changed or withdrawn; entry is the one that makes it. */
mf_status mf_free_of_refs(mf_book *book, const mf_kind *kind, const char *job, const char *key,
                          const char *entry, mf_err *err);

#endif
