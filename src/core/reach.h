/* reach.h - lengths that can be drawn and added up. A book or a record from elsewhere may
 * hold any number: what is longer than can be logged counts as that long, and what is less
 * than nothing as nothing. */
#ifndef MF_CORE_REACH_H
#define MF_CORE_REACH_H

#include <stdint.h>

/* Hundredths of a foot; the most of every length in kind_area.inc. */
enum { MF_REACH_MAX = 100000000 };

static inline int64_t mf_reach(int64_t length)
{
    if (length < 0)
        return 0;
    return length > MF_REACH_MAX ? MF_REACH_MAX : length;
}

#endif
