/* By which way of 745.85(b) or (c) a work area was found clean, so that papers and lists say
 * the same as the question of the signs does. */
#include <mistfold/cleared.h>

#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include <mistfold/clean.h>

/* Of the findings of the question, those that speak of how it was checked. */
static bool is_of_check(const char *id)
{
    return mf_id_in_list("visual-inspection,visual-outside,surfaces-listed,surface-verified,"
                         "verification-order,verifier-certified,verification-record,"
                         "looked-after-cleaning,dust-required,dust-wait,dust-level,dust-sampler,"
                         "dust-laboratory,dust-places,dust-recleaned,assisted-clearance,"
                         "assisted-visual,assisted-examiner,assisted-approved",
                         id);
}

static mf_day last_sampled(const mf_job *job, const mf_area *area)
{
    mf_day last = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        if (it->blank != MF_YES && mf_same(it->area, area->id))
            last = mf_later(it->on, last);
    }
    return last;
}

const mf_finding *mf_not_cleared_by(const mf_finding *findings, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (findings[i].verdict == MF_LACKING && is_of_check(findings[i].requirement->id))
            return &findings[i];
    return NULL;
}

mf_cleared mf_area_cleared(const mf_job *job, const mf_area *area, const mf_finding *findings,
                           size_t count, mf_day *on)
{
    mf_ver_area seen;
    bool below = false;
    *on = MF_DAY_NONE;
    if (mf_not_cleared_by(findings, count) != NULL)
        return MF_CLEARED_NOT;
    for (size_t i = 0; i < count; i++)
        below = below || (findings[i].verdict == MF_MET &&
                          mf_same(findings[i].requirement->id, "dust-level"));
    bool sampled = mf_on_clearance(job, area->id);
    mf_verification_area(job, area, &seen);
    if (sampled ? !below : !seen.verified)
        return MF_CLEARED_NOT;
    *on = sampled ? last_sampled(job, area) : seen.verified_on;
    return sampled                          ? MF_CLEARED_BY_SAMPLES
           : area->side == MF_SIDE_EXTERIOR ? MF_CLEARED_BY_LOOKING
                                            : MF_CLEARED_BY_CLOTHS;
}
