/* book.c - making, opening and closing a book. */
#include "base/fail.h"
#include "base/file.h"
#include "base/mem.h"
#include "book/held.h"
#include "book/index.h"
#include "book/journal.h"
#include "book/known.h"
#include "book/make.h"
#include "book/schema.h"
#include "book/shape.h"
#include "book/tables.h"
#include "book/touched.h"
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- what is made from the journal --------------------------------------------------- */

static mf_status refill(mf_book *book, mf_err *err)
{
    mf_status status = mf_tables_drop(&book->db, err);
    if (status == MF_OK)
        status = mf_tables_make(&book->db, err);
    if (status == MF_OK)
        status = mf_held_fill(&book->db, err);
    return status == MF_OK ? mf_index_fill(book, err) : status;
}

static mf_status rebuild(mf_book *book, mf_err *err)
{
    mf_status status = mf_db_begin(&book->db, err);
    if (status != MF_OK)
        return status;
    status = refill(book, err);
    if (status == MF_OK)
        status = mf_db_commit(&book->db, err);
    if (status != MF_OK)
        mf_db_rollback(&book->db);
    return status;
}

MF_API mf_status mf_book_rebuild(mf_book *book, mf_err *err)
{
    if (book->in_group)
        return mf_fail(err, MF_USAGE, book->db.name, "a group of entries is open", "", "");
    return book->read_only ? mf_make_read_only(book, err) : rebuild(book, err);
}

/* ---- opening ---------------------------------------------------------------------------- */

static mf_status refuse(const char *path, const char *what, const char *why, mf_err *err)
{
    return mf_fail(err, MF_INPUT, path, what, why,
                   "name another file with --book, or make a new book with \"book new\"");
}

mf_status mf_make_exists(const char *path, mf_err *err)
{
    struct stat st;
    if (stat(path, &st) != 0 && (errno == ENOENT || errno == ENOTDIR))
        return refuse(path, "there is no book here", "no such file", err);
    if (stat(path, &st) != 0)
        return mf_file_fail(err, path, "open", errno);
    if (S_ISDIR(st.st_mode))
        return refuse(path, "this is a folder, no book", "a book is one file", err);
    if (!S_ISREG(st.st_mode))
        return refuse(path, "this is not a book", "a book is an ordinary file", err);
    if (st.st_size == 0)
        return refuse(path, "this file is empty, it is not a book", "", err);
    return MF_OK;
}

/* SQLite gives ":memory:" and "" a meaning of their own. */
mf_status mf_make_open(mf_db *db, const char *path, const char *called, mf_err *err)
{
    mf_buf plain = {0};
    mf_buf_printf(&plain, "%s%s", path[0] == '/' ? "" : "./", path);
    mf_status status = plain.failed ? mf_fail_memory(err) : mf_db_open(db, plain.data, called, err);
    mf_buf_free(&plain);
    return status;
}

/* What has a meaning in an URI is written by its number (RFC 3986, 2.1). */
mf_status mf_make_open_uri(mf_db *db, const char *path, const char *way, bool alone, mf_err *err)
{
    mf_buf uri = {0};
    mf_buf_printf(&uri, "file:%s", path[0] == '/' ? "" : "./");
    for (const char *at = path; *at != '\0'; at++)
        if (strchr("%?#", *at) != NULL)
            mf_buf_printf(&uri, "%%%02X", (unsigned)*at);
        else
            mf_buf_add(&uri, at, 1);
    mf_buf_printf(&uri, "?%s", way);
    mf_status status =
        uri.failed ? mf_fail_memory(err) : mf_db_open_uri(db, uri.data, alone, path, err);
    mf_buf_free(&uri);
    return status;
}

mf_status mf_make_identity(mf_db *db, int64_t *version, mf_err *err)
{
    int64_t application = 0;
    mf_status status = mf_db_int(db, "PRAGMA application_id", &application, err);
    if (status == MF_OK)
        status = mf_db_int(db, "PRAGMA user_version", version, err);
    if (status != MF_OK)
        return status;
    if (application != MF_APPLICATION_ID)
        return refuse(db->name, "this file is not a book",
                      "it is an SQLite file of another program", err);
    if (*version > mf_schema_version())
        return mf_failf(err, MF_INPUT, db->name, "", "use a newer version of this program",
                        "the book was written by a newer version (schema %lld, this one knows %d)",
                        (long long)*version, mf_schema_version());
    if (*version < 1)
        return refuse(db->name, "this file is not a book", "its schema has no number", err);
    return mf_shape_check(db, *version, err);
}

static mf_status migrate(mf_book *book, int from, mf_err *err)
{
    mf_status status = mf_db_begin(&book->db, err);
    if (status == MF_OK)
        status = mf_schema_migrate(&book->db, from, err);
    if (status == MF_OK)
        status = mf_db_commit(&book->db, err);
    if (status != MF_OK)
        mf_db_rollback(&book->db);
    return status;
}

static mf_status make_current(mf_book *book, int64_t version, mf_err *err)
{
    bool current = false;
    mf_status status = MF_OK;
    if (version < mf_schema_version())
        status = migrate(book, (int)version, err);
    if (status == MF_OK)
        status = mf_tables_hash(book->derived, err);
    if (status == MF_OK)
        status = mf_tables_current(&book->db, book->derived, &current, err);
    if (status == MF_OK && !current)
        status = rebuild(book, err);
    return status;
}

static mf_status open_to_write(mf_book *book, const char *path, int64_t *version, mf_err *err)
{
    mf_status status = mf_make_open(&book->db, path, path, err);
    if (status == MF_OK)
        status = mf_make_identity(&book->db, version, err);
    if (status == MF_OK)
        status = mf_db_exec(&book->db, "PRAGMA journal_mode=WAL", err);
    return status;
}

static mf_status open_file(mf_book *book, const char *path, int64_t *version, mf_err *err)
{
    mf_status status = open_to_write(book, path, version, err);
    book->read_only = status == MF_SYSTEM && book->db.read_only;
    if (!book->read_only)
        return status;
    mf_db_close(&book->db);
    status = mf_make_open_aside(&book->db, path, err);
    return status == MF_OK ? mf_make_identity(&book->db, version, err) : status;
}

/* A device is a part of the name of each of its entries, which is printed everywhere. */
static mf_status check_device(const mf_book *book, const char *name, mf_err *err)
{
    if (mf_is_device(name))
        return MF_OK;
    return mf_failf(err, MF_SYSTEM, book->db.name, "the book was altered outside this program",
                    "keep this file as it is and go on with the last good copy",
                    "a device of it is named \"%.40s\", which no device can be", name);
}

/* Whose chain is continued, and that the others are what a device can be. */
static mf_status take_devices(mf_book *book, mf_err *err)
{
    char ours[4 * MF_DEVICE_MAX];
    mf_stmt stmt;
    mf_status status = mf_meta_get(&book->db, "device", ours, sizeof ours, err);
    if (status == MF_OK)
        status = check_device(book, ours, err);
    if (status == MF_OK)
        snprintf(book->device, sizeof book->device, "%.*s", MF_DEVICE_MAX, ours);
    if (status == MF_OK)
        status = mf_stmt_get(&stmt, &book->db,
                             MF_WITH_DEVICES " SELECT device FROM d WHERE device IS NOT NULL", err);
    if (status != MF_OK)
        return status;
    while (mf_stmt_next(&stmt, &status, err))
        status = check_device(book, mf_stmt_column(&stmt, 0), err);
    mf_stmt_done(&stmt);
    return status;
}

MF_API mf_status mf_book_open(mf_book **out, const char *path, mf_err *err)
{
    *out = NULL;
    int64_t version = 0;
    mf_status status = mf_make_exists(path, err);
    if (status != MF_OK)
        return status;
    mf_book *book = calloc(1, sizeof *book);
    if (book == NULL)
        return mf_fail_memory(err);
    status = open_file(book, path, &version, err);
    if (status == MF_OK)
        status = make_current(book, version, err);
    if (status == MF_OK)
        status = take_devices(book, err);
    if (status == MF_OK)
        *out = book;
    else
        mf_book_close(book);
    return status;
}

MF_API void mf_book_close(mf_book *book)
{
    if (book == NULL)
        return;
    mf_db_rollback(&book->db);
    mf_known_forget(book);
    mf_touched_forget(book);
    mf_sign_close(book->signer);
    mf_digest_end(book->digest, NULL);
    mf_buf_free(&book->text);
    mf_db_close(&book->db);
    free(book);
}

/* ---- a new book ---------------------------------------------------------------------------- */

/* Five signs that are read aloud and typed without a doubt, the first a letter: the name stands
 * before every entry's number. No vowel, so that no word comes of it. */
static void draw_device(char out[MF_DEVICE_MAX + 1])
{
    static const char signs[] = "bcdfghjkmnpqrstvwxz23456789";
    enum { LETTERS = 19, ALL = sizeof signs - 1, DRAWN = 5 };
    unsigned int number[DRAWN];
    sqlite3_randomness((int)sizeof number, number);
    for (size_t i = 0; i < DRAWN; i++)
        out[i] = signs[number[i] % (i == 0 ? LETTERS : ALL)];
    out[DRAWN] = '\0';
}

mf_status mf_make_device(char out[MF_DEVICE_MAX + 1], const char *device, mf_err *err)
{
    if (device == NULL) {
        draw_device(out);
        return MF_OK;
    }
    if (!mf_is_device(device))
        return mf_fail(err, MF_INPUT, "device", "this is not a name for a device",
                       "1 to 16 of a-z, 0-9 and -", "name it like \"office\" or \"tablet-2\"");
    snprintf(out, MF_DEVICE_MAX + 1, "%s", device);
    return MF_OK;
}

/* A new empty file that its owner alone can read; refuses one that is there. */
static mf_status make_file(const char *path, mf_err *err)
{
    struct stat st;
    mf_status status = mf_file_no_log(path, err);
    if (status == MF_OK && lstat(path, &st) != 0)
        status = mf_file_no_log_beside(path, err);
    if (status != MF_OK)
        return status;
    int fd = open(path, O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
    if (fd < 0 && errno == EEXIST)
        return mf_fail(err, MF_INPUT, path, "there is a file of this name already",
                       "a book is never written over", "choose another name");
    if (fd < 0)
        return mf_file_fail(err, path, "make", errno);
    close(fd);
    return MF_OK;
}

static mf_status fill_new(mf_book *book, const char *device, mf_err *err)
{
    mf_status status = mf_db_exec(&book->db, "PRAGMA journal_mode=WAL", err);
    if (status == MF_OK)
        status = mf_db_begin(&book->db, err);
    if (status == MF_OK)
        status = mf_schema_migrate(&book->db, 0, err);
    if (status == MF_OK)
        status = mf_meta_set(&book->db, "device", device, err);
    if (status == MF_OK)
        status = mf_tables_make(&book->db, err);
    if (status == MF_OK)
        status = mf_db_commit(&book->db, err);
    return status;
}

void mf_make_undo(const char *path)
{
    static const char *const ends[] = {"", "-wal", "-shm", "-journal"};
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        mf_buf name = {0};
        mf_buf_printf(&name, "%s%s", path, ends[i]);
        if (!name.failed)
            unlink(name.data);
        mf_buf_free(&name);
    }
}

MF_API mf_status mf_book_new(mf_book **out, const char *path, const char *device, mf_err *err)
{
    *out = NULL;
    mf_book book = {0};
    mf_status status = mf_make_device(book.device, device, err);
    if (status == MF_OK)
        status = make_file(path, err);
    if (status != MF_OK)
        return status;
    status = mf_make_open(&book.db, path, path, err);
    if (status == MF_OK)
        status = fill_new(&book, book.device, err);
    mf_db_close(&book.db);
    if (status == MF_OK)
        status = mf_file_sync_folder(path, err);
    if (status == MF_OK)
        status = mf_book_open(out, path, err);
    if (status != MF_OK)
        mf_make_undo(path);
    return status;
}
