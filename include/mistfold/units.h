/* mistfold/units.h - how many units of a building to test, and which.
 *
 * HUD Guidelines (1997) table 7.3, as reprinted in EP 1110-1-31 table B-1: enough
 * units that, were 5 % of them (or 50) to hold lead-based paint, a sample without
 * any would come up less than once in twenty; 10 % (or 100) for buildings of 1960
 * to 1977. Number of units = least n with C(N-K, n) / C(N, n) strictly below 0.05,
 * K = min(ceil(N / 20), 50) or min(ceil(N / 10), 100), never fewer than for a
 * smaller building; 5.8 % from 1,040 units, 2.9 % from 1,000. Where the printed
 * table differs the larger number is used and both are told. The basis (App. 12)
 * is from memory; the caps 50 and 100 follow from the printed rows.
 */
#ifndef MISTFOLD_UNITS_H
#define MISTFOLD_UNITS_H

#include <mistfold/job.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_built {
    MF_BUILT_BEFORE_1960, /* or the year is not known */
    MF_BUILT_1960_1977
} mf_built;

enum { MF_UNITS_MAX = 100000 };

typedef struct mf_units_plan {
    int64_t count; /* units in the set */
    mf_built built;
    int64_t assumed; /* K, units taken to be positive; 0 from the percentage rows */
    int64_t formula; /* least number by the distribution, or the percentage */
    int64_t printed; /* of the printed table; 0 = that row was not seen */
    int64_t use;     /* the larger of them */
    bool by_percent;
    bool all; /* every unit: treated as single-family below 21 or 10 units */
} mf_units_plan;

/* The column for a year of construction; MF_NUM_NONE = not known. False from 1978. */
MF_API bool mf_built_of(int64_t year, mf_built *out);

/* count from 1 to MF_UNITS_MAX. */
MF_API void mf_units_to_test(int64_t count, mf_built built, mf_units_plan *out);

/* The next number of SplitMix64 (public domain, Steele, Lea and Flood 2014). */
MF_API uint64_t mf_random_next(uint64_t *state);
/* 0 .. bound - 1, every one as likely: numbers that would favor some are thrown
 * away. bound > 0. */
MF_API uint64_t mf_random_below(uint64_t *state, uint64_t bound);

/* Draws n of the numbers 1 .. count without putting back (Fisher-Yates): they
 * stand in order in out[0 .. n). out has room for count numbers. */
MF_API void mf_draw_units(uint64_t seed, int64_t count, int64_t n, int64_t *out);

#ifdef __cplusplus
}
#endif
#endif
