/* tables.h - the derived tables: one a kind, made from the kind table. They are
 * never migrated. When the SQL that makes them is not the SQL they were made by,
 * they are dropped and filled anew from the journal. */
#ifndef MF_BOOK_TABLES_H
#define MF_BOOK_TABLES_H

#include "base/mem.h"
#include "book/db.h"
#include "journal/line.h"
#include <mistfold/kind.h>

/* Columns of every derived table of a kind, before its fields. */
enum { MF_COL_ENTRY, MF_COL_JOB, MF_COL_AT, MF_COL_WHO, MF_COL_CORRECTION, MF_COL_FIRST_FIELD };

/* The order in which entries were made, as text in ORDER BY. */
#define MF_ORDER_MADE                                                                              \
    "logged_at, substr(entry, 1, instr(entry, '/') - 1),"                                          \
    " CAST(substr(entry, instr(entry, '/') + 1) AS INTEGER)"

/* The number in the entry that parameter 1 names, and the row of a kind of that entry. */
#define MF_SEQ_OF_1     "CAST(substr(?1, instr(?1, '/') + 1) AS INTEGER)"
#define MF_SEQ_OF_ENTRY "CAST(substr(entry, instr(entry, '/') + 1) AS INTEGER)"
#define MF_WHERE_ENTRY  " WHERE seq = " MF_SEQ_OF_1 " AND entry = ?1"

/* Appends "name" in SQL quotes. */
void mf_sql_name(mf_buf *out, const char *name);

/* By which indexes the rows of a job are found in a derived table of a kind, or of the
 * corrections. */
typedef struct mf_table_ways {
    const mf_field *key; /* NAME_key; NULL = there is none */
    bool number, job;    /* NAME_number, NAME_job */
} mf_table_ways;
mf_table_ways mf_ways_of_table(const char *name);

/* Appends the SQL that makes all derived tables, their indexes and guards. */
void mf_tables_sql(mf_buf *out);

/* A hash of that SQL that costs little at every opening (not a cryptographic one). */
enum { MF_TABLES_HASH = 24, MF_TABLES_QUICK = 96 };
mf_status mf_tables_hash(char out[MF_TABLES_HASH], mf_err *err);

/* Whether the tables in the file were made by the SQL with this hash. */
mf_status mf_tables_current(mf_db *db, const char *hash, bool *current, mf_err *err);

/* Makes the derived tables, empty, and notes their SQL in meta. Inside the open
 * transaction. mf_tables_drop takes all away that meta names. */
mf_status mf_tables_make(mf_db *db, mf_err *err);
mf_status mf_tables_drop(mf_db *db, mf_err *err);

#endif
