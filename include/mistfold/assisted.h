/* mistfold/assisted.h - federally assisted housing: 24 CFR part 35, subpart R,
 * beside 40 CFR part 745. Chosen per job; both rules are judged.
 */
#ifndef MISTFOLD_ASSISTED_H
#define MISTFOLD_ASSISTED_H

#include <mistfold/job.h>
#include <mistfold/limit.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Whether safe work practices are required: 24 CFR 35.1350(d). */
typedef struct mf_assisted_answer {
    bool holds;            /* assisted, and not outside part 35 (35.115) */
    bool over;             /* over the de minimis areas, or not known */
    const mf_limit *limit; /* that decided, or the nearest; NULL = nothing measured */
    int64_t n;             /* in its unit; MF_NUM_NONE = not known */
    const char *spot;      /* the room or component it was measured at; "" = outside */
} mf_assisted_answer;
/* The first of these alone. */
MF_API bool mf_assisted_holds(const mf_job *job);
MF_API void mf_assisted_judge(const mf_job *job, mf_assisted_answer *out);

/* Methods of 24 CFR 35.140. */
typedef enum mf_assisted_method {
    MF_ASSISTED_ALLOWED,
    MF_ASSISTED_FLAME,
    MF_ASSISTED_MACHINE,
    MF_ASSISTED_HEAT,
    MF_ASSISTED_DRY,
    MF_ASSISTED_STRIPPER,
    MF_ASSISTED_SANDED, /* dry sanding of what may be scraped dry: the texts differ */
    MF_ASSISTED_UNSAID  /* by hand, but not whether wet or dry */
} mf_assisted_method;
MF_API mf_assisted_method mf_assisted_method_of(const mf_job *job, const mf_practice *practice);

/* Whether occupants are where 24 CFR 35.1345(a)(2) lets them be. */
typedef enum mf_stay_fault {
    MF_STAY_GOOD,
    MF_STAY_HAZARD,      /* lead-based paint is disturbed after all, or another hazard made */
    MF_STAY_INSIDE,      /* work inside, though only the exterior was to be treated */
    MF_STAY_UNSEALED,    /* exterior: openings or entry not kept as asked */
    MF_STAY_TOO_LONG,    /* more than one daytime, or too many days, or not said */
    MF_STAY_NOT_CLEANED, /* few days: not cleaned far enough each evening */
    MF_STAY_UNREACHABLE, /* few days: bedrooms, bath or kitchen */
    MF_STAY_OTHER_DAYS,  /* worked on another day, or planned to be, or inside cleaned; outside
                            alone does no harm where it is told how openings and the way in are
                            kept */
    MF_STAY_AT_NIGHT     /* one day: inside was worked before 06:00 or after 21:00 */
} mf_stay_fault;
/* *limit and *n (may be NULL): what decided, when a number did. */
MF_API mf_stay_fault mf_stay_judge(const mf_job *job, const mf_occupancy *occupancy,
                                   const mf_limit **limit, int64_t *n);

#ifdef __cplusplus
}
#endif
#endif
