/* aside.c - a book that cannot be written: read whole into memory, where all that keeps
 * notes for itself may go on doing so. The file stays as it is to the last byte, and nothing
 * is made beside it. */
#include "base/fail.h"
#include "book/make.h"
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

mf_status mf_make_read_only(const mf_book *book, mf_err *err)
{
    return mf_fail(err, MF_SYSTEM, book->db.name, "the book is read-only: nothing was written",
                   "its file, its folder or its disk cannot be written",
                   "give yourself the right to write to the file and its folder, or go on with a "
                   "copy: \"book copy\"");
}

MF_API bool mf_book_is_read_only(const mf_book *book)
{
    return book->read_only;
}

/* ---- whether somebody changes it meanwhile --------------------------------------------- */

typedef struct stamp {
    struct stat file, log;
} stamp;

static void take_stamp(stamp *out, const char *path, const char *log)
{
    memset(out, 0, sizeof *out);
    if (stat(path, &out->file) != 0)
        memset(&out->file, 0, sizeof out->file);
    if (stat(log, &out->log) != 0)
        memset(&out->log, 0, sizeof out->log);
}

static bool same_state(const struct stat *a, const struct stat *b)
{
    return a->st_ino == b->st_ino && a->st_size == b->st_size &&
           a->st_mtim.tv_sec == b->st_mtim.tv_sec && a->st_mtim.tv_nsec == b->st_mtim.tv_nsec;
}

/* ---- the three ways to read it ----------------------------------------------------------- */

static bool lies_there(const char *path, const char *end)
{
    struct stat st;
    mf_buf name = {0};
    mf_buf_printf(&name, "%s%s", path, end);
    bool is = name.failed || (stat(name.data, &st) == 0 && st.st_size > 0);
    mf_buf_free(&name);
    return is;
}

/* With its lock, when somebody may be at work at it; as it lies there, when there is no log;
 * and with a log that nobody is at work at, kept track of in memory. */
static const char *const ways[] = {"mode=ro", "immutable=1", "mode=ro&vfs=unix-none"};

static mf_status read_one_way(mf_db *to, const char *path, int way, mf_err *err)
{
    mf_db from = {0};
    mf_status status = mf_make_open_uri(&from, path, ways[way], way == 2, err);
    if (status == MF_OK)
        status = mf_make_copy_pages(&from, to, NULL, err);
    mf_db_close(&from);
    return status;
}

/* A journal that is there is of a change that was cut off: without writing nobody can take
 * it back, and without that the file is no book. */
static mf_status cut_off(const char *path, mf_err *err)
{
    return mf_fail(err, MF_SYSTEM, path, "the book cannot be read here",
                   "a change of it was cut off, and is taken back only where it can be written",
                   "copy it, with its -journal, to a folder where you may write");
}

static mf_status read_in(mf_db *to, const char *path, mf_err *err)
{
    stamp before, after;
    mf_buf log = {0};
    if (lies_there(path, "-journal"))
        return cut_off(path, err);
    bool has_log = lies_there(path, "-wal"), shared = lies_there(path, "-shm");
    mf_buf_printf(&log, "%s-wal", path);
    if (log.failed)
        return mf_fail_memory(err);
    take_stamp(&before, path, log.data);
    mf_status status = MF_NO;
    if (has_log && shared)
        status = read_one_way(to, path, 0, err);
    if (status != MF_OK)
        status = read_one_way(to, path, has_log ? 2 : 1, err);
    take_stamp(&after, path, log.data);
    mf_buf_free(&log);
    bool same = same_state(&before.file, &after.file) && same_state(&before.log, &after.log);
    if (status == MF_OK && !same)
        return mf_fail(err, MF_SYSTEM, path, "the book was changed while it was read",
                       "somebody else writes to it", "ask again");
    return status;
}

mf_status mf_make_open_aside(mf_db *db, const char *path, mf_err *err)
{
    mf_status status = mf_db_open(db, ":memory:", path, err);
    if (status == MF_OK)
        status = read_in(db, path, err);
    if (status != MF_OK)
        mf_db_close(db);
    return status;
}

/* The first page is read to see whether it can be: SQLite may want to make files for it. */
mf_status mf_make_open_to_read(mf_db *db, const char *path, mf_err *err)
{
    int64_t unused = 0;
    mf_status status = mf_make_open(db, path, path, err);
    if (status == MF_OK)
        status = mf_db_int(db, "PRAGMA schema_version", &unused, err);
    if (status == MF_OK || !db->read_only)
        return status;
    mf_db_close(db);
    return mf_make_open_aside(db, path, err);
}
