/* device_key.c - the private key of a device, in a file beside its book. */
#include "base/fail.h"
#include "base/file.h"
#include "base/sign.h"
#include "book/make.h"
#include "book/signed.h"
#include "book/write.h"
#include <mistfold/device.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { KEY_FILE_MAX = 4096 };

/* firm.book and office: firm.book.office.key */
static mf_status path_of(const mf_book *book, mf_buf *out, mf_err *err)
{
    const char *path = sqlite3_db_filename(book->db.handle, "main");
    mf_buf_printf(out, "%s.%s.key", path == NULL ? "" : path, book->device);
    return out->failed ? mf_fail_memory(err) : MF_OK;
}

static mf_status absent(const char *path, const char *why, mf_err *err)
{
    return mf_fail(
        err, MF_INPUT, path, "the key by which this device signs is not here", why,
        "put it back beside the book; if it is lost: mistfold book key --reason \"why\". "
        "Nothing was written");
}

mf_status mf_device_key_open(mf_book *book, const char *key, mf_err *err)
{
    char is[MF_SIGN_KEY_HEX] = "";
    mf_buf path = {0};
    mf_bytes pem = {0};
    if (book->signer != NULL && strcmp(book->signer_key, key) == 0)
        return MF_OK;
    mf_sign_close(book->signer);
    book->signer = NULL;
    book->signer_key[0] = '\0';
    mf_status status = path_of(book, &path, err);
    if (status == MF_OK && access(path.data, F_OK) != 0)
        status = absent(path.data, "a book that was copied or put back has none", err);
    if (status == MF_OK)
        status = mf_file_read(&pem, path.data, KEY_FILE_MAX, err);
    if (status == MF_OK)
        book->signer = mf_sign_open(&pem, is);
    if (status == MF_OK && (book->signer == NULL || strcmp(is, key) != 0))
        status = absent(path.data, "the file holds another key than the chain names", err);
    if (status == MF_OK)
        snprintf(book->signer_key, sizeof book->signer_key, "%s", key);
    mf_sign_wipe(&pem);
    mf_buf_free(&path);
    return status;
}

/* ---- making one --------------------------------------------------------------------------------
 */

static mf_status may_make(mf_book *book, const char *reason, mf_err *err)
{
    char key[MF_SIGN_KEY_HEX];
    mf_status status = mf_last_key(&book->db, book->device, key, err);
    if (status == MF_OK && key[0] != '\0' && *reason == '\0')
        return mf_fail(err, MF_INPUT, book->db.name, "this device has a key already",
                       "a new one takes its place from then on, which everybody sees",
                       "say why: --reason \"the laptop was lost\"");
    return status;
}

static mf_status log_key(mf_book *book, const char *key, const char *reason, const mf_now *now,
                         char id[MF_ENTRY_ID], mf_err *err)
{
    mf_draft *draft = NULL;
    const char *const pairs[][2] = {{"device", book->device}, {"key", key}, {"reason", reason}};
    mf_status status = mf_draft_of(&draft, "device_key", pairs, 3, "--reason", now->today, err);
    if (status == MF_OK)
        status = mf_book_write(book, draft, "", now, "", id, err);
    mf_draft_free(draft);
    return status;
}

/* What was lost stays where it is, under a name of its own: it may be found to be no key of
 * anybody else. old is that name, "" when nothing stood there. */
static mf_status make_way(const char *path, const char *reason, mf_buf *old, mf_err *err)
{
    if (*reason == '\0' || access(path, F_OK) != 0)
        return mf_file_is_free(path, err);
    mf_buf_printf(old, "%s.old", path);
    mf_status status = old->failed ? mf_fail_memory(err) : mf_file_is_free(old->data, err);
    return status == MF_OK ? mf_file_settle(path, old->data, err) : status;
}

/* The file is there when the entry is: else what stood there before is again. */
static mf_status put_file(mf_book *book, const char *path, const char *reason, const mf_bytes *pem,
                          mf_err *err)
{
    mf_buf old = {0};
    bool written = false;
    mf_status status = make_way(path, reason, &old, err);
    if (status == MF_OK) {
        status = mf_file_write_new(path, pem->data, pem->len, 0600, err);
        written = status == MF_OK;
    }
    if (status == MF_OK)
        status = mf_book_commit(book, err);
    if (status != MF_OK && written)
        unlink(path);
    if (status != MF_OK && old.len > 0) /* it goes over nothing */
        mf_file_settle(mf_buf_str(&old), path, NULL);
    mf_buf_free(&old);
    return status;
}

static mf_status make_inside(mf_book *book, const char *path, const char *reason, const mf_now *now,
                             char id[MF_ENTRY_ID], mf_err *err)
{
    char key[MF_SIGN_KEY_HEX] = "";
    mf_bytes pem = {0};
    mf_status status = mf_book_begin(book, err);
    if (status != MF_OK)
        return status;
    status = may_make(book, reason, err);
    if (status == MF_OK && !mf_sign_make(&pem, key))
        status = mf_fail_memory(err);
    if (status == MF_OK)
        status = log_key(book, key, reason, now, id, err);
    if (status == MF_OK)
        status = put_file(book, path, reason, &pem, err);
    if (status != MF_OK)
        mf_book_rollback(book);
    mf_sign_wipe(&pem);
    return status;
}

MF_API mf_status mf_book_key_make(mf_book *book, const char *reason, const mf_now *now,
                                  char id[MF_ENTRY_ID], mf_err *err)
{
    mf_buf path = {0};
    const mf_now by = {now->today, now->at, now->who == NULL ? book->device : now->who, now->time};
    mf_status status = path_of(book, &path, err);
    if (status == MF_OK)
        status = make_inside(book, path.data, reason, &by, id, err);
    mf_buf_free(&path);
    return status;
}

MF_API mf_status mf_book_copy_key(const char *path, const mf_now *now, mf_err *err)
{
    char id[MF_ENTRY_ID];
    mf_book *copy = NULL;
    mf_status status = mf_book_open(&copy, path, err);
    if (status == MF_OK)
        status = mf_book_key_make(copy, "", now, id, err);
    if (status == MF_OK) /* as copy.c leaves it */
        status = mf_db_exec(&copy->db, "PRAGMA journal_mode=DELETE", err);
    mf_book_close(copy);
    return status;
}
