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

/* *level (may be NULL) is the row it was judged by. */
MF_API mf_dust_verdict mf_dust_judge(const mf_job *job, const mf_dust_sample *sample,
                                     const mf_limit **level);

#ifdef __cplusplus
}
#endif
#endif
