/* Clearance samples. A failing result fails whoever took it; a passing one
 * counts only from the right hands and laboratory. */
#include <mistfold/dust.h>

#include "core/dust_rooms.h"
#include <mistfold/person.h>
#include <mistfold/place.h>

static mf_limit_id level_of(mf_dust_surface surface)
{
    switch (surface) {
    case MF_DUST_FLOOR:
        return MF_LIMIT_DUST_FLOOR;
    case MF_DUST_SILL:
        return MF_LIMIT_DUST_SILL;
    case MF_DUST_TROUGH:
        break;
    }
    return MF_LIMIT_DUST_TROUGH;
}

/* ---- exact comparison --------------------------------------------------------------- */

/* Both sides of "loading < level" brought to whole numbers. */
typedef struct scaled {
    int64_t value;  /* what was found */
    mf_limit level; /* the row, its value on the same scale */
    bool known;
} scaled;

enum { SQ_IN_A_SQ_FT = 144, PARTS_A_SQ_IN = 1600 * 1600 };

/* By 1 or more. False when it does not fit: such numbers cannot have been logged, and nothing
 * is known. */
static bool times(int64_t *value, int64_t by)
{
    if (*value < 0 || *value > INT64_MAX / by)
        return false;
    *value *= by;
    return true;
}

/* A composite of n is held against the level divided by half of n (745.227(e)(8)(vii)):
 * loading x n against level x 2. */
static scaled as_reported(const mf_job *job, const mf_dust_sample *sample, const mf_limit *row)
{
    int64_t n = mf_dust_wipes(job, sample);
    scaled both = {sample->loading_ng_ft2, *row, sample->loading_ng_ft2 != MF_NUM_NONE};
    if (n > 1 && both.known)
        both.known = times(&both.value, n) && times(&both.level.value, 2);
    return both;
}

static bool measured(const mf_dust_sample *sample)
{
    return sample->mass_ng != MF_NUM_NONE && sample->length_in_1600 > 0 &&
           sample->width_in_1600 > 0; /* MF_NUM_NONE is below 0 */
}

/* mass / (n x area) against level, or 2 x level / n: the n on both sides of a
 * composite cancels out. Where nobody said that it is one, the area is that of one wipe. */
static scaled by_area(const mf_dust_sample *sample, const mf_limit *row)
{
    scaled both = {MF_NUM_NONE, *row, measured(sample)};
    if (!both.known)
        return both;
    both.value = sample->mass_ng;
    both.known = times(&both.value, SQ_IN_A_SQ_FT) && times(&both.value, PARTS_A_SQ_IN) &&
                 times(&both.level.value, sample->length_in_1600) &&
                 times(&both.level.value, sample->width_in_1600) &&
                 times(&both.level.value, mf_wipes_of(sample) > 1 ? 2 : 1);
    return both;
}

static int64_t loading_by_area(const mf_dust_sample *sample)
{
    if (!measured(sample))
        return MF_NUM_NONE;
    int64_t area = sample->length_in_1600, mass = sample->mass_ng;
    bool fits = times(&area, sample->width_in_1600) && times(&area, mf_wipes_of(sample)) &&
                times(&mass, SQ_IN_A_SQ_FT) && times(&mass, PARTS_A_SQ_IN);
    return fits ? mass / area : MF_NUM_NONE;
}

int64_t mf_dust_loading(const mf_dust_sample *sample)
{
    int64_t by_area = loading_by_area(sample); /* MF_NUM_NONE is less than any */
    return by_area > sample->loading_ng_ft2 ? by_area : sample->loading_ng_ft2;
}

int64_t mf_dust_level(const mf_job *job, const mf_dust_sample *sample, const mf_limit *row)
{
    int64_t n = mf_dust_wipes(job, sample);
    if (row == NULL)
        return MF_NUM_NONE;
    return n > 1 ? row->value * 2 / n : row->value;
}

/* ---- verdicts ------------------------------------------------------------------------ */

static bool at_or_above(const scaled *both)
{
    return both->known && !mf_limit_holds(&both->level, both->value);
}

/* "<5" means less than 5, so it is below a level of 5. */
static bool below(const scaled *both, mf_qualifier qualifier)
{
    if (both->value < 0)
        return false;
    return mf_limit_holds(&both->level, both->value) ||
           (qualifier == MF_QUAL_UNDER && both->value == both->level.value);
}

static bool fails(const mf_dust_sample *sample, const scaled *reported, const scaled *area)
{
    return sample->qualifier != MF_QUAL_UNDER && (at_or_above(reported) || at_or_above(area));
}

/* No composite holds more wipes than the rule lets it (745.63, 745.227(g)). */
static bool few_enough(const mf_job *job, const mf_dust_sample *sample)
{
    return mf_limit_holds(mf_limit_for(job, MF_LIMIT_COMPOSITE_WIPES, sample->on),
                          mf_dust_wipes(job, sample));
}

/* One qualifier cannot speak for two numbers, and "more than" shows nothing below. */
static bool shown_below(const mf_dust_sample *sample, const scaled *reported, const scaled *area)
{
    if ((!reported->known && !area->known) || sample->qualifier == MF_QUAL_OVER)
        return false;
    if (reported->known && area->known && sample->qualifier != MF_QUAL_EXACT)
        return false;
    return (!reported->known || below(reported, sample->qualifier)) &&
           (!area->known || below(area, sample->qualifier));
}

bool mf_may_sample(const mf_job *job, const char *person, mf_day day)
{
    return mf_certified_assessor(job, person, day) != NULL ||
           mf_certified(job, person, MF_DISC_DUST_TECHNICIAN, day, NULL) != NULL;
}

mf_dust_verdict mf_dust_judge(const mf_job *job, const mf_dust_sample *sample,
                              const mf_limit **level)
{
    const mf_limit *row = mf_limit_for(job, level_of(sample->surface), sample->on);
    if (level != NULL)
        *level = row;
    if (row == NULL)
        return MF_DUST_NOT_SHOWN;
    const scaled reported = as_reported(job, sample, row), area = by_area(sample, row);
    if (fails(sample, &reported, &area))
        return MF_DUST_FAIL;
    if (!mf_may_sample(job, sample->sampler, sample->on))
        return MF_DUST_WRONG_SAMPLER;
    if (sample->nllap != MF_YES)
        return MF_DUST_WRONG_LAB;
    bool shown = few_enough(job, sample) && shown_below(sample, &reported, &area);
    return shown ? MF_DUST_PASS : MF_DUST_NOT_SHOWN;
}

bool mf_dust_two_numbers(const mf_job *job, const mf_dust_sample *sample)
{
    mf_dust_sample reported = *sample, weighed = *sample;
    if (sample->loading_ng_ft2 == MF_NUM_NONE || !measured(sample))
        return false;
    reported.mass_ng = weighed.loading_ng_ft2 = MF_NUM_NONE;
    return sample->qualifier != MF_QUAL_EXACT ||
           mf_dust_judge(job, &reported, NULL) != mf_dust_judge(job, &weighed, NULL);
}
