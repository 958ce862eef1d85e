#include "book/attach.h"

#include "base/digest.h"
#include "base/fail.h"
#include "base/file.h"
#include "book/journal.h"
#include "book/known.h"
#include <mistfold/kind.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- what may be attached --------------------------------------------------------------- */

static mf_status check_bytes(const mf_attach_ask *ask, int *media, mf_err *err)
{
    bool whole = false;
    if (ask->len == 0)
        return mf_fail(err, MF_INPUT, ask->name, "the file is empty", "", "give the right file");
    if (ask->len > MF_ATTACH_MAX)
        return mf_failf(err, MF_INPUT, ask->name, "the book is carried around and copied",
                        "make the picture or the scan smaller", "the file is longer than %zu MB",
                        MF_ATTACH_MAX / 1024 / 1024);
    *media = mf_media_of(ask->bytes, ask->len, &whole);
    if (*media < 0)
        return mf_fail(err, MF_INPUT, ask->name, "by its content it is no JPEG, PNG or PDF",
                       "only these can still be opened in many years",
                       "save or scan it as one of these");
    if (!whole)
        return mf_fail(err, MF_INPUT, ask->name, "the file is cut short: its end is missing", "",
                       "copy it again from where it came from");
    return MF_OK;
}

/* ---- the bytes ------------------------------------------------------------------------------ */

mf_status mf_content_has(mf_db *db, const char *sha256, bool *has, mf_err *err)
{
    mf_stmt stmt;
    *has = false;
    mf_status status = mf_stmt_get(&stmt, db, "SELECT 1 FROM content WHERE sha256 = ?1", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, sha256);
    status = mf_stmt_step(&stmt, has, err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_content_put(mf_db *db, const char *sha256, const void *bytes, size_t len, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, db,
                    "INSERT INTO content (sha256, bytes) SELECT ?1, ?2 WHERE NOT EXISTS"
                    " (SELECT 1 FROM content WHERE sha256 = ?1)",
                    err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, sha256);
    mf_stmt_blob(&stmt, 2, bytes, len);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

static mf_status copy_out(const mf_book *book, mf_stmt *stmt, const char *sha256, mf_bytes *out,
                          mf_err *err)
{
    char hash[MF_DIGEST_HEX];
    size_t len = (size_t)sqlite3_column_bytes(stmt->handle, 0);
    const void *bytes = sqlite3_column_blob(stmt->handle, 0);
    if (bytes == NULL)
        len = 0;
    out->data = malloc(len + 1);
    if (out->data == NULL)
        return mf_fail_memory(err);
    if (len > 0)
        memcpy(out->data, bytes, len);
    out->len = len;
    if (!mf_digest_hex(out->data, len, hash))
        return mf_fail_memory(err);
    if (strcmp(hash, sha256) != 0)
        return mf_failf(err, MF_SYSTEM, book->db.name, "its bytes do not give its SHA-256",
                        "check the book and go back to a good copy",
                        "attachment %.16s... was altered", sha256);
    return MF_OK;
}

MF_API mf_status mf_book_attached(mf_book *book, const char *sha256, mf_bytes *out, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    *out = (mf_bytes){0};
    mf_status status =
        mf_stmt_get(&stmt, &book->db, "SELECT bytes FROM content WHERE sha256 = ?1", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, sha256);
    status = mf_stmt_step(&stmt, &row, err);
    if (status == MF_OK && !row)
        status = mf_failf(err, MF_INPUT, book->db.name, "", "see the list of attachments",
                          "there is no attachment %.64s", sha256);
    if (status == MF_OK)
        status = copy_out(book, &stmt, sha256, out, err);
    mf_stmt_done(&stmt);
    if (status != MF_OK)
        mf_bytes_free(out);
    return status;
}

/* ---- the entry ---------------------------------------------------------------------------------
 */

mf_status mf_attach_check(mf_book *book, const json_t *body, const char *where, mf_err *err)
{
    bool there = false;
    mf_status status = mf_content_has(&book->db, mf_json_string_of(body, "sha256"), &there, err);
    if (status == MF_OK && !there)
        return mf_fail(err, MF_INPUT, where, "there are no bytes of this SHA-256 in the book", "",
                       "attach the file itself");
    return status;
}

/* The entry it is about is one of this job. */
static mf_status check_about(mf_book *book, const mf_attach_ask *ask, mf_err *err)
{
    bool found = false;
    mf_arena arena = {0};
    mf_line line;
    if (ask->about[0] == '\0')
        return MF_OK;
    mf_status status = mf_journal_entry(&line, &arena, &book->db, ask->about, &found, err);
    if (status == MF_OK && found)
        found = line.job[0] == '\0' || strcmp(line.job, ask->job) == 0;
    mf_arena_free(&arena);
    if (status == MF_OK && !found)
        return mf_failf(err, MF_INPUT, "--about", "an entry is named like office/12",
                        "look it up in the list of entries of the job",
                        "there is no entry %.40s in this job", ask->about);
    return status;
}

static mf_status check_new(mf_book *book, const mf_attach_ask *ask, const char *sha256, mf_err *err)
{
    const mf_kind *kind = mf_kind_named(MF_KIND_ATTACHMENT);
    const mf_job_fold *fold = NULL;
    mf_status status = mf_known_fold(&fold, book, ask->job, err);
    size_t n = status == MF_OK ? mf_job_fold_count(fold, kind) : 0;
    for (size_t i = 0; i < n; i++) {
        const mf_attachment *it = mf_job_fold_item(fold, kind, i);
        if (it != NULL && strcmp(it->sha256, sha256) == 0 && strcmp(it->about, ask->about) == 0)
            return mf_failf(err, MF_INPUT, mf_file_name(ask->name), "", "nothing needs to be done",
                            "this file is attached to it already, entry %.40s", it->src.entry);
    }
    return status;
}

static mf_status make_draft(mf_draft **out, const mf_attach_ask *ask, const char *sha256, int media,
                            mf_day today, mf_err *err)
{
    const mf_kind *kind = mf_kind_named(MF_KIND_ATTACHMENT);
    char size[24];
    snprintf(size, sizeof size, "%zu", ask->len);
    const char *const pairs[][2] = {
        {"about", ask->about},
        {"sha256", sha256},
        {"media", mf_field_named(kind, "media")->choices[media]},
        {"size", size},
        {"name", mf_file_name(ask->name)},
        {"note", ask->note},
    };
    return mf_draft_of(out, kind->name, pairs, sizeof pairs / sizeof pairs[0], ask->name, today,
                       err);
}

static mf_status attach_inside(mf_book *book, const mf_attach_ask *ask, const mf_draft *draft,
                               const char *sha256, const mf_now *now, char id[MF_ENTRY_ID],
                               mf_err *err)
{
    mf_status status = check_about(book, ask, err);
    if (status == MF_OK)
        status = check_new(book, ask, sha256, err);
    if (status == MF_OK)
        status = mf_content_put(&book->db, sha256, ask->bytes, ask->len, err);
    return status == MF_OK ? mf_book_write(book, draft, ask->job, now, ask->name, id, err) : status;
}

MF_API mf_status mf_book_attach(mf_book *book, const mf_attach_ask *ask, const mf_now *now,
                                char id[MF_ENTRY_ID], char sha256[MF_HASH_HEX], mf_err *err)
{
    char hash[MF_DIGEST_HEX];
    int media = -1;
    mf_draft *draft = NULL;
    mf_part part = {0};
    mf_status status = check_bytes(ask, &media, err);
    if (status != MF_OK)
        return status;
    if (!mf_digest_hex(ask->bytes, ask->len, hash))
        return mf_fail_memory(err);
    if (sha256 != NULL)
        memcpy(sha256, hash, MF_DIGEST_HEX);
    status = make_draft(&draft, ask, hash, media, now->today, err);
    if (status == MF_OK)
        status = mf_part_begin(&part, book, err);
    if (status == MF_OK)
        status = attach_inside(book, ask, draft, hash, now, id, err);
    status = mf_part_end(&part, book, status, err);
    mf_draft_free(draft);
    return status;
}
