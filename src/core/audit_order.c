/* Cleaning from high to low, and looking only afterwards: by the times of the
 * ticks. 40 CFR 745.85(a)(5)(ii), (b)(1)(i), (b)(2). */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/contain.h>
#include <mistfold/person.h>

/* The last tick of a step that says done, or NULL when the last says otherwise. */
static const mf_tick *done_tick(const mf_job *job, const mf_area *area, const mf_step *step)
{
    const mf_tick *tick = NULL;
    mf_step_judge(job, area, step, &tick);
    return tick != NULL && tick->state == MF_TICK_DONE ? tick : NULL;
}

const mf_tick *mf_standing_tick(const mf_job *job, const mf_area *area, const mf_step *step,
                                mf_phase phase)
{
    bool asked = step->phase == phase && mf_step_wanted(job, step, area);
    return asked ? done_tick(job, area, step) : NULL;
}

static const mf_tick *done(const mf_job *job, const mf_area *area, const char *id)
{
    const mf_step *step = mf_step_named(id);
    return step == NULL ? NULL : done_tick(job, area, step);
}

static bool before(const mf_tick *a, const mf_tick *b)
{
    return mf_surely_before(a->on, a->at_minute, b->on, b->at_minute);
}

/* ---- the order of cleaning ---------------------------------------------------------------- */

/* Pairs of which the second comes after the first. (a)(5)(ii): from the ceiling down to the
 * floor. (a)(5)(i): the floor is cleaned when no debris and no sheeting lies on it any more; the
 * plastic toward clean rooms stays "until after the cleaning and removal of other sheeting". That
 * the rest is cleaned after the sheeting is only how the paragraph lists it: told, no more. */
static const struct {
    const char *first, *then, *why;
    mf_verdict verdict;
} in_order[] = {
    {"walls", "surfaces", "cleaned-low-first", MF_LACKING},
    {"walls", "carpet", "cleaned-low-first", MF_LACKING},
    {"walls", "mop", "cleaned-low-first", MF_LACKING},
    {"surfaces", "carpet", "cleaned-low-first", MF_LACKING},
    {"surfaces", "mop", "cleaned-low-first", MF_LACKING},
    {"chips", "carpet", "floor-before-debris", MF_LACKING},
    {"chips", "mop", "floor-before-debris", MF_LACKING},
    {"sheeting", "carpet", "floor-before-debris", MF_LACKING},
    {"sheeting", "mop", "floor-before-debris", MF_LACKING},
    {"chips", "divider", "divider-not-last", MF_LACKING},
    {"sheeting", "divider", "divider-not-last", MF_LACKING},
    {"walls", "divider", "divider-not-last", MF_LACKING},
    {"surfaces", "divider", "divider-not-last", MF_LACKING},
    {"carpet", "divider", "divider-not-last", MF_LACKING},
    {"mop", "divider", "divider-not-last", MF_LACKING},
    {"margin", "divider", "divider-not-last", MF_LACKING},
    {"sheeting", "walls", "cleaned-under-sheeting", MF_WARNING},
    {"sheeting", "surfaces", "cleaned-under-sheeting", MF_WARNING},
    {"sheeting", "margin", "cleaned-under-sheeting", MF_WARNING},
};

const char *mf_if_cleaned(const mf_asked *asked, const mf_subject *subject)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    for (size_t i = 0; i < n; i++)
        if (mf_standing_tick(asked->job, subject->area, &steps[i], MF_PHASE_CLEAN) != NULL)
            return NULL;
    return "cleaning-not-ticked";
}

void mf_say_work(mf_finding *out, const mf_work_after *it, const char *later, const char *unsaid)
{
    const mf_practice *work = it->work;
    bool told = !mf_worked_unsaid(work, it->on, it->at_minute);
    bool work_lacks = work->at_minute == MF_MINUTE_NONE || it->at_minute != MF_MINUTE_NONE;
    mf_say(out, MF_LACKING, told ? later : unsaid);
    mf_say_days(out, it->on, work->on);
    out->evidence = mf_or_empty(told || !work_lacks ? it->entry : work->src.entry);
    if (!told)
        out->other = mf_or_empty(work_lacks ? it->entry : work->src.entry);
}

/* Cleaning comes after the work: a step that was last ticked before more work, or of which the
 * times do not say that it came after it, is to be done again. */
static bool cleaned_before_work(const mf_asked *asked, const mf_area *area, mf_finding *out)
{
    size_t n;
    const mf_step *steps = mf_steps(&n);
    bool found = false;
    for (size_t i = 0; i < n; i++) {
        const mf_tick *tick = mf_standing_tick(asked->job, area, &steps[i], MF_PHASE_CLEAN);
        const mf_practice *work =
            tick == NULL ? NULL : mf_worked_since(asked->job, area->id, tick->on, tick->at_minute);
        bool unsaid = work != NULL && mf_worked_unsaid(work, tick->on, tick->at_minute);
        if (work == NULL || (unsaid && found)) /* what surely came first is told before that */
            continue;
        const mf_work_after it = {work, tick->on, tick->at_minute, tick->src.entry};
        mf_say_work(out, &it, "cleaned-before-work", "cleaned-work-unsaid");
        found = true;
        if (!unsaid)
            break;
    }
    return found;
}

/* Cleaned once more because a sample had failed: of "the components represented by the failed
 * sample" alone (745.227(e)(8)(vii)). */
static bool for_failed_sample(const mf_job *job, const mf_tick *tick)
{
    for (size_t i = 0; i < job->n_dust_sample; i++)
        if (mf_cleans_again(job, tick, &job->dust_sample[i]))
            return true;
    return false;
}

/* Cleaned once more because a look since the work had found dust: "must be removed by re-cleaning"
 * (745.85(b)(1)(i)) is said of the dust that was seen, and another look comes after it. */
static bool for_dust_seen(const mf_job *job, const mf_tick *tick)
{
    mf_day worked = mf_worked_last(job, tick->area);
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *look = &job->verification[i];
        if (look->event != MF_VER_LOOK_DIRTY || !mf_same(look->area, tick->area) ||
            !mf_surely_before(look->on, look->at_minute, tick->on, tick->at_minute))
            continue;
        for (size_t k = 0; k < job->n_tick; k++) {
            const mf_tick *it = &job->tick[k];
            if (it->state == MF_TICK_DONE && it->on >= worked && mf_same(it->area, tick->area) &&
                mf_same(it->step, tick->step) &&
                mf_surely_before(it->on, it->at_minute, look->on, look->at_minute))
                return true;
        }
    }
    return false;
}

/* The first time that a step was done, or the last that neither a failed sample nor dust that was
 * seen called for. */
static const mf_tick *done_first(const mf_job *job, const mf_area *area, const char *id, bool last)
{
    const mf_tick *found = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state != MF_TICK_DONE || !mf_same(it->area, area->id) || !mf_same(it->step, id))
            continue;
        if (found == NULL ||
            (last ? !before(it, found) && !for_failed_sample(job, it) && !for_dust_seen(job, it)
                  : before(it, found)))
            found = it;
    }
    return found;
}

/* What was cleaned once more since the plastic came down, for a failed sample or for dust that was
 * seen, does not make the first order wrong. */
static const mf_tick *done_as_first(const mf_job *job, const mf_area *area, size_t pair)
{
    bool divider = mf_same(in_order[pair].then, "divider");
    return done(job, area, in_order[pair].first) == NULL
               ? NULL
               : done_first(job, area, in_order[pair].first, !divider);
}

void mf_show_cleaning_order(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_area *area = subject->area;
    if (cleaned_before_work(asked, area, out))
        return;
    mf_say(out, MF_MET, "cleaned-high-to-low");
    out->evidence = "";
    for (size_t i = 0; i < sizeof in_order / sizeof in_order[0]; i++) {
        const mf_tick *first = done_as_first(asked->job, area, i);
        const mf_tick *then = done(asked->job, area, in_order[i].then);
        if (first == NULL || then == NULL || !before(then, first))
            continue;
        mf_say(out, in_order[i].verdict, in_order[i].why);
        mf_say_days(out, then->on, MF_DAY_NONE);
        out->told = in_order[i].then;
        out->evidence = mf_or_empty(then->src.entry);
        return;
    }
}

/* ---- looking after cleaning --------------------------------------------------------------- */

static bool is_clean_look(const mf_verification *it, const char *area)
{
    return it->event == MF_VER_LOOK_CLEAN && !mf_given(it->surface) && mf_same(it->area, area);
}

/* The last cleaning that surely came after a look, or NULL. Each is held against the look by
 * itself: beside one without a time no other is the later one, and would go unseen. */
static const mf_tick *cleaned_since(const mf_job *job, const mf_verification *look)
{
    const mf_tick *last = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (mf_is_cleaning(it) && mf_same(it->area, look->area) &&
            mf_surely_before(look->on, look->at_minute, it->on, it->at_minute) &&
            (last == NULL || before(last, it)))
            last = it;
    }
    return last;
}

/* A cleaning of which nobody can say whether it came before the look or after it, or NULL: it is of
 * the same day, and a time is missing. */
static const mf_tick *cleaned_that_day(const mf_job *job, const mf_verification *look)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        bool timed = it->at_minute != MF_MINUTE_NONE && look->at_minute != MF_MINUTE_NONE;
        if (mf_is_cleaning(it) && mf_same(it->area, look->area) && it->on == look->on && !timed)
            return it;
    }
    return NULL;
}

/* A sample that counts and of which no look before it found the area clean; or NULL. */
static const mf_dust_sample *sampled_unseen(const mf_asked *asked, const char *area)
{
    const mf_job *job = asked->job;
    for (size_t i = 0; mf_on_clearance(job, area) && i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        const mf_subject subject = {.sample = it};
        bool seen = !mf_same(it->area, area) || mf_if_in_force(asked, &subject) != NULL;
        for (size_t k = 0; k < job->n_verification && !seen; k++) {
            const mf_verification *look = &job->verification[k];
            seen = is_clean_look(look, area) &&
                   !mf_surely_before(it->on, it->at_minute, look->on, look->at_minute);
        }
        if (!seen)
            return it;
    }
    return NULL;
}

/* By days, or on one day by times: of what has none there nobody knows that it came between. */
static bool lies_between(mf_day on, int32_t at, const mf_verification *from,
                         const mf_verification *to)
{
    bool timed = at != MF_MINUTE_NONE;
    bool since = on > from->on || (on == from->on && timed && from->at_minute != MF_MINUTE_NONE &&
                                   at >= from->at_minute);
    bool by = on < to->on ||
              (on == to->on && timed && to->at_minute != MF_MINUTE_NONE && at <= to->at_minute);
    return since && by;
}

/* Not by a step of the other side of the house. */
static bool cleans_there(const mf_job *job, const mf_tick *tick)
{
    const mf_area *area = mf_job_area(job, tick->area);
    return mf_is_cleaning(tick) && area != NULL &&
           mf_step_wanted(job, mf_step_named(tick->step), area);
}

/* Whether something was cleaned in the area between two looks. */
static bool cleaned_in_between(const mf_job *job, const mf_verification *from,
                               const mf_verification *to)
{
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (mf_same(it->area, to->area) && cleans_there(job, it) &&
            lies_between(it->on, it->at_minute, from, to))
            return true;
    }
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (it->event == MF_VER_RECLEANED && mf_same(it->area, to->area) &&
            lies_between(it->on, it->at_minute, from, to))
            return true;
    }
    return false;
}

/* A look before this one that saw dust, of which nobody says that it was cleaned: "must be removed
 * by re-cleaning and another visual inspection must be performed" (745.85(b)(1)(i), (b)(2)). */
static const mf_verification *dirty_before(const mf_job *job, const mf_verification *look)
{
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (it->event == MF_VER_LOOK_DIRTY && mf_same(it->area, look->area) &&
            !mf_surely_before(look->on, look->at_minute, it->on, it->at_minute) &&
            !cleaned_in_between(job, it, look))
            return it;
    }
    return NULL;
}

/* In an area cleared by samples anybody's look will do (745.85(c)); else it is a certified
 * renovator's (745.85(b)(1)(i), (b)(2)). Who is not named is asked for by verification-record. */
static bool may_verify(const mf_job *job, const mf_verification *look)
{
    return !mf_given(look->person) || mf_on_clearance(job, look->area) ||
           mf_certified(job, look->person, MF_DISC_RENOVATOR, look->on, NULL) != NULL;
}

/* The last clean look of the area: of those that may verify it, or of anybody; or NULL. */
static const mf_verification *last_clean_look(const mf_job *job, const char *area, bool verifies)
{
    const mf_verification *last = NULL;
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (is_clean_look(it, area) && (!verifies || may_verify(job, it)) &&
            (last == NULL || mf_when(it->on, it->at_minute) >= mf_when(last->on, last->at_minute)))
            last = it;
    }
    return last;
}

/* The inspection that found the area clean must follow the cleaning it judges. Where samples stand
 * for the verification it is the first part of (745.85(c)) none is asked for; dust that was seen is
 * to be cleaned there too (745.85(a)(5)). */
void mf_show_looked_after(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const mf_verification *look = last_clean_look(job, subject->id, true);
    if (look == NULL)
        look = last_clean_look(job, subject->id, false);
    mf_say(out, MF_MET, "looked-after-cleaning");
    out->evidence = "";
    if (look == NULL)
        return;
    const mf_tick *cleaned = cleaned_since(job, look);
    const mf_verification *dirty = dirty_before(job, look);
    const mf_dust_sample *unseen = sampled_unseen(asked, subject->id);
    const mf_tick *beside = cleaned_that_day(job, look);
    if (dirty != NULL) {
        mf_say(out, MF_LACKING, "looked-not-recleaned");
        mf_say_days(out, dirty->on, look->on);
        out->evidence = mf_or_empty(look->src.entry);
    } else if (cleaned != NULL) {
        bool cleared = mf_on_clearance(job, subject->id);
        mf_say(out, cleared ? MF_WARNING : MF_LACKING, "looked-before-cleaning");
        mf_say_days(out, look->on, cleaned->on);
        out->evidence = mf_or_empty(look->src.entry);
    } else if (unseen != NULL) { /* that it comes first is said of abatements only: 745.227(e)(8) */
        mf_say(out, MF_WARNING, "looked-after-sampling");
        mf_say_days(out, look->on, unseen->on);
        out->evidence = mf_or_empty(unseen->src.entry);
    } else if (beside != NULL) {
        mf_say(out, MF_WARNING, "looked-order-unsaid");
        mf_say_days(out, look->on, MF_DAY_NONE);
        out->evidence = mf_or_empty(look->src.entry);
        out->other = mf_or_empty(beside->src.entry);
    }
}
