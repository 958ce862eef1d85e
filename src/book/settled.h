/* settled.h - two derived tables over all jobs: settled (a note which jobs have
 * nothing left to do, so that they need not be judged again) and find (their
 * words). */
#ifndef MF_BOOK_SETTLED_H
#define MF_BOOK_SETTLED_H

#include "book/check.h"
#include "book/index_want.h"

/* The SQL of settled, of find, and their names with a blank before each. */
extern const char mf_settled_sql[], mf_find_sql[];
#define MF_SETTLED_TABLES " find settled"

/* Makes the rows of a job anew. */
mf_status mf_settled_refresh(mf_db *db, const char *job, const mf_wants *w, mf_err *err);
/* An entry came into a job: what was judged of it, and of others at its address, holds no
 * longer. */
mf_status mf_settled_forget(mf_db *db, const char *job, bool others, mf_err *err);

/* basis.c: appends the people and instruments that a job names, each between line ends. */
void mf_basis_names(mf_buf *out, const mf_job *job);
/* Of what was judged forgets what the entries of the firm since then may bear on, and
 * everything when another version judged. Outside a transaction. */
mf_status mf_basis_forget(mf_book *book, mf_err *err);

/* The index of find against its words; forgets all that was judged. Outside a group. */
mf_status mf_settled_check(mf_checker *c, mf_err *err);

#endif
