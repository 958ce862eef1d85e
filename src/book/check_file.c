/* check_file.c - SQLite's own check of its pages and indexes. In a large book it takes
 * as long as all the rest, so it runs beside it: in a thread of its own, on a connection
 * of its own. That connection reads the book as it was committed when it began, which
 * may be later than what the rest reads; either must be sound. Where a thread or a
 * connection is not to be had, and inside a group, which another connection does not
 * see, it runs after the rest. */
#include "book/check.h"
#include "book/db_words.h"
#include <signal.h>
#include <stdio.h>
#include <string.h>

/* Fewer entries are checked sooner than a connection is opened. */
enum { APART_FROM = 5000 };

bool mf_could_not_read(const char *words, int *code)
{
    const char *at = strstr(words, "error code=");
    *code = 0;
    for (at = at == NULL ? "" : at + strlen("error code="); *at >= '0' && *at <= '9'; at++)
        *code = *code < 100000 ? *code * 10 + (*at - '0') : *code;
    return (*code & 0xFF) == SQLITE_IOERR || (*code & 0xFF) == SQLITE_NOMEM;
}

/* Each page is wanted once: a cache that held them all would only cost memory. */
static mf_status run(mf_file_check *f, mf_db *db, mf_err *err)
{
    mf_stmt stmt = {0};
    bool row = false;
    mf_status status = mf_db_exec(db, "PRAGMA cache_size=-2000", err);
    if (status == MF_OK)
        status = mf_stmt_get(&stmt, db, "PRAGMA integrity_check(1)", err);
    if (status == MF_OK)
        status = mf_stmt_step(&stmt, &row, err);
    if (status == MF_OK)
        snprintf(f->words, sizeof f->words, "%s", row ? mf_stmt_column(&stmt, 0) : "no answer");
    mf_stmt_done(&stmt);
    return status;
}

static void *run_apart(void *data)
{
    mf_file_check *f = data;
    f->status = run(f, &f->db, NULL);
    return NULL;
}

/* ---- beginning ------------------------------------------------------------------------ */

/* Another file may have been put under the name since the book was opened. */
static bool is_same_file(sqlite3 *handle)
{
    int moved = 1;
    return sqlite3_file_control(handle, "main", SQLITE_FCNTL_HAS_MOVED, &moved) == SQLITE_OK &&
           moved == 0;
}

/* Signals stay with the caller's threads, who know what to do with them. */
static bool start_thread(mf_file_check *f)
{
    sigset_t all, before;
    sigfillset(&all);
    if (pthread_sigmask(SIG_SETMASK, &all, &before) != 0)
        return false;
    bool started = pthread_create(&f->thread, NULL, run_apart, f) == 0;
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return started;
}

void mf_file_check_begin(mf_file_check *f, const mf_checker *c)
{
    sqlite3 *handle = c->book->db.handle;
    const char *path = sqlite3_db_filename(handle, "main");
    *f = (mf_file_check){.status = MF_OK};
    if (c->total < APART_FROM || c->book->in_group || sqlite3_threadsafe() == 0 || path == NULL ||
        mf_db_open(&f->db, path, c->book->db.name, NULL) != MF_OK)
        return;
    f->apart = is_same_file(handle) && start_thread(f);
    if (!f->apart)
        mf_db_close(&f->db);
}

/* ---- ending --------------------------------------------------------------------------- */

/* Damage comes first: what else was found follows from it. */
static mf_status tell(mf_checker *c, char *words, mf_err *err)
{
    int code = 0;
    int64_t others = c->out->faults;
    if (strcmp(words, "ok") == 0)
        return MF_OK;
    if (mf_could_not_read(words, &code))
        return mf_db_words(err, c->book->db.name, code, 0, "");
    for (char *at = words; *at != '\0'; at++)
        *at = *at == '\n' ? ' ' : *at;
    c->out->faults = 0;
    mf_fault(c, true, "file", "the file is damaged: %s", words);
    c->out->faults += others;
    return MF_OK;
}

mf_status mf_file_check_end(mf_file_check *f, mf_checker *c, mf_status status, mf_err *err)
{
    bool done = false;
    if (f->apart) {
        if (status != MF_OK)
            sqlite3_interrupt(f->db.handle);
        pthread_join(f->thread, NULL);
        mf_db_close(&f->db);
        done = f->status == MF_OK;
        f->apart = false;
    }
    if (status == MF_OK && !done)
        status = run(f, &c->book->db, err);
    return status == MF_OK ? tell(c, f->words, err) : status;
}
