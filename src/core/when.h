/* when.h - putting what was logged in the order in which it happened. Entries
 * come in the order they were written, which on two devices or from a paper
 * sheet need not be the order of the day. */
#ifndef MF_CORE_WHEN_H
#define MF_CORE_WHEN_H

#include <mistfold/day.h>
#include <stdbool.h>

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

/* The later of two days; MF_DAY_NONE lies before every day. */
static inline mf_day mf_later(mf_day a, mf_day b)
{
    return a > b ? a : b;
}

/* The earlier of two days, of which MF_DAY_NONE is none. */
static inline mf_day mf_earlier_of(mf_day a, mf_day b)
{
    if (a == MF_DAY_NONE || b == MF_DAY_NONE)
        return a == MF_DAY_NONE ? b : a;
    return a < b ? a : b;
}

/* Whether something happened before something else, by what was said: of one day, where the
 * time of one was not given, nothing is known of their order. */
static inline bool mf_surely_before(mf_day on, int32_t at, mf_day other_on, int32_t other_at)
{
    if (on != other_on || at == MF_MINUTE_NONE || other_at == MF_MINUTE_NONE)
        return on < other_on;
    return at < other_at;
}

#endif
