/* Where a job stands: by what was done in it, and by what the questions lack. */
#include <mistfold/stage.h>

#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"

static const char *const names[MF_STAGE_COUNT] = {
    "outside",    "called-off", "preparing", "ready", "working", "verified",
    "unverified", "completed",  "closed",    "late",  "altered"};

const char *mf_stage_name(mf_stage stage)
{
    return (size_t)stage < MF_STAGE_COUNT ? names[stage] : "";
}

mf_stage mf_stage_named(const char *name)
{
    size_t stage = 0;
    while (stage < MF_STAGE_COUNT && !mf_same(names[stage], name))
        stage++;
    return (mf_stage)stage;
}

bool mf_area_being_cleared(const mf_job *job, const char *area)
{
    mf_day last = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_tick; i++)
        if (mf_is_cleaning(&job->tick[i]) && mf_same(job->tick[i].area, area))
            last = mf_later(last, job->tick[i].on);
    for (size_t i = 0; i < job->n_verification; i++)
        if (mf_same(job->verification[i].area, area))
            last = mf_later(last, job->verification[i].on);
    for (size_t i = 0; i < job->n_dust_sample; i++)
        if (job->dust_sample[i].required == MF_YES && mf_same(job->dust_sample[i].area, area))
            last = mf_later(last, job->dust_sample[i].on);
    return last != MF_DAY_NONE && last >= mf_worked_last(job, area);
}

/* Cleaning and verification come after paint was disturbed, whether or not somebody logged by
 * which method that was done. A sample or a kit may come before. */
static bool begun(const mf_job *job)
{
    bool any = mf_worked_first(job, "") != MF_DAY_NONE || job->n_verification > 0;
    for (size_t i = 0; i < job->n_tick && !any; i++)
        any = mf_is_cleaning(&job->tick[i]);
    return any;
}

static void note_lack(const mf_finding *finding, void *data)
{
    bool *lacks = data;
    *lacks = *lacks || finding->verdict == MF_LACKING || finding->verdict == MF_PENDING;
}

/* What came late was handed over all the same, and nothing can be done about the day. */
typedef struct handed {
    bool lacks, late;
} handed;

static void note_handed(const mf_finding *finding, void *data)
{
    handed *out = data;
    bool late = mf_id_in_list("handover-late,dust-report-late", finding->why);
    bool lacks = finding->verdict == MF_LACKING || finding->verdict == MF_PENDING;
    out->late = out->late || (lacks && late);
    out->lacks = out->lacks || (lacks && !late);
}

static mf_stage stage_of_completed(const mf_job *job, mf_day today)
{
    handed found = {false, false};
    const mf_audit_ask ask = {job, today, 1u << MF_GATE_HANDOVER, ""};
    mf_audit_each(&ask, note_handed, &found);
    return found.lacks ? MF_STAGE_COMPLETED : found.late ? MF_STAGE_LATE : MF_STAGE_CLOSED;
}

/* Before its planned start demo waits for the day alone: nothing lacks. */
static bool nothing_lacks(const mf_job *job, mf_gate gate, mf_day today)
{
    bool lacks = false;
    const mf_audit_ask ask = {job, today, 1u << gate, ""};
    mf_audit_each(&ask, note_lack, &lacks);
    return !lacks;
}

/* 24 CFR part 35 asks for safe work and clearance from smaller amounts on, 35.1350(d). */
static bool assisted_over(const mf_job *job)
{
    mf_assisted_answer answer;
    mf_assisted_judge(job, &answer);
    return answer.over;
}

mf_stage mf_stage_of(const mf_job *job, mf_day today)
{
    mf_cover_answer cover;
    if (job->integrity == MF_INTEGRITY_BROKEN)
        return MF_STAGE_ALTERED;
    if (mf_called_off(job, today)) /* whether or not the rule would have covered it */
        return MF_STAGE_CALLED_OFF;
    mf_cover_judge(job, &cover);
    bool completed = job->n_completion > 0;
    if (cover.cover != MF_COVER_YES && !assisted_over(job))
        return MF_STAGE_OUTSIDE;
    if (!completed && !begun(job))
        return nothing_lacks(job, MF_GATE_DEMO, today) ? MF_STAGE_READY : MF_STAGE_PREPARING;
    bool clean = nothing_lacks(job, MF_GATE_SIGNS, today);
    if (!completed)
        return clean ? MF_STAGE_VERIFIED : MF_STAGE_WORKING;
    if (!clean)
        return MF_STAGE_UNVERIFIED;
    return stage_of_completed(job, today);
}
