#include "book/index_want.h"

#include "base/fail.h"
#include "book/fold.h"
#include "book/index.h"
#include <mistfold/audit.h>
#include <stdio.h>
#include <string.h>

/* ---- where they are read -------------------------------------------------------------- */

#define BY_JOB(columns, table)                                                                     \
    {                                                                                              \
        "SELECT job, entry, logged_at, " columns " FROM " table " WHERE job = ?1",                 \
            "SELECT job, entry, logged_at, " columns " FROM " table                                \
            " WHERE job <> '' ORDER BY job"                                                        \
    }

static const mf_by_job_sql houses = BY_JOB("address, \"start\"", "house"),
                           completions = BY_JOB("day", "completion"),
                           invoices = BY_JOB("day", "invoice"),
                           handovers = BY_JOB("what", "handover");

void mf_want_begin(mf_want_from *from, mf_db *db, bool all)
{
    *from = (mf_want_from){.house = {.db = db, .sql = &houses, .all = all},
                           .completion = {.db = db, .sql = &completions, .all = all},
                           .invoice = {.db = db, .sql = &invoices, .all = all},
                           .handover = {.db = db, .sql = &handovers, .all = all}};
}

void mf_want_end(mf_want_from *from)
{
    mf_by_job_end(&from->house);
    mf_by_job_end(&from->completion);
    mf_by_job_end(&from->invoice);
    mf_by_job_end(&from->handover);
}

/* Of the rows of a job the one made last. */
typedef struct last {
    bool there;
    char entry[MF_ENTRY_ID], at[32];
    mf_day day;
} last;

/* text, when it is not NULL, becomes the column behind the head; the day is in the column
 * at day_at. */
static mf_status last_row(last *out, mf_by_job *by, const char *job, int day_at, mf_buf *text,
                          mf_err *err)
{
    bool row = true;
    *out = (last){.day = MF_DAY_NONE};
    mf_status status = MF_OK;
    while (status == MF_OK && row) {
        status = mf_by_job_next(by, job, &row, err);
        const char *is = row ? mf_stmt_column(&by->stmt, 1) : "";
        if (!row ||
            (out->there && !mf_made_after(mf_stmt_column(&by->stmt, 2), is, out->at, out->entry)))
            continue;
        out->there = true;
        snprintf(out->entry, sizeof out->entry, "%s", is);
        snprintf(out->at, sizeof out->at, "%s", mf_stmt_column(&by->stmt, 2));
        out->day = mf_day_parse(mf_stmt_column(&by->stmt, day_at), NULL);
        if (text != NULL) {
            mf_buf_clear(text);
            mf_buf_text(text, mf_stmt_column(&by->stmt, 3));
        }
    }
    return status == MF_OK && text != NULL && text->failed ? mf_fail_memory(err) : status;
}

/* ---- what the rows should be ---------------------------------------------------------- */

static void add_want(mf_wants *w, const char *what, mf_day day, const char *entry)
{
    if (day == MF_DAY_NONE)
        return;
    mf_want *it = &w->due[w->n++];
    it->what = what;
    mf_day_text(day, it->day);
    snprintf(it->entry, sizeof it->entry, "%s", entry);
}

/* Before its completion a job waits for its start, after it for the handover. */
static mf_status want_days(mf_wants *w, mf_want_from *from, const char *job, const last *house,
                           mf_err *err)
{
    last completed, invoiced, given;
    mf_status status = last_row(&completed, &from->completion, job, 3, NULL, err);
    if (status == MF_OK)
        status = last_row(&invoiced, &from->invoice, job, 3, NULL, err);
    if (status == MF_OK)
        status = last_row(&given, &from->handover, job, 3, NULL, err);
    if (status != MF_OK)
        return status;
    mf_due due;
    mf_completion completion = {.on = completed.day};
    mf_invoice invoice = {.on = invoiced.day};
    mf_job part = {.id = job,
                   .completion = &completion,
                   .n_completion = completion.on != MF_DAY_NONE,
                   .invoice = &invoice,
                   .n_invoice = invoice.on != MF_DAY_NONE};
    mf_due_dates(&part, &due);
    if (completion.on == MF_DAY_NONE)
        add_want(w, "start", house->day, house->entry);
    else if (!given.there)
        add_want(w, "handover", due.handover,
                 due.handover == invoice.on ? invoiced.entry : completed.entry);
    add_want(w, "keep", due.keep_until, completed.entry);
    return MF_OK;
}

mf_status mf_want_job(mf_wants *out, mf_want_from *from, const char *job, mf_err *err)
{
    last house;
    mf_buf address = {0};
    *out = (mf_wants){.house = false};
    mf_status status = last_row(&house, &from->house, job, 4, &address, err);
    out->house = house.there;
    mf_place_key(&out->key, mf_buf_str(&address));
    mf_buf_free(&address);
    if (status == MF_OK && out->key.failed)
        status = mf_fail_memory(err);
    return status == MF_OK && out->house ? want_days(out, from, job, &house, err) : status;
}
