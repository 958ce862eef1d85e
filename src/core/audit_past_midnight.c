/* Work that goes on past midnight is one work day, which is concluded when the shift ends.
 * 40 CFR 745.85(a)(4)(ii). */
#include "core/audit_rows.h"

#include "core/text.h"
#include <mistfold/day.h>

static bool is_work(const mf_practice *it, const char *area, mf_day on)
{
    return it->planned != MF_YES && it->on == on && mf_same(it->area, area);
}

/* A shift is twelve hours at most (common practice, no source): work that began earlier on the day
 * was concluded on it. */
enum { LAST_MINUTE = 24 * 60 - 1, SHIFT = 12 * 60 };

/* When the work of a day began that went on to its last minute; MF_MINUTE_NONE = it did not, or
 * nobody said. */
static int32_t began_and_went_on(const mf_job *job, const mf_practice *day)
{
    int32_t began = LAST_MINUTE;
    bool until_midnight = false;
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (!is_work(it, day->area, day->on))
            continue;
        if (it->began_minute == MF_MINUTE_NONE)
            return MF_MINUTE_NONE;
        began = it->began_minute < began ? it->began_minute : began;
        until_midnight = until_midnight || it->at_minute == LAST_MINUTE;
    }
    return until_midnight ? began : MF_MINUTE_NONE;
}

/* The work from the first minute of the next day on, where it goes on with that of the day: one
 * shift, which is written down as two. */
static const mf_practice *goes_on_past_midnight(const mf_job *job, const mf_practice *day)
{
    int32_t began = began_and_went_on(job, day);
    const mf_practice *next = NULL;
    for (size_t i = 0; began != MF_MINUTE_NONE && i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (is_work(it, day->area, day->on + 1) && it->began_minute == 0 && it->at_minute > 0 &&
            it->at_minute + 24 * 60 - began <= SHIFT)
            next = it;
    }
    return next;
}

/* Whether a minute lies between the end of a shift and the beginning of whatever else of its day.
 */
static bool before_the_next_shift(const mf_job *job, const mf_practice *shift, int32_t at)
{
    bool between = shift->at_minute != MF_MINUTE_NONE && at != MF_MINUTE_NONE;
    for (size_t i = 0; i < job->n_practice && between; i++) {
        const mf_practice *it = &job->practice[i];
        if (is_work(it, shift->area, shift->on))
            between = it->at_minute != MF_MINUTE_NONE && it->began_minute != MF_MINUTE_NONE &&
                      (it->at_minute <= shift->at_minute || it->began_minute >= at);
    }
    return between && at >= shift->at_minute;
}

const mf_tick *mf_closed_past_midnight(const mf_job *job, const mf_practice *day)
{
    const mf_practice *shift = goes_on_past_midnight(job, day);
    for (size_t i = 0; shift != NULL && i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && it->on == shift->on && mf_same(it->step, "waste-daily") &&
            mf_same(it->area, shift->area) && before_the_next_shift(job, shift, it->at_minute))
            return it;
    }
    return NULL;
}
