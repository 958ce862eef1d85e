/* Substrate correction, and a reading judged by its instrument's profile.
 *
 * HUD Guidelines ch. 7 s. IV.E (from memory): the paint is scraped off two spots
 * of a substrate, the film of about 1.0 mg/cm2 is laid on the bare substrate and
 * read three times at each spot. The mean of the six less the film's certified
 * value is what the substrate adds; it is taken off every reading below 4.0. */
#include "core/class.h"
#include "core/reading_order.h"

#include "core/reach.h"
#include "core/text.h"
#include <mistfold/place.h>

enum {
    BARE_READINGS = 6, /* that a correction needs */
    ONE_DECIMAL = 100  /* 0.1 mg/cm2 in ug/cm2 */
};

/* The film that was read: said with the reading, or the instrument's. */
static int64_t film_of(const mf_job *job, const mf_reading *reading)
{
    if (reading->film_ug_cm2 > 0)
        return reading->film_ug_cm2;
    const mf_instrument *gun = mf_job_instrument(job, reading->instrument);
    return gun == NULL ? MF_NUM_NONE : gun->film_ug_cm2;
}

/* A mode that was not said may be any. */
static bool mode_fits(const char *a, const char *b)
{
    return !mf_given(a) || !mf_given(b) || mf_same(a, b);
}

static bool bares(const mf_reading *it, const char *instrument, mf_substrate substrate,
                  const char *mode)
{
    return it->purpose == MF_READ_SUBSTRATE && it->substrate == substrate &&
           mf_same(it->instrument, instrument) && mode_fits(it->mode, mode);
}

/* Correction of a substrate: (sum of the bare readings - sum of the films) / n, by readings
 * of purpose substrate of this instrument. Returns n; *sum_ug_cm2 is the difference of the
 * sums. 0 when fewer than six, or one is not a number. */
static int correction_of(const mf_job *job, const char *instrument, mf_substrate substrate,
                         const char *mode, int64_t *sum_ug_cm2, int *n_seen)
{
    int n = 0;
    bool all_count = true;
    *sum_ug_cm2 = 0;
    size_t from = 0;
    for (const mf_reading *it; (it = mf_reading_special(job, &from)) != NULL;) {
        if (!bares(it, instrument, substrate, mode))
            continue;
        int64_t film = film_of(job, it);
        n++;
        if (it->qualifier == MF_QUAL_EXACT && mf_loading_usable(it->loading_ug_cm2) &&
            mf_loading_usable(film))
            *sum_ug_cm2 += it->loading_ug_cm2 - film;
        else
            all_count = false; /* a saturated display cannot be averaged */
    }
    *n_seen = n;
    return all_count && n >= BARE_READINGS ? n : 0;
}

/* ---- one reading by one line of the profile ----------------------------------- */

static bool correction_applies(const mf_reading *reading)
{
    const mf_limit *below = mf_limit_on(MF_LIMIT_CORRECTION_BELOW, reading->on);
    return reading->qualifier != MF_QUAL_OVER && mf_limit_holds(below, reading->loading_ug_cm2);
}

static void correct(const mf_job *job, const mf_reading *reading, mf_reading_result *out)
{
    int64_t sum = 0;
    if (!correction_applies(reading)) {
        out->correction = MF_CORRECTION_TOO_HIGH;
        return;
    }
    int n = correction_of(job, reading->instrument, reading->substrate, reading->mode, &sum,
                          &out->n_bare);
    out->correction = n == 0 ? MF_CORRECTION_MISSING : MF_CORRECTION_DONE;
    if (n == 0)
        return;
    out->num = reading->loading_ug_cm2 * n - sum;
    out->den = n;
}

/* num / den to the nearest tenth of a milligram, halves away from zero. */
static int64_t to_one_decimal(int64_t num, int64_t den)
{
    int64_t unit = den * ONE_DECIMAL;
    int64_t half = num < 0 ? -(unit / 2) : unit / 2;
    return (num + half) / unit * ONE_DECIMAL;
}

static bool on_a_bound(const mf_range *range, const mf_reading_result *it)
{
    return it->den > 0 && range->known && !range->bounds_said &&
           (it->num == range->low * it->den || it->num == range->high * it->den);
}

static void judge_by(const mf_job *job, const mf_reading *reading, const mf_profile_row *row,
                     mf_reading_result *out)
{
    const mf_limit *limit = mf_limit_for(job, MF_LIMIT_PAINT_LOADING, reading->on);
    int64_t level = limit == NULL ? 0 : limit->value;
    const mf_instrument *gun = mf_job_instrument(job, reading->instrument);
    mf_range range = row == NULL ? mf_range_of_instrument(gun, level) : mf_range_of_row(row, level);
    *out = (mf_reading_result){.row = row};
    if (limit != NULL && mf_loading_usable(reading->loading_ug_cm2)) {
        out->num = reading->loading_ug_cm2;
        out->den = 1;
    }
    out->raw = mf_class_unless_low(
        reading, mf_class_of_value(&range, limit, reading->qualifier, out->num, out->den));
    if (row != NULL && row->correct == MF_YES && out->den > 0)
        correct(job, reading, out);
    out->found = mf_class_unless_low(
        reading, mf_class_of_value(&range, limit, reading->qualifier, out->num, out->den));
    out->bounds_unknown = on_a_bound(&range, out);
    if (out->correction == MF_CORRECTION_MISSING && out->found == MF_CLASS_NEGATIVE)
        out->found = MF_CLASS_INCONCLUSIVE;
    if (out->correction == MF_CORRECTION_TOO_HIGH && reading->qualifier != MF_QUAL_UNDER)
        out->found = MF_CLASS_POSITIVE;
    if (out->correction == MF_CORRECTION_DONE) {
        int64_t rounded = to_one_decimal(out->num, out->den);
        out->rounding_matters =
            mf_class_of_value(&range, limit, reading->qualifier, rounded, 1) != out->found;
    }
}

/* ---- which lines apply -------------------------------------------------------------- */

static bool applies(const mf_profile_row *row, const mf_reading *reading)
{
    return row->substrate == reading->substrate && mf_same(row->instrument, reading->instrument) &&
           mode_fits(row->mode, reading->mode);
}

/* A line that came later for the same instrument, substrate and mode replaces it. */
static bool replaced(const mf_job *job, size_t at)
{
    const mf_profile_row *row = &job->profile_row[at];
    for (size_t i = at + 1; i < job->n_profile_row; i++) {
        const mf_profile_row *it = &job->profile_row[i];
        if (it->substrate == row->substrate && mf_same(it->instrument, row->instrument) &&
            mf_same(it->mode, row->mode))
            return true;
    }
    return false;
}

void mf_reading_judge(const mf_job *job, const mf_reading *reading, mf_reading_result *out)
{
    int n = 0;
    for (size_t i = 0; i < job->n_profile_row; i++) {
        mf_reading_result one;
        if (!applies(&job->profile_row[i], reading) || replaced(job, i))
            continue;
        judge_by(job, reading, &job->profile_row[i], &one);
        if (n++ == 0 || one.found > out->found)
            *out = one;
    }
    if (n == 0)
        judge_by(job, reading, NULL, out);
    out->mode_unknown = n > 1;
}

mf_paint_class mf_reading_class_in(const mf_job *job, const mf_reading *reading)
{
    mf_reading_result result;
    mf_reading_judge(job, reading, &result);
    return result.found;
}
