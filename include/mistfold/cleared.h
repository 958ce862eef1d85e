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

typedef struct mf_area_check {
    mf_cleared how;
    mf_day on;          /* day of the last cloth, look or sample; MF_DAY_NONE = not cleared */
    bool lacks;         /* the answer is not yes: then it is MF_CLEARED_NOT */
    mf_finding lacking; /* the first that makes it so; its texts are those of the job */
} mf_area_check;

/* As MF_GATE_SIGNS answers for the area on that day: what papers, lists and the page of a phone say
 * of it. Where the signs must not come down, nobody is told that it is clean. Allocates nothing. */
MF_API mf_area_check mf_check_area(const mf_job *job, const mf_area *area, mf_day today);

#ifdef __cplusplus
}
#endif
#endif
