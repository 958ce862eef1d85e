/* Of the summary: what the crew did and how the cleaning was checked. A sentence
 * has its tick only when every work area shows it. */
#include "paper/form.h"
#include "paper/steps.h"
#include "paper/summary.h"

#include <mistfold/clean.h>
#include <mistfold/dust.h>
#include <string.h>

static bool all_trained(const mf_rec *rec)
{
    const mf_job *job = rec->job;
    bool any = false;
    for (size_t i = 0; i < job->n_assignment; i++) {
        bool taught = job->assignment[i].duty != MF_DUTY_WORKER;
        any = true;
        for (size_t k = 0; k < job->n_training; k++)
            taught = taught || strcmp(job->training[k].worker, job->assignment[i].person) == 0;
        if (!taught)
            return false;
    }
    return any;
}

static bool methods_allowed(const mf_rec *rec)
{
    for (size_t i = 0; i < rec->job->n_practice; i++)
        if (mf_practice_refused(rec->job, &rec->job->practice[i]))
            return false;
    return rec->job->n_practice > 0;
}

/* Whether all steps that are evidence for a paragraph of 745.86(b)(6) were done, or
 * found not needed, in every work area. */
static bool steps_shown(const mf_rec *rec, const char *paragraph)
{
    size_t n = 0;
    const mf_step *steps = mf_steps(&n);
    for (size_t area = 0; area < rec->job->n_area; area++)
        for (size_t i = 0; i < n; i++) {
            const mf_area *here = &rec->job->area[area];
            if (strncmp(steps[i].record, paragraph, strlen(paragraph)) != 0 ||
                !mf_step_wanted(rec->job, &steps[i], here))
                continue;
            if (!mf_step_settled(mf_step_judge(rec->job, here, &steps[i], NULL)))
                return false;
        }
    return rec->job->n_area > 0;
}

static void sentence(mf_rec *rec, const char *id, bool shown)
{
    const char *words = mf_phrase(rec, id);
    if (!shown)
        words = mf_join(rec, words, " ", mf_phrase(rec, "summary.not-shown"));
    mf_form_bullet(rec, shown ? MF_MARK_TICK : MF_MARK_OPEN, words);
}

void mf_summary_done(mf_rec *rec)
{
    mf_page_heading(&rec->page, MF_ST_SECTION, mf_phrase(rec, "summary.done"));
    sentence(rec, "summary.trained", all_trained(rec));
    sentence(rec, "summary.signs", steps_shown(rec, "745.86(b)(6)(ii)"));
    sentence(rec, "summary.contained", steps_shown(rec, "745.86(b)(6)(v)"));
    sentence(rec, "summary.methods", methods_allowed(rec));
    sentence(rec, "summary.waste", steps_shown(rec, "745.86(b)(6)(vi)"));
    sentence(rec, "summary.cleaned", steps_shown(rec, "745.86(b)(6)(vii)"));
}

/* ---- the check ------------------------------------------------------------------ */

static void area_checked(mf_rec *rec, const mf_area *area)
{
    mf_ver_area state;
    const char *name = mf_join(rec, area->id, ", ", area->place);
    mf_verification_area(rec->job, area, &state);
    if (!state.verified) {
        mf_form_bullet(rec, MF_MARK_OPEN, mf_fill(rec, "summary.area-open", name, NULL, NULL));
        return;
    }
    const char *day = mf_day_words(rec, state.verified_on);
    const char *cloths = mf_fill(rec, "area-cloths", mf_print(rec, "%d", state.wet),
                                 mf_print(rec, "%d", state.dry), NULL);
    mf_form_bullet(rec, MF_MARK_TICK,
                   area->side == MF_SIDE_EXTERIOR
                       ? mf_fill(rec, "summary.area-clean-outside", name, day, NULL)
                       : mf_fill(rec, "summary.area-clean", name, day, cloths));
}

static void dust(mf_rec *rec, const mf_dust_sample *sample)
{
    const mf_limit *level = NULL;
    mf_dust_verdict verdict = mf_dust_judge(rec->job, sample, &level);
    const char *place =
        mf_join(rec, sample->place, ", ", mf_enum(rec, MF_FAM_DUST_SURFACE, (int)sample->surface));
    const char *said = mf_number_words(rec, sample->loading_ng_ft2, MF_UNIT_NG_FT2);
    said = mf_join(rec, said, ", ", mf_enum(rec, MF_FAM_DUST_VERDICT, (int)verdict));
    if (level != NULL)
        said = mf_join(
            rec, said, ", ",
            mf_fill(rec, "below", mf_number_words(rec, level->value, level->unit), NULL, NULL));
    mf_form_bullet(rec, verdict == MF_DUST_PASS ? MF_MARK_TICK : MF_MARK_CROSS,
                   mf_fill(rec, "summary.dust-line", place, said, NULL));
}

void mf_summary_checked(mf_rec *rec)
{
    mf_page_heading(&rec->page, MF_ST_SECTION, mf_phrase(rec, "summary.checked"));
    if (rec->job->n_area == 0)
        mf_form_bullet(rec, MF_MARK_OPEN, mf_phrase(rec, "no-areas"));
    for (size_t i = 0; i < rec->job->n_area; i++)
        area_checked(rec, &rec->job->area[i]);
    for (size_t i = 0; i < rec->job->n_dust_sample; i++)
        dust(rec, &rec->job->dust_sample[i]);
    if (rec->job->n_dust_sample > 0)
        mf_form_bullet(rec, MF_MARK_NONE, mf_phrase(rec, "summary.dust-report"));
}
