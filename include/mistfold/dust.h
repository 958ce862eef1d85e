/* mistfold/dust.h - clearance samples against the levels in force on the day of
 * sampling. Source: 40 CFR 745.85(c), 745.227(e)(8). A result at the level fails.
 */
#ifndef MISTFOLD_DUST_H
#define MISTFOLD_DUST_H

#include <mistfold/job.h>
#include <mistfold/limit.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_dust_verdict {
    MF_DUST_PASS,
    MF_DUST_FAIL,          /* at or above the level */
    MF_DUST_NOT_SHOWN,     /* "<6" cannot show a pass of 5 */
    MF_DUST_WRONG_SAMPLER, /* not by a certified inspector, risk assessor or technician */
    MF_DUST_WRONG_LAB
} mf_dust_verdict;

/* A result is judged by what the laboratory reports as a loading, and where the
 * mass on the wipe and the area wiped are given, by those too, exactly: ug x 144
 * against level x square inches, with nothing rounded; it passes when all that is
 * given passes. A composite of n wipes is compared with the level divided by half
 * of n; where n is not said, and its place names several rooms or openings, n is their number
 * for what is reported. *level (may be NULL) is the row it was judged by. */
MF_API mf_dust_verdict mf_dust_judge(const mf_job *job, const mf_dust_sample *sample,
                                     const mf_limit **level);

/* What a sample is compared with, in ng/sq ft, rounded down: the value of the row, of a composite
 * divided by half of n. MF_NUM_NONE where row is NULL. */
MF_API int64_t mf_dust_level(const mf_job *job, const mf_dust_sample *sample, const mf_limit *row);

/* Whether a person may take clearance samples on that day: a certified inspector, risk
 * assessor or dust sampling technician (745.85(c)(2)). */
MF_API bool mf_may_sample(const mf_job *job, const char *person, mf_day day);

/* Whether a result is given, and mass and area beside it, of which one by itself shows something
 * else than the other, or one "<" or ">" stands before both. */
MF_API bool mf_dust_two_numbers(const mf_job *job, const mf_dust_sample *sample);

/* Loading in ng/sq ft, rounded down: the higher of what is reported and what mass and area make.
 * MF_NUM_NONE when neither is known. A whole number is below a whole level exactly
 * when the unrounded loading is. */
MF_API int64_t mf_dust_loading(const mf_dust_sample *sample);

#ifdef __cplusplus
}
#endif
#endif
