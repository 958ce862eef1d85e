/* row.h - one row of a derived table: written from a JSON body, for any kind. */
#ifndef MF_BOOK_ROW_H
#define MF_BOOK_ROW_H

#include "base/json.h"
#include "book/db.h"
#include <mistfold/kind.h>

typedef struct mf_row_head {
    const char *entry, *job, *at, *who, *correction;
} mf_row_head;

/* A member of the body that is not of the field's type, or not there, becomes
 * NULL: a row never stops a rebuild. */
mf_status mf_row_insert(mf_db *db, const mf_kind *kind, const mf_row_head *head, const json_t *body,
                        mf_err *err);
mf_status mf_row_delete(mf_db *db, const mf_kind *kind, const char *entry, mf_err *err);

/* Appends INSERT INTO ... VALUES with all columns in their order (tables.h), seq last. */
void mf_row_insert_head(mf_buf *sql, const mf_kind *kind);

/* Binds the value of field in body as it stands in the table. */
void mf_row_bind(mf_stmt *stmt, int at, const mf_field *field, const json_t *body);

/* The first field of the kind whose member starts at offset of its struct. */
const mf_field *mf_field_at(const mf_kind *kind, size_t offset);

#endif
