/* mistfold/house.h - is this house and this work under the rule?
 *
 * Sources: 40 CFR 745.82 (applicability and exceptions), 745.83 (renovation,
 * minor repair and maintenance), 745.103 (target housing). Anything unknown is
 * read to the side of safety: covered.
 */
#ifndef MISTFOLD_HOUSE_H
#define MISTFOLD_HOUSE_H

#include <mistfold/job.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_cover { MF_COVER_YES, MF_COVER_NO } mf_cover;

/* What decided. */
typedef enum mf_cover_why {
    MF_COVER_BUILT_BEFORE,    /* yes: built before 1978 */
    MF_COVER_YEAR_UNKNOWN,    /* yes: presumed */
    MF_COVER_BUILT_LATER,     /* no */
    MF_COVER_NOT_FOR_PAY,     /* no: not for compensation */
    MF_COVER_ELDER_HOUSING,   /* no: elderly or disabled, no child under 6 */
    MF_COVER_ZERO_BEDROOM,    /* no: zero bedrooms, no child under 6 */
    MF_COVER_NOTHING_PAINTED, /* no: no painted surface is disturbed */
    MF_COVER_ALL_FREE,        /* no: every affected component shown free */
    MF_COVER_MINOR            /* no: minor repair and maintenance */
} mf_cover_why;

typedef struct mf_cover_answer {
    mf_cover cover;
    mf_cover_why why;
    bool emergency;    /* covered, with the reliefs of 745.82(b) claimed */
    size_t n_affected; /* painted components the work disturbs */
    size_t n_free;     /* of them shown free */
    const char *place; /* the room that is over the minor limit, or "" */
} mf_cover_answer;

MF_API void mf_cover_judge(const mf_job *job, mf_cover_answer *out);

#ifdef __cplusplus
}
#endif
#endif
