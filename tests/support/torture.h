/* torture.h - tests that can be run a few times or very often: "make check" does a
 * few, "make torture" sets MF_TORTURE and does all. And random numbers that are the
 * same on every run, so that what fails can be run again. */
#ifndef TESTS_SUPPORT_TORTURE_H
#define TESTS_SUPPORT_TORTURE_H

#include <stdint.h>
#include <stdlib.h>

static inline int torture(int few, int all)
{
    return getenv("MF_TORTURE") == NULL ? few : all;
}

/* xorshift64; state must not be 0. */
static inline uint64_t torture_random(uint64_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return *state;
}

static inline size_t torture_below(uint64_t *state, size_t n)
{
    return n == 0 ? 0 : (size_t)(torture_random(state) % n);
}

#endif
