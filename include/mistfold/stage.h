/* mistfold/stage.h - where a job stands, worked out from what was done in it.
 *
 * Demo that may not start again because the containment came down, as it should, takes no
 * job back; and a job that was said to be completed is not over while the signs may not come
 * down.
 *
 * Source: 40 CFR 745.85(a)(1)-(2), (b); 745.86(c)-(d). The stages themselves are of this
 * library, not of the rule.
 */
#ifndef MISTFOLD_STAGE_H
#define MISTFOLD_STAGE_H

#include <mistfold/audit.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_stage {
    MF_STAGE_OUTSIDE,    /* not under the rule */
    MF_STAGE_CALLED_OFF, /* called off before any work: nothing is torn out, nothing is due */
    MF_STAGE_PREPARING,  /* nothing disturbed yet, and something lacks before demo may start */
    MF_STAGE_READY,      /* nothing disturbed yet, and nothing lacks before demo */
    MF_STAGE_WORKING,    /* paint was disturbed, the signs may not come down */
    MF_STAGE_VERIFIED,   /* the signs may come down, not said to be completed */
    MF_STAGE_UNVERIFIED, /* said to be completed, and the signs may not come down */
    MF_STAGE_COMPLETED,  /* completed and clean, something is still to be handed over */
    MF_STAGE_CLOSED,     /* completed, clean, and everybody was given what is due to them */
    MF_STAGE_LATE,       /* the same, but somebody was given it late, and it stays late */
    MF_STAGE_ALTERED, /* an entry is not what was logged (mf_job: integrity): nothing is judged */
    MF_STAGE_COUNT
} mf_stage;

/* "outside", "called-off", "preparing", "ready", "working", "verified", "unverified", "completed",
 * "closed", "late", "altered"; "" for any other number. */
MF_API const char *mf_stage_name(mf_stage stage);
/* MF_STAGE_COUNT when there is none of that name. */
MF_API mf_stage mf_stage_named(const char *name);

/* By all that is logged, also what is dated after today (mf_book_job_until leaves that out).
 * Allocates nothing; uses the stack as mf_audit does. */
MF_API mf_stage mf_stage_of(const mf_job *job, mf_day today);

/* Whether the job was called off by that day (mf_house: called_off) and nothing tells of work:
 * each entry of its house says so, and no correction is contradicted. */
MF_API bool mf_called_off(const mf_job *job, mf_day today);
/* The same, though containment may still stand there, which somebody has to take down. */
MF_API bool mf_off_before_work(const mf_job *job, mf_day today);

/* Whether the work in an area was called off by that day (mf_area: called_off) and nothing tells of
 * any: each entry of the area says so, none of work, verification or clearance there is logged, no
 * part or opening in it is said or presumed to be worked on, no work goes on in another area of the
 * same room, and no correction is contradicted. */
MF_API bool mf_area_off(const mf_job *job, const char *area, mf_day today);

/* Whether an area was cleaned, looked at or sampled on its last day of work or later: its
 * containment may be down by then, and is not asked for any more. */
MF_API bool mf_area_being_cleared(const mf_job *job, const char *area);

#ifdef __cplusplus
}
#endif
#endif
