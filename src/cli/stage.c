/* Where a job stands, by its gates, and the days that follow from that. */
#include "cli/stage.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const names[] = {"outside",  "preparing", "working",
                                    "verified", "completed", "closed"};

const char *mf_stage_name(mf_stage stage)
{
    return names[stage];
}

mf_stage mf_stage_named(const char *name)
{
    for (int i = 0; i < MF_STAGE_COUNT; i++)
        if (strcmp(names[i], name) == 0)
            return (mf_stage)i;
    return MF_STAGE_COUNT;
}

static void count_one(const mf_finding *finding, mf_lack *out)
{
    if (finding->verdict != MF_LACKING && finding->verdict != MF_PENDING)
        return;
    bool crew = mf_step_named(finding->requirement->id) != NULL;
    if (out->first[0] == '\0' || (!crew && out->office == 0))
        snprintf(out->first, sizeof out->first, "%s", finding->requirement->id);
    out->crew += crew;
    out->office += !crew;
}

mf_lack mf_lacking(const mf_job *job, mf_gate gate, const char *area, mf_day today)
{
    mf_lack out = {0, 0, ""};
    mf_audit_ask question = {job, today, 1u << gate, area};
    mf_finding *found;
    size_t n;
    if (!mf_findings(&question, &found, &n)) {
        out.office = 1; /* without memory the answer is no */
        return out;
    }
    for (size_t i = 0; i < n; i++)
        count_one(&found[i], &out);
    free(found);
    return out;
}

static bool answer(const mf_job *job, mf_gate gate, mf_day today)
{
    mf_lack lack = mf_lacking(job, gate, "", today);
    return lack.crew + lack.office == 0;
}

mf_stage mf_stage_of(const mf_job *job, mf_day today)
{
    mf_cover_answer cover;
    mf_cover_judge(job, &cover);
    if (cover.cover != MF_COVER_YES)
        return MF_STAGE_OUTSIDE;
    if (job->n_completion > 0)
        return answer(job, MF_GATE_HANDOVER, today) ? MF_STAGE_CLOSED : MF_STAGE_COMPLETED;
    if (!answer(job, MF_GATE_DEMO, today))
        return MF_STAGE_PREPARING;
    return answer(job, MF_GATE_SIGNS, today) ? MF_STAGE_VERIFIED : MF_STAGE_WORKING;
}

const char *mf_stage_settled(const mf_job *job, mf_stage stage, mf_day today)
{
    bool outside = stage == MF_STAGE_OUTSIDE && answer(job, MF_GATE_HANDOVER, today);
    bool settled =
        outside || (stage == MF_STAGE_CLOSED && job->n_completion > 0 && job->n_certification > 0);
    return settled ? mf_stage_name(stage) : "";
}

/* ---- due ----------------------------------------------------------------------------- */

const char *mf_due_words_id(mf_due_what what)
{
    static const char *const ids[] = {"due.office",     "due.crew",    "due.signs",
                                      "due.complete",   "due.certify", "due.handover",
                                      "due.certificate"};
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

static void add(mf_due_list *list, mf_due_what what, mf_day day, const char *job, const char *who,
                size_t n, const char *subject)
{
    mf_due_row *row = day == MF_DAY_NONE ? NULL : room(list);
    if (row == NULL)
        return;
    row->what = what;
    row->day = day;
    row->n = n;
    snprintf(row->job, sizeof row->job, "%s", job);
    snprintf(row->who, sizeof row->who, "%s", who);
    snprintf(row->subject, sizeof row->subject, "%s", subject);
}

static void before_demo(const mf_job *job, mf_day today, mf_due_list *list)
{
    mf_day start = job->house[0].start;
    mf_lack lack = mf_lacking(job, MF_GATE_DEMO, "", today);
    if (lack.office > 0)
        add(list, MF_DUE_OFFICE, start, job->id, "office", lack.office, lack.first);
    if (lack.crew > 0)
        add(list, MF_DUE_CREW, start, job->id, renovator_of(job), lack.crew,
            lack.office > 0 ? "" : lack.first);
}

static void before_end(const mf_job *job, mf_day today, mf_stage stage, mf_due_list *list)
{
    mf_day end = job->house[0].end == MF_DAY_NONE ? job->house[0].start : job->house[0].end;
    mf_lack lack = mf_lacking(job, MF_GATE_SIGNS, "", today);
    if (stage == MF_STAGE_WORKING)
        add(list, MF_DUE_SIGNS, end, job->id, renovator_of(job), lack.crew + lack.office,
            lack.first);
    if (stage == MF_STAGE_VERIFIED)
        add(list, MF_DUE_COMPLETE, end, job->id, "office", 1, "");
}

/* After a final invoice it is due also before the work is completed, and where all paint was
 * shown free the tests are, though the rule does not cover the work. */
static void to_hand_over(const mf_job *job, mf_day today, mf_day due, mf_due_list *list)
{
    mf_lack lack = mf_lacking(job, MF_GATE_HANDOVER, "", today);
    if (lack.office > 0)
        add(list, MF_DUE_HANDOVER, due, job->id, "office", lack.office, lack.first);
}

void mf_due_of_job(const mf_job *job, mf_stage stage, mf_day today, mf_due_list *list)
{
    mf_due due;
    if (stage == MF_STAGE_PREPARING)
        before_demo(job, today, list);
    if (stage == MF_STAGE_WORKING || stage == MF_STAGE_VERIFIED)
        before_end(job, today, stage, list);
    mf_due_dates(job, &due);
    if (stage != MF_STAGE_OUTSIDE && job->n_completion > 0 && job->n_certification == 0)
        add(list, MF_DUE_CERTIFY, due.handover, job->id, renovator_of(job), 1, "");
    if (due.handover != MF_DAY_NONE)
        to_hand_over(job, today, due.handover, list);
}

/* A certificate that a later one of the same holder and kind replaces is no news. */
static bool replaced(const mf_job *firm, const mf_certificate *certificate)
{
    for (size_t i = 0; i < firm->n_certificate; i++) {
        const mf_certificate *other = &firm->certificate[i];
        if (other->discipline == certificate->discipline && other->expires > certificate->expires &&
            strcmp(other->holder, certificate->holder) == 0)
            return true;
    }
    return false;
}

void mf_due_of_firm(const mf_job *firm, mf_day today, int within, mf_due_list *list)
{
    for (size_t i = 0; i < firm->n_certificate; i++) {
        const mf_certificate *certificate = &firm->certificate[i];
        if (certificate->expires <= today + within && !replaced(firm, certificate))
            add(list, MF_DUE_CERTIFICATE, certificate->expires, "", certificate->holder, 1,
                certificate->number);
    }
}
