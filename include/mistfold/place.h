/* mistfold/place.h - stricter limits of a place: state, territory, tribe, city,
 * or the contract of one job.
 *
 * A local row may only tighten. It holds for a job when its place is one of the
 * job's places, or a wider one of them ("US-NY" holds for "US-NY-NYC"), or the
 * id of the job itself, which is how a contract is written down. Of the federal
 * row and all local ones in force on a day the strictest decides.
 * Where a state, territory or tribe runs its own authorized program that
 * program governs (40 CFR 745.81(a), subpart Q).
 */
#ifndef MISTFOLD_PLACE_H
#define MISTFOLD_PLACE_H

#include <mistfold/job.h>
#include <mistfold/kind.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Why a local row cannot be taken in. */
typedef enum mf_local_fault {
    MF_LOCAL_GOOD,
    MF_LOCAL_VALUE,   /* the value is no number in the unit of the limit */
    MF_LOCAL_NEVER,   /* nobody else may set this limit */
    MF_LOCAL_OTHER,   /* the comparison looks to the other side */
    MF_LOCAL_DATES,   /* until lies before from */
    MF_LOCAL_FEDERAL, /* the place is "US" itself */
    MF_LOCAL_LOOSER   /* looser than the federal row on a day it would hold */
} mf_local_fault;

/* ---- how a place is written -------------------------------------------------------------- */

/* The states, the District of Columbia and the outlying areas as ISO 3166-2:US has them, "US-AK" to
 * "US-WY", in the order of the alphabet; *count is how many. Never freed. */
MF_API const char *const *mf_place_states(size_t *count);
/* Whether the item, len bytes, is one of them, "US-IA", or what lies in one, "US-NY-NYC"; capitals
 * aside. After a dash something follows. */
MF_API bool mf_place_is_state(const char *item, size_t len);
/* Of places with commas the first that is written like one, "US-" and more, where there is no such
 * state, in *len bytes; the end of the text where each is as it should be. */
MF_API const char *mf_places_no_state(const char *places, size_t *len);
/* Whether the item is the place wide or lies in it, capitals aside: "US-NY-NYC" in "US-NY". */
MF_API bool mf_place_lies_in(const char *item, size_t len, const char *wide);
/* Ids with commas as they are kept, in place: states, what lies in them, and US in capitals. */
MF_API void mf_places_write(char *places);

/* ---- rows -------------------------------------------------------------------------------- */

/* Fills what the entry leaves out: the number from its text, unit, name, words
 * and comparison from the federal row. To be called on each loaded row. A value
 * that cannot be read, or a comparison to the other side, leaves row.name "". */
MF_API void mf_local_limit_fill(mf_local_limit *local);

/* Checks a filled row. *federal (may be NULL) is the federal row it was held
 * against last: for LOOSER the one that is stricter. */
MF_API mf_local_fault mf_local_limit_check(const mf_local_limit *local, const mf_limit **federal);

/* How the value of a limit is typed. */
MF_API mf_slip mf_limit_value(mf_limit_id id, const char *text, int64_t *out);

/* Whether a local row holds for the job, whatever the day. Where a place of the job is neither
 * a state nor one that a row names, nobody knows where the house stands, and every row that is
 * written as one of a state holds. */
MF_API bool mf_local_limit_holds(const mf_job *job, const mf_local_limit *local);
/* Whether the job names such a place, of which nobody knows what it is. */
MF_API bool mf_place_unread(const mf_job *job);

/* The strictest row in force on day: the federal one or a local one that holds
 * for the job. NULL when there is none. job NULL asks for the federal one. */
MF_API const mf_limit *mf_limit_for(const mf_job *job, mf_limit_id id, mf_day day);

#ifdef __cplusplus
}
#endif
#endif
