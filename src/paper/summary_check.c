/* Of the summary: how the cleaning was checked, and the dust samples. 40 CFR 745.85(b)-(c),
 * 745.86(d). */
#include "paper/checked.h"
#include "paper/days.h"
#include "paper/form.h"
#include "paper/summary.h"

#include <mistfold/house.h>
#include <string.h>

/* ---- cloths ------------------------------------------------------------------------- */

/* The sills and sections of an area; of those that a dry cloth ended, the names. */
typedef struct wipes {
    int n, n_dry;
    const char *dry;
} wipes;

static void section_of(mf_rec *rec, const mf_area *area, const mf_surface *surface, int64_t section,
                       wipes *all)
{
    mf_ver_section at;
    int64_t of = mf_sections_of(rec->job, surface);
    mf_verification_replay(rec->job, area, surface, section, &at);
    all->n++;
    if (at.dry == 0)
        return;
    const char *name =
        mf_print(rec, "%s (%s)", surface->place, mf_enum(rec, MF_FAM_SURFACE, (int)surface->kind));
    if (of > 1)
        name = mf_fill(rec, "summary.part", name, mf_print(rec, "%lld", (long long)section),
                       mf_print(rec, "%lld", (long long)of));
    all->n_dry++;
    all->dry = *all->dry == '\0' ? name : mf_join(rec, all->dry, ", ", name);
}

/* The dry cloth that ends the check is not compared with the card:
 * 745.85(b)(1)(ii)(A)(3), (B)(3). */
static const char *wiped(mf_rec *rec, const mf_area *area)
{
    wipes all = {0, 0, ""};
    for (size_t i = 0; i < rec->job->n_surface; i++) {
        const mf_surface *surface = &rec->job->surface[i];
        if (strcmp(surface->area, area->id) != 0)
            continue;
        for (int64_t k = 1; k <= mf_sections_of(rec->job, surface); k++)
            section_of(rec, area, surface, k, &all);
    }
    if (all.n_dry == 0)
        return mf_phrase(rec, "summary.wiped");
    const char *dry = mf_fill(rec, "summary.wiped-dry", all.dry, NULL, NULL);
    return all.n_dry == all.n ? dry : mf_join(rec, dry, " ", mf_phrase(rec, "summary.wiped-else"));
}

/* ---- areas ---------------------------------------------------------------------------- */

static void area_checked(mf_rec *rec, const mf_area *area, bool covered)
{
    static const char *const ids[] = {[MF_CLEARED_NOT] = "summary.area-open",
                                      [MF_CLEARED_BY_CLOTHS] = "summary.area-clean",
                                      [MF_CLEARED_BY_LOOKING] = "summary.area-clean-outside",
                                      [MF_CLEARED_BY_SAMPLES] = "summary.area-cleared"};
    mf_day on = MF_DAY_NONE;
    if (mf_area_is_off(rec, area)) { /* nobody is kept out of a room where nothing was disturbed */
        mf_form_bullet(rec, MF_MARK_DASH, mf_area_off_words(rec, area));
        return;
    }
    mf_cleared how = mf_rec_cleared(rec, area, &on);
    const char *how_wiped = "";
    if (how == MF_CLEARED_NOT && !covered) /* nobody asked for it */
        return;
    if (how == MF_CLEARED_BY_CLOTHS) {
        mf_ver_area sum;
        mf_verification_area(rec->job, area, &sum);
        how_wiped = mf_join(rec, wiped(rec, area), " ", mf_cloths_words(rec, &sum));
    }
    mf_form_bullet(
        rec, how == MF_CLEARED_NOT ? MF_MARK_OPEN : MF_MARK_TICK,
        mf_fill(rec, ids[how], mf_area_place(rec, area), mf_day_words(rec, on), how_wiped));
}

/* ---- dust ------------------------------------------------------------------------------ */

static void dust(mf_rec *rec, const mf_dust_sample *sample)
{
    const mf_limit *level = NULL;
    mf_dust_verdict verdict = mf_dust_judge(rec->job, sample, &level);
    const char *place =
        mf_join(rec, sample->place, ", ", mf_enum(rec, MF_FAM_DUST_SURFACE, (int)sample->surface));
    const char *said = mf_dust_amount_words(rec, sample);
    if (level != NULL)
        said =
            mf_fill(rec, "summary.dust-limit", said, mf_dust_level_words(rec, sample, level), NULL);
    said = mf_join(rec, said, ", ", mf_enum(rec, MF_FAM_DUST_VERDICT, (int)verdict));
    mf_form_bullet(rec, verdict == MF_DUST_PASS ? MF_MARK_TICK : MF_MARK_CROSS,
                   mf_fill(rec, "summary.dust-line", place, said, NULL));
}

void mf_summary_checked(mf_rec *rec)
{
    mf_cover_answer cover;
    const mf_job *job = rec->job;
    mf_cover_judge(job, &cover);
    bool covered = cover.cover == MF_COVER_YES;
    bool off = *mf_off_words(rec) != '\0'; /* there is nothing to check */
    if ((!covered || off) && job->n_dust_sample == 0)
        return;
    mf_page_heading(&rec->page, MF_ST_SECTION, mf_phrase(rec, "summary.checked"));
    if (job->n_area == 0)
        mf_form_bullet(rec, MF_MARK_OPEN, mf_phrase(rec, "no-areas"));
    for (size_t i = 0; i < job->n_area; i++)
        area_checked(rec, &job->area[i], covered && !off);
    for (size_t i = 0; i < job->n_dust_sample; i++)
        if (job->dust_sample[i].blank != MF_YES) /* it touched nothing of the home */
            dust(rec, &job->dust_sample[i]);
    if (job->n_dust_sample > 0)
        mf_form_bullet(rec, MF_MARK_NONE,
                       mf_phrase(rec, covered ? "summary.dust-report" : "summary.dust-ask"));
}
