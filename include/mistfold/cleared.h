/* mistfold/cleared.h - how a work area was found clean: by cloths, by looking where it is
 * outside, or by clearance samples that stand in for both.
 *
 * Source: 40 CFR 745.85(b)(1)-(2), (c).
 */
#ifndef MISTFOLD_CLEARED_H
#define MISTFOLD_CLEARED_H

#include <mistfold/audit.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_cleared {
    MF_CLEARED_NOT,
    MF_CLEARED_BY_CLOTHS,
    MF_CLEARED_BY_LOOKING,
    MF_CLEARED_BY_SAMPLES
} mf_cleared;

/* By the findings of MF_GATE_SIGNS asked of that area alone: where one that speaks of the
 * check is lacking, it is not. *on = the day of the last cloth, look or sample, or
 * MF_DAY_NONE. */
MF_API mf_cleared mf_area_cleared(const mf_job *job, const mf_area *area,
                                  const mf_finding *findings, size_t count, mf_day *on);

/* The first of these findings that speaks of the check and is lacking; NULL = none. */
MF_API const mf_finding *mf_not_cleared_by(const mf_finding *findings, size_t count);

#ifdef __cplusplus
}
#endif
#endif
