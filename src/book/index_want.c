#include "book/index_want.h"

#include "base/fail.h"
#include "base/hex.h"
#include <mistfold/audit.h>
#include <mistfold/person.h>
#include <stdlib.h>
#include <string.h>

bool mf_index_wants(const char *kind)
{
    static const char *const kinds[] = {"house",       "completion", "invoice",   "handover",
                                        "certificate", "party",      "assignment"};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i], kind) == 0)
            return true;
    return false;
}

/* ---- place --------------------------------------------------------------------------- */

static mf_status want_places(mf_wants *w, const mf_job *job, mf_err *err)
{
    w->place = calloc(job->n_house + 1, sizeof *w->place);
    if (w->place == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < job->n_house; i++) {
        const mf_house *house = &job->house[i];
        mf_want_place *it = &w->place[w->n_place++];
        *it = (mf_want_place){
            .entry = house->src.entry, .address = house->address, .unit = house->unit};
        mf_day_text(house->start, it->start);
    }
    if (job->n_house > 0)
        mf_address_key(job->house[job->n_house - 1].address, w->key);
    return MF_OK;
}

/* ---- due ----------------------------------------------------------------------------- */

static void add_due(mf_wants *w, const char *what, mf_day day, const char *who, const char *entry)
{
    if (day == MF_DAY_NONE)
        return;
    mf_want_due *it = &w->due[w->n_due++];
    *it = (mf_want_due){.what = what, .who = who, .entry = entry};
    mf_day_text(day, it->day);
}

/* Before its completion a job waits for its start, after it for the handover. Of several
 * the one that was made last counts. */
static void want_days(mf_wants *w, const mf_job *job)
{
    mf_due due;
    const mf_house *house = &job->house[job->n_house - 1];
    mf_job last = {
        .id = job->id, .n_completion = job->n_completion > 0, .n_invoice = job->n_invoice > 0};
    if (last.n_completion > 0) /* where there is none the list may be NULL */
        last.completion = &job->completion[job->n_completion - 1];
    if (last.n_invoice > 0)
        last.invoice = &job->invoice[job->n_invoice - 1];
    last.n_completion = last.n_completion > 0 && last.completion->on != MF_DAY_NONE;
    last.n_invoice = last.n_invoice > 0 && last.invoice->on != MF_DAY_NONE;
    mf_due_dates(&last, &due);
    if (last.n_completion == 0)
        add_due(w, "start", house->start, "", house->src.entry);
    else if (job->n_handover == 0)
        add_due(w, "handover", due.handover, "",
                last.n_invoice > 0 && due.handover == last.invoice->on
                    ? last.invoice->src.entry
                    : last.completion->src.entry);
    if (last.n_completion > 0)
        add_due(w, "keep", due.keep_until, "", last.completion->src.entry);
}

/* The last day on which each holds, as certificate check has it, presumed where it is not said
 * whether a course had a hands-on part. Not of one that serves for nothing, nor of one whose place
 * another takes; none while the renewal of the firm's is not decided. */
static void want_certificates(mf_wants *w, const mf_job *firm)
{
    for (size_t i = 0; i < firm->n_certificate; i++) {
        const mf_certificate *it = &firm->certificate[i];
        mf_day until = mf_certificate_until(firm, it);
        if (it->holder[0] != '\0' && until != MF_DAY_OPEN && !mf_certificate_replaced(firm, it) &&
            !mf_certificate_serves_not(firm, it))
            add_due(w, "certificate", until, it->holder, it->src.entry);
    }
}

/* ---- find ---------------------------------------------------------------------------- */

void mf_find_token(mf_buf *out, const char *id)
{
    char two[3];
    mf_buf_text(out, "p");
    for (; *id != '\0'; id++) {
        mf_hex(id, 1, two);
        mf_buf_text(out, two);
    }
}

static void add_word(mf_buf *out, const char *word)
{
    mf_buf_text(out, out->len == 0 ? "" : " ");
    mf_buf_text(out, word);
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* People assigned stand there by a token of their own, so that a name is looked up among
 * the people and need not be written anew into every job when it changes. */
static mf_status want_people(mf_wants *w, const mf_job *job, mf_err *err)
{
    size_t n = job->n_assignment;
    const char **all = calloc(n + 1, sizeof *all);
    if (all == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < n; i++)
        all[i] = job->assignment[i].person;
    qsort(all, n, sizeof *all, by_text);
    for (size_t i = 0; i < n; i++) {
        if (i > 0 && strcmp(all[i - 1], all[i]) == 0)
            continue;
        mf_buf_text(&w->people, w->people.len == 0 ? "" : " ");
        mf_find_token(&w->people, all[i]);
    }
    free(all);
    return MF_OK;
}

static mf_status want_words(mf_wants *w, const mf_job *job, mf_err *err)
{
    for (size_t i = 0; i < job->n_house; i++) {
        const mf_house *house = &job->house[i];
        add_word(&w->words, job->id);
        add_word(&w->words, house->address);
        add_word(&w->words, house->unit);
        add_word(&w->words, house->description);
        add_word(&w->words, house->note);
    }
    for (size_t i = 0; i < job->n_party; i++) {
        add_word(&w->words, job->party[i].id);
        add_word(&w->words, job->party[i].name);
        add_word(&w->words, job->party[i].address);
    }
    mf_status status = want_people(w, job, err);
    return status == MF_OK && (w->words.failed || w->people.failed) ? mf_fail_memory(err) : status;
}

/* ---- all of them --------------------------------------------------------------------- */

mf_status mf_want(mf_wants *out, const mf_job *job, mf_err *err)
{
    enum { DAYS_OF_JOB = 3 };
    *out = (mf_wants){.n_place = 0};
    out->due = calloc(job->n_certificate + DAYS_OF_JOB, sizeof *out->due);
    if (out->due == NULL)
        return mf_fail_memory(err);
    if (job->id[0] == '\0') {
        want_certificates(out, job);
        return MF_OK;
    }
    mf_status status = want_places(out, job, err);
    if (status != MF_OK || job->n_house == 0)
        return status;
    want_days(out, job);
    return want_words(out, job, err);
}

void mf_want_free(mf_wants *wants)
{
    mf_buf_free(&wants->words);
    mf_buf_free(&wants->people);
    free(wants->place);
    free(wants->due);
}
