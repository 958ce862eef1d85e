/* check_index.c - the tables over all jobs, and the words of find, against what the journal
 * gives. */
#include "base/fail.h"
#include "book/held.h"
#include "book/index.h"
#include "book/job_lines.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* One of these tables: what it has of a job, as one text. A unit separator, which is in no
 * text of ours, parts the columns. */
#define PART " || char(31) || "
static const char places[] = "SELECT key" PART "address" PART "unit" PART "start FROM place"
                             " WHERE job = ?1 ORDER BY nth";
static const char dues[] = "SELECT what" PART "day" PART "who" PART "entry FROM due"
                           " WHERE job = ?1 ORDER BY what, entry";
static const char corrections[] = "SELECT device || '/' || seq" PART "target" PART "replaces"
                                  " FROM corrects WHERE job = ?1 ORDER BY 1";
static const char notes[] = "SELECT s.key" PART "ifnull(f.words" PART "f.people, '')"
                            " FROM settled AS s LEFT JOIN find AS f ON f.rowid = s.id"
                            " WHERE s.job = ?1";

/* ---- what should be there ------------------------------------------------------------ */

static void add_row(mf_buf *out, const char *const *columns, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        mf_buf_text(out, i == 0 ? "" : "\x1F");
        mf_buf_text(out, columns[i]);
    }
    mf_buf_text(out, "\n");
}

static void add_places(mf_buf *out, const mf_wants *w)
{
    for (size_t i = 0; i < w->n_place; i++) {
        char key[MF_ADDRESS_KEY];
        mf_address_key(w->place[i].address, key);
        const char *const row[] = {key, w->place[i].address, w->place[i].unit, w->place[i].start};
        add_row(out, row, 4);
    }
}

static int by_what(const void *left, const void *right)
{
    const mf_want_due *a = left, *b = right;
    int order = strcmp(a->what, b->what);
    return order == 0 ? strcmp(a->entry, b->entry) : order;
}

static void add_dues(mf_buf *out, mf_wants *w)
{
    qsort(w->due, w->n_due, sizeof *w->due, by_what);
    for (size_t i = 0; i < w->n_due; i++) {
        const char *const row[] = {w->due[i].what, w->due[i].day, w->due[i].who, w->due[i].entry};
        add_row(out, row, 4);
    }
}

static void add_note(mf_buf *out, const mf_wants *w)
{
    const char *const row[] = {w->key, mf_buf_str(&w->words), mf_buf_str(&w->people)};
    if (w->n_place > 0)
        add_row(out, row, 3);
}

static int by_row(const void *a, const void *b)
{
    return strcmp(((const mf_buf *)a)->data, ((const mf_buf *)b)->data);
}

static bool add_named(mf_buf *row, const mf_fold_named *it)
{
    const char *const columns[] = {it->by, it->target, it->named};
    add_row(row, columns, 3);
    return !row->failed;
}

/* In the order in which SQLite sorts the same rows. */
static void add_corrections(mf_buf *out, const mf_job_fold *fold)
{
    size_t n = fold->n_named;
    mf_buf *rows = calloc(n + 1, sizeof *rows);
    out->failed = out->failed || rows == NULL;
    for (size_t i = 0; rows != NULL && i < n; i++)
        out->failed = !add_named(&rows[i], &fold->named[i]) || out->failed;
    if (rows != NULL && !out->failed)
        qsort(rows, n, sizeof *rows, by_row);
    for (size_t i = 0; rows != NULL && i < n; i++) {
        mf_buf_text(out, mf_buf_str(&rows[i]));
        mf_buf_free(&rows[i]);
    }
    free(rows);
}

/* ---- what is there ------------------------------------------------------------------- */

static void differs(mf_checker *c, const char *table, const char *job)
{
    char where[64];
    snprintf(where, sizeof where, "job %.40s", job[0] == '\0' ? "of the firm" : job);
    mf_fault(c, false, where, "table %s does not say of it what the journal gives", table);
}

/* A text that ends at a NUL for us and not for another reader is none of ours. */
static mf_status stored(mf_checker *c, mf_buf *out, const char *sql, const char *job, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &c->book->db, sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    while (mf_stmt_next(&stmt, &status, err)) {
        const char *text = mf_stmt_column(&stmt, 0);
        mf_buf_add(out, text, (size_t)sqlite3_column_bytes(stmt.handle, 0));
        mf_buf_text(out, "\n");
    }
    mf_stmt_done(&stmt);
    return status;
}

static mf_status compare(mf_checker *c, const char *table, const char *sql, const char *job,
                         const mf_buf *should, mf_err *err)
{
    mf_buf is = {0};
    mf_status status = stored(c, &is, sql, job, err);
    if (status == MF_OK && (is.failed || should->failed))
        status = mf_fail_memory(err);
    bool same = is.len == should->len && memcmp(mf_buf_str(&is), mf_buf_str(should), is.len) == 0;
    if (status == MF_OK && !same)
        differs(c, table, job);
    mf_buf_free(&is);
    return status;
}

/* ---- one job -------------------------------------------------------------------------- */

/* An entry that an index hides, or that was taken out at the end of its chain. */
static mf_status check_held(mf_checker *c, const char *job, mf_err *err)
{
    char where[64];
    mf_stmt stmt;
    bool row = false;
    int64_t held = 0, n = 0;
    mf_status status = mf_held(c->book, job, &held, err);
    if (status == MF_OK)
        status = mf_stmt_get(&stmt, &c->book->db, "SELECT count(*) FROM entry WHERE job = ?1", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    status = mf_stmt_step(&stmt, &row, err);
    n = row ? mf_stmt_number(&stmt, 0) : 0;
    mf_stmt_done(&stmt);
    snprintf(where, sizeof where, "job %.40s", job[0] == '\0' ? "of the firm" : job);
    if (status == MF_OK && n != held)
        mf_fault(c, true, where, "the journal gives %lld entries of it, %lld were logged",
                 (long long)n, (long long)held);
    return status;
}

static mf_status check_wants(mf_checker *c, const mf_job_fold *of, mf_wants *w, mf_err *err)
{
    mf_buf place = {0}, due = {0}, note = {0}, correction = {0};
    const char *job = of->job.id;
    add_corrections(&correction, of);
    add_places(&place, w);
    add_dues(&due, w);
    add_note(&note, w);
    mf_status status = compare(c, "place", places, job, &place, err);
    if (status == MF_OK)
        status = compare(c, "due", dues, job, &due, err);
    if (status == MF_OK)
        status = compare(c, "find", notes, job, &note, err);
    if (status == MF_OK)
        status = compare(c, "corrects", corrections, job, &correction, err);
    mf_buf_free(&place);
    mf_buf_free(&due);
    mf_buf_free(&note);
    mf_buf_free(&correction);
    return status;
}

static mf_status check_one(mf_checker *c, const char *job, mf_err *err)
{
    mf_job_fold *fold = NULL;
    mf_wants wants = {.n_place = 0};
    mf_status status = MF_OK;
    if (c->out->faults == 0)
        status = check_held(c, job, err);
    if (status == MF_OK)
        status = mf_index_job(&fold, c->book, job, err);
    if (status == MF_OK)
        status = mf_want(&wants, &fold->job, err);
    if (status == MF_OK)
        status = check_wants(c, fold, &wants, err);
    if (status == MF_OK)
        status = mf_check_settles(c, fold, err);
    mf_want_free(&wants);
    mf_job_fold_free(fold);
    return status;
}

/* ---- all jobs ------------------------------------------------------------------------- */

/* A job of which a table speaks and the journal does not, or of which one of them does not
 * know how many entries it has. */
static const char strangers[] =
    "SELECT 'place', job FROM place AS t WHERE NOT EXISTS (SELECT 1 FROM entry WHERE job = t.job)"
    " UNION ALL SELECT 'due', job FROM due AS t"
    "  WHERE NOT EXISTS (SELECT 1 FROM entry WHERE job = t.job)"
    " UNION ALL SELECT 'settled', job FROM settled AS t"
    "  WHERE NOT EXISTS (SELECT 1 FROM entry WHERE job = t.job)"
    " UNION ALL SELECT 'corrects', job FROM corrects AS t"
    "  WHERE NOT EXISTS (SELECT 1 FROM entry WHERE job = t.job)"
    " UNION ALL SELECT 'held', job FROM held AS t"
    "  WHERE NOT EXISTS (SELECT 1 FROM entry WHERE job = t.job)";

static mf_status check_strangers(mf_checker *c, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &c->book->db, strangers, err);
    while (mf_stmt_next(&stmt, &status, err))
        differs(c, mf_stmt_column(&stmt, 0), mf_stmt_column(&stmt, 1));
    mf_stmt_done(&stmt);
    return status;
}

/* Steps from job to job by the index, without reading the entries between. */
static mf_status check_all_jobs(mf_checker *c, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(
        &stmt, &c->book->db,
        "WITH RECURSIVE j (job) AS (SELECT min(job) FROM entry UNION ALL"
        " SELECT (SELECT min(job) FROM entry WHERE job > j.job) FROM j WHERE j.job IS NOT NULL)"
        " SELECT job FROM j WHERE job IS NOT NULL",
        err);
    while (mf_stmt_next(&stmt, &status, err))
        status = check_one(c, mf_stmt_column(&stmt, 0), err);
    mf_stmt_done(&stmt);
    return status == MF_OK ? check_strangers(c, err) : status;
}

mf_status mf_index_check(mf_checker *c, const char *job, mf_err *err)
{
    int64_t readable = 0;
    mf_status status =
        mf_db_int(&c->book->db, "SELECT 1 FROM corrects, place, due, settled, find, held WHERE 0",
                  &readable, err);
    if (status != MF_OK && mf_db_lacks(&c->book->db))
        return MF_OK; /* told by the check of the schema */
    if (status != MF_OK)
        return status;
    return job == NULL ? check_all_jobs(c, err) : check_one(c, job, err);
}
