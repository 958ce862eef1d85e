/* unlisted_work.h - what the job tells of work beside its list of components. */
#ifndef MF_CORE_UNLISTED_WORK_H
#define MF_CORE_UNLISTED_WORK_H

#include <mistfold/job.h>

typedef struct mf_unlisted_work {
    const char *why;      /* name of the reason; NULL = nothing is beside the list */
    const char *what;     /* the work area, the kind of work, or what changes */
    const char *evidence; /* the entry that says it */
} mf_unlisted_work;

/* The first that tells of paint that is disturbed where no component is listed: a practice, a work
 * area, a kind of work, a change of the work. false = none does. */
bool mf_work_unlisted(const mf_job *job, mf_unlisted_work *out);

/* Whether the component is one of the work area's, through its opening or by its room. */
bool mf_listed_in(const mf_job *job, const mf_area *area, const mf_component *component);

/* How much was worked dry on that side in the room, in hundredths of sq ft; of an unknown room
 * ("") wherever it was. */
int64_t mf_worked_dry(const mf_job *job, mf_side side, const char *room);

/* What the list says of the room, or what was worked dry there where that is more; MF_NUM_NONE
 * stays. */
int64_t mf_more_disturbed(const mf_job *job, mf_side side, const char *room, int64_t listed);

#endif
