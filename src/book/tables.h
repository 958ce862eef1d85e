/* tables.h - what is made from the journal and can be made anew: the tables over all jobs
 * (held.h, index.h), and for people with a stock sqlite3 a view a kind. They are never
 * migrated. When the SQL that makes them is not the SQL they were made by, they are dropped
 * and made anew. */
#ifndef MF_BOOK_TABLES_H
#define MF_BOOK_TABLES_H

#include "base/mem.h"
#include "book/db.h"
#include <mistfold/kind.h>

/* Appends the SQL that makes all of them, their indexes and guards. */
void mf_tables_sql(mf_buf *out);

/* A hash of that SQL that costs little at every opening (not a cryptographic one). */
enum { MF_TABLES_HASH = 24, MF_TABLES_QUICK = 96 };
mf_status mf_tables_hash(char out[MF_TABLES_HASH], mf_err *err);

/* Whether those in the file were made by the SQL with this hash. */
mf_status mf_tables_current(mf_db *db, const char *hash, bool *current, mf_err *err);

/* Makes them, the tables empty, and notes their SQL in meta. Inside the open transaction.
 * mf_tables_drop takes all away that meta names. */
mf_status mf_tables_make(mf_db *db, mf_err *err);
mf_status mf_tables_drop(mf_db *db, mf_err *err);

#endif
