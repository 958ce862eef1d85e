/* held.h - how many entries the journal has of each job. Who looks up the entries of a job
 * goes by an index: one that hides an entry shows by this. */
#ifndef MF_BOOK_HELD_H
#define MF_BOOK_HELD_H

#include "book/room.h"

/* Its SQL, and its name with a blank before. */
extern const char mf_held_sql[];
#define MF_HELD_TABLE " held"

mf_status mf_held(mf_book *book, const char *job, int64_t *out, mf_err *err);
/* n more came in. */
mf_status mf_held_add(mf_db *db, const char *job, int64_t n, mf_err *err);
/* Of all jobs, counted in the journal itself. */
mf_status mf_held_fill(mf_db *db, mf_err *err);

#endif
