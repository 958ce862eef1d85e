/* mistfold/emergency.h - what an emergency excuses, and what it never does.
 *
 * Source: 40 CFR 745.82(b). Information, signs, containment, waste, training and
 * certification, only as far as responding requires; interim controls for a child
 * with elevated blood lead: information alone. Cleaning, cleaning verification
 * and the records are never excused, nor are prohibited methods allowed.
 */
#ifndef MISTFOLD_EMERGENCY_H
#define MISTFOLD_EMERGENCY_H

#include <mistfold/job.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_waiver {
    MF_WAIVE_PAMPHLET, /* 745.84; the others "in 745.85, 745.89, and 745.90", with no paragraphs */
    MF_WAIVE_SIGNS,
    MF_WAIVE_CONTAINMENT,
    MF_WAIVE_WASTE,
    MF_WAIVE_TRAINING,
    MF_WAIVE_CERTIFICATION,
    MF_WAIVER_COUNT
} mf_waiver;

/* "pamphlet", "signs", "containment", "waste", "training", "certification". */
MF_API const char *mf_waiver_name(mf_waiver waiver);
/* By the name of len bytes; MF_WAIVER_COUNT when it is none of them. */
MF_API mf_waiver mf_waiver_named(const char *name, size_t len);

/* Why an emergency entry excuses nothing: the job says that it is none, a blood lead level
 * that is not elevated, the work began before the event or was planned to, or nobody wrote down why
 * responding required it ("to the extent necessary", 745.82(b); the information it excuses all the
 * same). */
typedef enum mf_emergency_fault {
    MF_EMERGENCY_STANDS,
    MF_EMERGENCY_DENIED,
    MF_EMERGENCY_NOT_ELEVATED,
    MF_EMERGENCY_NO_REASON,
    MF_EMERGENCY_LATE
} mf_emergency_fault;
MF_API mf_emergency_fault mf_emergency_void(const mf_job *job, const mf_emergency *emergency);

/* The emergency entry that lawfully excuses it on a day, or NULL. Of the information
 * (MF_WAIVE_PAMPHLET) each emergency does, whether or not it is among what was waived, and for as
 * long as the work takes. The rest only while responding requires it: until the day that the entry
 * names, or, where it names none, for MF_LIMIT_EMERGENCY_DAYS.
 * MF_DAY_NONE: of any day. */
MF_API const mf_emergency *mf_emergency_waives(const mf_job *job, mf_waiver waiver, mf_day day);

/* Whether an emergency is claimed at all. */
MF_API bool mf_emergency_claimed(const mf_job *job);

/* The first thing an emergency entry waives that it must not: start and length
 * of its name; false when there is none. */
MF_API bool mf_emergency_excess(const mf_emergency *emergency, const char **name, size_t *len);

#ifdef __cplusplus
}
#endif
#endif
