/* merge_content.c - the bytes of the other book's attachments. Each entry that attaches has
 * its bytes and all bytes have such an entry, or this book would no more pass its check. */
#include "base/digest.h"
#include "base/fail.h"
#include "book/attach.h"
#include "book/merge.h"
#include <stdio.h>
#include <string.h>

mf_status mf_merge_content(mf_merge *m, const char *sha256, const void *bytes, size_t len,
                           mf_err *err)
{
    char hash[MF_DIGEST_HEX];
    if (!mf_digest_hex(bytes, len, hash))
        return mf_fail_memory(err);
    if (strcmp(hash, sha256) != 0)
        return mf_failf(err, MF_INPUT, m->name, "its bytes do not give its SHA-256", m->again,
                        "attachment %.16s... was altered", sha256);
    mf_status status = mf_content_put(&m->book->db, sha256, bytes, len, err);
    m->out->contents += status == MF_OK ? sqlite3_changes(m->book->db.handle) : 0;
    return status;
}

static mf_status take_content(mf_merge *m, mf_stmt *from, mf_err *err)
{
    const void *blob = sqlite3_column_blob(from->handle, 1), *bytes = blob == NULL ? "" : blob;
    size_t len = (size_t)sqlite3_column_bytes(from->handle, 1);
    return mf_merge_content(m, mf_stmt_column(from, 0), bytes, len, err);
}

static mf_status take_contents(mf_merge *m, mf_err *err)
{
    mf_stmt stmt = {0};
    bool any = m->version > 1;
    mf_status status =
        any ? mf_stmt_get(&stmt, &m->other, "SELECT sha256, bytes FROM content", err) : MF_OK;
    while (any && mf_stmt_next(&stmt, &status, err))
        status = take_content(m, &stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

/* ---- bytes and entries -------------------------------------------------------------------- */

/* The first text of a query about what came in behind that row, "" = there is none. */
static mf_status first_of(mf_merge *m, const char *sql, int64_t behind, char out[MF_DIGEST_HEX],
                          mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status = mf_stmt_get(&stmt, &m->book->db, sql, err);
    out[0] = '\0';
    if (status != MF_OK)
        return status;
    mf_stmt_int(&stmt, 1, behind);
    status = mf_stmt_step(&stmt, &row, err);
    if (row)
        snprintf(out, MF_DIGEST_HEX, "%s", mf_stmt_column(&stmt, 0));
    mf_stmt_done(&stmt);
    return status;
}

static mf_status without_bytes(mf_merge *m, mf_err *err)
{
    static const char sql[] =
        "SELECT device || '/' || seq FROM entry WHERE rowid > ?1 AND kind = 'attachment'"
        " AND NOT EXISTS (SELECT 1 FROM content WHERE sha256 = " MF_SHA256_OF_BODY ") LIMIT 1";
    char entry[MF_DIGEST_HEX];
    mf_status status = first_of(m, sql, m->book->group_from, entry, err);
    if (status != MF_OK || entry[0] == '\0')
        return status;
    return mf_failf(err, MF_INPUT, m->name, m->altered, m->again,
                    "entry %s: the bytes of its attachment are missing", entry);
}

static mf_status without_entry(mf_merge *m, int64_t behind, mf_err *err)
{
    static const char sql[] =
        "SELECT sha256 FROM content WHERE rowid > ?1 AND sha256 NOT IN (SELECT bytes FROM"
        " (SELECT " MF_SHA256_OF_BODY " AS bytes FROM entry WHERE kind = 'attachment')"
        " WHERE bytes IS NOT NULL) LIMIT 1";
    char sha256[MF_DIGEST_HEX];
    if (m->out->contents == 0 || m->part)
        return MF_OK; /* the query reads the whole journal; of a part only what is named was taken
                       */
    mf_status status = first_of(m, sql, behind, sha256, err);
    if (status != MF_OK || sha256[0] == '\0')
        return status;
    return mf_failf(err, MF_INPUT, m->name, m->altered, m->again,
                    "attachment %.16s...: no entry of the journal names it", sha256);
}

mf_status mf_merge_contents_whole(mf_merge *m, int64_t behind, mf_err *err)
{
    mf_status status = without_bytes(m, err);
    return status == MF_OK ? without_entry(m, behind, err) : status;
}

/* Books of schema 1 have no attachments. */
mf_status mf_merge_contents(mf_merge *m, mf_err *err)
{
    int64_t behind = 0;
    mf_status status =
        mf_db_int(&m->book->db, "SELECT coalesce(max(rowid), 0) FROM content", &behind, err);
    if (status == MF_OK)
        status = m->contents == NULL ? take_contents(m, err) : m->contents(m, err);
    return status == MF_OK ? mf_merge_contents_whole(m, behind, err) : status;
}
