/* Of the summary: what the crew did. A sentence is said when the findings behind it show it;
 * what is not shown, or what the record says against it, is said in a sentence of its own.
 * 40 CFR 745.86(b)(6), (c). */
#include "paper/form.h"
#include "paper/steps.h"
#include "paper/summary.h"

#include <mistfold/emergency.h>
#include <mistfold/house.h>
#include <string.h>

/* A sentence: paper.summary.<id> when it is shown, <id>-not when not, <id>-waived where an
 * emergency is said to have kept the crew from it. */
typedef struct claim {
    const char *id;
    const char *needs; /* ids of the requirements that show it */
    mf_waiver waiver;
    unsigned sides; /* work areas it speaks of */
} claim;

enum { BOTH = MF_ON_INTERIOR | MF_ON_EXTERIOR };

static const claim trained = {
    "trained",
    "renovator-assigned,renovator-certified,person-assigned,worker-trained,training-topics,"
    "training-tasks,contained-by-crew,cleaned-by-crew",
    MF_WAIVE_TRAINING, BOTH};
static const claim signs = {"signs", "signs,signs-language,contained-first", MF_WAIVE_SIGNS, BOTH};
static const claim contained = {
    "contained",
    "isolate,objects,ducts,windows-closed,doors-closed,doors-used,floor-sheet,windows-outside,"
    "doors-outside,openings-below,doors-used-outside,ground-sheet,line-containment,"
    "contained-first,barriers-whole,barriers-each-day",
    MF_WAIVE_CONTAINMENT, BOTH};
static const claim methods = {"methods", "methods-logged,method-allowed", MF_WAIVER_COUNT, BOTH};
static const claim waste = {
    "waste", "waste-contained,waste-chute,waste-daily,waste-transport,waste-each-day",
    MF_WAIVE_WASTE, BOTH};
static const claim cleaned = {
    "cleaned", "chips,sheeting,walls,surfaces,carpet,mop,margin,divider,cleaning-order",
    MF_WAIVER_COUNT, MF_ON_INTERIOR};
static const claim cleaned_outside = {"cleaned-outside", "chips,sheeting,clean-outside",
                                      MF_WAIVER_COUNT, MF_ON_EXTERIOR};

/* ---- what the findings say of it ------------------------------------------------ */

static unsigned side_of(const mf_area *area)
{
    return area->side == MF_SIDE_INTERIOR ? MF_ON_INTERIOR : MF_ON_EXTERIOR;
}

static bool speaks_of(const mf_rec *rec, const claim *said, const mf_finding *finding)
{
    const mf_area *area = mf_job_area(rec->job, finding->subject);
    return mf_id_in_list(said->needs, finding->requirement->id) &&
           (area == NULL || (said->sides & side_of(area)) != 0);
}

/* The tick by which the plastic of the floor or ground was left out, or NULL. */
static const mf_tick *sheet_left_out(const mf_rec *rec, const mf_finding *finding)
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

typedef struct tally {
    size_t shown, waived, left_out, lacking;
} tally;

static tally tally_of(const mf_rec *rec, const claim *said)
{
    tally sum = {0};
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (!speaks_of(rec, said, finding))
            continue;
        if (is_shown(finding))
            sum.shown++;
        else if (finding->verdict == MF_NOT_DUE)
            sum.waived += strcmp(finding->why, "emergency") == 0;
        else if (sheet_left_out(rec, finding) != NULL)
            sum.left_out++;
        else
            sum.lacking++;
    }
    return sum;
}

/* ---- sentences -------------------------------------------------------------------- */

static const char *words_of(mf_rec *rec, const claim *said, const char *tail, const char *with)
{
    return mf_fill(rec, mf_print(rec, "summary.%s%s", said->id, tail), with, NULL, NULL);
}

static void waived(mf_rec *rec, const claim *said)
{
    const mf_emergency *it = mf_emergency_waives(rec->job, said->waiver);
    mf_form_bullet(rec, MF_MARK_WARN,
                   words_of(rec, said, "-waived", mf_stated(rec, it == NULL ? "" : it->reason)));
}

static void sheets_left_out(mf_rec *rec, const claim *said)
{
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (!speaks_of(rec, said, finding))
            continue;
        const mf_tick *tick = sheet_left_out(rec, finding);
        const mf_area *area = mf_job_area(rec->job, finding->subject);
        if (tick == NULL || area == NULL)
            continue;
        const char *id = area->side == MF_SIDE_INTERIOR ? "summary.no-sheet" : "summary.no-ground";
        mf_form_bullet(rec, MF_MARK_WARN,
                       mf_fill(rec, id, mf_join(rec, area->id, ", ", area->place),
                               mf_stated(rec, tick->reason), NULL));
    }
}

static void sentence(mf_rec *rec, const claim *said)
{
    tally sum = tally_of(rec, said);
    if (sum.waived > 0)
        waived(rec, said);
    if (sum.left_out > 0)
        sheets_left_out(rec, said);
    if (sum.lacking > 0 || sum.shown + sum.waived + sum.left_out == 0)
        mf_form_bullet(rec, MF_MARK_OPEN, words_of(rec, said, "-not", NULL));
    else if (sum.waived + sum.left_out == 0)
        mf_form_bullet(rec, MF_MARK_TICK, words_of(rec, said, "", NULL));
}

/* ---- ways of work that are not allowed --------------------------------------------- */

/* Whether it is said to have been done so, and not only left unsaid that it was not. */
static bool said_so(const mf_practice *used)
{
    if (used->method == MF_METHOD_HEAT_GUN)
        return used->temp_f != MF_NUM_NONE;
    return used->method == MF_METHOD_OPEN_FLAME || used->shroud_and_hepa == MF_NOT;
}

/* "open flame burning or torching, A1, 2026-09-15; ...", or "". */
static const char *refused(mf_rec *rec, bool said)
{
    const char *list = "";
    for (size_t i = 0; i < rec->job->n_practice; i++) {
        const mf_practice *used = &rec->job->practice[i];
        if (used->planned == MF_YES || !mf_practice_refused(rec->job, used) ||
            said_so(used) != said)
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

static void ways_of_work(mf_rec *rec)
{
    const char *used = refused(rec, true), *unsaid = refused(rec, false);
    if (*used != '\0')
        mf_form_bullet(rec, MF_MARK_CROSS, words_of(rec, &methods, "-refused", used));
    if (*unsaid != '\0')
        mf_form_bullet(rec, MF_MARK_OPEN, words_of(rec, &methods, "-unsaid", unsaid));
    if (*used == '\0' && *unsaid == '\0')
        sentence(rec, &methods);
}

static bool any_on(const mf_rec *rec, unsigned side)
{
    for (size_t i = 0; i < rec->job->n_area; i++)
        if (side_of(&rec->job->area[i]) == side)
            return true;
    return false;
}

void mf_summary_done(mf_rec *rec)
{
    mf_cover_answer cover;
    mf_cover_judge(rec->job, &cover);
    mf_page_heading(&rec->page, MF_ST_SECTION, mf_phrase(rec, "summary.done"));
    if (cover.cover != MF_COVER_YES) { /* nothing of it was asked for */
        mf_form_bullet(rec, MF_MARK_DASH, mf_enum(rec, MF_FAM_COVER, (int)cover.why));
        return;
    }
    sentence(rec, &trained);
    sentence(rec, &signs);
    sentence(rec, &contained);
    ways_of_work(rec);
    sentence(rec, &waste);
    if (any_on(rec, MF_ON_INTERIOR) || rec->job->n_area == 0)
        sentence(rec, &cleaned);
    if (any_on(rec, MF_ON_EXTERIOR))
        sentence(rec, &cleaned_outside);
}
