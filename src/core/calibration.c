/* Calibration checks: the readings of one instrument in the order they were
 * taken, cut into checks. Nothing is allocated: a check is found by looking for
 * the reading just before or just after another one. */
#include <mistfold/paint.h>

#include "core/class.h"
#include "core/reach.h"
#include "core/reading_index.h"
#include "core/text.h"
#include "core/when.h"
#include <mistfold/place.h>

enum {
    READINGS_OF_A_CHECK = 3, /* HUD Guidelines ch. 7 s. IV.D, as firms report it */
    MINUTES_APART = 10       /* paint.h: a longer pause begins a new check */
};

/* A place in the readings of a job; NOWHERE when there is none. */
#define NOWHERE SIZE_MAX

/* Order in which readings were taken: day, minute, the instrument's own count,
 * then the order of the entries. Negative, 0 or positive. */
int mf_reading_taken(const mf_reading *a, size_t ia, const mf_reading *b, size_t ib)
{
    if (a->on != b->on)
        return a->on < b->on ? -1 : 1;
    if (a->at_minute != b->at_minute)
        return a->at_minute < b->at_minute ? -1 : 1;
    if (a->number != b->number)
        return a->number < b->number ? -1 : 1;
    return (ia > ib) - (ia < ib);
}

typedef bool reading_filter(const mf_reading *reading);

static bool any_reading(const mf_reading *reading)
{
    (void)reading;
    return true;
}

bool mf_reading_timed_calibration(const mf_reading *reading)
{
    return reading->purpose == MF_READ_CALIBRATION && reading->on != MF_DAY_NONE &&
           reading->at_minute != MF_MINUTE_NONE;
}

/* The reading of the same instrument nearest to `from` (which stands at place
 * `at`) among those before it (direction -1) or after it (1). */
static size_t nearest(const mf_job *job, const mf_reading *from, size_t at, int direction,
                      reading_filter *wanted, bool same_operator)
{
    size_t found = NOWHERE;
    const mf_reading_order *order = mf_order_of(job);
    if (order != NULL)
        return wanted == mf_reading_timed_calibration
                   ? mf_order_calibration(order, at, direction, same_operator)
                   : mf_order_beside(order, at, direction);
    for (size_t i = 0; i < job->n_reading; i++) {
        const mf_reading *it = &job->reading[i];
        if (it == from || !wanted(it) || !mf_same(it->instrument, from->instrument))
            continue;
        if (mf_reading_taken(it, i, from, at) * direction <= 0 ||
            (same_operator && !mf_same(it->operator_id, from->operator_id)))
            continue;
        if (found == NOWHERE ||
            mf_reading_taken(it, i, &job->reading[found], found) * direction < 0)
            found = i;
    }
    return found;
}

static size_t neighbor(const mf_job *job, const mf_reading *from, size_t at, int direction,
                       reading_filter *wanted)
{
    return nearest(job, from, at, direction, wanted, false);
}

static bool same_check(const mf_reading *a, const mf_reading *b)
{
    int64_t apart = (int64_t)a->at_minute - b->at_minute;
    return b->purpose == MF_READ_CALIBRATION && a->on == b->on && apart <= MINUTES_APART &&
           apart >= -MINUTES_APART;
}

/* The next reading of the same check in a direction. */
static size_t beside(const mf_job *job, size_t at, int direction)
{
    size_t next = neighbor(job, &job->reading[at], at, direction, any_reading);
    if (next == NOWHERE || !same_check(&job->reading[at], &job->reading[next]))
        return NOWHERE;
    return next;
}

/* A saturated display has no value that could be averaged. */
static bool countable(const mf_reading *reading)
{
    return reading->qualifier == MF_QUAL_EXACT && mf_loading_usable(reading->loading_ug_cm2);
}

bool mf_tolerance_holds_film(const mf_instrument *instrument)
{
    int64_t film = instrument->film_ug_cm2;
    return film > 0 && instrument->cal_low_ug_cm2 <= film && film <= instrument->cal_high_ug_cm2;
}

/* The mean is inside the tolerance: low <= sum / n <= high, without dividing. */
static bool inside(const mf_calibration *check, const mf_instrument *instrument)
{
    if (instrument == NULL || !mf_loading_usable(instrument->cal_low_ug_cm2) ||
        !mf_loading_usable(instrument->cal_high_ug_cm2) || !mf_tolerance_holds_film(instrument))
        return false;
    return instrument->cal_low_ug_cm2 * check->n <= check->sum_ug_cm2 &&
           check->sum_ug_cm2 <= instrument->cal_high_ug_cm2 * check->n;
}

/* A bound of a sheet: the mean is not below it (direction 1), or not above it (-1). */
static bool within(int64_t bound, const mf_calibration *check, int direction)
{
    if (bound == MF_NUM_NONE)
        return true;
    return mf_loading_usable(bound) && (check->sum_ug_cm2 - bound * check->n) * direction >= 0;
}

/* Where the sheet and the instrument's own tolerance differ the stricter governs
 * (06-096 CMR ch. 424 app. D s. 1.A(1)); the film's backing is the substrate. */
static bool inside_profile(const mf_job *job, const mf_calibration *check, const mf_reading *head)
{
    for (size_t i = 0; i < job->n_profile_row; i++) {
        const mf_profile_row *row = &job->profile_row[i];
        bool other_mode =
            mf_given(row->mode) && mf_given(head->mode) && !mf_same(row->mode, head->mode);
        if (!mf_same(row->instrument, head->instrument) || row->substrate != head->substrate ||
            other_mode)
            continue;
        if (!within(row->cal_low_ug_cm2, check, 1) || !within(row->cal_high_ug_cm2, check, -1))
            return false;
    }
    return true;
}

/* The tolerance is of the film that belongs to the instrument: what was read on another, as was
 * said, shows nothing of it. */
static bool on_own_film(const mf_job *job, const mf_reading *reading)
{
    const mf_instrument *gun = mf_job_instrument(job, reading->instrument);
    return gun == NULL || reading->film_ug_cm2 == MF_NUM_NONE ||
           reading->film_ug_cm2 == gun->film_ug_cm2;
}

/* The check that begins with the reading at first. */
static void check_from(const mf_job *job, size_t first, mf_calibration *out)
{
    const mf_reading *head = &job->reading[first];
    bool all_count = true;
    *out = (mf_calibration){.instrument = mf_or_empty(head->instrument),
                            .operator_id = mf_or_empty(head->operator_id),
                            .on = head->on,
                            .first_minute = head->at_minute,
                            .evidence = mf_or_empty(head->src.entry)};
    for (size_t at = first; at != NOWHERE; at = beside(job, at, 1)) {
        const mf_reading *reading = &job->reading[at];
        out->n++;
        out->last_minute = reading->at_minute;
        if (countable(reading) && on_own_film(job, reading))
            out->sum_ug_cm2 += reading->loading_ug_cm2;
        else
            all_count = false;
    }
    out->good = all_count && out->n >= READINGS_OF_A_CHECK &&
                inside(out, mf_job_instrument(job, head->instrument)) &&
                inside_profile(job, out, head);
}

static void find_check_around(const mf_job *job, size_t at, mf_calibration *out)
{
    for (size_t before = beside(job, at, -1); before != NOWHERE; before = beside(job, at, -1))
        at = before;
    check_from(job, at, out);
}

/* The check that the reading at `at` belongs to; many readings lie between the same
 * two, so the index keeps them. */
static void check_around(const mf_job *job, size_t at, mf_calibration *out)
{
    mf_reading_index *index = mf_index_of(job);
    if (index == NULL) {
        find_check_around(job, at, out);
        return;
    }
    size_t slot = at % (sizeof index->check / sizeof index->check[0]);
    if (index->check_at[slot] != at) {
        find_check_around(job, at, &index->check[slot]);
        index->check_at[slot] = (uint32_t)at;
    }
    *out = index->check[slot];
}

static bool earlier(const mf_calibration *a, const mf_calibration *b)
{
    return a->on != b->on ? a->on < b->on : a->first_minute < b->first_minute;
}

/* Puts check into the sorted out[0..held), which keeps the earliest cap. */
static size_t keep_sorted(mf_calibration *out, size_t held, size_t cap, const mf_calibration *check)
{
    size_t at = held;
    while (at > 0 && earlier(check, &out[at - 1]))
        at--;
    if (at == cap)
        return held;
    if (held < cap)
        held++;
    for (size_t i = held - 1; i > at; i--)
        out[i] = out[i - 1];
    out[at] = *check;
    return held;
}

size_t mf_calibrations(const mf_job *job, mf_calibration *out, size_t cap)
{
    size_t count = 0, held = 0;
    for (size_t i = 0; i < job->n_reading; i++) {
        mf_calibration check;
        if (job->reading[i].purpose != MF_READ_CALIBRATION || beside(job, i, -1) != NOWHERE)
            continue;
        count++;
        check_from(job, i, &check);
        held = keep_sorted(out, held, cap, &check);
    }
    return count;
}

/* The checks on both sides of a reading: the calibration readings nearest to it. */
typedef struct around {
    size_t before, after;
} around;

static around checks_around(const mf_job *job, const mf_reading *reading, size_t at,
                            bool same_operator)
{
    return (around){nearest(job, reading, at, -1, mf_reading_timed_calibration, same_operator),
                    nearest(job, reading, at, 1, mf_reading_timed_calibration, same_operator)};
}

/* Both checks are good, and no more use than the limit lies between them: "at least every
 * four hours" counts from check to check, not from each of them to the reading. */
static bool both_good(const mf_job *job, const around *at, const mf_limit *hours)
{
    mf_calibration before, after;
    if (at->before == NOWHERE || at->after == NOWHERE)
        return false;
    check_around(job, at->before, &before);
    check_around(job, at->after, &after);
    int64_t use = mf_when(after.on, after.first_minute) - mf_when(before.on, before.last_minute);
    return before.good && after.good && mf_limit_holds(hours, use);
}

/* The instrument must have been good whoever checked it last, and whoever held it
 * must have checked it too. Mostly these were the same checks. */
static bool between_checks(const mf_job *job, const mf_reading *reading, size_t at)
{
    const mf_limit *hours = mf_limit_for(job, MF_LIMIT_CALIBRATION_HOURS, reading->on);
    around any = checks_around(job, reading, at, false);
    around own = checks_around(job, reading, at, true);
    bool same = own.before == any.before && own.after == any.after;
    return both_good(job, &any, hours) && (same || both_good(job, &own, hours));
}

bool mf_reading_enclosed(const mf_job *job, const mf_reading *reading)
{
    size_t at = mf_reading_place(job, reading);
    mf_reading_index *index = mf_index_of(job);
    if (reading->on == MF_DAY_NONE || reading->at_minute == MF_MINUTE_NONE || at == NOWHERE)
        return false;
    if (index == NULL || !index->keeps_readings)
        return between_checks(job, reading, at);
    if (index->enclosed[at] == 0)
        index->enclosed[at] = between_checks(job, reading, at) ? 2 : 1;
    return index->enclosed[at] == 2;
}
