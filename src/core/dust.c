/* Clearance samples. A failing result fails whoever took it; a passing one
 * counts only from the right hands and laboratory. */
#include <mistfold/dust.h>

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

static bool fails(const mf_dust_sample *sample, const mf_limit *row)
{
    if (sample->qualifier == MF_QUAL_OVER)
        return true;
    return sample->qualifier == MF_QUAL_EXACT && sample->loading_ng_ft2 != MF_NUM_NONE &&
           !mf_limit_holds(row, sample->loading_ng_ft2);
}

/* "<5" means less than 5, so it is below a level of 5. */
static bool shown_below(const mf_dust_sample *sample, const mf_limit *row)
{
    int64_t value = sample->loading_ng_ft2;
    if (value < 0)
        return false;
    return mf_limit_holds(row, value) ||
           (sample->qualifier == MF_QUAL_UNDER && value == row->value);
}

static bool right_hands(const mf_job *job, const mf_dust_sample *sample)
{
    return mf_certified_assessor(job, sample->sampler, sample->on) != NULL ||
           mf_certified(job, sample->sampler, MF_DISC_DUST_TECHNICIAN, sample->on, NULL) != NULL;
}

mf_dust_verdict mf_dust_judge(const mf_job *job, const mf_dust_sample *sample,
                              const mf_limit **level)
{
    const mf_limit *row = mf_limit_for(job, level_of(sample->surface), sample->on);
    if (level != NULL)
        *level = row;
    if (fails(sample, row))
        return MF_DUST_FAIL;
    if (!right_hands(job, sample))
        return MF_DUST_WRONG_SAMPLER;
    if (sample->nllap != MF_YES)
        return MF_DUST_WRONG_LAB;
    return row != NULL && shown_below(sample, row) ? MF_DUST_PASS : MF_DUST_NOT_SHOWN;
}
