/* pg.h - one connection to a store in PostgreSQL. libpq's header is seen here alone. */
#ifndef MF_SYNC_PG_H
#define MF_SYNC_PG_H

#include "base/mem.h"
#include "sync/names.h"

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

/* pg_entries.c: the text of a piece of a chain, whose entries stand there as rows. */
mf_status mf_pg_read_piece(mf_pg *pg, const mf_sync_named *piece, mf_bytes *out, mf_err *err);
/* MF_NO when the store refuses it. */
mf_status mf_pg_write_piece(mf_pg *pg, const mf_sync_named *piece, const void *bytes, size_t len,
                            mf_err *err);

#endif
