#include "book/journal.h"

#include "base/digest.h"
#include "base/fail.h"
#include "base/json.h"
#include "book/mark.h"
#include <stdio.h>
#include <string.h>

static void add_prev_and_seq(mf_buf *out, const mf_line *line)
{
    mf_json_quote(out, line->prev, strlen(line->prev));
    mf_buf_text(out, ",\"seq\":");
    mf_buf_number(out, line->seq);
}

static bool digest(void *data, const void *bytes, size_t len, char out[MF_HASH_HEX])
{
    (void)data;
    return mf_digest_hex(bytes, len, out);
}

mf_status mf_entry_hash(const mf_line *line, char out[MF_HASH_HEX], mf_err *err)
{
    static const mf_sha256 by = {digest, NULL};
    mf_buf text = {0};
    mf_status status = mf_line_hash(line, &by, &text, out, err);
    mf_buf_free(&text);
    return status;
}

mf_line mf_line_of_row(mf_stmt *stmt)
{
    return (mf_line){.device = mf_stmt_column(stmt, 0),
                     .seq = mf_stmt_number(stmt, 1),
                     .at = mf_stmt_column(stmt, 2),
                     .who = mf_stmt_column(stmt, 3),
                     .kind = mf_stmt_column(stmt, 4),
                     .job = mf_stmt_column(stmt, 5),
                     .body = mf_stmt_column(stmt, 6),
                     .prev = mf_stmt_column(stmt, 7),
                     .hash = mf_stmt_column(stmt, 8)};
}

/* ---- adding ----------------------------------------------------------------------------- */

mf_status mf_journal_last(mf_book *book, int64_t *seq, char hash[MF_HASH_HEX], mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status =
        mf_stmt_get(&stmt, &book->db,
                    "SELECT seq, hash FROM entry WHERE device = ?1 ORDER BY seq DESC LIMIT 1", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, book->device);
    status = mf_stmt_step(&stmt, &row, err);
    *seq = row ? mf_stmt_number(&stmt, 0) : 0;
    snprintf(hash, MF_HASH_HEX, "%s", row ? mf_stmt_column(&stmt, 1) : mf_zero_hash);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_journal_insert(mf_db *db, const mf_line *line, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(
        &stmt, db,
        "INSERT INTO entry (" MF_LINE_COLUMNS ") VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, line->device);
    mf_stmt_int(&stmt, 2, line->seq);
    mf_stmt_text(&stmt, 3, line->at);
    mf_stmt_text(&stmt, 4, line->who);
    mf_stmt_text(&stmt, 5, line->kind);
    mf_stmt_text(&stmt, 6, line->job);
    mf_stmt_text(&stmt, 7, line->body);
    mf_stmt_text(&stmt, 8, line->prev);
    mf_stmt_text(&stmt, 9, line->hash);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_journal_append(mf_book *book, const char *kind, const char *job, const char *body,
                            const mf_now *now, char id[MF_ENTRY_ID], int64_t *seq, mf_err *err)
{
    char prev[MF_HASH_HEX], hash[MF_HASH_HEX];
    mf_status status = mf_journal_last(book, seq, prev, err);
    *seq += 1;
    mf_line line = {book->device, *seq, now->at, now->who, kind, job, body, prev, hash};
    if (status == MF_OK)
        status = mf_entry_hash(&line, hash, err);
    if (status == MF_OK)
        status = mf_journal_insert(&book->db, &line, err);
    if (status == MF_OK)
        snprintf(id, MF_ENTRY_ID, "%s/%lld", book->device, (long long)*seq);
    return status;
}

/* ---- reading -------------------------------------------------------------------------------- */

/* The column after those of a line. */
enum { ROWID = 9 };

/* What one reading back needs again and again. Most lines differ from the one before
 * in body, prev and seq alone: key is what the other pieces were made from. */
typedef struct again {
    mf_digest *digest;
    mf_buf text, key, wanted;
    mf_buf head, middle, tail;
} again;

static void free_again(again *use)
{
    mf_digest_end(use->digest, NULL);
    mf_buf_free(&use->text);
    mf_buf_free(&use->key);
    mf_buf_free(&use->wanted);
    mf_buf_free(&use->head);
    mf_buf_free(&use->middle);
    mf_buf_free(&use->tail);
}

static void add_key_of(mf_buf *out, const mf_line *line)
{
    const char *const texts[] = {line->at, line->device, line->job, line->kind, line->who};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        mf_buf_add(out, texts[i], strlen(texts[i]) + 1);
}

/* False when memory ran out. */
static bool make_pieces(again *use, const mf_line *line)
{
    mf_buf_clear(&use->wanted);
    add_key_of(&use->wanted, line);
    if (use->key.len > 0 && use->key.len == use->wanted.len &&
        memcmp(use->key.data, use->wanted.data, use->key.len) == 0)
        return true;
    mf_buf_clear(&use->key);
    mf_buf_clear(&use->head);
    mf_buf_clear(&use->middle);
    mf_buf_clear(&use->tail);
    add_key_of(&use->key, line);
    mf_line_add_head(&use->head, line);
    mf_line_add_middle(&use->middle, line);
    mf_line_add_tail(&use->tail, line);
    return !use->key.failed && !use->wanted.failed && !use->head.failed && !use->middle.failed &&
           !use->tail.failed;
}

static mf_status differs(const mf_book *book, const mf_line *line, mf_err *err)
{
    return mf_failf(err, MF_SYSTEM, book->db.name, "memory or the disk may be failing",
                    "check the machine; nothing was written",
                    "entry %s/%lld reads back differently from what was written", line->device,
                    (long long)line->seq);
}

static mf_status read_back_line(mf_book *book, again *use, const mf_line *line, mf_err *err)
{
    char hash[MF_HASH_HEX];
    if (!make_pieces(use, line))
        return mf_fail_memory(err);
    mf_buf_clear(&use->text);
    mf_buf_add(&use->text, use->head.data, use->head.len);
    mf_buf_text(&use->text, line->body);
    mf_buf_add(&use->text, use->middle.data, use->middle.len);
    add_prev_and_seq(&use->text, line);
    mf_buf_add(&use->text, use->tail.data, use->tail.len);
    if (use->text.failed || !mf_digest_of(use->digest, use->text.data, use->text.len, hash))
        return mf_fail_memory(err);
    return strcmp(hash, line->hash) == 0 ? MF_OK : differs(book, line, err);
}

/* Adds the line to the run, or ends the run and begins another. */
static mf_status follow(mf_book *book, mf_run *run, const mf_line *line, mf_err *err)
{
    mf_status status = MF_OK;
    bool on = run->last > 0 && strcmp(run->device, line->device) == 0 && run->last + 1 == line->seq;
    if (on && strcmp(run->hash, line->prev) != 0)
        return differs(book, line, err);
    if (!on) {
        if (run->last > 0)
            status = mf_mark_written(&book->db, run, err);
        *run = (mf_run){.first = line->seq};
        snprintf(run->device, sizeof run->device, "%s", line->device);
        snprintf(run->prev, sizeof run->prev, "%s", line->prev);
    }
    run->last = line->seq;
    mf_hash_copy(run->hash, line->hash);
    return status;
}

static mf_status read_back(mf_book *book, mf_stmt *stmt, again *use, mf_err *err)
{
    mf_status status = use->digest == NULL ? mf_fail_memory(err) : MF_OK;
    mf_run run = {.last = 0};
    bool row = true;
    int64_t rowid = book->read_to;
    mf_stmt_int(stmt, 1, rowid);
    while (status == MF_OK && row) {
        status = mf_stmt_step(stmt, &row, err);
        if (status != MF_OK || !row)
            break;
        mf_line line = mf_line_of_row(stmt);
        rowid = mf_stmt_number(stmt, ROWID);
        status = read_back_line(book, use, &line, err);
        if (status == MF_OK)
            status = follow(book, &run, &line, err);
    }
    mf_stmt_done(stmt);
    if (status == MF_OK && run.last > 0)
        status = mf_mark_written(&book->db, &run, err);
    book->read_to = status == MF_OK ? rowid : book->read_to;
    return status;
}

mf_status mf_journal_read_back(mf_book *book, mf_err *err)
{
    mf_stmt stmt;
    again use = {.digest = NULL};
    mf_status status = mf_stmt_get(
        &stmt, &book->db,
        "SELECT " MF_LINE_COLUMNS ", rowid FROM entry WHERE rowid > ?1 ORDER BY rowid", err);
    if (status != MF_OK)
        return status;
    use.digest = mf_digest_begin();
    status = read_back(book, &stmt, &use, err);
    free_again(&use);
    return status;
}

/* False when memory ran out. */
static bool copy_line(mf_line *out, mf_arena *arena, const mf_line *line)
{
    *out = (mf_line){mf_arena_text(arena, line->device), line->seq,
                     mf_arena_text(arena, line->at),     mf_arena_text(arena, line->who),
                     mf_arena_text(arena, line->kind),   mf_arena_text(arena, line->job),
                     mf_arena_text(arena, line->body),   mf_arena_text(arena, line->prev),
                     mf_arena_text(arena, line->hash)};
    return out->device != NULL && out->at != NULL && out->who != NULL && out->kind != NULL &&
           out->job != NULL && out->body != NULL && out->prev != NULL && out->hash != NULL;
}

mf_status mf_journal_find(mf_line *out, mf_arena *arena, mf_db *db, const char *device, int64_t seq,
                          bool *found, mf_err *err)
{
    mf_stmt stmt;
    *found = false;
    mf_status status = mf_stmt_get(
        &stmt, db, "SELECT " MF_LINE_COLUMNS " FROM entry WHERE device = ?1 AND seq = ?2", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, device);
    mf_stmt_int(&stmt, 2, seq);
    status = mf_stmt_step(&stmt, found, err);
    if (status == MF_OK && *found) {
        mf_line line = mf_line_of_row(&stmt);
        if (!copy_line(out, arena, &line))
            status = mf_fail_memory(err);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_journal_entry(mf_line *out, mf_arena *arena, mf_db *db, const char *id, bool *found,
                           mf_err *err)
{
    char device[MF_DEVICE_MAX + 1];
    int64_t seq = 0;
    *found = false;
    if (!mf_entry_id_split(id, device, &seq))
        return MF_OK;
    return mf_journal_find(out, arena, db, device, seq, found, err);
}
