/* What a job still needs, by its stage, and the days that follow from that. */
#include "cli/due.h"

#include "cli/mend.h"

#include <mistfold/person.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* "Section 1 of 3 of floor is not wiped yet. Go on with ..." */
static void say_first(const mf_finding *finding, mf_lack *out)
{
    mf_words_why(out->lang, finding, out->then, sizeof out->then - 1);
    size_t len = strlen(out->then);
    out->then[len++] = ' ';
    mf_words_next(out->lang, finding, out->then + len, sizeof out->then - len);
}

static void count_one(const mf_finding *finding, mf_lack *out)
{
    bool crew = mf_step_named(finding->requirement->id) != NULL;
    if (out->first[0] == '\0' || (!crew && out->office == 0)) {
        snprintf(out->first, sizeof out->first, "%s", finding->requirement->id);
        say_first(finding, out);
    }
    out->crew += crew;
    out->office += !crew;
}

static bool all_being_cleared(const mf_job *job, mf_day today)
{
    bool all = job->n_area > 0;
    for (size_t i = 0; i < job->n_area; i++)
        all = all && (mf_area_being_cleared(job, job->area[i].id) ||
                      mf_area_off(job, job->area[i].id, today));
    return all;
}

/* What is asked at the moment of demo alone, and no longer where cleaning has begun since: that
 * the containment stands, that people were told of this day. */
static bool past_demo(const mf_job *job, const mf_finding *finding, mf_day today)
{
    const unsigned gates = finding->requirement->gates;
    if ((gates & 1u << MF_GATE_DEMO) == 0 || (gates & 1u << MF_GATE_INSPECTION) != 0)
        return false;
    return mf_job_area(job, finding->subject) != NULL ? mf_area_being_cleared(job, finding->subject)
                                                      : all_being_cleared(job, today);
}

mf_lack mf_lacking(const mf_job *job, mf_gate gate, mf_lang lang, mf_day today)
{
    mf_lack out = {.lang = lang};
    mf_audit_ask question = {job, today, 1u << gate, ""};
    mf_finding *found;
    size_t n;
    if (!mf_findings(&question, &found, &n)) {
        out.office = 1; /* without memory the answer is no */
        return out;
    }
    for (size_t i = 0; i < n; i++) {
        bool lacks = found[i].verdict == MF_LACKING || found[i].verdict == MF_PENDING;
        if (lacks && !past_demo(job, &found[i], today) && !mf_past_mending(&found[i]))
            count_one(&found[i], &out);
    }
    free(found);
    return out;
}

static bool handed_over(const mf_job *job, mf_day today)
{
    mf_lack lack = mf_lacking(job, MF_GATE_HANDOVER, MF_LANG_EN, today);
    return lack.crew + lack.office == 0;
}

static bool over(mf_stage stage)
{
    return stage == MF_STAGE_CLOSED || stage == MF_STAGE_LATE;
}

const char *mf_stage_settled(const mf_job *job, mf_stage stage, mf_day today)
{
    bool outside = stage == MF_STAGE_OUTSIDE && handed_over(job, today);
    bool settled = outside || stage == MF_STAGE_CALLED_OFF ||
                   (over(stage) && job->n_completion > 0 && mf_job_certified(job));
    return settled ? mf_stage_name(stage) : "";
}

/* ---- due ----------------------------------------------------------------------------- */

const char *mf_due_words_id(mf_due_what what)
{
    static const char *const ids[] = {
        [MF_DUE_OFFICE] = "due.office",         [MF_DUE_CREW] = "due.crew",
        [MF_DUE_SIGNS] = "due.signs",           [MF_DUE_COMPLETE] = "due.complete",
        [MF_DUE_UNVERIFIED] = "due.unverified", [MF_DUE_CERTIFY] = "due.certify",
        [MF_DUE_HANDOVER] = "due.handover",     [MF_DUE_CERTIFICATE] = "due.certificate",
        [MF_DUE_AMEND] = "due.amend",           [MF_DUE_TAKE_DOWN] = "due.take-down",
    };
    return ids[what];
}

static const char *renovator_of(const mf_job *job)
{
    for (size_t i = job->n_assignment; i > 0; i--)
        if (job->assignment[i - 1].duty == MF_DUTY_RENOVATOR)
            return job->assignment[i - 1].person;
    return "office"; /* which must assign one */
}

static mf_due_row *room(mf_due_list *list)
{
    mf_due_row *rows = mf_grown(list->rows, list->n, &list->cap, sizeof *rows);
    if (rows == NULL) {
        list->failed = true;
        return NULL;
    }
    list->rows = rows;
    return &rows[list->n++];
}

static mf_due_row *add(mf_due_list *list, mf_due_what what, mf_day day, const char *job,
                       const char *who, size_t n, const char *subject)
{
    mf_due_row *row = day == MF_DAY_NONE ? NULL : room(list);
    if (row == NULL)
        return NULL;
    row->what = what;
    row->day = day;
    row->n = n;
    snprintf(row->job, sizeof row->job, "%s", job);
    snprintf(row->who, sizeof row->who, "%s", who);
    snprintf(row->subject, sizeof row->subject, "%s", subject);
    row->then[0] = '\0';
    return row;
}

static void before_demo(const mf_job *job, mf_day today, mf_due_list *list)
{
    mf_day start = job->house[0].start;
    mf_lack lack = mf_lacking(job, MF_GATE_DEMO, list->lang, today);
    bool off = strcmp(lack.first, "called-off") == 0 && lack.office + lack.crew == 1;
    if (off) /* and yet on the list: all of the containment stands, or some of it */
        add(list, MF_DUE_TAKE_DOWN, start, job->id, renovator_of(job), 1, lack.first);
    else if (lack.office > 0)
        add(list, MF_DUE_OFFICE, start, job->id, "office", lack.office, lack.first);
    if (lack.crew > 0)
        add(list, MF_DUE_CREW, start, job->id, renovator_of(job), lack.crew,
            lack.office > 0 ? "" : lack.first);
}

static void before_end(const mf_job *job, mf_day today, mf_stage stage, mf_due_list *list)
{
    mf_day end = job->house[0].end == MF_DAY_NONE ? job->house[0].start : job->house[0].end;
    if (stage == MF_STAGE_WORKING || stage == MF_STAGE_READY) {
        mf_lack lack = mf_lacking(job, MF_GATE_SIGNS, list->lang, today);
        add(list, MF_DUE_SIGNS, end, job->id, renovator_of(job), lack.crew + lack.office,
            lack.first);
    }
    if (stage == MF_STAGE_VERIFIED)
        add(list, MF_DUE_COMPLETE, end, job->id, "office", 1, "");
}

/* The signs go up again, and whoever certifies says by what it is shown clean. The work was not
 * over on the day on which it was said to be. */
static void said_too_early(const mf_job *job, mf_day today, mf_due_list *list)
{
    mf_lack lack = mf_lacking(job, MF_GATE_SIGNS, list->lang, today);
    mf_day said = job->completion[job->n_completion - 1].on;
    mf_due_row *row = add(list, MF_DUE_UNVERIFIED, said == MF_DAY_NONE ? job->house[0].start : said,
                          job->id, renovator_of(job), lack.crew + lack.office, lack.first);
    if (row != NULL)
        snprintf(row->then, sizeof row->then, "%s", lack.then);
}

/* After a final invoice it is due also before the work is completed, and where all paint was
 * shown free the tests are, though the rule does not cover the work. */
static void to_hand_over(const mf_job *job, mf_day today, mf_day due, mf_due_list *list)
{
    mf_lack lack = mf_lacking(job, MF_GATE_HANDOVER, list->lang, today);
    if (lack.office > 0)
        add(list, MF_DUE_HANDOVER, due, job->id, "office", lack.office, lack.first);
}

void mf_due_of_job(const mf_job *job, mf_stage stage, mf_day today, mf_due_list *list)
{
    mf_due due;
    if (stage == MF_STAGE_ALTERED || stage == MF_STAGE_CALLED_OFF)
        return; /* that it was altered tells whoever lists what is due */
    bool open = stage == MF_STAGE_PREPARING || stage == MF_STAGE_READY ||
                stage == MF_STAGE_WORKING || stage == MF_STAGE_VERIFIED;
    if (open)
        before_demo(job, today, list); /* papers are owed all the more once work began */
    if (open && stage != MF_STAGE_PREPARING)
        before_end(job, today, stage, list);
    if (stage == MF_STAGE_UNVERIFIED)
        said_too_early(job, today, list);
    mf_due_dates(job, &due);
    bool clean = stage == MF_STAGE_COMPLETED || over(stage);
    if (clean && !mf_job_certified(job))
        add(list, MF_DUE_CERTIFY, due.handover, job->id, renovator_of(job), 1, "");
    if (due.handover != MF_DAY_NONE)
        to_hand_over(job, today, due.handover, list);
}

static void runs_out(const mf_job *firm, const mf_certificate *it, mf_due_list *list)
{
    mf_due_row *row = add(list, MF_DUE_CERTIFICATE, mf_certificate_until(firm, it), "", it->holder,
                          1, it->number);
    if (row != NULL && mf_certificate_if_hands_on(firm, it) != MF_DAY_NONE)
        snprintf(row->then, sizeof row->then, "%s", mf_words(list->lang, "due.presumed"));
}

void mf_due_of_firm(const mf_job *firm, mf_day today, int within, mf_due_list *list)
{
    for (size_t i = 0; i < firm->n_certificate; i++) {
        const mf_certificate *certificate = &firm->certificate[i];
        mf_day until = mf_certificate_until(firm, certificate);
        if (mf_certificate_replaced(firm, certificate))
            continue;
        if (until <= today + within && !mf_certificate_serves_not(firm, certificate))
            runs_out(firm, certificate, list);
        add(list, MF_DUE_AMEND, mf_certificate_amend_by(firm, certificate, today), "",
            certificate->holder, 1, certificate->number);
    }
}
