#include "book/journal.h"

#include "base/digest.h"
#include "base/fail.h"
#include "book/held.h"
#include "book/known.h"
#include "book/mark.h"
#include "book/touched.h"
#include <stdio.h>
#include <string.h>

mf_status mf_book_sha256(mf_book *book, mf_sha256 *out, mf_err *err)
{
    if (book->digest == NULL)
        book->digest = mf_digest_begin();
    *out = (mf_sha256){mf_digest_of, book->digest};
    return book->digest == NULL ? mf_fail_memory(err) : MF_OK;
}

mf_status mf_entry_hash(mf_book *book, const mf_line *line, char out[MF_HASH_HEX], mf_err *err)
{
    mf_sha256 by;
    mf_status status = mf_book_sha256(book, &by, err);
    return status == MF_OK ? mf_line_hash(line, &by, &book->text, out, err) : status;
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

mf_status mf_journal_last(mf_journal_end *out, mf_db *db, const char *device, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    *out = (mf_journal_end){.seq = 0};
    mf_hash_copy(out->hash, mf_zero_hash);
    mf_status status = mf_stmt_get(&stmt, db,
                                   "SELECT seq, hash, rowid FROM entry WHERE device = ?1"
                                   " ORDER BY seq DESC LIMIT 1",
                                   err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, device);
    status = mf_stmt_step(&stmt, &row, err);
    if (row) {
        out->seq = mf_stmt_number(&stmt, 0);
        mf_hash_copy(out->hash, mf_stmt_column(&stmt, 1));
        out->rowid = mf_stmt_number(&stmt, 2);
    }
    mf_stmt_done(&stmt);
    return status;
}

/* ---- adding ----------------------------------------------------------------------------- */

/* seq and hash of our last entry; 0 and zeros before the first. */
static mf_status last_of_ours(mf_book *book, int64_t *seq, char hash[MF_HASH_HEX], mf_err *err)
{
    mf_journal_end end;
    if (book->last_seq > 0) {
        *seq = book->last_seq;
        memcpy(hash, book->last_hash, MF_HASH_HEX);
        return MF_OK;
    }
    mf_status status = mf_journal_last(&end, &book->db, book->device, err);
    *seq = end.seq;
    mf_hash_copy(hash, end.hash);
    return status;
}

static mf_status insert(mf_db *db, const mf_line *line, mf_err *err)
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

/* A correction bears on what its target bears on, which may be that of another device and
 * come in later: then on everything. */
static mf_status touch(mf_book *book, const mf_line *line, mf_err *err)
{
    mf_arena arena = {0};
    mf_body body = {.text = line->body};
    mf_line target = {.kind = MF_KIND_CORRECTION};
    bool found = false;
    mf_status status = MF_OK;
    if (strcmp(line->kind, MF_KIND_CORRECTION) != 0)
        return mf_touch(book, line->job, line->kind, false, err);
    status = mf_body_tree(&body, err);
    if (status == MF_OK)
        status = mf_journal_entry(&target, &arena, &book->db,
                                  mf_json_string_of(body.tree, "target"), &found, err);
    if (status == MF_OK)
        status = mf_touch(book, line->job, found ? target.kind : MF_KIND_CORRECTION, true, err);
    mf_body_free(&body);
    mf_arena_free(&arena);
    return status;
}

mf_status mf_journal_insert(mf_book *book, const mf_line *line, mf_err *err)
{
    mf_status status = insert(&book->db, line, err);
    if (status == MF_OK)
        status = touch(book, line, err);
    if (status == MF_OK)
        status = mf_known_learn(book, line, sqlite3_last_insert_rowid(book->db.handle), err);
    return status;
}

mf_status mf_journal_append(mf_book *book, const char *kind, const char *job, const char *body,
                            const mf_now *now, char id[MF_ENTRY_ID], int64_t *seq, mf_err *err)
{
    char prev[MF_HASH_HEX], hash[MF_HASH_HEX];
    mf_status status = last_of_ours(book, seq, prev, err);
    *seq += 1;
    mf_line line = {book->device, *seq, now->at, now->who, kind, job, body, prev, hash};
    if (status == MF_OK)
        status = mf_entry_hash(book, &line, hash, err);
    if (status == MF_OK)
        status = mf_journal_insert(book, &line, err);
    if (status != MF_OK)
        return status;
    mf_line_id(&line, id);
    book->last_seq = book->in_group ? *seq : 0;
    mf_hash_copy(book->last_hash, hash);
    return MF_OK;
}

/* ---- reading -------------------------------------------------------------------------------- */

static mf_status differs(const mf_book *book, const mf_line *line, mf_err *err)
{
    return mf_failf(err, MF_SYSTEM, book->db.name, "memory or the disk may be failing",
                    "check the machine; nothing was written",
                    "entry %s/%lld reads back differently from what was written", line->device,
                    (long long)line->seq);
}

static mf_status read_back_line(mf_book *book, const mf_line *line, mf_err *err)
{
    char hash[MF_HASH_HEX];
    mf_status status = mf_entry_hash(book, line, hash, err);
    return status == MF_OK && strcmp(hash, line->hash) != 0 ? differs(book, line, err) : status;
}

/* Counts the entries of one job that stand behind each other. */
static mf_status count(mf_book *book, mf_buf *job, int64_t *n, const char *next, mf_err *err)
{
    if (*n > 0 && next != NULL && strcmp(mf_buf_str(job), next) == 0) {
        ++*n;
        return MF_OK;
    }
    mf_status status = *n == 0 ? MF_OK : mf_held_add(&book->db, mf_buf_str(job), *n, err);
    mf_buf_clear(job);
    mf_buf_text(job, next == NULL ? "" : next);
    *n = 1;
    return status == MF_OK && job->failed ? mf_fail_memory(err) : status;
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

static mf_status read_back(mf_book *book, mf_stmt *stmt, mf_buf *job, mf_err *err)
{
    mf_status status = MF_OK;
    mf_run run = {.last = 0};
    int64_t rowid = book->read_to, n = 0;
    mf_stmt_int(stmt, 1, rowid);
    while (mf_stmt_next(stmt, &status, err)) {
        mf_line line = mf_line_of_row(stmt);
        rowid = mf_stmt_number(stmt, MF_LINE_N_COLUMNS);
        status = read_back_line(book, &line, err);
        if (status == MF_OK)
            status = follow(book, &run, &line, err);
        if (status == MF_OK)
            status = count(book, job, &n, line.job, err);
    }
    if (status == MF_OK)
        status = count(book, job, &n, NULL, err);
    if (status == MF_OK && run.last > 0)
        status = mf_mark_written(&book->db, &run, err);
    book->read_to = status == MF_OK ? rowid : book->read_to;
    return status;
}

mf_status mf_journal_read_back(mf_book *book, mf_err *err)
{
    mf_stmt stmt;
    mf_buf job = {0};
    mf_status status =
        mf_stmt_get(&stmt, &book->db, MF_LINE_SELECT " WHERE rowid > ?1 ORDER BY rowid", err);
    if (status == MF_OK)
        status = read_back(book, &stmt, &job, err);
    mf_stmt_done(&stmt);
    mf_buf_free(&job);
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

/* Asks for columns of one entry; *row whether it is there. stmt is the caller's to end in any
 * case. */
#define OF_ENTRY(columns) "SELECT " columns " FROM entry WHERE device = ?1 AND seq = ?2"
static mf_status ask_of_entry(mf_stmt *stmt, mf_db *db, const char *sql, const char *device,
                              int64_t seq, bool *row, mf_err *err)
{
    *row = false;
    mf_status status = mf_stmt_get(stmt, db, sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(stmt, 1, device);
    mf_stmt_int(stmt, 2, seq);
    return mf_stmt_step(stmt, row, err);
}

mf_status mf_journal_find(mf_line *out, mf_arena *arena, mf_db *db, const char *device, int64_t seq,
                          bool *found, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = ask_of_entry(&stmt, db, OF_ENTRY(MF_LINE_COLUMNS), device, seq, found, err);
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

mf_status mf_journal_hash(mf_db *db, const char *device, int64_t seq, char out[MF_HASH_HEX],
                          mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    out[0] = '\0';
    mf_status status = ask_of_entry(&stmt, db, OF_ENTRY("hash"), device, seq, &row, err);
    if (row)
        mf_hash_copy(out, mf_stmt_column(&stmt, 0));
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_journal_rowid(mf_book *book, const char *id, int64_t *rowid, mf_err *err)
{
    mf_stmt stmt;
    char device[MF_DEVICE_MAX + 1];
    int64_t seq = 0;
    bool row = false;
    *rowid = 0;
    if (!mf_entry_id_split(id, device, &seq))
        return MF_OK;
    mf_status status = ask_of_entry(&stmt, &book->db, OF_ENTRY("rowid"), device, seq, &row, err);
    if (row)
        *rowid = mf_stmt_number(&stmt, 0);
    mf_stmt_done(&stmt);
    return status;
}
