/* check_content.c - the bytes of attachments against their names. */
#include "base/digest.h"
#include "base/fail.h"
#include "book/attach.h"
#include "book/check.h"
#include <stdio.h>
#include <string.h>

static mf_status hash_row(mf_checker *c, mf_stmt *stmt, const char *where, const char *sha256,
                          int at, mf_err *err)
{
    char hash[MF_DIGEST_HEX];
    const void *bytes = sqlite3_column_blob(stmt->handle, at);
    size_t len = (size_t)sqlite3_column_bytes(stmt->handle, at);
    if (!mf_digest_hex(bytes == NULL ? "" : bytes, len, hash))
        return mf_fail_memory(err);
    c->out->contents++;
    if (strcmp(hash, sha256) != 0)
        mf_fault(c, true, where, "its bytes were altered: their SHA-256 is %.16s...", hash);
    return MF_OK;
}

mf_status mf_check_content(mf_checker *c, const char *where, const char *sha256, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status =
        mf_stmt_get(&stmt, &c->book->db, "SELECT bytes FROM content WHERE sha256 = ?1", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, sha256);
    status = mf_stmt_step(&stmt, &row, err);
    if (status == MF_OK && row)
        status = hash_row(c, &stmt, where, sha256, 0, err);
    else if (status == MF_OK)
        mf_fault(c, true, where, "the bytes of its attachment are missing: %.16s...", sha256);
    mf_stmt_done(&stmt);
    return status;
}

/* Notes that an entry names these bytes, in the check's own memory. */
static mf_status note_named(mf_checker *c, const char *sha256, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, &c->noted, "INSERT OR IGNORE INTO named (sha256) VALUES (?1)", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, sha256);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

static mf_status check_named(mf_checker *c, const char *id, const char *sha256, mf_err *err)
{
    bool has = false;
    char where[64];
    mf_status status = note_named(c, sha256, err);
    if (status == MF_OK)
        status = mf_content_has(&c->book->db, sha256, &has, err);
    snprintf(where, sizeof where, "entry %.40s", id);
    if (status == MF_OK && !has)
        mf_fault(c, true, where, "the bytes of its attachment are missing: %.16s...", sha256);
    return status;
}

/* Every entry that attaches, also a withdrawn one, holds its bytes in the book. A
 * correction of an attachment cannot name other bytes. */
static mf_status check_entries(mf_checker *c, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &c->book->db,
                                   "SELECT device || '/' || seq, " MF_SHA256_OF_BODY
                                   " FROM entry WHERE kind = 'attachment' ORDER BY device, seq",
                                   err);
    while (mf_stmt_next(&stmt, &status, err))
        status = check_named(c, mf_stmt_column(&stmt, 0), mf_stmt_column(&stmt, 1), err);
    mf_stmt_done(&stmt);
    return status;
}

static mf_status is_named(mf_checker *c, const char *sha256, bool *named, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &c->noted, "SELECT 1 FROM named WHERE sha256 = ?1", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, sha256);
    status = mf_stmt_step(&stmt, named, err);
    mf_stmt_done(&stmt);
    return status;
}

static mf_status check_bytes(mf_checker *c, mf_stmt *stmt, mf_err *err)
{
    char where[64];
    bool named = false;
    const char *sha256 = mf_stmt_column(stmt, 0);
    snprintf(where, sizeof where, "attachment %.16s...", sha256);
    mf_status status = hash_row(c, stmt, where, sha256, 1, err);
    if (status == MF_OK)
        status = is_named(c, sha256, &named, err);
    if (status == MF_OK && !named)
        mf_fault(c, true, where, "no entry of the journal names it");
    if (c->watch->progress != NULL)
        c->watch->progress("attachments", c->out->contents, c->out->contents, c->watch->data);
    return status;
}

mf_status mf_check_contents(mf_checker *c, mf_err *err)
{
    mf_stmt stmt = {0};
    mf_status status = MF_OK;
    status = mf_db_open(&c->noted, ":memory:", "the check", err);
    if (status == MF_OK)
        status = mf_db_exec(&c->noted, "CREATE TEMP TABLE named (sha256 TEXT PRIMARY KEY)", err);
    if (status == MF_OK && c->attached > 0)
        status = check_entries(c, err);
    if (status == MF_OK)
        status = mf_stmt_get(&stmt, &c->book->db, "SELECT sha256, bytes FROM content", err);
    while (mf_stmt_next(&stmt, &status, err))
        status = check_bytes(c, &stmt, err);
    mf_stmt_done(&stmt);
    return status;
}
