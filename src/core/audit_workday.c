/* What must be done on each day of work, and by whose direction. A day on which
 * paint was disturbed in a work area is one on which a practice was logged there.
 * 40 CFR 745.85(a)(2), (a)(4)(ii), 745.90(b)(1) and (b)(4). */
#include "core/audit_rows.h"

#include "core/area_off.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/contain.h>
#include <mistfold/emergency.h>
#include <mistfold/person.h>

/* Several practices of one day in one area ask once. */
const char *mf_if_day_worked(const mf_asked *asked, const mf_subject *subject)
{
    const mf_practice *own = subject->practice;
    if (own->planned == MF_YES)
        return "practice-planned";
    for (const mf_practice *it = asked->job->practice; it < own; it++) {
        if (it->planned != MF_YES && it->on == own->on && mf_same(it->area, own->area))
            return "day-asked-before";
    }
    return NULL;
}

/* The last that was said of a step on a day, or NULL. */
static const mf_tick *last_that_day(const mf_job *job, const mf_practice *day, const char *step)
{
    const mf_tick *last = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_NOT_NEEDED || it->on != day->on || !mf_same(it->step, step) ||
            !mf_same(it->area, day->area))
            continue;
        if (last == NULL || !mf_surely_before(it->on, it->at_minute, last->on, last->at_minute))
            last = it;
    }
    return last;
}

/* The last word of a day counts. One that says no is of a day that is over: it is held against the
 * work by contained-first, and the signs may come down once all is clean. */
static void say_day(const mf_asked *asked, const mf_practice *day, const char *step,
                    mf_finding *out)
{
    const mf_tick *last = last_that_day(asked->job, day, step);
    const mf_area *area = mf_job_area(asked->job, day->area);
    bool down = last != NULL && area != NULL && mf_taken_down(asked, area, last);
    bool done = last != NULL && (last->state == MF_TICK_DONE || down);
    if (last == NULL)
        mf_say(out, MF_LACKING, "day-not-ticked");
    else
        mf_say(out, done ? MF_MET : MF_WARNING, done ? "day-ticked" : "day-undone");
    mf_say_days(out, day->on, MF_DAY_NONE);
    out->evidence = last == NULL ? out->evidence : mf_or_empty(last->src.entry);
}

/* Whether all work of a day in its area is known to have been over by a minute of it. */
static bool over_by(const mf_job *job, const mf_practice *day, int32_t at)
{
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (it->planned != MF_YES && it->on == day->on && mf_same(it->area, day->area) &&
            (it->at_minute == MF_MINUTE_NONE || it->at_minute < it->began_minute ||
             it->at_minute > at))
            return false;
    }
    return at != MF_MINUTE_NONE;
}

/* A check of the barriers later on the day than the waste was closed away: then there was work
 * after it, or the time is wrong; but where the work was over by then somebody looked once more. */
static const mf_tick *checked_after(const mf_asked *asked, const mf_practice *day,
                                    const mf_tick *closed)
{
    if (closed == NULL || over_by(asked->job, day, closed->at_minute))
        return NULL;
    for (size_t i = 0; i < asked->job->n_tick; i++) {
        const mf_tick *it = &asked->job->tick[i];
        if (it->on == day->on && mf_same(it->area, day->area) &&
            mf_same(it->step, "barriers-whole") &&
            mf_surely_before(closed->on, closed->at_minute, it->on, it->at_minute))
            return it;
    }
    return NULL;
}

/* "At the conclusion of each work day": the last word of the day was said while work surely went
 * on, which other then names. */
static bool ended_later(const mf_asked *asked, const mf_practice *day, const char *step,
                        mf_finding *out)
{
    const mf_tick *last = last_that_day(asked->job, day, step);
    const mf_practice *work =
        last == NULL || last->state != MF_TICK_DONE
            ? NULL
            : mf_worked_later_that_day(asked->job, day->area, last->on, last->at_minute);
    if (work == NULL)
        return false;
    out->other = mf_or_empty(work->src.entry);
    return true;
}

void mf_show_waste_each_day(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_practice *day = subject->practice;
    const mf_tick *night = mf_closed_past_midnight(asked->job, day);
    if (night != NULL) {
        mf_say(out, MF_MET, "day-ticked");
        mf_say_days(out, night->on, MF_DAY_NONE);
        out->evidence = mf_or_empty(night->src.entry);
        return;
    }
    say_day(asked, day, "waste-daily", out);
    if (out->verdict != MF_MET)
        return;
    if (ended_later(asked, day, "waste-daily", out)) {
        mf_say(out, MF_LACKING, "day-waste-before-end");
        return;
    }
    const mf_tick *later = checked_after(asked, day, last_that_day(asked->job, day, "waste-daily"));
    if (later == NULL)
        return;
    mf_say(out, MF_WARNING, "day-waste-early");
    out->other = mf_or_empty(later->src.entry);
}

void mf_show_barriers_each_day(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say_day(asked, subject->practice, "barriers-whole", out);
}

/* No record of 745.86(b)(6) is asked of each day. */
void mf_show_leave_each_day(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say_day(asked, subject->practice, "leave-clean", out);
    if (out->verdict == MF_LACKING)
        out->verdict = MF_WARNING;
}

const char *mf_if_day_inside(const mf_asked *asked, const mf_subject *subject)
{
    const mf_area *area = mf_job_area(asked->job, subject->practice->area);
    if (area == NULL || area->side != MF_SIDE_INTERIOR)
        return "area-outside";
    return mf_if_day_worked(asked, subject);
}

static void say_methods(const mf_job *job, const char *area, mf_verdict none, const char *why,
                        mf_finding *out)
{
    mf_say(out, none, why);
    for (size_t i = 0; i < job->n_practice; i++) {
        if (job->practice[i].planned == MF_YES || !mf_same(job->practice[i].area, area))
            continue;
        mf_say(out, MF_MET, "methods-logged");
        out->evidence = mf_or_empty(job->practice[i].src.entry);
        return;
    }
}

/* The job is over, and nothing at all tells of work there: it may have been given up. */
static bool never_worked(const mf_asked *asked, const mf_subject *subject)
{
    return asked->completed != MF_DAY_NONE && mf_area_done_by(asked->job, subject->id) == NULL;
}

/* Without a word on how paint was disturbed nothing shows that no prohibited
 * method was used, nor on which days work went on. Of a job that is over nothing else can show it
 * (745.85(a)(3), 745.86(a)). */
void mf_show_methods_logged(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const bool over = asked->completed != MF_DAY_NONE;
    const char *why = never_worked(asked, subject) ? "area-never-worked" : "methods-none";
    say_methods(asked->job, subject->id, over ? MF_LACKING : MF_WARNING, why, out);
    out->other = mf_or_empty(subject->area->src.entry);
}

/* The signs hang on what is asked of each day of work, of which there may be none that was logged:
 * told where they come down, as the record of it is owed later. */
void mf_show_work_logged(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const char *why = never_worked(asked, subject) ? "area-never-worked" : "work-unlogged";
    say_methods(asked->job, subject->id, MF_WARNING, why, out);
    out->other = mf_or_empty(subject->area->src.entry);
}

/* ---- first the signs and the containment, then the work -------------------------------- */

const char *mf_if_area_worked(const mf_asked *asked, const mf_subject *subject)
{
    return mf_worked_first(asked->job, subject->id) == MF_DAY_NONE ? "area-not-worked" : NULL;
}

static bool is_excused(const mf_job *job, const mf_step *step, mf_day day, unsigned which)
{
    mf_waiver waiver = mf_waiver_for(step->citation, true);
    return which != MF_OF_PART_35 && waiver != MF_WAIVER_COUNT &&
           mf_emergency_waives(job, waiver, day) != NULL;
}

const mf_tick *mf_first_settled(const mf_job *job, const mf_area *area, const char *step)
{
    const mf_tick *first = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state != MF_TICK_UNDONE && mf_same(it->step, step) && mf_same(it->area, area->id) &&
            (first == NULL || mf_surely_before(it->on, it->at_minute, first->on, first->at_minute)))
            first = it;
    }
    return first;
}

static bool asked_before_work(const mf_asked *asked, const mf_step *step, const mf_area *area,
                              mf_day day, unsigned which)
{
    return step->phase == MF_PHASE_CONTAIN && !is_excused(asked->job, step, day, which) &&
           step->when != MF_WHEN_ASSISTED && /* told by assisted-prepared */
           mf_step_wanted(asked->job, step, area);
}

/* Paint was disturbed after the containment had ended, and it was not set up again. */
static bool not_anew(const mf_asked *asked, const mf_area *area, const mf_practice *work,
                     unsigned which, mf_finding *out)
{
    mf_day ended;
    const mf_step *step = mf_not_contained_anew(asked->job, area, work, which, &ended);
    if (step == NULL || is_excused(asked->job, step, work->on, which))
        return false;
    mf_say(out, MF_LACKING, "contained-not-anew");
    mf_say_days(out, ended, work->on);
    out->told = step->id;
    return true;
}

/* A time of a day by which there had been work already. */
typedef struct working {
    int32_t at; /* MF_MINUTE_NONE = none is known */
    const char *entry;
} working;

static void keep_first(working *first, int32_t at, const mf_src *src)
{
    if (at != MF_MINUTE_NONE && (first->at == MF_MINUTE_NONE || at < first->at))
        *first = (working){at, src->entry};
}

/* The first of them: of the work itself, or of waste or cleaning. */
static working under_way(const mf_job *job, const mf_area *area, mf_day day)
{
    working first = {MF_MINUTE_NONE, ""};
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (it->planned != MF_YES && it->on == day && mf_same(it->area, area->id))
            keep_first(&first, mf_work_first_said(it), &it->src);
    }
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        bool waste = mf_same(it->step, "waste-daily") || mf_same(it->step, "waste-contained");
        if (it->on == day && mf_same(it->area, area->id) && it->state == MF_TICK_DONE &&
            (waste || mf_is_cleaning(it)))
            keep_first(&first, it->at_minute, &it->src);
    }
    return first;
}

/* A step that was ticked for the first time on a day of work, and later than that: of the sign of
 * assisted housing assisted-prepared tells the day alone. */
static bool late_that_day(const mf_asked *asked, const mf_area *area, mf_day day, unsigned which,
                          mf_finding *out)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    working work = under_way(asked->job, area, day);
    for (size_t i = 0; i < n; i++) {
        const mf_tick *first = mf_first_settled(asked->job, area, steps[i].id);
        bool assisted = steps[i].when == MF_WHEN_ASSISTED && asked->assisted.over;
        if (first == NULL || !mf_step_of(&steps[i], which) ||
            !(assisted || asked_before_work(asked, &steps[i], area, day, which)) ||
            work.at == MF_MINUTE_NONE ||
            !mf_surely_before(day, work.at, first->on, first->at_minute))
            continue;
        mf_say(out, MF_LACKING, "contained-after-work");
        mf_say_days(out, day, MF_DAY_NONE);
        out->told = steps[i].id;
        out->evidence = mf_or_empty(first->src.entry);
        out->other = mf_or_empty(work.entry);
        return true;
    }
    return false;
}

/* A step that does not stand today either is told by its own row, but for those of every day, whose
 * row the inspection does not ask; what was taken down when all was clean needs no word. */
static bool told_today(const mf_asked *asked, const mf_area *area, const mf_step *step,
                       const mf_tick *tick)
{
    return mf_taken_down(asked, area, tick) ||
           (!mf_step_every_day(step) &&
            !mf_step_settled(mf_step_stood(asked, area, step, MF_DAY_NONE, NULL)));
}

/* A step of every day, or a sign of assisted housing, that was undone on a day of work and not
 * done again by its end. */
static bool undone_on(const mf_asked *asked, const mf_area *area, mf_day day, unsigned which,
                      mf_finding *out)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    for (size_t i = 0; i < n; i++) {
        const mf_tick *tick = NULL;
        bool asked_of = steps[i].phase == MF_PHASE_WORK || steps[i].when == MF_WHEN_ASSISTED;
        if (!asked_of || !mf_step_of(&steps[i], which) ||
            is_excused(asked->job, &steps[i], day, which))
            continue;
        mf_step_judge_by(asked->job, area, &steps[i], day, &tick);
        if (tick == NULL || tick->state != MF_TICK_UNDONE ||
            told_today(asked, area, &steps[i], tick))
            continue;
        mf_say(out, MF_LACKING, "day-step-undone");
        mf_say_days(out, tick->on, day);
        out->told = steps[i].id;
        out->evidence = mf_or_empty(tick->src.entry);
        return true;
    }
    return false;
}

/* A step that was down, or too short, within the hours of work and stood again at the end of the
 * day: of the containment, of the signs, and the barriers. */
static bool down_within(const mf_asked *asked, const mf_area *area, const mf_practice *work,
                        unsigned which, mf_finding *out)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    for (size_t i = 0; i < n; i++) {
        bool asked_of =
            steps[i].when == MF_WHEN_ASSISTED
                ? asked->assisted.over
                : steps[i].phase == MF_PHASE_CONTAIN || mf_same(steps[i].id, "barriers-whole");
        if (asked_of && mf_step_of(&steps[i], which) &&
            !is_excused(asked->job, &steps[i], work->on, which) &&
            mf_step_wanted(asked->job, &steps[i], area) &&
            mf_down_in_hours(asked, area, &steps[i], work, out))
            return true;
    }
    return false;
}

/* A step that did not stand at the end of a day on which paint was disturbed there. By days: when
 * the work began need not be said. */
static bool open_on(const mf_asked *asked, const mf_area *area, mf_day day, unsigned which,
                    bool told_too, mf_finding *out)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    for (size_t i = 0; i < n; i++) {
        const mf_tick *tick, *first = mf_first_settled(asked->job, area, steps[i].id);
        mf_step_state state = mf_step_stood(asked, area, &steps[i], day, &tick);
        bool down = state == MF_STEP_SHORT || (tick != NULL && tick->state == MF_TICK_UNDONE);
        if (first == NULL || !mf_step_of(&steps[i], which) ||
            !asked_before_work(asked, &steps[i], area, day, which) || mf_step_settled(state) ||
            (tick != NULL && mf_taken_down(asked, area, tick)) ||
            (tick != NULL && !(told_too && down) && told_today(asked, area, &steps[i], tick)))
            continue;
        mf_say(out, MF_LACKING, tick == NULL ? "contained-late" : "contained-gap");
        mf_say_days(out, tick == NULL ? first->on : day, tick == NULL ? day : MF_DAY_NONE);
        out->told = steps[i].id;
        out->evidence = mf_or_empty(tick == NULL ? first->src.entry : tick->src.entry);
        return true;
    }
    return false;
}

/* The first fault of the days of work; out stays where there is none. What does not stand today
 * either is told by rows of the file; where nobody asks these, what was undone or falls short is
 * told_too. */
static void say_fault(const mf_asked *asked, const mf_area *area, unsigned which, bool told_too,
                      mf_finding *out)
{
    const mf_job *job = asked->job;
    mf_say_days(out, mf_worked_first(job, area->id), MF_DAY_NONE);
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (it->planned != MF_YES && mf_same(it->area, area->id) &&
            (open_on(asked, area, it->on, which, told_too, out) ||
             not_anew(asked, area, it, which, out) ||
             late_that_day(asked, area, it->on, which, out) ||
             undone_on(asked, area, it->on, which, out) ||
             down_within(asked, area, it, which, out)))
            return;
    }
}

void mf_show_signs_first(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_say(out, MF_MET, "signs-first");
    say_fault(asked, subject->area, MF_OF_SIGNS, false, out);
}

void mf_show_contained_first(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_say(out, MF_MET, "contained-first");
    say_fault(asked, subject->area, MF_OF_CONTAINMENT, false, out);
}

/* Where the signs come down the area is clean: told, as dust may have got out of it before. */
static void say_all_along(const mf_asked *asked, const mf_area *area, unsigned which,
                          mf_finding *out)
{
    mf_say(out, MF_MET, "contained-first");
    say_fault(asked, area, which, true, out);
    if (out->verdict == MF_LACKING)
        out->verdict = MF_WARNING;
}

void mf_show_contained_all_along(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say_all_along(asked, subject->area, MF_OF_SIGNS | MF_OF_CONTAINMENT, out);
}

/* Where 24 CFR part 35 alone has it contained: "prepared to prevent the release of leaded dust",
 * and "contained", so before the work and while it goes on. */
void mf_show_assisted_first(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_say(out, MF_MET, "contained-first");
    say_fault(asked, subject->area, MF_OF_PART_35, false, out);
}

void mf_show_assisted_all_along(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say_all_along(asked, subject->area, MF_OF_PART_35, out);
}

/* ---- direction ------------------------------------------------------------------------- */

/* The renovator named, or the one who did it, was assigned to this job by then. Asked of the tasks
 * of 745.85(a), 745.86(b)(6), and not of what the firm asks beyond them. */
static bool directed(const mf_job *job, const mf_tick *tick)
{
    return mf_task_directed_by(job, tick, tick->renovator) ||
           mf_task_directed_by(job, tick, tick->person);
}

void mf_show_directed(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    mf_say(out, MF_MET, "work-directed");
    out->evidence = "";
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *tick = &job->tick[i];
        if (!mf_is_task(job, tick) || !mf_same(tick->area, subject->id) || directed(job, tick))
            continue;
        mf_say(out, MF_LACKING, "work-not-directed");
        mf_say_days(out, tick->on, MF_DAY_NONE);
        out->evidence = mf_or_empty(tick->src.entry);
        return;
    }
}
