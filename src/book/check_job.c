/* check_job.c - the check before an answer about one job. What it costs depends on
 * the job, the firm and what is new, not on the size of the book. */
#include "base/fail.h"
#include "book/check.h"
#include "book/index.h"
#include "book/mark.h"
#include "book/signed.h"
#include "book/touched.h"
#include <stdio.h>
#include <string.h>

/* ---- what no check has seen yet ---------------------------------------------------------- */

/* Those of the jobs and the firm are hashed in their turn (check_entries). */
static mf_status check_new(mf_checker *c, const mf_asked *jobs, mf_mark *mark, mf_err *err)
{
    mf_stmt stmt;
    mf_chain before = {.seq = mark->seq};
    snprintf(before.hash, sizeof before.hash, "%s", mark->hash);
    mf_status status = mf_stmt_get(
        &stmt, &c->book->db, MF_LINE_SELECT " WHERE device = ?1 AND seq > ?2 ORDER BY seq", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, mark->device);
    mf_stmt_int(&stmt, 2, mark->seq);
    while (mf_stmt_next(&stmt, &status, err)) {
        char where[MF_ENTRY_WHERE];
        mf_body body = {.tree = NULL};
        mf_line line = mf_line_of_row(&stmt);
        mf_line_where(&line, where);
        if (line.job[0] != '\0' && !mf_asked_has(jobs, line.job))
            status = mf_check_line(c, &stmt, &line, where, &body, err);
        mf_check_link(c, &before, &line, mf_stmt_number(&stmt, MF_LINE_N_COLUMNS), where);
        mf_body_free(&body);
    }
    mf_stmt_done(&stmt);
    mark->moved = before.seq > mark->seq;
    mark->seq = before.seq;
    snprintf(mark->hash, sizeof mark->hash, "%s", before.hash);
    return status;
}

/* The entry the mark stands on must still be the one that was checked. */
static mf_status check_mark(mf_checker *c, const mf_mark *mark, mf_err *err)
{
    char where[64];
    bool found = false;
    mf_arena arena = {0};
    mf_line line;
    if (mark->seq == 0)
        return MF_OK;
    mf_status status =
        mf_journal_find(&line, &arena, &c->book->db, mark->device, mark->seq, &found, err);
    snprintf(where, sizeof where, "entry %.30s/%lld", mark->device, (long long)mark->seq);
    if (status == MF_OK && !found)
        mf_fault(c, true, where, "it was there at the last check, and is missing");
    else if (status == MF_OK && strcmp(line.hash, mark->hash) != 0)
        mf_fault(c, true, where, "its hash is not the one of the last check");
    mf_arena_free(&arena);
    return status;
}

mf_status mf_check_marks(mf_checker *c, mf_err *err)
{
    mf_marks marks = {0};
    mf_status status = mf_marks_load(&marks, &c->book->db, err);
    for (size_t i = 0; status == MF_OK && i < marks.n; i++)
        status = check_mark(c, &marks.at[i], err);
    mf_marks_free(&marks);
    return status;
}

static mf_status check_devices(mf_checker *c, const mf_asked *jobs, mf_marks *marks, mf_err *err)
{
    mf_status status = mf_marks_load(marks, &c->book->db, err);
    for (size_t i = 0; status == MF_OK && i < marks->n; i++) {
        c->out->devices++;
        status = check_mark(c, &marks->at[i], err);
        if (status == MF_OK)
            status = check_new(c, jobs, &marks->at[i], err);
        c->out->earlier += marks->at[i].seq;
    }
    return status;
}

/* ---- the jobs and the firm ---------------------------------------------------------------------
 */

/* Whether it is one of those that are read, and was not among those that were read before. */
static bool unmet(const mf_asked *jobs, const mf_line *neighbor)
{
    if (neighbor->job[0] != '\0')
        return mf_asked_has(jobs, neighbor->job);
    return jobs->firm_read == NULL ||
           !mf_firm_was_read(jobs->firm_read, neighbor->device, neighbor->seq);
}

/* A neighbor that was not met, though it is one of those that are read: an index hides it. */
static void check_hidden(mf_checker *c, const mf_asked *jobs, const mf_line *neighbor)
{
    char where[MF_ENTRY_WHERE];
    mf_line_where(neighbor, where);
    if (unmet(jobs, neighbor))
        mf_fault(c, true, where, "the index of the journal does not lead to it");
}

/* The two links of an entry whose neighbors belong to other jobs, which are not read
 * here: somebody who changes it and computes its hash anew makes the next one wrong. */
static mf_status check_before(mf_checker *c, const mf_asked *jobs, const mf_line *line,
                              const char *where, mf_err *err)
{
    bool found = false;
    mf_arena arena = {0};
    mf_line prev;
    if (line->seq == 1)
        return MF_OK; /* the guard of the table and the hash hold it */
    mf_status status =
        mf_journal_find(&prev, &arena, &c->book->db, line->device, line->seq - 1, &found, err);
    if (status == MF_OK && !found)
        mf_fault(c, true, where, "entry %s/%lld before it is missing", line->device,
                 (long long)line->seq - 1);
    else if (status == MF_OK && strcmp(prev.hash, line->prev) != 0)
        mf_fault(c, true, where, "it does not name the hash of the entry before it");
    if (status == MF_OK && found)
        check_hidden(c, jobs, &prev);
    mf_arena_free(&arena);
    return status;
}

/* That there is none behind the last of a device the mark tells (check_mark). */
static mf_status check_behind(mf_checker *c, const mf_asked *jobs, const mf_chain *last,
                              mf_err *err)
{
    char hash[MF_HASH_HEX], where[MF_ENTRY_WHERE];
    bool found = false;
    mf_arena arena = {0};
    mf_line next;
    if (last->seq == 0)
        return MF_OK;
    mf_status status =
        mf_journal_find(&next, &arena, &c->book->db, last->device, last->seq + 1, &found, err);
    if (status == MF_OK && found) {
        mf_line_where(&next, where);
        status = mf_entry_hash(c->book, &next, hash, err);
        if (status == MF_OK && strcmp(next.prev, last->hash) != 0)
            mf_fault(c, true, where, "it does not name the hash of the entry before it");
        else if (status == MF_OK && strcmp(next.hash, hash) != 0)
            mf_fault(c, true, where, "it was altered: its text does not give its hash");
        check_hidden(c, jobs, &next);
    }
    mf_arena_free(&arena);
    return status;
}

/* Entries come in the order of the chains: most stand right behind the one read last. */
static mf_status check_links(mf_checker *c, const mf_asked *jobs, mf_chain *last,
                             const mf_line *line, int64_t rowid, const char *where, mf_err *err)
{
    mf_status status = MF_OK;
    if (strcmp(last->device, line->device) == 0 && last->seq + 1 == line->seq) {
        mf_check_link(c, last, line, rowid, where);
        return MF_OK;
    }
    status = check_behind(c, jobs, last, err);
    if (status == MF_OK)
        status = check_before(c, jobs, line, where, err);
    snprintf(last->device, sizeof last->device, "%s", line->device);
    last->seq = line->seq;
    last->rowid = rowid;
    mf_hash_copy(last->hash, line->hash);
    return status;
}

/* The bytes of what is attached to other jobs bear on no answer about this one. */
static bool has_bytes(const mf_asked *jobs, const mf_line *line)
{
    return strcmp(line->kind, "attachment") == 0 &&
           (line->job[0] == '\0' || strcmp(line->job, jobs->id[0]) == 0);
}

static mf_status check_one(mf_checker *c, mf_stmt *stmt, const mf_asked *jobs, const mf_line *line,
                           mf_chain *last, mf_err *err)
{
    char where[MF_ENTRY_WHERE];
    mf_body body = {.tree = NULL};
    mf_line_where(line, where);
    mf_status status = mf_check_line(c, stmt, line, where, &body, err);
    if (status == MF_OK)
        status =
            check_links(c, jobs, last, line, mf_stmt_number(stmt, MF_LINE_N_COLUMNS), where, err);
    bool attachment = has_bytes(jobs, line);
    if (status == MF_OK && attachment)
        status = mf_body_tree(&body, err);
    if (status == MF_OK && attachment) {
        const char *sha256 = json_string_value(json_object_get(body.tree, "sha256"));
        status = mf_check_content(c, where, sha256 == NULL ? "" : sha256, err);
    }
    mf_body_free(&body);
    return status;
}

/* Those of the firm are noted in firm, unless it is NULL. */
static mf_status check_entries(mf_checker *c, const mf_asked *jobs, mf_firm_read *firm, mf_err *err)
{
    mf_stmt stmt = {0};
    mf_buf sql = {0};
    mf_chain last = {.seq = 0};
    mf_buf_text(&sql, MF_LINE_SELECT " WHERE job");
    mf_asked_sql(&sql, jobs);
    mf_buf_text(&sql, " ORDER BY device, seq");
    mf_status status = mf_stmt_take(&stmt, &c->book->db, &sql, err);
    if (status != MF_OK)
        return status;
    mf_asked_bind(&stmt, jobs);
    while (mf_stmt_next(&stmt, &status, err)) {
        mf_line line = mf_line_of_row(&stmt);
        status = check_one(c, &stmt, jobs, &line, &last, err);
        if (status == MF_OK && firm != NULL && line.job[0] == '\0')
            status = mf_firm_read_add(firm, line.device, line.seq, err);
    }
    mf_stmt_done(&stmt);
    return status == MF_OK ? check_behind(c, jobs, &last, err) : status;
}

static mf_status check_indexes(mf_checker *c, const mf_asked *jobs, mf_err *err)
{
    mf_status status = jobs->firm_read != NULL ? MF_OK : mf_index_check(c, "", err);
    for (size_t i = 0; status == MF_OK && i < jobs->n; i++)
        status = jobs->id[i][0] == '\0' ? MF_OK : mf_index_check(c, jobs->id[i], err);
    return status;
}

static mf_status check_jobs(mf_checker *c, const mf_asked *jobs, mf_marks *marks, mf_err *err)
{
    mf_status status = check_devices(c, jobs, marks, err);
    if (status == MF_OK)
        status = check_entries(c, jobs, NULL, err);
    if (status == MF_OK)
        status = check_indexes(c, jobs, err);
    c->out->earlier -= c->out->entries; /* of all, those that were read now */
    return status;
}

static mf_status check_all(mf_checker *c, const char *job, mf_marks *marks, mf_err *err)
{
    mf_asked jobs = {.n = 0};
    mf_checker_begin(c);
    mf_status status = mf_check_schema(c, err);
    if (status == MF_OK)
        status = mf_asked_load(&jobs, c->book, job, err);
    if (status == MF_OK)
        status = check_jobs(c, &jobs, marks, err);
    if (status == MF_OK && c->out->faults == 0) /* of a chain made anew nothing else tells here */
        status = mf_check_signed(c, err);
    mf_asked_free(&jobs);
    return status == MF_OK ? mf_book_head(c->book, c->out->head, err) : status;
}

/* ---- many jobs --------------------------------------------------------------------------- */

mf_status mf_jobs_check_begin(mf_jobs_check *out, mf_book *book, mf_err *err)
{
    static const mf_watch nobody = {0};
    const mf_asked none = {.n = 0};
    *out = (mf_jobs_check){.shared = {0}};
    out->c = (mf_checker){.book = book, .out = &out->shared, .watch = &nobody};
    mf_checker_begin(&out->c);
    mf_status status = mf_check_schema(&out->c, err);
    if (status == MF_OK)
        status = check_devices(&out->c, &none, &out->marks, err);
    if (status == MF_OK)
        status = check_entries(&out->c, &none, &out->firm, err);
    if (status == MF_OK)
        status = check_indexes(&out->c, &none, err);
    if (status == MF_OK && out->shared.faults == 0)
        status = mf_check_signed(&out->c, err);
    return status;
}

mf_status mf_jobs_check_one(mf_jobs_check *check, const char *job, bool *good, mf_err *err)
{
    mf_asked jobs = {.n = 0};
    check->one = (mf_book_report){0};
    check->c.out = &check->one;
    mf_status status = mf_asked_load(&jobs, check->c.book, job, err);
    jobs.firm_read = &check->firm;
    if (status == MF_OK)
        status = check_entries(&check->c, &jobs, NULL, err);
    if (status == MF_OK)
        status = check_indexes(&check->c, &jobs, err);
    mf_asked_free(&jobs);
    *good = status == MF_OK && check->one.faults + check->shared.faults == 0;
    return status;
}

void mf_jobs_check_end(mf_jobs_check *check, bool whole)
{
    if (whole && check->shared.faults == 0)
        mf_marks_save(&check->marks, check->c.book);
    mf_marks_free(&check->marks);
    mf_firm_read_free(&check->firm);
    mf_checker_end(&check->c);
}

/* ---- one ------------------------------------------------------------------------------------ */

MF_API mf_status mf_book_check_job(mf_book *book, const char *job, mf_book_report *out, mf_err *err)
{
    static const mf_watch nobody = {0};
    *out = (mf_book_report){0};
    mf_checker c = {.book = book, .out = out, .watch = &nobody};
    mf_marks marks = {0};
    bool own = false;
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_snapshot_begin(&own, book, err);
    if (status == MF_OK)
        status = check_all(&c, job, &marks, err);
    mf_checker_end(&c);
    mf_snapshot_end(own, book);
    if (status == MF_OK && out->faults == 0 && own)
        mf_marks_save(&marks, book);
    mf_marks_free(&marks);
    return status == MF_OK ? mf_checker_verdict(&c, err) : status;
}
