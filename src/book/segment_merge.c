/* segment_merge.c - taking over pieces of chains: they are laid out as the other book of a
 * merge, and then it is one. */
#include "base/fail.h"
#include "book/attach.h"
#include "book/journal.h"
#include "book/merge.h"
#include "book/signed.h"
#include "journal/entries_file.h"
#include "journal/fork.h"
#include <mistfold/segment.h>
#include <stdio.h>
#include <string.h>

/* Of the other book what a merge reads. */
static const char laid_out[] =
    "CREATE TABLE entry (device TEXT, seq INTEGER, logged_at TEXT, who TEXT, kind TEXT, job TEXT,"
    " body TEXT, prev TEXT, hash TEXT, PRIMARY KEY (device, seq)) STRICT;"
    "CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT) STRICT";

typedef struct laying {
    mf_db *db;
    const mf_segments_ask *ask;
    mf_sha256 by;
} laying;

/* ---- laying out ------------------------------------------------------------------------ */

/* Two segments may have the same entry, but not another one of its name. */
static mf_status same_line(const laying *l, const char *name, const mf_line *line, mf_err *err)
{
    char there[MF_HASH_HEX];
    mf_status status = mf_journal_hash(l->db, line->device, line->seq, there, err);
    if (status != MF_OK || strcmp(there, line->hash) == 0)
        return status;
    return mf_failf(err, MF_INPUT, name,
                    "one device has two histories, and what was logged is never rewritten; nothing "
                    "was taken over",
                    MF_FORK_WAY_OUT,
                    "entry %s/%lld says something else than in a segment beside it", line->device,
                    (long long)line->seq);
}

static mf_status put_line(const laying *l, const char *name, const mf_line *line, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, l->db,
                    "INSERT OR IGNORE INTO entry VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)", err);
    if (status != MF_OK)
        return status;
    const char *const texts[] = {line->device, NULL,       line->at,   line->who, line->kind,
                                 line->job,    line->body, line->prev, line->hash};
    for (int i = 0; i < MF_LINE_N_COLUMNS; i++)
        if (texts[i] != NULL)
            mf_stmt_text(&stmt, i + 1, texts[i]);
    mf_stmt_int(&stmt, 2, line->seq);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status == MF_OK && sqlite3_changes(l->db->handle) == 0 ? same_line(l, name, line, err)
                                                                  : status;
}

/* "signed DEVICE KEY" and the rest, as meta keeps it. Of two the later one counts, which the
 * merge takes care of: here the one that reaches further. */
static mf_status put_signed(const laying *l, const char *text, mf_err *err)
{
    char key[160];
    int key_len = 0, blanks = 0;
    for (; text[key_len] != '\0' && (text[key_len] != ' ' || ++blanks < 3); key_len++)
        continue;
    if (text[key_len] == '\0' || key_len >= (int)sizeof key || strncmp(text, "signed ", 7) != 0)
        return MF_OK; /* it is none, and the chain is found not signed */
    snprintf(key, sizeof key, "%.*s", key_len, text);
    const char *const values[] = {key, text + key_len + 1};
    return mf_db_run(
        l->db,
        "INSERT INTO meta VALUES (?1, ?2) ON CONFLICT (key) DO UPDATE SET value ="
        " excluded.value WHERE CAST(excluded.value AS INTEGER) > CAST(value AS INTEGER)",
        values, 2, err);
}

static mf_status put_first(const laying *l, const mf_entries_reader *r, mf_err *err)
{
    const json_t *list = json_object_get(r->first, "signed");
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < json_array_size(list); i++) {
        const char *text = json_string_value(json_array_get(list, i));
        if (text != NULL)
            status = put_signed(l, text, err);
    }
    return status;
}

static mf_status lay_one(const laying *l, const mf_segment_text *text, mf_err *err)
{
    mf_entries_reader r = {0};
    mf_entries_part part = MF_PART_LINE;
    mf_status status = mf_entries_file_begin(&r, text->name, text->bytes, text->len, &l->by, err);
    if (status == MF_OK)
        status = put_first(l, &r, err);
    while (status == MF_OK && part != MF_PART_END) {
        status = mf_entries_file_next(&r, &part, err);
        if (status == MF_OK && part == MF_PART_LINE)
            status = put_line(l, text->name, &r.line, err);
    }
    mf_entries_file_free(&r);
    return status;
}

static mf_status lay_out(const laying *l, mf_err *err)
{
    mf_status status = mf_db_exec(l->db, laid_out, err);
    if (status == MF_OK)
        status = mf_db_exec(l->db, "BEGIN", err);
    for (size_t i = 0; status == MF_OK && i < l->ask->n; i++)
        status = lay_one(l, &l->ask->at[i], err);
    return status == MF_OK ? mf_db_exec(l->db, "COMMIT", err) : status;
}

/* ---- the bytes of attachments ------------------------------------------------------------ */

static mf_status take_one(mf_merge *m, const char *sha256, mf_err *err)
{
    const mf_segments_ask *ask = m->data;
    mf_bytes bytes = {0};
    mf_status status = ask->content(ask->data, sha256, &bytes, err);
    if (status == MF_OK)
        status = mf_merge_content(m, sha256, bytes.data, bytes.len, err);
    mf_bytes_free(&bytes);
    return status;
}

static mf_status take_contents(mf_merge *m, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, &m->book->db,
                    "SELECT DISTINCT " MF_SHA256_OF_BODY " AS bytes FROM entry WHERE rowid > ?1 AND"
                    " kind = 'attachment' AND bytes NOT IN (SELECT sha256 FROM content)",
                    err);
    if (status != MF_OK)
        return status;
    mf_stmt_int(&stmt, 1, m->book->group_from);
    while (mf_stmt_next(&stmt, &status, err))
        status = take_one(m, mf_stmt_column(&stmt, 0), err);
    mf_stmt_done(&stmt);
    return status;
}

/* ---- the whole ------------------------------------------------------------------------------ */

MF_API mf_status mf_book_merge_segments(mf_book *book, const mf_segments_ask *ask,
                                        mf_merge_report *out, mf_err *err)
{
    static const mf_watch nobody = {0};
    *out = (mf_merge_report){0};
    mf_merge m = {.book = book,
                  .name = ask->n > 0 ? ask->at[0].name : "",
                  .altered = "the segment was altered outside this program",
                  .again = "have it written anew by a device that has these entries; nothing was "
                           "taken over",
                  .version = 1,
                  .part = true,
                  .out = out,
                  .watch = ask->watch == NULL ? &nobody : ask->watch,
                  .contents = take_contents,
                  .data = (void *)(uintptr_t)ask,
                  .adopt = ask->adopt};
    laying l = {.db = &m.other, .ask = ask};
    mf_status status = mf_merge_may(ask->adopt, err);
    if (status == MF_OK)
        status = mf_book_sha256(book, &l.by, err);
    if (status == MF_OK)
        status = mf_db_open(&m.other, ":memory:", m.name, err);
    if (status == MF_OK)
        status = lay_out(&l, err);
    if (status == MF_OK)
        status = mf_merge_open(&m, err);
    mf_db_close(&m.other);
    if (status != MF_OK)
        *out = (mf_merge_report){0};
    return status;
}

MF_API mf_status mf_book_contents(mf_book *book, mf_content_fn *fn, void *data, mf_err *err)
{
    mf_stmt stmt;
    bool more = true;
    mf_status status =
        mf_stmt_get(&stmt, &book->db, "SELECT sha256 FROM content ORDER BY sha256", err);
    while (more && mf_stmt_next(&stmt, &status, err))
        more = fn(mf_stmt_column(&stmt, 0), data);
    mf_stmt_done(&stmt);
    return status;
}

MF_API const char *mf_book_device(const mf_book *book)
{
    return book->device;
}

MF_API mf_status mf_book_chain_key(mf_book *book, const char *device, char out[MF_HASH_HEX],
                                   mf_err *err)
{
    return mf_last_key(&book->db, device, out, err);
}
