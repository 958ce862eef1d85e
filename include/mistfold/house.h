/* mistfold/house.h - is this house and this work under the rule?
 *
 * Sources: 40 CFR 745.82 (applicability and exceptions), 745.83 (renovation,
 * minor repair and maintenance), 745.103 (target housing). Anything unknown is
 * read to the side of safety: covered.
 */
#ifndef MISTFOLD_HOUSE_H
#define MISTFOLD_HOUSE_H

#include <mistfold/job.h>
#include <mistfold/limit.h>

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
    MF_COVER_MINOR,           /* no: minor repair and maintenance */
    MF_COVER_NO_FACILITY,     /* no: neither housing nor, by the visits, a facility */
    /* no: zero bedrooms, begun while a child under 6 made no difference */
    MF_COVER_ZERO_BEDROOM_BEFORE
} mf_cover_why;

typedef struct mf_cover_answer {
    mf_cover cover;
    mf_cover_why why;
    bool emergency;    /* covered, with the reliefs of 745.82(b) claimed */
    size_t n_affected; /* painted components the work disturbs */
    size_t n_free;     /* of them shown free */
    const char *place; /* the room that is over the minor limit, or "" */
    /* The room or the outside that is nearest to the minor limit or over it, when
     * the work can be minor at all; minor_limit NULL = it cannot. */
    const mf_limit *minor_limit;
    int64_t minor_sqft_100; /* of all jobs within the days; MF_NUM_NONE = not known */
    const char *minor_room; /* "" outside */
    /* Of which nobody said whether it comes off, and which alone, by that, keeps the work from
     * being minor; NULL = there is none. */
    const mf_component *minor_unsaid;
    size_t n_earlier; /* parts of other jobs that were counted */
} mf_cover_answer;

/* Whether it is called housing. What is not is presumed to be a child-occupied facility, nobody's
 * home: a building of another kind as well, until all visits are known (745.84(c)). */
MF_API bool mf_is_housing(const mf_house *house);

/* Is it a child-occupied facility by the visits? 745.83: one child under
 * 6, in one week from Sunday on enough days of enough minutes each, together
 * enough, and enough in a year. Visits make a facility however few are logged; that they
 * make none is known only when somebody says that they are all. */
typedef struct mf_facility_answer {
    bool facility;        /* by the visits logged, or as children are said to come regularly */
    bool reached;         /* by the visits logged */
    const char *child;    /* the child that comes nearest, or "" */
    mf_day week;          /* the Sunday of its fullest week */
    int64_t days;         /* of that week that are long enough */
    int64_t week_minutes; /* of these days */
    int64_t year_minutes; /* of its fullest year */
} mf_facility_answer;
MF_API void mf_facility_judge(const mf_job *job, mf_facility_answer *out);

/* Whether an owner's record shows the component free; the first of those by its day that name the
 * component, as each of them does alone, or NULL. */
MF_API bool mf_owner_record_whole(const mf_job *job, const mf_owner_record *record);
MF_API const mf_owner_record *mf_owner_record_of(const mf_job *job, const char *component);

MF_API void mf_cover_judge(const mf_job *job, mf_cover_answer *out);

/* What a job with that house adds to the others at its address (745.83, 30 days): a row for each
 * part it disturbs, and rows without a size for what is never minor or not listed; nothing once it
 * was called off before any work. Writes at most cap rows and returns how many there are; their
 * texts are the job's. */
MF_API size_t mf_earlier_of_job(const mf_job *job, const mf_house *house, mf_earlier *out,
                                size_t cap);
/* Whether that row of another job, which names another unit of the building than job does, counts
 * with it all the same: the outside of a building is of no unit, nor is a room that both jobs say
 * is a common one. */
MF_API bool mf_earlier_of_no_unit(const mf_job *job, const mf_job *other, const mf_earlier *row);

#ifdef __cplusplus
}
#endif
#endif
