/* Does a work area hold everything that is worked on, how far is the property line, and
 * by which method is it worked on: an open flame, a heat gun, a machine without HEPA exhaust?
 * 40 CFR 745.85(a)(2)-(3). */
#include "core/audit_rows.h"

#include "core/area_off.h"
#include "core/text.h"
#include <mistfold/contain.h>
#include <mistfold/paint.h>

void mf_show_areas(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    out->subject = asked->area;
    mf_say_numbers(out, MF_UNIT_COUNT, (int64_t)asked->job->n_area, MF_NUM_NONE);
    if (asked->job->n_area == 0)
        mf_say(out, MF_LACKING, "area-none");
    else if (mf_given(asked->area) && mf_job_area(asked->job, asked->area) == NULL)
        mf_say(out, MF_LACKING, "area-unknown");
    else if (mf_areas_all_off(asked->whole, asked->today))
        mf_say(out, MF_LACKING, "areas-all-off");
    else
        mf_say(out, MF_MET, "areas-listed");
}

/* An area of which nobody gave the distance counts as near the line (area.h), so that
 * containment is asked for there: that it was not measured is told. */
void mf_show_line_measured(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_area *area = subject->area;
    bool given = area->line_ft_100 != MF_NUM_NONE;
    mf_say(out, given ? MF_MET : MF_WARNING, given ? "line-measured" : "line-not-measured");
    mf_say_limit(out, asked->job, MF_LIMIT_PROPERTY_LINE, asked->start);
    mf_say_numbers(out, MF_UNIT_FT_100, area->line_ft_100, out->limit->value);
    out->evidence = mf_or_empty(area->src.entry);
}

/* The first affected part of an opening that lies in no work area, or NULL. */
static const mf_component *outside_areas(const mf_job *job, const char *opening, bool *affected)
{
    *affected = false;
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *component = &job->component[i];
        if (!mf_same(component->opening, opening) || !mf_paint_disturbed(job, component))
            continue;
        *affected = true;
        if (mf_job_area_of(job, component) == NULL)
            return component;
    }
    return NULL;
}

/* Without any work area the one finding of areas-listed says it all. */
const char *mf_if_opening_affected(const mf_asked *asked, const mf_subject *subject)
{
    bool affected;
    if (asked->job->n_area == 0)
        return "area-none";
    outside_areas(asked->job, subject->id, &affected);
    bool listed = mf_opening_listed(asked->job, subject->id) &&
                  !mf_side_unlisted(asked->job, subject->opening, MF_SIDE_INTERIOR) &&
                  !mf_side_unlisted(asked->job, subject->opening, MF_SIDE_EXTERIOR);
    return affected || !listed ? NULL : "opening-not-affected";
}

/* Of an opening without parts nobody has said which side is disturbed: any area will do. */
static bool in_some_area(const mf_job *job, const char *opening)
{
    for (size_t i = 0; i < job->n_area; i++)
        if (mf_area_lists(job, job->area[i].id, opening))
            return true;
    return false;
}

const mf_component *mf_loose_component(const mf_job *job)
{
    for (size_t i = 0; i < job->n_component; i++)
        if (mf_paint_disturbed(job, &job->component[i]) &&
            mf_job_area_of(job, &job->component[i]) == NULL)
            return &job->component[i];
    return NULL;
}

static const mf_opening *loose_opening(const mf_job *job)
{
    for (size_t i = 0; i < job->n_opening; i++)
        if (!in_some_area(job, job->opening[i].id) && !mf_opening_listed(job, job->opening[i].id))
            return &job->opening[i];
    return NULL;
}

/* A side of which parts are unlisted is presumed to be disturbed with the opening. */
static bool side_in_area(const mf_job *job, const mf_opening *opening, mf_side side)
{
    if (!mf_side_unlisted(job, opening, side))
        return true;
    for (size_t i = 0; i < job->n_area; i++)
        if (job->area[i].side == side && mf_id_in_list(job->area[i].openings, opening->id))
            return true;
    return false;
}

static const mf_opening *loose_side(const mf_job *job)
{
    for (size_t i = 0; i < job->n_opening; i++)
        if (!side_in_area(job, &job->opening[i], MF_SIDE_INTERIOR) ||
            !side_in_area(job, &job->opening[i], MF_SIDE_EXTERIOR))
            return &job->opening[i];
    return NULL;
}

const char *mf_if_all_areas(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    if (mf_given(asked->area))
        return "one-area-asked";
    return asked->job->n_area == 0 ? "area-none" : NULL;
}

/* The signs of each area may come down, and yet paint was disturbed where nobody cleaned:
 * they stay until the cleaning verification of the renovation. */
void mf_show_areas_hold_all(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_component *part = mf_loose_component(asked->job);
    const mf_opening *opening = loose_opening(asked->job), *side = loose_side(asked->job);
    (void)subject;
    mf_say(out, MF_MET, "areas-hold-all");
    if (part == NULL && opening == NULL && side == NULL)
        return;
    mf_say(out, MF_LACKING,
           part != NULL                                       ? "component-no-area"
           : opening != NULL                                  ? "opening-no-area"
           : side_in_area(asked->job, side, MF_SIDE_INTERIOR) ? "opening-unlisted-outside"
                                                              : "opening-unlisted-inside");
    opening = opening != NULL ? opening : side;
    out->subject = part != NULL ? part->id : opening->id;
    out->evidence = mf_or_empty(part != NULL ? part->src.entry : opening->src.entry);
}

void mf_show_opening_in_area(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool affected;
    const mf_component *loose = outside_areas(asked->job, subject->id, &affected);
    if (loose == NULL) {
        bool held = affected || in_some_area(asked->job, subject->id);
        bool inside = side_in_area(asked->job, subject->opening, MF_SIDE_INTERIOR);
        bool outside = side_in_area(asked->job, subject->opening, MF_SIDE_EXTERIOR);
        mf_say(out, held && inside && outside ? MF_MET : MF_LACKING,
               !held     ? "opening-no-area"
               : !inside ? "opening-unlisted-inside"
               : outside ? "opening-in-area"
                         : "opening-unlisted-outside");
        return;
    }
    bool inside = loose->side == MF_SIDE_INTERIOR;
    mf_say(out, MF_LACKING, inside ? "opening-no-area-inside" : "opening-no-area-outside");
    out->evidence = mf_or_empty(loose->src.entry);
}

/* The parts of an opening are asked for with it, unless it was withdrawn on one device
 * while another logged the part. */
const char *mf_if_no_opening(const mf_asked *asked, const mf_subject *subject)
{
    if (asked->job->n_area == 0)
        return "area-none";
    if (mf_job_opening(asked->job, subject->component->opening) != NULL)
        return "component-of-opening";
    return mf_paint_disturbed(asked->job, subject->component) ? NULL : "component-not-affected";
}

void mf_show_component_in_area(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool held = mf_job_area_of(asked->job, subject->component) != NULL;
    mf_say(out, held ? MF_MET : MF_LACKING, held ? "component-in-area" : "component-no-area");
}

/* ---- methods ------------------------------------------------------------------------- */

static const char *prohibited_name(const mf_practice *practice)
{
    if (practice->planned == MF_YES)
        return "method-planned";
    switch (practice->method) {
    case MF_METHOD_OPEN_FLAME:
        return "method-flame";
    case MF_METHOD_MACHINE:
    case MF_METHOD_BLASTING:
        return "method-machine";
    case MF_METHOD_HEAT_GUN:
        return practice->temp_f == MF_NUM_NONE ? "method-heat-unsaid" : "method-heat";
    case MF_METHOD_HAND:
    case MF_METHOD_DRY_SCRAPE:
    case MF_METHOD_DRY_SAND:
    case MF_METHOD_STRIPPER:
    case MF_METHOD_DEMOLITION:
        break;
    }
    return "method-allowed";
}

/* A plan that is allowed says nothing of what happened. */
const char *mf_if_method_matters(const mf_asked *asked, const mf_subject *subject)
{
    const mf_practice *it = subject->practice;
    bool fine = it->planned == MF_YES && !mf_practice_refused(asked->job, it);
    return fine ? "practice-planned" : NULL;
}

void mf_show_method(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_practice *it = subject->practice;
    bool prohibited = mf_practice_refused(asked->job, it);
    mf_say(out, prohibited ? MF_LACKING : MF_MET,
           prohibited ? prohibited_name(it) : "method-allowed");
    mf_say_days(out, it->on, MF_DAY_NONE);
    if (it->method == MF_METHOD_HEAT_GUN) {
        mf_say_limit(out, asked->job, MF_LIMIT_HEAT_GUN, it->on);
        mf_say_numbers(out, MF_UNIT_DEG_F, it->temp_f,
                       out->limit == NULL ? MF_NUM_NONE : out->limit->value);
    }
}
