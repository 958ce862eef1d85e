/* schema.h - the permanent part of the book: the journal and what guards it. */
#ifndef MF_BOOK_SCHEMA_H
#define MF_BOOK_SCHEMA_H

#include "base/file_kind.h" /* MF_APPLICATION_ID */
#include "base/mem.h"
#include "book/db.h"

/* The schema this program writes: how many steps there are. */
int mf_schema_version(void);

/* Appends the SQL of all steps. */
void mf_schema_sql(mf_buf *out);

/* Runs the steps after version from, inside the open transaction, and notes the
 * new version in the file. */
mf_status mf_schema_migrate(mf_db *db, int from, mf_err *err);

/* Makes in an empty file what a book of that version has, for comparison. */
mf_status mf_schema_make(mf_db *db, int version, mf_err *err);

/* The tables that are no derived ones and their indexes, by type and name: what
 * sqlite_schema says of them in every book since that version. */
typedef struct mf_schema_part {
    const char *type, *name, *sql;
    int since;
} mf_schema_part;
const mf_schema_part *mf_schema_parts(size_t *count);

/* A value of the meta table as text; "" when there is none. Cut at size. */
mf_status mf_meta_get(mf_db *db, const char *key, char *out, size_t size, mf_err *err);
mf_status mf_meta_set(mf_db *db, const char *key, const char *value, mf_err *err);
mf_status mf_meta_unset(mf_db *db, const char *key, mf_err *err);

#endif
