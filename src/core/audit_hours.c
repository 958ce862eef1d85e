/* What was down, or fell short, within the hours of work of a day and was put right again by its
 * end: the days alone do not tell it. Containment keeps dust in "while the renovation is being
 * performed", signs stay until the cleaning is verified. 40 CFR 745.85(a)(1), (a)(2). */
#include "core/audit_rows.h"

#include "core/short.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/contain.h>

/* ---- what was logged of a step, one after the other ------------------------------------------ */

/* Of one moment, or without a time, as entered: of one list, so the places in it tell. */
static bool not_after(const mf_tick *one, const mf_tick *other)
{
    if (mf_surely_before(one->on, one->at_minute, other->on, other->at_minute))
        return true;
    return !mf_surely_before(other->on, other->at_minute, one->on, one->at_minute) && one <= other;
}

static bool timed(const mf_tick *tick)
{
    return tick->at_minute != MF_MINUTE_NONE;
}

static bool is_of(const mf_tick *tick, const mf_area *area, const char *step)
{
    return mf_same(tick->area, area->id) && mf_same(tick->step, step);
}

/* The last tick of a step that does not come after another one, or NULL. */
static const mf_tick *standing_at(const mf_job *job, const mf_area *area, const char *step,
                                  const mf_tick *moment)
{
    const mf_tick *last = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (is_of(it, area, step) && not_after(it, moment) && (last == NULL || not_after(last, it)))
            last = it;
    }
    return last;
}

typedef enum standing { NEVER_YET, UP, DOWN } standing;

/* How a step stood right after something was logged of it, by the limits of a day of work. A sheet
 * that is too short by itself stands as long as the barrier it ends at. */
static standing after(const mf_asked *asked, const mf_area *area, const mf_step *step,
                      const mf_tick *moment, mf_day day)
{
    const mf_tick *own = standing_at(asked->job, area, step->id, moment);
    if (own == NULL)
        return NEVER_YET;
    if (own->state == MF_TICK_UNDONE)
        return mf_taken_down(asked, area, own) ? UP : DOWN;
    if (!mf_sheet_short(asked->job, area, step, own, day))
        return UP;
    const mf_tick *barrier = standing_at(asked->job, area, "vertical-barrier", moment);
    bool up = barrier != NULL &&
              (barrier->state == MF_TICK_DONE || mf_barrier_served(asked, area, own, barrier));
    return up ? UP : DOWN;
}

static bool bears_on(const mf_tick *tick, const mf_area *area, const mf_step *step)
{
    return is_of(tick, area, step->id) ||
           (step->extent >= 0 && is_of(tick, area, "vertical-barrier"));
}

/* The first of what was logged after a moment that put it up again, or NULL. */
static const mf_tick *up_again(const mf_asked *asked, const mf_area *area, const mf_step *step,
                               const mf_tick *down, mf_day day)
{
    const mf_job *job = asked->job;
    const mf_tick *first = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (bears_on(it, area, step) && !not_after(it, down) &&
            after(asked, area, step, it, day) == UP && (first == NULL || not_after(it, first)))
            first = it;
    }
    return first;
}

/* Barriers that are torn stood: other steps set them up. */
static bool stood_before(const mf_asked *asked, const mf_area *area, const mf_step *step,
                         const mf_tick *down, mf_day day)
{
    if (step->phase != MF_PHASE_CONTAIN)
        return true;
    for (size_t i = 0; i < asked->job->n_tick; i++) {
        const mf_tick *it = &asked->job->tick[i];
        if (it != down && bears_on(it, area, step) && not_after(it, down) &&
            after(asked, area, step, it, day) == UP)
            return true;
    }
    return false;
}

/* ---- and the hours of work --------------------------------------------------------------------
 */

/* From when it did not stand until when it did, beside the work of a day. */
typedef struct gap {
    const mf_tick *down, *up;
    const mf_practice *work;
    int32_t began, over; /* MF_MINUTE_NONE = not said, or an end before its beginning */
    bool sign;           /* stays after the work as well */
} gap;

static gap gap_of(const mf_tick *down, const mf_tick *up, const mf_practice *work, bool sign)
{
    bool upside_down = work->at_minute != MF_MINUTE_NONE && work->at_minute < work->began_minute;
    return (gap){down,
                 up,
                 work,
                 upside_down ? MF_MINUTE_NONE : work->began_minute,
                 upside_down ? MF_MINUTE_NONE : work->at_minute,
                 sign};
}

/* It was undone on the day of the work, nobody says when: whatever was logged next may have been
 * done before it. */
static bool undone_untimed(const gap *it)
{
    return it->down->state == MF_TICK_UNDONE && it->down->on == it->work->on && !timed(it->down);
}

/* It fell down in the first minute of the work, or later on that day. */
static bool fell_since(const gap *it)
{
    return it->began != MF_MINUTE_NONE && it->down->on == it->work->on && timed(it->down) &&
           it->down->at_minute >= it->began;
}

/* What fell down after the last minute of the work did no harm, nor did what was down before its
 * first one and up again by then: as what is first set up in that minute, it came before the work.
 */
static bool surely_apart(const gap *it)
{
    mf_day day = it->work->on;
    const mf_tick *down = it->down, *up = it->up;
    bool after_it =
        !it->sign && (down->on > day || (down->on == day && timed(down) &&
                                         it->over != MF_MINUTE_NONE && down->at_minute > it->over));
    bool before_it = !undone_untimed(it) && !fell_since(it) &&
                     (up->on < day || (up->on == day && timed(up) && it->began != MF_MINUTE_NONE &&
                                       up->at_minute <= it->began));
    return after_it || before_it;
}

/* It fell down by the last minute of the work that is known, and not before the first one alone. */
static bool fell_by_then(const gap *it)
{
    mf_day day = it->work->on;
    int32_t at = it->down->at_minute;
    if (it->sign || it->down->on < day)
        return true;
    if (it->down->on > day || !timed(it->down))
        return false;
    return it->over != MF_MINUTE_NONE ? at <= it->over
                                      : it->began != MF_MINUTE_NONE && at <= it->began;
}

/* It was put up later than a minute of the work that is known; without a time of its own only if it
 * fell down within the work. */
static bool up_later(const gap *it)
{
    mf_day day = it->work->on;
    if (it->up->on != day)
        return it->up->on > day;
    if (fell_since(it) || !timed(it->up))
        return fell_since(it);
    return it->began != MF_MINUTE_NONE
               ? it->up->at_minute > it->began
               : it->over != MF_MINUTE_NONE && it->up->at_minute >= it->over;
}

static void say_down(const gap *it, mf_finding *out)
{
    mf_say(out, MF_LACKING, it->sign ? "contained-sign-down" : "contained-down");
    mf_say_days(out, it->work->on, it->down->on);
    out->evidence = mf_or_empty(it->down->src.entry);
    out->other = mf_or_empty(it->work->src.entry);
}

/* Asks for one time after the other: the evidence is the entry that lacks it. */
static void say_unsaid(const gap *it, mf_finding *out)
{
    const mf_tick *tick = !timed(it->down) ? it->down : !timed(it->up) ? it->up : NULL;
    const mf_src *lacks = tick != NULL ? &tick->src : &it->work->src;
    mf_say(out, MF_LACKING,
           tick != NULL                  ? "contained-time-unsaid"
           : it->began == MF_MINUTE_NONE ? "contained-began-unsaid"
                                         : "contained-over-unsaid");
    mf_say_days(out, it->work->on, it->down->on);
    out->evidence = mf_or_empty(lacks->entry);
    out->other = mf_or_empty(tick != NULL ? it->work->src.entry : it->down->src.entry);
}

/* Where the times do not tell, what stood that day and fell is held to have been down meanwhile;
 * what was first set up, or set up again, on the day of the work is taken to have come first. */
static bool say_gap(const mf_asked *asked, const mf_area *area, const mf_step *step, const gap *it,
                    mf_finding *out)
{
    if (surely_apart(it))
        return false;
    if (fell_by_then(it) && up_later(it))
        say_down(it, out);
    else if (it->down->on == it->work->on &&
             (undone_untimed(it) || stood_before(asked, area, step, it->down, it->work->on)))
        say_unsaid(it, out);
    else
        return false;
    out->told = step->id;
    return true;
}

bool mf_down_in_hours(const mf_asked *asked, const mf_area *area, const mf_step *step,
                      const mf_practice *work, mf_finding *out)
{
    const mf_job *job = asked->job;
    bool sign = mf_step_of(step, MF_OF_SIGNS);
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (!bears_on(it, area, step) || (!sign && it->on > work->on) ||
            after(asked, area, step, it, work->on) != DOWN)
            continue;
        const mf_tick *up = up_again(asked, area, step, it, work->on);
        if (up == NULL || (!sign && up->on != work->on)) /* told of the end of the day */
            continue;
        const gap found = gap_of(it, up, work, sign);
        if (say_gap(asked, area, step, &found, out))
            return true;
    }
    return false;
}
