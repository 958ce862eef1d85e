/* pg_rows.h - rows in the binary form of COPY, into a store and out of one. */
#ifndef MF_SYNC_PG_ROWS_H
#define MF_SYNC_PG_ROWS_H

#include "base/mem.h"

typedef struct mf_pg_field {
    const char *data; /* NULL = no value */
    size_t len;
} mf_pg_field;
/* Begins, then a row each, then the end. */
void mf_pg_rows_begin(mf_buf *out);
void mf_pg_row(mf_buf *out, const mf_pg_field *fields, int n);
void mf_pg_rows_end(mf_buf *out);
void mf_pg_int64(char out[8], int64_t number);
int64_t mf_pg_int64_of(const mf_pg_field *field);
/* What came of them so far. Takes the next row off the front of bytes; *row false when it is not
 * whole yet, *ended at the end; false when they are no such rows. The fields point into it. */
typedef struct mf_pg_rows {
    mf_buf bytes;
    size_t at;
    bool begun, ended;
} mf_pg_rows;
bool mf_pg_rows_next(mf_pg_rows *rows, mf_pg_field *fields, int n, bool *row);

#endif
