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

/* One of these tables: what it has of a job, and what it should have. */
typedef struct side {
    mf_by_job by;
    const char *table;
    mf_buf is, should;
} side;

typedef struct asked {
    mf_want_from want;
    side place, due, note;
    mf_by_job words;
    bool all;
} asked;

static side side_of(mf_db *db, const mf_by_job_sql *sql, bool all, const char *table)
{
    return (side){.by = {.db = db, .sql = sql, .all = all}, .table = table};
}

static void begin(asked *a, mf_db *db, bool all)
{
    *a = (asked){.place = side_of(db, &places, all, "place"),
                 .due = side_of(db, &dues, all, "due"),
                 .note = side_of(db, &notes, all, "find"),
                 .words = {.db = db, .sql = &mf_find_words_sql, .all = all},
                 .all = all};
    mf_want_begin(&a->want, db, all);
}

static void end_side(side *s)
{
    mf_by_job_end(&s->by);
    mf_buf_free(&s->is);
    mf_buf_free(&s->should);
}

static void end(asked *a)
{
    mf_want_end(&a->want);
    end_side(&a->place);
    end_side(&a->due);
    end_side(&a->note);
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

/* The stored rows of a job as one text. */
static mf_status stored(side *s, const char *job, mf_err *err)
{
    bool row = true;
    mf_status status = MF_OK;
    mf_buf_clear(&s->is);
    mf_buf_clear(&s->should);
    while (status == MF_OK && row) {
        status = mf_by_job_next(&s->by, job, &row, err);
        if (status != MF_OK || !row)
            break;
        const char *text = mf_stmt_column(&s->by.stmt, 1);
        add_shown(&s->is, text, (size_t)sqlite3_column_bytes(s->by.stmt.handle, 1));
        mf_buf_add(&s->is, "\n", 1);
    }
    return status == MF_OK && s->is.failed ? mf_fail_memory(err) : status;
}

static bool same(const side *s)
{
    return strcmp(mf_buf_str(&s->is), mf_buf_str(&s->should)) == 0;
}

/* Tells when it has not what it should have, or when a row that reads like one of the
 * job and is none was passed; that once. */
static mf_status compare(mf_checker *c, side *s, const char *job, mf_err *err)
{
    bool odd = s->by.odd;
    s->by.odd = false;
    if (s->should.failed)
        return mf_fail_memory(err);
    if (odd || !same(s))
        differs(c, s->table, job);
    return MF_OK;
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
    side *s = &a->note;
    bool good = false;
    mf_status status = stored(s, job, err);
    for (int exact = a->all ? 0 : 1; status == MF_OK && !good && exact <= 1; exact++) {
        mf_buf_clear(&s->should);
        if (w->house) {
            mf_buf_add(&s->should, w->key.data, w->key.len);
            mf_buf_add(&s->should, "\n", 1);
            status = add_words(&s->should, a, job, exact == 1, err);
            mf_buf_add(&s->should, "\n", 1);
        }
        good = same(s);
    }
    return status == MF_OK ? compare(c, s, job, err) : status;
}

static mf_status check_place(mf_checker *c, asked *a, const char *job, const mf_wants *w,
                             mf_err *err)
{
    side *s = &a->place;
    mf_status status = stored(s, job, err);
    if (w->house)
        mf_buf_printf(&s->should, "%s\n", mf_buf_str(&w->key));
    return status == MF_OK ? compare(c, s, job, err) : status;
}

static mf_status check_due(mf_checker *c, asked *a, const char *job, const mf_wants *w, mf_err *err)
{
    side *s = &a->due;
    mf_status status = stored(s, job, err);
    for (size_t i = 0; i < w->n; i++) /* in the order of their names, as added */
        mf_buf_printf(&s->should, "%s %s  %s\n", w->due[i].what, w->due[i].day, w->due[i].entry);
    return status == MF_OK ? compare(c, s, job, err) : status;
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
    mf_by_job *const of[] = {&a->want.house, &a->place.by, &a->due.by, &a->note.by};
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
            status = check_one(c, &a, mf_buf_str(&job), err);
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
