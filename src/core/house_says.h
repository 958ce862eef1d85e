/* house_says.h - what else the job tells of the house: entries against the word that would take it
 * out of the rule. */
#ifndef MF_CORE_HOUSE_SAYS_H
#define MF_CORE_HOUSE_SAYS_H

#include <mistfold/job.h>

typedef struct mf_house_says {
    const char *why;      /* name of the reason; NULL = nothing speaks against it */
    const char *evidence; /* the entry that does */
} mf_house_says;

/* Against "neither housing nor a facility", where the building is said to be that, and else
 * against "no child under 6", of housing. */
bool mf_house_contradicted(const mf_job *job, mf_house_says *out);

/* Against "no bedroom": a room, a work area or a part that is called one (745.83, 745.103). */
bool mf_bedroom_listed(const mf_job *job, mf_house_says *out);

/* Against "the owner lives there": an owner of another address, or an occupant of the same unit. */
bool mf_owner_doubted(const mf_job *job, mf_house_says *out);

/* Against "not for compensation": rent of others than the owner, or wages (745.82(a)). */
bool mf_pay_presumed(const mf_job *job, mf_house_says *out);

#endif
