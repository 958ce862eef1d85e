/* pg.h - one connection to a store in PostgreSQL. libpq is seen in this room alone. */
#ifndef MF_SYNC_PG_H
#define MF_SYNC_PG_H

#include "base/mem.h"

#include <libpq-fe.h>
#include <mistfold/sync.h>

enum { MF_PG_VERSION = 1 }; /* of sql/store.sql */

typedef struct mf_pg {
    PGconn *conn;
    char name[160];      /* of the place, for messages: nothing of the login */
    char device[17];     /* whose login it is */
    bool reading;        /* in the snapshot of a listing */
    bool ready_to_write; /* the table that takes entries in is made */
} mf_pg;

/* pg_connect.c: opens it; pg is the caller's to close, also when it fails. */
mf_status mf_pg_open(mf_pg *pg, const char *address, mf_err *err);
void mf_pg_close(mf_pg *pg);
/* One statement with its values as text; the caller clears *out (NULL = nothing is wanted). */
mf_status mf_pg_ask(mf_pg *pg, const char *sql, const char *const *values, int n, PGresult **out,
                    mf_err *err);
/* The first line of what the server, or libpq, said of a failure; MF_SYSTEM. */
mf_status mf_pg_fail(const mf_pg *pg, const PGresult *result, mf_err *err);
/* Whether the store itself refused: a trigger, a right, a constraint. */
bool mf_pg_is_refused(const PGresult *result);

/* pg_entries.c: the entries of a piece of a chain, which stands in first and last as well. */
typedef struct mf_pg_piece {
    char writer[17], device[17], sha256[MF_HASH_HEX];
    int64_t from, to;
} mf_pg_piece;
mf_status mf_pg_read_piece(mf_pg *pg, const mf_pg_piece *piece, mf_bytes *out, mf_err *err);
/* MF_NO when the store refuses it. */
mf_status mf_pg_write_piece(mf_pg *pg, const mf_pg_piece *piece, const void *bytes, size_t len,
                            mf_err *err);

/* pg_rows.c: rows in the binary form of COPY. */
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
