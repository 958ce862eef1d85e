/* copy.c - whole copies of a book, made while it may be in use. */
#include "base/fail.h"
#include "base/file.h"
#include "base/file_kind.h"
#include "base/mem.h"
#include "book/make.h"
#include "book/schema.h"
#include <errno.h>
#include <stdio.h>
#include <unistd.h>

#define PAGES_A_STEP 1024

/* SQLite's online backup: one consistent state, whoever writes meanwhile. */
mf_status mf_make_copy_pages(mf_db *from, mf_db *to, const mf_watch *watch, mf_err *err)
{
    sqlite3_backup *backup = sqlite3_backup_init(to->handle, "main", from->handle, "main");
    if (backup == NULL)
        return mf_db_fail(to, err);
    int rc = SQLITE_OK;
    while (rc == SQLITE_OK || rc == SQLITE_BUSY || rc == SQLITE_LOCKED) {
        rc = sqlite3_backup_step(backup, PAGES_A_STEP);
        int total = sqlite3_backup_pagecount(backup);
        if (watch != NULL && watch->progress != NULL)
            watch->progress("pages", total - sqlite3_backup_remaining(backup), total, watch->data);
        if (rc == SQLITE_BUSY || rc == SQLITE_LOCKED)
            sqlite3_sleep(20);
    }
    int end = sqlite3_backup_finish(backup);
    return rc == SQLITE_DONE && end == SQLITE_OK ? MF_OK : mf_db_fail(to, err);
}

static mf_status fill(mf_book *book, const char *temp, const char *path, const char *device,
                      const mf_watch *watch, mf_err *err)
{
    mf_db to = {0};
    mf_status status = mf_make_open(&to, temp, path, err);
    if (status == MF_OK)
        status = mf_make_copy_pages(&book->db, &to, watch, err);
    if (status == MF_OK && device != NULL)
        status = mf_meta_set(&to, "device", device, err);
    /* One plain file, without a log beside it, can be carried away, and read by any SQLite
     * where nothing can be written. Who opens it to write gives it a log again. */
    if (status == MF_OK)
        status = mf_db_exec(&to, "PRAGMA journal_mode=DELETE", err);
    mf_db_close(&to);
    return status == MF_OK ? mf_file_settle(temp, path, err) : status;
}

/* The copy has its name when it is whole and not before: half of one, or one that is cut
 * off before it has a device of its own, would go on with the history of this book. */
static mf_status copy(mf_book *book, const char *path, const char *device, const mf_watch *watch,
                      mf_err *err)
{
    mf_buf temp = {0};
    if (book->in_group)
        return mf_fail(err, MF_USAGE, book->db.name, "a group of entries is open", "", "");
    mf_status status = mf_file_is_free(path, err);
    if (status == MF_OK)
        status = mf_file_no_log_beside(path, err);
    if (status != MF_OK)
        return status;
    int left = mf_file_sweep(path), fd = mf_file_beside(&temp, path, 0600);
    if (left > 0 && watch != NULL && watch->note != NULL)
        watch->note("what an interrupted copy had left in this folder was taken away", watch->data);
    if (fd >= 0) {
        status = fill(book, temp.data, path, device, watch, err);
        mf_make_undo(temp.data); /* what is left of it: nothing when all went well */
        close(fd);               /* now: SQLite's locks on the file go with any of its fds */
    } else {
        status = mf_file_fail(err, path, "make", errno);
    }
    mf_buf_free(&temp);
    return status;
}

MF_API mf_status mf_book_backup(mf_book *book, const char *path, const mf_watch *watch, mf_err *err)
{
    return copy(book, path, NULL, watch, err);
}

static mf_status check_free(mf_book *book, const char *device, mf_err *err)
{
    mf_stmt stmt;
    bool taken = false;
    mf_status status =
        mf_stmt_get(&stmt, &book->db,
                    "SELECT 1 FROM entry WHERE device = ?1 UNION ALL SELECT 1 FROM meta"
                    " WHERE key = 'device' AND value = ?1 LIMIT 1",
                    err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, device);
    status = mf_stmt_step(&stmt, &taken, err);
    mf_stmt_done(&stmt);
    if (status == MF_OK && taken)
        return mf_failf(err, MF_INPUT, "device",
                        "two devices of one name would write two histories of one name",
                        "choose a name that no device of this book has",
                        "there is a device %s in this book already", device);
    return status;
}

MF_API mf_status mf_book_copy(mf_book *book, const char *path, const char *device,
                              const mf_watch *watch, mf_err *err)
{
    char name[MF_DEVICE_MAX + 1];
    mf_status status = mf_make_device(name, device, err);
    if (status == MF_OK)
        status = check_free(book, name, err);
    return status == MF_OK ? copy(book, path, name, watch, err) : status;
}
