/* Assisted housing: the place of the work is closed off and covered before it, and cleaned after
 * it: 24 CFR 35.1345(b), 35.1350(b)-(c). */
#include "core/audit_rows.h"

#include "core/area_off.h"
#include "core/area_openings.h"
#include "core/text.h"
#include "core/worked.h"
#include <mistfold/contain.h>

/* Or taken down again when the area had been shown to be clean. */
static bool done(const mf_asked *asked, const mf_area *area, const char *id)
{
    const mf_step *step = mf_step_named(id);
    const mf_tick *tick = NULL;
    return step != NULL && (mf_step_stood(asked, area, step, MF_DAY_NONE, &tick) == MF_STEP_DONE ||
                            mf_taken_down(asked, area, tick));
}

/* What is ticked only after the first day of work was not there before it. */
static bool in_time(const mf_asked *asked, const mf_area *area, const char *id)
{
    mf_day worked = mf_worked_first(asked->job, area->id);
    const mf_tick *tick = mf_first_settled(asked->job, area, id);
    return worked == MF_DAY_NONE || (tick != NULL && tick->on <= worked);
}

/* Whether the area has nothing of it, which was said as it must be. */
static bool nothing_there(const mf_asked *asked, const mf_area *area, const char *id)
{
    const mf_step *step = mf_step_named(id);
    return step != NULL && mf_id_in_list("ducts,doors-closed", id) &&
           (!mf_step_wanted(asked->job, step, area) ||
            mf_step_settled(mf_step_judge(asked->job, area, step, NULL)));
}

/* Closed off and covered so that no dust gets out (35.1345(b)(1)), with the sign of (b)(2): NULL,
 * or why not. */
static const char *not_prepared(const mf_asked *asked, const mf_area *area)
{
    bool inside = area->side == MF_SIDE_INTERIOR;
    const char *const steps[] = {"signs-assisted", "isolate",
                                 inside ? "floor-sheet" : "ground-sheet", "ducts", "doors-closed"};
    size_t n = inside ? sizeof steps / sizeof steps[0] : 3;
    bool late = false;
    for (size_t i = 0; i < n; i++) {
        if (nothing_there(asked, area, steps[i]) && !done(asked, area, steps[i]))
            continue;
        if (!done(asked, area, steps[i]))
            return "assisted-not-prepared";
        late = late || !in_time(asked, area, steps[i]);
    }
    return late ? "assisted-prepared-late" : NULL;
}

/* Where EPA's rule asks for no containment of its own, nor for a word on methods: part 35 alone. */
const char *mf_if_assisted_alone(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted_over(asked, subject);
    if (why != NULL)
        return why;
    return asked->cover.cover == MF_COVER_YES ? "covered-too" : NULL;
}

/* What does not stand at all, or came days late, is told of the job. */
const char *mf_if_assisted_first(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted_alone(asked, subject);
    if (why == NULL)
        why = mf_if_area_worked(asked, subject);
    return why == NULL ? not_prepared(asked, subject->area) : why;
}

/* Asked of the job, not of each area: where EPA's rule does not ask for work areas
 * (minor work), a job without one would be prepared by having nothing to prepare. */
void mf_show_assisted_prepared(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    (void)subject;
    mf_say(out, job->n_area == 0 ? MF_LACKING : MF_MET,
           job->n_area == 0 ? "area-none" : "assisted-prepared");
    for (size_t i = 0; i < job->n_area; i++) {
        const mf_area *area = &job->area[i];
        bool other = mf_given(asked->area) && !mf_same(asked->area, area->id) &&
                     !mf_open_into_each_other(job, asked->area, area->id);
        bool off = mf_area_off(asked->whole, area->id, asked->today);
        const char *why = other || off ? NULL : not_prepared(asked, area);
        if (why == NULL)
            continue;
        mf_say(out, MF_LACKING, why);
        out->subject = area->id;
        return;
    }
    const mf_component *loose = mf_loose_component(job); /* neither covered nor cleared */
    if (job->n_area == 0 || mf_given(asked->area) || loose == NULL)
        return;
    mf_say(out, MF_LACKING, "component-no-area");
    out->subject = mf_or_empty(loose->id);
    out->evidence = mf_or_empty(loose->src.entry);
}

/* A cleaning before the last work leaves what that made. */
void mf_show_assisted_site(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_area *area = subject->area;
    const mf_step *step =
        mf_step_named(area->side == MF_SIDE_INTERIOR ? "surfaces" : "clean-outside");
    const mf_tick *tick = NULL;
    bool clean = step != NULL && mf_step_judge(asked->job, area, step, &tick) == MF_STEP_DONE;
    const mf_practice *work =
        clean ? mf_worked_since(asked->job, area->id, tick->on, tick->at_minute) : NULL;
    mf_say(out, clean ? MF_MET : MF_LACKING, clean ? "assisted-site" : "assisted-site-open");
    if (work == NULL)
        return;
    const mf_work_after it = {work, tick->on, tick->at_minute, tick->src.entry};
    mf_say_work(out, &it, "assisted-site-before", "assisted-site-unsaid");
}

/* ---- by whom ------------------------------------------------------------------------------ */

/* Those who work there are trained, 35.1330(a)(4): as EPA's rule asks it where it holds. */
const char *mf_if_assisted_crew(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted_alone(asked, subject);
    if (why != NULL || mf_if_contain_ticked(asked, subject) == NULL)
        return why;
    return mf_if_disturbed(asked, subject);
}

void mf_show_assisted_crew(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_show_contained_by(asked, subject, out);
    if (out->verdict == MF_MET)
        mf_show_disturbed_by(asked, subject, out);
}

const char *mf_if_assisted_cleaners(const mf_asked *asked, const mf_subject *subject)
{
    const char *why = mf_if_assisted_alone(asked, subject);
    return why == NULL ? mf_if_clean_ticked(asked, subject) : why;
}
