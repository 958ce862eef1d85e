/* The class of one value against the action level and an inconclusive range. A
 * corrected reading is a fraction; it is compared by cross-multiplication, never
 * rounded. */
#include "core/class.h"

#include "core/text.h"
#include <mistfold/place.h>

mf_range mf_range_of_instrument(const mf_instrument *instrument, int64_t limit)
{
    mf_range r = {limit, limit, true, false, true};
    if (instrument == NULL)
        return r;
    int64_t low = instrument->inconclusive_low_ug_cm2, high = instrument->inconclusive_high_ug_cm2;
    r.known = low != MF_NUM_NONE || high != MF_NUM_NONE;
    r.bounds_inside = instrument->bounds_inside != MF_NOT;
    r.bounds_said = instrument->bounds_inside != MF_UNKNOWN;
    if (low != MF_NUM_NONE)
        r.low = low;
    if (high != MF_NUM_NONE)
        r.high = high;
    return r;
}

/* A threshold is a range of no width with its bound outside: at or above it is
 * positive, below it negative. */
mf_range mf_range_of_row(const mf_profile_row *row, int64_t limit)
{
    int64_t low = row->low_ug_cm2, high = row->high_ug_cm2, at = row->threshold_ug_cm2;
    mf_range r = {limit, limit, row->bounds_inside != MF_NOT, true,
                  row->bounds_inside != MF_UNKNOWN};
    if (low == MF_NUM_NONE && high == MF_NUM_NONE) {
        r.known = at != MF_NUM_NONE;
        r.low = r.high = r.known ? at : limit;
        r.bounds_inside = false;
        r.bounds_said = true;
        return r;
    }
    if (low != MF_NUM_NONE)
        r.low = low;
    if (high != MF_NUM_NONE)
        r.high = high;
    return r;
}

static bool above(const mf_range *r, int64_t num, int64_t den)
{
    return r->bounds_inside ? num > r->high * den : num >= r->high * den;
}

static bool below(const mf_range *r, int64_t num, int64_t den)
{
    return r->bounds_inside ? num < r->low * den : num <= r->low * den;
}

/* Whether num / den holds against a limit: both sides times den. */
static bool holds(const mf_limit *limit, int64_t num, int64_t den)
{
    mf_limit scaled = *limit;
    scaled.value *= den;
    return mf_limit_holds(&scaled, num);
}

/* A display that says only "less than" shows a negative when all it may stand
 * for is negative; it never shows a positive. */
static mf_paint_class class_under(const mf_range *r, const mf_limit *limit, int64_t num,
                                  int64_t den)
{
    bool negative = num <= r->low * den && num <= limit->value * den;
    return negative ? MF_CLASS_NEGATIVE : MF_CLASS_INCONCLUSIVE;
}

static mf_paint_class class_exact(const mf_range *r, const mf_limit *limit, int64_t num,
                                  int64_t den)
{
    bool at_limit = holds(limit, num, den);
    if (r->known ? above(r, num, den) : at_limit)
        return MF_CLASS_POSITIVE;
    /* A range that lies wholly above the limit makes nothing at it negative. */
    bool negative = !at_limit && (!r->known || below(r, num, den));
    return negative ? MF_CLASS_NEGATIVE : MF_CLASS_INCONCLUSIVE;
}

mf_paint_class mf_class_of_value(const mf_range *range, const mf_limit *limit,
                                 mf_qualifier qualifier, int64_t num, int64_t den)
{
    if (qualifier == MF_QUAL_OVER)
        return MF_CLASS_POSITIVE;
    if (limit == NULL || den <= 0)
        return MF_CLASS_INCONCLUSIVE;
    if (qualifier == MF_QUAL_UNDER)
        return class_under(range, limit, num, den);
    return class_exact(range, limit, num, den);
}

/* Noise, and what a substrate takes off, make readings of paint without lead fall a little below
 * zero; as far below it as the level of lead-based paint lies above, an instrument reads wrong and
 * its reading shows nothing. Common practice, no source. */
enum { LOWEST_READING = -1000 };

bool mf_reading_too_low(const mf_reading *reading)
{
    return reading->loading_ug_cm2 != MF_NUM_NONE && reading->loading_ug_cm2 < LOWEST_READING;
}

mf_paint_class mf_class_unless_low(const mf_reading *reading, mf_paint_class found)
{
    return found == MF_CLASS_NEGATIVE && mf_reading_too_low(reading) ? MF_CLASS_INCONCLUSIVE
                                                                     : found;
}

mf_paint_class mf_reading_class_for(const mf_job *job, const mf_reading *reading,
                                    const mf_instrument *instrument)
{
    const mf_limit *limit = mf_limit_for(job, MF_LIMIT_PAINT_LOADING, reading->on);
    int64_t den = limit == NULL || reading->loading_ug_cm2 == MF_NUM_NONE ? 0 : 1;
    mf_range range = mf_range_of_instrument(instrument, limit == NULL ? 0 : limit->value);
    return mf_class_unless_low(reading, mf_class_of_value(&range, limit, reading->qualifier,
                                                          reading->loading_ug_cm2, den));
}

static bool reaches(const mf_job *job, mf_limit_id id, mf_day on, int64_t value)
{
    return value != MF_NUM_NONE && mf_limit_holds(mf_limit_for(job, id, on), value);
}

/* All the lead of a composite may be in one of its n chips: it shows a negative
 * only when n times the mean does not reach the limit (derived; the same reasoning
 * as the strictest criterion of EPA 747-R-01-005 s. 5.4.2 for wipes). */
static int64_t worst_of(const mf_chip *chip, int64_t mean)
{
    if (chip->composite < 2 || mean == MF_NUM_NONE)
        return mean;
    return mean > INT64_MAX / chip->composite ? INT64_MAX : mean * chip->composite;
}

mf_paint_class mf_chip_class_for(const mf_job *job, const mf_chip *chip)
{
    int64_t ppm = chip->weight_ppm, loading = chip->loading_ug_cm2;
    if (ppm == MF_NUM_NONE && loading == MF_NUM_NONE)
        return MF_CLASS_INCONCLUSIVE;
    if (reaches(job, MF_LIMIT_PAINT_WEIGHT, chip->on, ppm) ||
        reaches(job, MF_LIMIT_PAINT_LOADING, chip->on, loading))
        return MF_CLASS_POSITIVE;
    bool may = reaches(job, MF_LIMIT_PAINT_WEIGHT, chip->on, worst_of(chip, ppm)) ||
               reaches(job, MF_LIMIT_PAINT_LOADING, chip->on, worst_of(chip, loading));
    return may ? MF_CLASS_INCONCLUSIVE : MF_CLASS_NEGATIVE;
}
