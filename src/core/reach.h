/* reach.h - numbers that can be added up. A book or a record from elsewhere may hold any:
 * a length beyond what can be logged counts as that long, less than nothing as nothing; a
 * loading so far off is not averaged. */
#ifndef MF_CORE_REACH_H
#define MF_CORE_REACH_H

#include <stdbool.h>
#include <stdint.h>

/* Hundredths of a foot; the most of every length in kind_area.inc. */
enum { MF_REACH_MAX = 100000000 };

static inline int64_t mf_reach(int64_t length)
{
    if (length < 0)
        return 0;
    return length > MF_REACH_MAX ? MF_REACH_MAX : length;
}

/* Micrograms per cm2: the sum of however many of these is far from overflow. */
static inline bool mf_loading_usable(int64_t ug_cm2)
{
    const int64_t most = 1000000000;
    return ug_cm2 >= -most && ug_cm2 <= most;
}

#endif
