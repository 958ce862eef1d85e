#include "book/db.h"

#include "base/fail.h"
#include "book/db_words.h"
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/statvfs.h>

/* A person waits this long for another writer; then it is better to say so. */
#define BUSY_MS 5000
#define PLAIN   "PRAGMA cache_size=-1000" /* KiB */
enum { VALUE_MAX = 32 * 1024 * 1024, SQL_MAX = 1024 * 1024 };

/* ---- the connection --------------------------------------------------------------- */

/* The presence of this function is what lets our connection, and no other, write
 * to the tables made from the journal: their guards call it (tables.c). */
static void may_write(sqlite3_context *context, int n, sqlite3_value **values)
{
    (void)n;
    (void)values;
    sqlite3_result_int(context, 1);
}

/* What a file of somebody else's may ask of us. A value may be as long as the longest
 * attachment and then some; nothing else is attached; triggers do not nest. */
static void set_limits(sqlite3 *handle)
{
    sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, VALUE_MAX);
    sqlite3_limit(handle, SQLITE_LIMIT_SQL_LENGTH, SQL_MAX);
    sqlite3_limit(handle, SQLITE_LIMIT_ATTACHED, 0);
    sqlite3_limit(handle, SQLITE_LIMIT_TRIGGER_DEPTH, 1);
}

/* Code that is in the file does not run: triggers are there for other programs, which
 * they keep from changing what was logged; a view in a table's place is an error. */
static int set_defenses(sqlite3 *handle)
{
    static const int on_off[][2] = {{SQLITE_DBCONFIG_DEFENSIVE, 1},
                                    {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
                                    {SQLITE_DBCONFIG_ENABLE_TRIGGER, 0},
                                    {SQLITE_DBCONFIG_ENABLE_VIEW, 0}};
    int rc = SQLITE_OK;
    for (size_t i = 0; rc == SQLITE_OK && i < sizeof on_off / sizeof on_off[0]; i++)
        rc = sqlite3_db_config(handle, on_off[i][0], on_off[i][1], NULL);
    return rc;
}

/* Another writer holds the lock for some milliseconds and lets it go for a fraction
 * of one. SQLite's own wait looks ten times a second and may never meet that gap;
 * short waits of uneven length do. */
static int wait_a_little(void *data, int tries)
{
    mf_db *db = data;
    unsigned char uneven = 0;
    db->waited_ms = tries == 0 ? 0 : db->waited_ms;
    if (db->waited_ms >= BUSY_MS)
        return 0;
    sqlite3_randomness((int)sizeof uneven, &uneven);
    db->waited_ms += sqlite3_sleep(1 + uneven % 3);
    return 1;
}

static int configure(mf_db *db)
{
    sqlite3 *handle = db->handle;
    static const char settings[] = "PRAGMA foreign_keys=ON;"
                                   "PRAGMA cell_size_check=ON;"
                                   "PRAGMA temp_store=MEMORY;" /* savepoints of long imports */
        PLAIN ";"
                                   "PRAGMA synchronous=FULL;";
    sqlite3_extended_result_codes(handle, 1);
    sqlite3_busy_handler(handle, wait_a_little, db);
    set_limits(handle);
    int rc = set_defenses(handle);
    if (rc == SQLITE_OK)
        rc = sqlite3_create_function_v2(handle, "only_mistfold_may_change_this_table", 0,
                                        SQLITE_UTF8 | SQLITE_INNOCUOUS, NULL, may_write, NULL, NULL,
                                        NULL);
    return rc == SQLITE_OK ? sqlite3_exec(handle, settings, NULL, NULL, NULL) : rc;
}

static mf_status open_as(mf_db *db, const char *path, int as, bool alone, const char *name,
                         mf_err *err)
{
    *db = (mf_db){0};
    snprintf(db->name, sizeof db->name, "%s", name);
    int flags = as | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_PRIVATECACHE;
    int rc = sqlite3_open_v2(path, &db->handle, flags, NULL);
    /* Before anything is read: reading makes files beside it, and they stay there. */
    if (rc == SQLITE_OK && as == SQLITE_OPEN_READWRITE &&
        sqlite3_db_readonly(db->handle, "main") == 1) {
        mf_db_close(db);
        db->read_only = true;
        return mf_db_words(err, name, SQLITE_READONLY, 0, "");
    }
    if (rc == SQLITE_OK && alone)
        rc = sqlite3_exec(db->handle, "PRAGMA locking_mode=EXCLUSIVE", NULL, NULL, NULL);
    if (rc == SQLITE_OK)
        rc = configure(db);
    if (rc == SQLITE_OK)
        return MF_OK;
    mf_status status = db->handle == NULL ? mf_fail_memory(err) : mf_db_fail(db, err);
    mf_db_close(db);
    return status;
}

mf_status mf_db_open(mf_db *db, const char *path, const char *name, mf_err *err)
{
    return open_as(db, path, SQLITE_OPEN_READWRITE, false, name, err);
}

mf_status mf_db_open_uri(mf_db *db, const char *uri, bool alone, const char *name, mf_err *err)
{
    return open_as(db, uri, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, alone, name, err);
}

void mf_db_close(mf_db *db)
{
    for (size_t i = 0; i < db->n_cached; i++)
        sqlite3_finalize(db->cache[i].handle);
    db->n_cached = 0;
    sqlite3_close(db->handle);
    db->handle = NULL;
}

/* The system's errno of the last failure on the book's file (which = FILE_POINTER)
 * or on its write-ahead log (JOURNAL_POINTER). sqlite3_system_errno() does not
 * know it when the failure came up while a statement ran. */
static int errno_of(sqlite3 *handle, int which)
{
    sqlite3_file *file = NULL;
    int number = 0;
    if (sqlite3_file_control(handle, "main", which, &file) != SQLITE_OK || file == NULL ||
        file->pMethods == NULL ||
        file->pMethods->xFileControl == NULL) /* a journal in memory has none */
        return 0;
    file->pMethods->xFileControl(file, SQLITE_FCNTL_LAST_ERRNO, &number);
    return number;
}

static int errno_of_any(sqlite3 *handle)
{
    int number = errno_of(handle, SQLITE_FCNTL_JOURNAL_POINTER);
    return number != 0 ? number : errno_of(handle, SQLITE_FCNTL_FILE_POINTER);
}

/* What went wrong with the index of the log (-shm) SQLite keeps to itself; but it cannot
 * be made where there is no room for its 32 KiB. */
static bool no_room(sqlite3 *handle)
{
    struct statvfs disk;
    const char *path = sqlite3_db_filename(handle, "main");
    return path != NULL && path[0] != '\0' && statvfs(path, &disk) == 0 &&
           (uint64_t)disk.f_bavail * disk.f_frsize < 32768;
}

/* When the system cannot read a page SQLite says that the file is corrupt
 * (SQLITE_IOERR_CORRUPTFS): what is in the file nobody knows then. */
static int code_of(sqlite3 *handle)
{
    int code = sqlite3_extended_errcode(handle);
    bool unread = (code & 0xFF) == SQLITE_CORRUPT && errno_of_any(handle) != 0;
    return unread ? SQLITE_IOERR : code;
}

mf_status mf_db_fail(mf_db *db, mf_err *err)
{
    int code = code_of(db->handle);
    int number = (code & 0xFF) == SQLITE_IOERR ? errno_of_any(db->handle) : 0;
    if ((code & 0xFF) == SQLITE_IOERR && number == 0 && no_room(db->handle))
        number = ENOSPC;
    db->read_only = (code & 0xFF) == SQLITE_READONLY || (code & 0xFF) == SQLITE_CANTOPEN ||
                    (code & 0xFF) == SQLITE_PERM;
    return mf_db_words(err, db->name, code, number, sqlite3_errmsg(db->handle));
}

bool mf_db_lacks(const mf_db *db)
{
    int code = code_of(db->handle) & 0xFF;
    return code == SQLITE_ERROR || code == SQLITE_CORRUPT;
}

mf_status mf_db_exec(mf_db *db, const char *sql, mf_err *err)
{
    return sqlite3_exec(db->handle, sql, NULL, NULL, NULL) == SQLITE_OK ? MF_OK
                                                                        : mf_db_fail(db, err);
}

mf_status mf_db_int(mf_db *db, const char *sql, int64_t *out, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status = mf_stmt_get(&stmt, db, sql, err);
    if (status == MF_OK)
        status = mf_stmt_step(&stmt, &row, err);
    if (status == MF_OK)
        *out = row ? mf_stmt_number(&stmt, 0) : 0;
    mf_stmt_done(&stmt);
    return status;
}

/* Through a statement rather than sqlite3_exec, so that it is prepared once. */
mf_status mf_db_run(mf_db *db, const char *sql, const char *const *values, int n, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, db, sql, err);
    if (status != MF_OK)
        return status;
    for (int i = 0; i < n; i++)
        mf_stmt_text(&stmt, i + 1, values[i]);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_db_text(mf_db *db, const char *sql, const char *const *values, int n, char *out,
                     size_t size, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    out[0] = '\0';
    mf_status status = mf_stmt_get(&stmt, db, sql, err);
    if (status != MF_OK)
        return status;
    for (int i = 0; i < n; i++)
        mf_stmt_text(&stmt, i + 1, values[i]);
    status = mf_stmt_step(&stmt, &row, err);
    snprintf(out, size, "%s", row ? mf_stmt_column(&stmt, 0) : "");
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_db_roomy(mf_db *db, mf_err *err)
{
    mf_status status =
        db->roomy ? MF_OK : mf_db_exec(db, "PRAGMA cache_size=-16000", err); /* KiB */
    db->roomy = status == MF_OK;
    return status;
}

void mf_db_plain(mf_db *db)
{
    mf_db_exec(db, PLAIN, NULL);
    db->roomy = false;
}

mf_status mf_db_begin(mf_db *db, mf_err *err)
{
    mf_status status = mf_db_roomy(db, err);
    return status == MF_OK ? mf_db_run(db, "BEGIN IMMEDIATE", NULL, 0, err) : status;
}

mf_status mf_db_begin_read(mf_db *db, mf_err *err)
{
    return mf_db_run(db, "BEGIN DEFERRED", NULL, 0, err);
}

mf_status mf_db_commit(mf_db *db, mf_err *err)
{
    return mf_db_run(db, "COMMIT", NULL, 0, err);
}

void mf_db_rollback(mf_db *db)
{
    if (db->handle != NULL && sqlite3_get_autocommit(db->handle) == 0)
        mf_db_run(db, "ROLLBACK", NULL, 0, NULL);
}

/* ---- statements ------------------------------------------------------------------------ */

static mf_db_cached *find_cached(mf_db *db, const char *sql)
{
    for (size_t i = 0; i < db->n_cached; i++) {
        mf_db_cached *entry = &db->cache[i];
        if (!entry->busy && strcmp(sqlite3_sql(entry->handle), sql) == 0)
            return entry;
    }
    return NULL;
}

mf_status mf_stmt_get(mf_stmt *out, mf_db *db, const char *sql, mf_err *err)
{
    *out = (mf_stmt){.db = db};
    mf_db_cached *entry = find_cached(db, sql);
    if (entry == NULL) {
        if (sqlite3_prepare_v3(db->handle, sql, -1, SQLITE_PREPARE_PERSISTENT, &out->handle,
                               NULL) != SQLITE_OK)
            return mf_db_fail(db, err);
        if (db->n_cached == MF_DB_CACHE)
            return MF_OK; /* it lives until done */
        entry = &db->cache[db->n_cached++];
        entry->handle = out->handle;
    }
    entry->busy = true;
    out->handle = entry->handle;
    out->cached = true;
    return MF_OK;
}

mf_status mf_stmt_take(mf_stmt *out, mf_db *db, mf_buf *sql, mf_err *err)
{
    *out = (mf_stmt){0};
    mf_status status =
        sql->failed ? mf_fail_memory(err) : mf_stmt_get(out, db, mf_buf_str(sql), err);
    mf_buf_free(sql);
    return status;
}

void mf_stmt_done(mf_stmt *stmt)
{
    if (stmt->handle == NULL)
        return;
    if (!stmt->cached) {
        sqlite3_finalize(stmt->handle);
    } else {
        sqlite3_reset(stmt->handle);
        sqlite3_clear_bindings(stmt->handle);
        for (size_t i = 0; i < stmt->db->n_cached; i++)
            if (stmt->db->cache[i].handle == stmt->handle)
                stmt->db->cache[i].busy = false;
    }
    stmt->handle = NULL;
}

void mf_stmt_text(mf_stmt *stmt, int at, const char *text)
{
    if (sqlite3_bind_text(stmt->handle, at, text, -1, SQLITE_STATIC) != SQLITE_OK)
        stmt->failed = true;
}

void mf_stmt_int(mf_stmt *stmt, int at, int64_t number)
{
    if (sqlite3_bind_int64(stmt->handle, at, number) != SQLITE_OK)
        stmt->failed = true;
}

void mf_stmt_blob(mf_stmt *stmt, int at, const void *bytes, size_t len)
{
    if (sqlite3_bind_blob64(stmt->handle, at, bytes, len, SQLITE_STATIC) != SQLITE_OK)
        stmt->failed = true;
}

mf_status mf_stmt_step(mf_stmt *stmt, bool *row, mf_err *err)
{
    *row = false;
    if (stmt->failed)
        return mf_fail_memory(err);
    int rc = sqlite3_step(stmt->handle);
    if (rc != SQLITE_ROW && rc != SQLITE_DONE)
        return mf_db_fail(stmt->db, err);
    *row = rc == SQLITE_ROW;
    return MF_OK;
}

bool mf_stmt_next(mf_stmt *stmt, mf_status *status, mf_err *err)
{
    bool row = false;
    if (*status == MF_OK)
        *status = mf_stmt_step(stmt, &row, err);
    return row;
}

mf_status mf_stmt_run(mf_stmt *stmt, mf_err *err)
{
    mf_status status = MF_OK;
    while (mf_stmt_next(stmt, &status, err))
        continue;
    sqlite3_reset(stmt->handle);
    return status;
}

const char *mf_stmt_column(mf_stmt *stmt, int at)
{
    const unsigned char *text = sqlite3_column_text(stmt->handle, at);
    return text == NULL ? "" : (const char *)text;
}

int64_t mf_stmt_number(mf_stmt *stmt, int at)
{
    return sqlite3_column_int64(stmt->handle, at);
}

bool mf_stmt_is_null(mf_stmt *stmt, int at)
{
    return sqlite3_column_type(stmt->handle, at) == SQLITE_NULL;
}
