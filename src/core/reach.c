/* Bounds of what is added up and multiplied. */
#include "core/reach.h"

#include <mistfold/place.h>

int64_t mf_reach(int64_t length)
{
    if (length < 0)
        return 0;
    return length > MF_REACH_MAX ? MF_REACH_MAX : length;
}

int64_t mf_reach_or(int64_t length, int64_t otherwise)
{
    return length == MF_NUM_NONE ? otherwise : mf_reach(length);
}

int64_t mf_reach_of(const mf_job *job, mf_limit_id id)
{
    mf_day day = job->n_house == 0 ? MF_DAY_NONE : job->house[0].start;
    const mf_limit *limit = mf_limit_for(job, id, day);
    return limit == NULL ? 0 : mf_reach(limit->value);
}

int64_t mf_add_area(int64_t sum, int64_t area)
{
    return area > INT64_MAX - sum ? INT64_MAX : sum + area;
}

bool mf_loading_usable(int64_t ug_cm2)
{
    const int64_t most = 1000000000;
    return ug_cm2 >= -most && ug_cm2 <= most;
}
