/* entries_import.c - the way back of entries that left as a file. The file is proved whole
 * before anything of it is looked at, then its lines go the way of a merge. */
#include "base/fail.h"
#include "base/utf8.h"
#include "book/attach.h"
#include "book/entries_fit.h"
#include "book/known.h"
#include "book/refs.h"
#include "journal/entries_file.h"
#include <mistfold/entries.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct bytes_there {
    char sha256[MF_HASH_HEX];
} bytes_there;

typedef struct taking {
    const mf_entries_ask *ask;
    mf_entries_report *out;
    mf_merge m;
    mf_fit fit;
    mf_sha256 by;
    mf_entries_heads heads, stopped; /* of the file; devices of which no more is taken */
    bytes_there *there;              /* bytes in the file */
    size_t n_there, cap_there;
    const char *job; /* of the file */
    mf_arena arena;
} taking;

/* ---- the file alone --------------------------------------------------------------------- */

static mf_status note_bytes(taking *in, const char *sha256, mf_err *err)
{
    bytes_there *grown = mf_grown(in->there, in->n_there, &in->cap_there, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    in->there = grown;
    mf_hash_copy(grown[in->n_there++].sha256, sha256);
    return MF_OK;
}

/* Everything in it gives its hash. */
static mf_status prove(taking *in, mf_err *err)
{
    mf_entries_reader r = {0};
    mf_entries_part part = MF_PART_LINE;
    mf_status status =
        mf_entries_file_begin(&r, in->ask->name, in->ask->bytes, in->ask->len, &in->by, err);
    while (status == MF_OK && part != MF_PART_END) {
        status = mf_entries_file_next(&r, &part, err);
        if (status == MF_OK && part == MF_PART_CONTENT)
            status = note_bytes(in, r.sha256, err);
        in->m.total += part == MF_PART_LINE;
    }
    in->out->cut = r.cut;
    in->heads = r.heads;
    r.heads = (mf_entries_heads){0};
    const char *job = status == MF_OK ? mf_arena_text(&in->arena, r.job) : in->job;
    if (job == NULL)
        status = mf_fail_memory(err);
    else
        in->job = job;
    mf_entries_file_free(&r);
    return status;
}

static mf_status check_job(const taking *in, mf_err *err)
{
    char shown[60];
    if (in->ask->job != NULL && strcmp(in->ask->job, in->job) != 0) {
        mf_utf8_show(shown, sizeof shown, in->job);
        return mf_failf(err, MF_INPUT, in->ask->name, "each job is handed over by its own file",
                        "hand over the file of that job; nothing was taken over",
                        "it is of the job %s, not of %.40s", shown, in->ask->job);
    }
    return in->job[0] == '\0' ? mf_no_such_job(in->job, in->ask->name, err)
                              : mf_job_check(in->m.book, in->job, in->ask->name, err);
}

/* ---- its entries ------------------------------------------------------------------------ */

/* The one before it on its device must be here, or have come in a moment ago. */
static mf_status check_before(taking *in, const mf_line *line, mf_err *err)
{
    char have[MF_MERGE_HEAD];
    bool found = false;
    mf_line prev;
    mf_arena arena = {0};
    if (line->seq == 1)
        return MF_OK;
    mf_status status =
        mf_journal_find(&prev, &arena, &in->m.book->db, line->device, line->seq - 1, &found, err);
    bool follows = found && strcmp(prev.hash, line->prev) == 0;
    mf_arena_free(&arena);
    if (status == MF_OK && !follows)
        status = mf_merge_head(&in->m.book->db, line->device, have, err);
    if (status != MF_OK || follows)
        return status;
    return mf_failf(err, MF_INPUT, in->ask->name, "a device's entries come in one after another",
                    "hand over a file that has them all, or merge the book they are in; nothing "
                    "was taken over",
                    "entry %s/%lld does not follow the last one that is here, %s", line->device,
                    (long long)line->seq, have[0] == '\0' ? "none" : have);
}

static mf_status has_bytes(taking *in, const mf_line *line, bool *has, mf_err *err)
{
    mf_body body = {.text = line->body};
    mf_status status = mf_body_tree(&body, err);
    const char *sha256 = mf_json_string_of(body.tree, "sha256");
    *has = false;
    for (size_t i = 0; i < in->n_there && !*has; i++)
        *has = strcmp(in->there[i].sha256, sha256) == 0;
    if (status == MF_OK && !*has)
        status = mf_content_has(&in->m.book->db, sha256, has, err);
    mf_body_free(&body);
    return status;
}

/* In a file that was cut off, the entries of a device end where bytes are missing. */
static mf_status is_left(taking *in, const mf_line *line, bool *left, mf_err *err)
{
    bool has = true;
    mf_status status = MF_OK;
    *left = mf_entries_head_of(&in->stopped, line->device) != NULL;
    if (!in->out->cut || *left || strcmp(line->kind, MF_KIND_ATTACHMENT) != 0)
        return MF_OK;
    status = has_bytes(in, line, &has, err);
    *left = !has;
    if (status == MF_OK && *left && !mf_entries_head_note(&in->stopped, line))
        status = mf_fail_memory(err);
    return status;
}

static mf_status take_new(taking *in, const mf_line *line, mf_err *err)
{
    bool left = false;
    mf_status status = is_left(in, line, &left, err);
    if (status == MF_OK && left) {
        in->out->left++;
        return MF_OK;
    }
    if (status == MF_OK && strcmp(line->device, in->m.book->device) != 0) {
        status = mf_fit_line(&in->fit, line, err);
        if (status == MF_OK)
            status = check_before(in, line, err);
    }
    return status == MF_OK ? mf_merge_add(&in->m, line, err) : status;
}

static mf_status take_line(taking *in, const mf_line *line, mf_err *err)
{
    char head[MF_MERGE_HEAD];
    bool here = false;
    const mf_entries_head *last = mf_entries_head_of(&in->heads, line->device);
    snprintf(head, sizeof head, "%.16s/%lld (%.16s...)", line->device,
             last == NULL ? 0 : (long long)last->seq, last == NULL ? "" : last->hash);
    mf_status status = mf_merge_here(&in->m, line, head, &here, err);
    return status == MF_OK && !here ? take_new(in, line, err) : status;
}

/* ---- its bytes ----------------------------------------------------------------------------- */

/* Bytes that no entry names were cut off from theirs; in a whole file somebody put them there,
 * and mf_merge_contents_whole says so. */
static mf_status take_bytes(taking *in, const mf_entries_reader *r, mf_err *err)
{
    mf_stmt stmt;
    bool named = false;
    mf_status status = mf_stmt_get(&stmt, &in->m.book->db,
                                   "SELECT 1 FROM entry WHERE rowid > ?1 AND kind = 'attachment'"
                                   " AND " MF_SHA256_OF_BODY " = ?2",
                                   err);
    if (status != MF_OK)
        return status;
    mf_stmt_int(&stmt, 1, in->m.book->group_from);
    mf_stmt_text(&stmt, 2, r->sha256);
    status = mf_stmt_step(&stmt, &named, err);
    mf_stmt_done(&stmt);
    named = named || !in->out->cut;
    if (status == MF_OK && named)
        status = mf_content_put(&in->m.book->db, r->sha256, r->bytes.data, r->bytes.len, err);
    in->m.out->contents += status == MF_OK && named ? sqlite3_changes(in->m.book->db.handle) : 0;
    return status;
}

/* ---- the whole ------------------------------------------------------------------------------ */

static mf_status take_part(taking *in, bool bytes, mf_err *err)
{
    mf_entries_reader r = {0};
    mf_entries_part part = MF_PART_LINE;
    mf_status status =
        mf_entries_file_begin(&r, in->ask->name, in->ask->bytes, in->ask->len, &in->by, err);
    r.without_bytes = !bytes;
    while (status == MF_OK && part != MF_PART_END) {
        status = mf_entries_file_next(&r, &part, err);
        if (status == MF_OK && part == MF_PART_LINE && !bytes)
            status = take_line(in, &r.line, err);
        if (status == MF_OK && part == MF_PART_CONTENT && bytes)
            status = take_bytes(in, &r, err);
    }
    mf_entries_file_free(&r);
    return status;
}

static mf_status take_file(taking *in, mf_err *err)
{
    int64_t behind = 0;
    mf_merge *m = &in->m;
    mf_status status = check_job(in, err);
    if (status == MF_OK)
        status =
            mf_db_int(&m->book->db, "SELECT coalesce(max(rowid), 0) FROM content", &behind, err);
    if (status == MF_OK)
        status = take_part(in, false, err);
    if (status == MF_OK && in->n_there > 0)
        status = take_part(in, true, err);
    if (status == MF_OK)
        status = mf_merge_contents_whole(m, behind, err);
    if (status == MF_OK)
        status = mf_merge_stands(m, err);
    if (status == MF_OK)
        status = mf_fit_all(&in->fit, err);
    if (status == MF_OK)
        status = mf_merge_tell(m, err);
    return status == MF_OK ? mf_book_head(m->book, in->out->head, err) : status;
}

static mf_status take_locked(taking *in, mf_err *err)
{
    mf_part part = {0};
    mf_status status = mf_part_begin(&part, in->m.book, err);
    if (status == MF_OK)
        status = take_file(in, err);
    return mf_part_end(&part, in->m.book, status, err);
}

/* Of each device in the file, what the book has. */
static mf_status tell_heads(const taking *in, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < in->heads.n; i++) {
        const char *device = in->heads.at[i].device;
        mf_journal_end end;
        status = mf_journal_last(&end, &in->m.book->db, device, err);
        if (end.seq > 0 && !in->ask->head(device, end.seq, end.hash, in->ask->data))
            break;
    }
    return status;
}

MF_API mf_status mf_book_import_entries(mf_book *book, const mf_entries_ask *ask,
                                        mf_entries_report *out, mf_err *err)
{
    static const mf_watch nobody = {0};
    *out = (mf_entries_report){0};
    taking in = {.ask = ask, .out = out, .job = ""};
    in.m = (mf_merge){.book = book,
                      .name = ask->name,
                      .altered = "the file was altered",
                      .again = "take it from where it was made once more; nothing was taken over",
                      .watch = ask->watch == NULL ? &nobody : ask->watch,
                      .out = &out->merge};
    in.m.checker = (mf_checker){.book = book, .out = &in.m.found, .watch = &nobody};
    mf_status status = mf_book_sha256(book, &in.by, err);
    if (status == MF_OK)
        status = prove(&in, err);
    in.fit = (mf_fit){&in.m, in.job, ask->who, ask->now};
    if (status == MF_OK)
        status = take_locked(&in, err);
    if (status == MF_OK && ask->head != NULL)
        status = tell_heads(&in, err);
    mf_checker_end(&in.m.checker);
    free(in.heads.at);
    free(in.stopped.at);
    free(in.there);
    mf_arena_free(&in.arena);
    if (status != MF_OK)
        *out = (mf_entries_report){0};
    return status;
}
