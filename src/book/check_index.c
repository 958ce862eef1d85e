/* check_index.c - the derived tables over all jobs, and the words of find, against what
 * the tables of the kinds give. */
#include "base/fail.h"
#include "book/index.h"
#include "book/index_want.h"
#include <stdio.h>
#include <string.h>

/* What is stored, as one text, and what find should have of a job. */
static const mf_by_job_sql places = {"SELECT job, key FROM place WHERE job = ?1",
                                     "SELECT job, key FROM place ORDER BY job"};

#define DUE "SELECT job, what || ' ' || day || ' ' || who || ' ' || entry FROM due WHERE job "
static const mf_by_job_sql dues = {DUE "= ?1 ORDER BY what", DUE "<> '' ORDER BY job, what"};

#define NOTES                                                                                      \
    "SELECT s.job, s.key || char(10) || ifnull(f.words || char(10) || f.people, '')"               \
    " FROM settled AS s LEFT JOIN find AS f ON f.rowid = s.id"
static const mf_by_job_sql notes = {NOTES " WHERE s.job = ?1", NOTES " ORDER BY s.job"};

typedef struct asked {
    mf_want_from want;
    mf_by_job place, due, note, words;
    bool all;
} asked;

static void begin(asked *a, mf_db *db, bool all)
{
    *a = (asked){.place = {.db = db, .sql = &places, .all = all},
                 .due = {.db = db, .sql = &dues, .all = all},
                 .note = {.db = db, .sql = &notes, .all = all},
                 .words = {.db = db, .sql = &mf_find_words_sql, .all = all},
                 .all = all};
    mf_want_begin(&a->want, db, all);
}

static void end(asked *a)
{
    mf_want_end(&a->want);
    mf_by_job_end(&a->place);
    mf_by_job_end(&a->due);
    mf_by_job_end(&a->note);
    mf_by_job_end(&a->words);
}

/* ---- one job -------------------------------------------------------------------------- */

static void differs(mf_checker *c, const char *table, const char *job)
{
    char where[64];
    snprintf(where, sizeof where, "job %.40s", job[0] == '\0' ? "of the firm" : job);
    mf_fault(c, false, where, "table %s does not say of it what the journal gives", table);
}

/* A NUL, which is in no text of ours, shows as another sign that is in none. */
static void add_shown(mf_buf *out, const char *text, size_t len)
{
    while (len > 0) {
        const char *nul = memchr(text, '\0', len);
        size_t n = nul == NULL ? len : (size_t)(nul - text);
        mf_buf_add(out, text, n);
        if (nul != NULL)
            mf_buf_add(out, "\x01", 1);
        text += nul == NULL ? n : n + 1;
        len -= nul == NULL ? n : n + 1;
    }
}

/* A row that reads like one of the job and is none was passed. Told once. */
static bool is_odd(mf_by_job *by)
{
    bool odd = by->odd;
    by->odd = false;
    return odd;
}

/* The stored rows of a job as one text against the wanted ones. */
static mf_status stored(mf_by_job *by, const char *job, mf_buf *out, mf_err *err)
{
    bool row = true;
    mf_status status = MF_OK;
    mf_buf_clear(out);
    while (status == MF_OK && row) {
        status = mf_by_job_next(by, job, &row, err);
        if (status != MF_OK || !row)
            break;
        const char *text = mf_stmt_column(&by->stmt, 1);
        add_shown(out, text, (size_t)sqlite3_column_bytes(by->stmt.handle, 1));
        mf_buf_add(out, "\n", 1);
    }
    return status == MF_OK && out->failed ? mf_fail_memory(err) : status;
}

static mf_status add_words(mf_buf *should, asked *a, const char *job, bool exact, mf_err *err)
{
    bool row = false;
    mf_status status = MF_OK;
    if (exact)
        return mf_find_words(a->words.db, job, should, err);
    status = mf_by_job_next(&a->words, job, &row, err);
    if (row)
        mf_buf_text(should, mf_stmt_column(&a->words.stmt, 1));
    return status;
}

/* The words of a job, and the address of its note. Of all jobs at once the parts of the
 * words may come in another order: what differs is asked for by itself. */
static mf_status check_words(mf_checker *c, asked *a, const char *job, const mf_wants *w,
                             mf_err *err)
{
    mf_buf is = {0}, should = {0};
    bool good = false;
    mf_status status = stored(&a->note, job, &is, err);
    for (int exact = a->all ? 0 : 1; status == MF_OK && !good && exact <= 1; exact++) {
        mf_buf_clear(&should);
        if (w->house) {
            mf_buf_add(&should, w->key.data, w->key.len);
            mf_buf_add(&should, "\n", 1);
            status = add_words(&should, a, job, exact == 1, err);
            mf_buf_add(&should, "\n", 1);
        }
        if (status == MF_OK && should.failed)
            status = mf_fail_memory(err);
        good = status == MF_OK && strcmp(mf_buf_str(&is), mf_buf_str(&should)) == 0;
    }
    bool odd = is_odd(&a->note);
    if (status == MF_OK && (!good || odd))
        differs(c, "find", job);
    mf_buf_free(&is);
    mf_buf_free(&should);
    return status;
}

static mf_status check_place(mf_checker *c, asked *a, const char *job, const mf_wants *w,
                             mf_err *err)
{
    mf_buf is = {0}, should = {0};
    mf_status status = stored(&a->place, job, &is, err);
    if (w->house)
        mf_buf_printf(&should, "%s\n", mf_buf_str(&w->key));
    if (status == MF_OK && should.failed)
        status = mf_fail_memory(err);
    bool odd = is_odd(&a->place);
    if (status == MF_OK && (odd || strcmp(mf_buf_str(&should), mf_buf_str(&is)) != 0))
        differs(c, "place", job);
    mf_buf_free(&is);
    mf_buf_free(&should);
    return status;
}

static mf_status check_due(mf_checker *c, asked *a, const char *job, const mf_wants *w, mf_err *err)
{
    mf_buf is = {0}, should = {0};
    mf_status status = stored(&a->due, job, &is, err);
    for (size_t i = 0; i < w->n; i++) /* in the order of their names, as added */
        mf_buf_printf(&should, "%s %s  %s\n", w->due[i].what, w->due[i].day, w->due[i].entry);
    if (status == MF_OK && should.failed)
        status = mf_fail_memory(err);
    bool odd = is_odd(&a->due);
    if (status == MF_OK && (odd || strcmp(mf_buf_str(&should), mf_buf_str(&is)) != 0))
        differs(c, "due", job);
    mf_buf_free(&is);
    mf_buf_free(&should);
    return status;
}

static mf_status check_one(mf_checker *c, asked *a, const char *job, mf_err *err)
{
    mf_wants w;
    mf_status status = mf_want_job(&w, &a->want, job, err);
    if (status == MF_OK)
        status = check_place(c, a, job, &w, err);
    if (status == MF_OK)
        status = check_due(c, a, job, &w, err);
    if (status == MF_OK)
        status = check_words(c, a, job, &w, err);
    mf_buf_free(&w.key);
    return status;
}

/* ---- the firm, and all jobs ----------------------------------------------------------- */

static mf_status check_firm(mf_checker *c, mf_err *err)
{
    int64_t wrong = 0;
    mf_status status =
        mf_db_int(&c->book->db,
                  "SELECT EXISTS (" MF_FIRM_ROWS
                  " EXCEPT SELECT job, what, day, who, entry FROM due WHERE job = '')"
                  " OR EXISTS (SELECT job, what, day, who, entry FROM due WHERE job = '' EXCEPT "
                  "SELECT * FROM (" MF_FIRM_ROWS "))",
                  &wrong, err);
    if (status == MF_OK && wrong != 0)
        differs(c, "due", "");
    return status;
}

/* The first job that any of the tables has next. */
static mf_status next_job(asked *a, mf_buf *job, bool *any, mf_err *err)
{
    mf_by_job *const of[] = {&a->want.house, &a->place, &a->due, &a->note};
    const char *least = NULL, *at = NULL;
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < sizeof of / sizeof of[0]; i++) {
        status = mf_by_job_peek(of[i], &at, err);
        if (at != NULL && (least == NULL || strcmp(at, least) < 0))
            least = at;
    }
    *any = status == MF_OK && least != NULL;
    mf_buf_clear(job);
    mf_buf_text(job, *any ? least : "");
    return status == MF_OK && job->failed ? mf_fail_memory(err) : status;
}

static mf_status check_all_jobs(mf_checker *c, mf_err *err)
{
    asked a;
    mf_buf job = {0};
    bool any = true;
    mf_status status = MF_OK;
    begin(&a, &c->book->db, true);
    while (status == MF_OK && any) {
        status = next_job(&a, &job, &any, err);
        if (status == MF_OK && any)
            status = check_one(c, &a, job.data, err);
    }
    end(&a);
    mf_buf_free(&job);
    return status;
}

static mf_status check_one_job(mf_checker *c, const char *job, mf_err *err)
{
    asked a;
    begin(&a, &c->book->db, false);
    mf_status status = check_one(c, &a, job, err);
    end(&a);
    return status;
}

mf_status mf_index_check(mf_checker *c, const char *job, mf_err *err)
{
    int64_t readable = 0;
    mf_status status =
        mf_db_int(&c->book->db,
                  "SELECT 1 FROM place, due, house, completion, invoice, handover, certificate,"
                  " party, assignment, settled, find WHERE 0",
                  &readable, err);
    if (status != MF_OK && mf_db_lacks(&c->book->db))
        return MF_OK; /* told by the check of the schema */
    if (status == MF_OK)
        status = check_firm(c, err);
    if (status != MF_OK)
        return status;
    if (job == NULL)
        return check_all_jobs(c, err);
    return job[0] == '\0' ? MF_OK : check_one_job(c, job, err);
}
