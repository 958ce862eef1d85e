#include "paper/claims.h"

#include <mistfold/assisted.h>
#include <mistfold/contain.h>
#include <mistfold/house.h>
#include <string.h>

enum { BOTH = MF_ON_INTERIOR | MF_ON_EXTERIOR };

/* 745.89(d)(2), 745.90(b)(1), (b)(4). */
const mf_claim mf_claim_assigned = {
    "assigned", "renovator-assigned,renovator-certified,work-directed", MF_WAIVER_COUNT, BOTH};
const mf_claim mf_claim_trained = {
    "trained",
    "renovator-assigned,renovator-certified,person-assigned,worker-trained,training-topics,"
    "training-tasks,contained-by-crew,disturbed-by-crew,cleaned-by-crew",
    MF_WAIVE_TRAINING, BOTH};
const mf_claim mf_claim_signs = {"signs", "signs,signs-language,signs-first", MF_WAIVE_SIGNS, BOTH};
const mf_claim mf_claim_contained = {
    "contained",
    "isolate,objects,ducts,windows-closed,doors-closed,doors-used,floor-sheet,windows-outside,"
    "doors-outside,openings-below,doors-used-outside,ground-sheet,line-containment,"
    "contained-first,barriers-whole,barriers-each-day",
    MF_WAIVE_CONTAINMENT, BOTH};
const mf_claim mf_claim_methods = {"methods", "methods-logged,method-allowed", MF_WAIVER_COUNT,
                                   BOTH};
const mf_claim mf_claim_waste = {
    "waste", "waste-contained,waste-chute,waste-daily,waste-transport,waste-each-day,waste-at-end",
    MF_WAIVE_WASTE, BOTH};
const mf_claim mf_claim_cleaned = {
    "cleaned", "chips,sheeting,walls,surfaces,carpet,mop,margin,divider,cleaning-order",
    MF_WAIVER_COUNT, MF_ON_INTERIOR};
const mf_claim mf_claim_cleaned_outside = {"cleaned-outside",
                                           "chips,sheeting,clean-outside,visual-outside",
                                           MF_WAIVER_COUNT, MF_ON_EXTERIOR};

/* 745.85(b), 745.90(b)(1): by cloths, by looking, or by samples in their place. */
const mf_claim mf_claim_verified = {
    "verified",
    "visual-inspection,visual-outside,surfaces-listed,surface-verified,verification-order,"
    "verifier-certified,verification-record,looked-after-cleaning,dust-required,dust-wait,"
    "dust-level,dust-sampler,dust-laboratory,dust-places,dust-in-area,dust-recleaned",
    MF_WAIVER_COUNT, BOTH};

unsigned mf_claim_side(const mf_area *area)
{
    return area->side == MF_SIDE_INTERIOR ? MF_ON_INTERIOR : MF_ON_EXTERIOR;
}

bool mf_claim_of(const mf_rec *rec, const mf_claim *said, const mf_finding *finding)
{
    const mf_area *area = mf_job_area(rec->job, finding->subject);
    return mf_id_in_list(said->needs, finding->requirement->id) &&
           (area == NULL || (said->sides & mf_claim_side(area)) != 0);
}

const mf_tick *mf_claim_sheet_left_out(const mf_rec *rec, const mf_finding *finding)
{
    const mf_tick *tick = NULL;
    const mf_area *area = mf_job_area(rec->job, finding->subject);
    const mf_step *step = mf_step_named(finding->requirement->id);
    if (area == NULL || step == NULL || finding->verdict == MF_MET ||
        !mf_id_in_list("floor-sheet,ground-sheet", step->id))
        return NULL;
    mf_step_judge(rec->job, area, step, &tick);
    return tick != NULL && tick->state == MF_TICK_NOT_NEEDED ? tick : NULL;
}

/* What a certificate that ends later in the job says of the work until now is good. */
static bool is_shown(const mf_finding *finding)
{
    return finding->verdict == MF_MET ||
           (finding->verdict == MF_WARNING && strcmp(finding->why, "certificate-ends-first") == 0);
}

mf_claim_tally mf_claim_count(const mf_rec *rec, const mf_claim *said)
{
    mf_claim_tally sum = {0};
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (!mf_claim_of(rec, said, finding))
            continue;
        if (is_shown(finding))
            sum.shown++;
        else if (finding->verdict == MF_NOT_DUE)
            sum.waived += strcmp(finding->why, "emergency") == 0;
        else if (mf_claim_sheet_left_out(rec, finding) != NULL)
            sum.left_out++;
        else
            sum.lacking++;
    }
    return sum;
}

/* Small spots add up: how much was scraped or sanded dry is said if each of them is. */
static bool spots_said(const mf_job *job)
{
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        bool dry = it->method == MF_METHOD_DRY_SCRAPE || it->method == MF_METHOD_DRY_SAND;
        if (dry && it->near_outlet != MF_YES && it->spot_sqft_100 == MF_NUM_NONE)
            return false;
    }
    return true;
}

/* Whether it is said to have been done so, and not only left unsaid that it was not. */
static bool said_so(const mf_job *job, const mf_practice *used)
{
    switch (used->method) {
    case MF_METHOD_HEAT_GUN:
        return used->temp_f != MF_NUM_NONE;
    case MF_METHOD_DRY_SCRAPE:
    case MF_METHOD_DRY_SAND:
        return spots_said(job);
    case MF_METHOD_STRIPPER:
        return used->ventilated == MF_NOT;
    case MF_METHOD_OPEN_FLAME:
        return true;
    case MF_METHOD_MACHINE:
    case MF_METHOD_BLASTING:
    case MF_METHOD_HAND:
    case MF_METHOD_DEMOLITION:
        break;
    }
    return used->shroud_and_hepa == MF_NOT;
}

/* What is in doubt there, by hand wet or dry, is warned of by the question of it. */
static bool refused_by_part_35(const mf_job *job, const mf_practice *used)
{
    mf_assisted_answer answer;
    mf_assisted_judge(job, &answer);
    if (!answer.over)
        return false;
    mf_assisted_method method = mf_assisted_method_of(job, used);
    return method != MF_ASSISTED_ALLOWED && method != MF_ASSISTED_SANDED &&
           method != MF_ASSISTED_UNSAID;
}

bool mf_claim_prohibited(const mf_rec *rec, const mf_practice *used)
{
    return mf_practice_refused(rec->job, used) || refused_by_part_35(rec->job, used);
}

const char *mf_claim_refused(mf_rec *rec, bool said)
{
    const char *list = "";
    for (size_t i = 0; i < rec->job->n_practice; i++) {
        const mf_practice *used = &rec->job->practice[i];
        if (used->planned == MF_YES || !mf_claim_prohibited(rec, used) ||
            said_so(rec->job, used) != said)
            continue;
        const char *what = mf_enum(rec, MF_FAM_METHOD, (int)used->method);
        if (used->temp_f != MF_NUM_NONE)
            what = mf_join(rec, what, ", ", mf_number_words(rec, used->temp_f, MF_UNIT_DEG_F));
        what =
            mf_join(rec, mf_join(rec, what, ", ", used->area), ", ", mf_day_words(rec, used->on));
        list = *list == '\0' ? what : mf_join(rec, list, "; ", what);
    }
    return list;
}
