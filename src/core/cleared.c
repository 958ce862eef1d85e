/* By which way of 745.85(b) or (c) a work area was found clean, so that papers and lists say
 * the same as the question of the signs does. */
#include <mistfold/cleared.h>

#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include <mistfold/clean.h>

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

static const unsigned SIGNS = 1U << MF_GATE_SIGNS;

typedef struct seen {
    mf_area_check *check;
    bool below; /* a sample was found below its level */
} seen;

static void look_at(const mf_finding *finding, void *data)
{
    seen *all = data;
    const char *id = finding->requirement->id;
    all->below = all->below || (finding->verdict == MF_MET && mf_same(id, "dust-level"));
    if (all->check->lacks || mf_audit_answer(finding, 1, SIGNS) == MF_ANSWER_YES)
        return;
    all->check->lacks = true;
    all->check->lacking = *finding;
}

mf_area_check mf_check_area(const mf_job *job, const mf_area *area, mf_day today)
{
    mf_ver_area whole;
    mf_area_check check = {.how = MF_CLEARED_NOT, .on = MF_DAY_NONE};
    seen all = {&check, false};
    const mf_audit_ask ask = {job, today, SIGNS, area->id};
    bool sampled = mf_on_clearance(job, area->id);
    mf_verification_area(job, area, &whole);
    mf_audit_each(&ask, look_at, &all);
    if (check.lacks || job->integrity == MF_INTEGRITY_BROKEN ||
        (sampled ? !all.below : !whole.verified))
        return check;
    check.on = sampled ? last_sampled(job, area) : whole.verified_on;
    check.how = sampled                          ? MF_CLEARED_BY_SAMPLES
                : area->side == MF_SIDE_EXTERIOR ? MF_CLEARED_BY_LOOKING
                                                 : MF_CLEARED_BY_CLOTHS;
    return check;
}
