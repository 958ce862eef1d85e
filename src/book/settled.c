/* settled.c - which jobs have nothing left to do. Whether they have the caller
 * judges; the verdict is kept until an entry comes in that may bear on it. It is a
 * note that saves time and no proof: the whole check forgets all of them. */
#include "book/settled.h"

#include "base/fail.h"
#include "book/check.h"
#include "book/touched.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char mf_settled_sql[] =
    "CREATE TABLE settled ( -- jobs, and whether they were judged to have nothing left to do: a\n"
    "                       -- note that saves time, no proof; a whole check forgets it\n"
    "  id INTEGER PRIMARY KEY -- rowid of its words in find\n"
    "  , job TEXT UNIQUE NOT NULL\n"
    "  , key TEXT NOT NULL -- as in place\n"
    "  , stage TEXT NOT NULL -- closed, outside (of the rule); '' = to be judged\n"
    "  , names TEXT NOT NULL DEFAULT '' -- people and instruments it named then, each\n"
    "                                   -- between line ends\n"
    ") STRICT;\n"
    "CREATE INDEX settled_stage ON settled (stage, job);\n"
    "CREATE INDEX settled_key ON settled (key) WHERE stage <> '';\n";

/* ---- keeping them up to date -------------------------------------------------------------- */

mf_status mf_settled_refresh(mf_db *db, const char *job, const mf_wants *w, mf_err *err)
{
    const char *const values[] = {job, w->key};
    const char *const row[] = {job, mf_buf_str(&w->words), mf_buf_str(&w->people)};
    mf_status status = mf_db_run(
        db, "DELETE FROM find WHERE rowid = (SELECT id FROM settled WHERE job = ?1)", &job, 1, err);
    if (status == MF_OK && w->n_place == 0)
        return mf_db_run(db, "DELETE FROM settled WHERE job = ?1", &job, 1, err);
    if (status == MF_OK)
        status = mf_db_run(db,
                           "INSERT INTO settled (job, key, stage) VALUES (?1, ?2, '')"
                           " ON CONFLICT (job) DO UPDATE SET key = excluded.key, stage = ''",
                           values, 2, err);
    return status == MF_OK ? mf_db_run(db,
                                       "INSERT INTO find (rowid, words, people) SELECT id, ?2, ?3"
                                       " FROM settled WHERE job = ?1",
                                       row, 3, err)
                           : status;
}

mf_status mf_settled_forget(mf_db *db, const char *job, bool others, mf_err *err)
{
    static const char one[] = "UPDATE settled SET stage = '' WHERE job = ?1 AND stage <> ''";
    static const char all[] = "UPDATE settled SET stage = '' WHERE stage <> ''"
                              " AND key = (SELECT key FROM settled WHERE job = ?1)";
    if (job[0] == '\0')
        return MF_OK; /* entries of the firm: basis.c */
    mf_status status = mf_db_run(db, one, &job, 1, err);
    return status == MF_OK && others ? mf_db_run(db, all, &job, 1, err) : status;
}

/* ---- judging -------------------------------------------------------------------------------- */

typedef struct verdict {
    const char *job;
    const char *stage; /* "" = not settled */
    const char *names; /* of a settled one (mf_basis_names) */
} verdict;

typedef struct verdicts {
    mf_arena arena;
    verdict *at;
    size_t n, cap;
    int64_t top; /* the last entry there was when the judging began */
} verdicts;

static mf_status list_open(mf_db *db, verdicts *out, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, db, "SELECT job FROM settled WHERE stage = '' ORDER BY job", err);
    while (mf_stmt_next(&stmt, &status, err)) {
        verdict *at = mf_grown(out->at, out->n, &out->cap, sizeof *at);
        if (at == NULL) {
            status = mf_fail_memory(err);
            break;
        }
        out->at = at;
        out->at[out->n] = (verdict){mf_arena_text(&out->arena, mf_stmt_column(&stmt, 0)), "", ""};
        status = out->at[out->n++].job == NULL ? mf_fail_memory(err) : MF_OK;
    }
    mf_stmt_done(&stmt);
    return status;
}

/* Saves time only: a failure is no failure. Nothing is noted when entries came in
 * while jobs were judged. */
static void keep(mf_book *book, const verdicts *all)
{
    static const char sql[] = "UPDATE settled SET stage = ?2, names = ?3 WHERE job = ?1";
    int64_t top = 0;
    size_t settled = 0;
    for (size_t i = 0; i < all->n; i++)
        settled += all->at[i].stage[0] != '\0';
    if (settled == 0 || mf_db_begin(&book->db, NULL) != MF_OK)
        return;
    mf_status status = mf_db_int(&book->db, "SELECT max(rowid) FROM entry", &top, NULL);
    for (size_t i = 0; status == MF_OK && top == all->top && i < all->n; i++) {
        const char *const row[] = {all->at[i].job, all->at[i].stage, all->at[i].names};
        if (row[1][0] != '\0')
            status = mf_db_run(&book->db, sql, row, 3, NULL);
    }
    if (status != MF_OK || mf_db_commit(&book->db, NULL) != MF_OK)
        mf_db_rollback(&book->db);
}

typedef struct judging {
    mf_judge_fn *judge;
    mf_lost_fn *lost;
    void *data;
    const mf_watch *watch;
} judging;

/* One entry that cannot be read must not hide what the other jobs have to do. MF_OK when
 * lost was told. */
static mf_status lose(mf_book *book, const char *job, mf_lost_fn *lost, void *data,
                      const mf_err *why, mf_err *err)
{
    if (lost == NULL) {
        if (err != NULL)
            *err = *why;
        return why->status;
    }
    mf_status status = mf_book_unread(book, why, err);
    if (status == MF_OK)
        lost(job, why, data);
    return status;
}

/* The job as it is judged: of what a question about it would not be answered it is known. */
static mf_status load_one(mf_book *book, mf_jobs_check *check, const char *id, mf_job **out,
                          mf_err *err)
{
    bool good = false;
    mf_status status = mf_book_job(book, id, out, err);
    if (status == MF_OK)
        status = mf_jobs_check_one(check, id, &good, err);
    if (status == MF_OK && !good)
        (*out)->integrity = MF_INTEGRITY_BROKEN;
    return status;
}

static mf_status judge_one(mf_book *book, mf_jobs_check *check, verdicts *all, verdict *it,
                           const judging *by, mf_err *err)
{
    mf_job *job = NULL;
    mf_buf names = {0};
    mf_err why = {0};
    if (load_one(book, check, it->job, &job, &why) != MF_OK) {
        mf_book_job_free(job);
        return lose(book, it->job, by->lost, by->data, &why, err);
    }
    it->stage = by->judge(job, by->data);
    if (it->stage != NULL && it->stage[0] != '\0') {
        mf_basis_names(&names, job);
        it->names = names.failed ? NULL : mf_arena_text(&all->arena, mf_buf_str(&names));
    }
    mf_buf_free(&names);
    mf_book_job_free(job);
    bool whole = it->stage != NULL && it->names != NULL;
    return whole ? MF_OK : mf_fail_memory(err);
}

/* Jobs between two words of progress. */
enum { STRIDE = 16 };

static void tell(const mf_watch *watch, size_t done, size_t total)
{
    if (watch != NULL && watch->progress != NULL && total >= STRIDE &&
        (done % STRIDE == 0 || done == total))
        watch->progress("jobs", (int64_t)done, (int64_t)total, watch->data);
}

static mf_status judge_all(mf_book *book, mf_jobs_check *check, verdicts *all, const judging *by,
                           mf_err *err)
{
    mf_status status = all->n == 0 ? MF_OK : mf_jobs_check_begin(check, book, err);
    for (size_t i = 0; status == MF_OK && i < all->n; i++) {
        status = judge_one(book, check, all, &all->at[i], by, err);
        tell(by->watch, i + 1, all->n);
    }
    return status;
}

MF_API mf_status mf_book_unsettled(mf_book *book, mf_judge_fn *judge, mf_lost_fn *lost, void *data,
                                   const mf_watch *watch, mf_err *err)
{
    const judging by = {judge, lost, data, watch};
    mf_jobs_check check = {.shared = {0}};
    verdicts all = {0};
    bool own = false;
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_basis_forget(book, err);
    if (status == MF_OK)
        status = mf_snapshot_begin(&own, book, err);
    if (status == MF_OK)
        status = mf_db_int(&book->db, "SELECT max(rowid) FROM entry", &all.top, err);
    if (status == MF_OK)
        status = list_open(&book->db, &all, err);
    if (status == MF_OK)
        status = judge_all(book, &check, &all, &by, err);
    mf_snapshot_end(own, book);
    mf_jobs_check_end(&check, own && status == MF_OK);
    if (status == MF_OK && own)
        keep(book, &all);
    free(all.at);
    mf_arena_free(&all.arena);
    return status;
}

MF_API mf_status mf_book_settled(mf_book *book, const char *stage, mf_settled_fn *fn, void *data,
                                 mf_err *err)
{
    static const char of_all[] = "SELECT s.job, h.address, h.\"start\", s.stage FROM settled AS s"
                                 " JOIN place AS h ON h.job = s.job WHERE s.stage <> ''"
                                 " ORDER BY s.job, h.nth";
    static const char of_one[] = "SELECT s.job, h.address, h.\"start\", s.stage FROM settled AS s"
                                 " JOIN place AS h ON h.job = s.job WHERE s.stage = ?1"
                                 " ORDER BY s.job, h.nth";
    mf_stmt stmt;
    bool more = true;
    mf_status status = mf_touched_settle(book, err);
    if (status != MF_OK)
        return status;
    status = mf_stmt_get(&stmt, &book->db, stage == NULL ? of_all : of_one, err);
    if (status == MF_OK && stage != NULL)
        mf_stmt_text(&stmt, 1, stage);
    while (more && mf_stmt_next(&stmt, &status, err))
        more = fn(mf_stmt_column(&stmt, 0), mf_stmt_column(&stmt, 1),
                  mf_day_parse(mf_stmt_column(&stmt, 2), NULL), mf_stmt_column(&stmt, 3), data);
    mf_stmt_done(&stmt);
    return status;
}

/* ---- checking -------------------------------------------------------------------------------- */

/* SQLite compares the index with the words by a command that counts as writing. */
mf_status mf_settled_check(mf_checker *c, mf_err *err)
{
    mf_db *db = &c->book->db;
    mf_err cannot = {0};
    mf_status status = mf_db_begin(db, err);
    if (status != MF_OK)
        return status;
    status = mf_db_exec(db, "INSERT INTO find (find) VALUES ('integrity-check')", &cannot);
    if (status == MF_OK &&
        mf_db_exec(db, "UPDATE settled SET stage = '' WHERE stage <> ''", NULL) == MF_OK &&
        mf_db_commit(db, NULL) == MF_OK)
        return MF_OK;
    bool wrong = status != MF_OK && mf_db_lacks(db);
    mf_db_rollback(db);
    if (wrong)
        mf_fault(c, false, "table find", "its index is not of its words: %.200s", cannot.what);
    else if (status != MF_OK && err != NULL)
        *err = cannot;
    return wrong ? MF_OK : status;
}
