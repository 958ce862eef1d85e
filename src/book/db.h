/* db.h - the one layer over SQLite: prepare, bind, step, and what went wrong in
 * words. Everything that is bound goes in as a parameter; SQL text is made only
 * of constants and of names from the kind table. */
#ifndef MF_BOOK_DB_H
#define MF_BOOK_DB_H

#include "base/mem.h"
#include <sqlite3.h>
#include <stdbool.h>
#include <stdint.h>

#define MF_DB_CACHE 256

/* A connection with its prepared statements, kept for reuse by their text. */
typedef struct mf_db_cached {
    sqlite3_stmt *handle;
    bool busy;
} mf_db_cached;

typedef struct mf_db {
    sqlite3 *handle;
    char name[160]; /* of the book, for messages */
    mf_db_cached cache[MF_DB_CACHE];
    size_t n_cached;
    int waited_ms; /* for another writer, so far */
    bool roomy;    /* mf_db_roomy was asked */
    /* A failure said that the file, or its folder, cannot be written; known after closing. */
    bool read_only;
} mf_db;

typedef struct mf_stmt {
    mf_db *db;
    sqlite3_stmt *handle;
    bool cached, failed; /* failed: a bind ran out of memory */
} mf_stmt;

/* Opens path (":memory:" too) with our settings: timeouts, defenses. db must stay
 * where it is until it is closed. A file that cannot be written is not opened. */
mf_status mf_db_open(mf_db *db, const char *path, const char *name, mf_err *err);
/* The same to read only, by an URI; alone: keeps the index of a log in memory. */
mf_status mf_db_open_uri(mf_db *db, const char *uri, bool alone, const char *name, mf_err *err);
/* Accepts one that was never opened (all zero). */
void mf_db_close(mf_db *db);

/* Runs constant SQL without parameters or rows. */
mf_status mf_db_exec(mf_db *db, const char *sql, mf_err *err);
/* Runs sql to its end with n texts bound to its parameters. */
mf_status mf_db_run(mf_db *db, const char *sql, const char *const *values, int n, mf_err *err);
/* The first text of a query with n texts bound to its parameters; "" = it gives no row. */
mf_status mf_db_text(mf_db *db, const char *sql, const char *const *values, int n, char *out,
                     size_t size, mf_err *err);
/* The integer of a one-row query. */
mf_status mf_db_int(mf_db *db, const char *sql, int64_t *out, mf_err *err);

/* Lets it keep many pages at hand, as who goes through the whole book or writes much
 * needs. Who looks up a few rows of many jobs needs most pages once: for him to use the
 * same memory again costs half of what it costs to get new memory for each. */
mf_status mf_db_roomy(mf_db *db, mf_err *err);
/* Back to few pages, as it was opened; failing does no harm. */
void mf_db_plain(mf_db *db);

/* Begins, ends. Begin is IMMEDIATE, a writer is a writer from the start; and roomy. */
mf_status mf_db_begin(mf_db *db, mf_err *err);
mf_status mf_db_begin_read(mf_db *db, mf_err *err);
mf_status mf_db_commit(mf_db *db, mf_err *err);
void mf_db_rollback(mf_db *db);

/* Fills err from the connection's last error. MF_SYSTEM, or memory. */
mf_status mf_db_fail(mf_db *db, mf_err *err);
/* Whether the last failure lies in what the file holds (a table is missing, a page is
 * no page) and not in memory, disk or another program. */
bool mf_db_lacks(const mf_db *db);

mf_status mf_stmt_get(mf_stmt *out, mf_db *db, const char *sql, mf_err *err);
/* As mf_stmt_get with the text of sql, which it frees. */
mf_status mf_stmt_take(mf_stmt *out, mf_db *db, mf_buf *sql, mf_err *err);
/* Gives the statement back; accepts one that was not got. */
void mf_stmt_done(mf_stmt *stmt);
/* Parameters count from 1. text NULL binds NULL; the text must live until done. */
void mf_stmt_text(mf_stmt *stmt, int at, const char *text);
void mf_stmt_int(mf_stmt *stmt, int at, int64_t number);
/* bytes must live until done. */
void mf_stmt_blob(mf_stmt *stmt, int at, const void *bytes, size_t len);
/* Goes to the next row; *row tells whether there is one. */
mf_status mf_stmt_step(mf_stmt *stmt, bool *row, mf_err *err);
/* The same for a loop over the rows: false after the last one, and where *status is, or becomes,
 * anything but MF_OK. */
bool mf_stmt_next(mf_stmt *stmt, mf_status *status, mf_err *err);
/* Runs it to its end and makes it ready to be bound again. */
mf_status mf_stmt_run(mf_stmt *stmt, mf_err *err);
/* Columns count from 0; NULL reads as "" or 0. */
const char *mf_stmt_column(mf_stmt *stmt, int at);
int64_t mf_stmt_number(mf_stmt *stmt, int at);
bool mf_stmt_is_null(mf_stmt *stmt, int at);

#endif
