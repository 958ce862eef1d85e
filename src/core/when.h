/* when.h - putting what was logged in the order in which it happened. Entries
 * come in the order they were written, which on two devices or from a paper
 * sheet need not be the order of the day. */
#ifndef MF_CORE_WHEN_H
#define MF_CORE_WHEN_H

#include <mistfold/day.h>

enum { MF_MINUTES_A_DAY = 24 * 60 };

/* Minutes since 1970. A time that was not given counts as midnight. */
static inline int64_t mf_when(mf_day on, int32_t at_minute)
{
    int64_t minute = at_minute == MF_MINUTE_NONE ? 0 : at_minute;
    return (int64_t)on * MF_MINUTES_A_DAY + minute;
}

/* The day of such a minute, also before 1970. */
static inline mf_day mf_when_day(int64_t when)
{
    int64_t day = when / MF_MINUTES_A_DAY;
    return (mf_day)(when % MF_MINUTES_A_DAY < 0 ? day - 1 : day);
}

#endif
