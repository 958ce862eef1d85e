/* mistfold/program.h - the authorized programs that govern in place of EPA's.
 *
 * 40 CFR 745.81(a), part 745 subpart Q: a state, territory or tribe may run its own
 * program, which then governs there. Firm and renovator are certified under the
 * program of the place, so that a certificate of EPA's alone may not count there,
 * nor one of a program elsewhere.
 *
 * Source of the rows: EPA's list of 2012-02-28 as a trade page quotes it, and two lists of
 * a national nonprofit, undated and of 2015: secondary; Delaware and Oklahoma are on the
 * latter alone and unconfirmed. Vermont from 2022-10-01: FR Doc. 2022-24541. Tribes were
 * not found. It may warn and never blocks: whoever
 * reads it asks the authority of the place. What a firm's certificate says of itself blocks.
 */
#ifndef MISTFOLD_PROGRAM_H
#define MISTFOLD_PROGRAM_H

#include <mistfold/job.h>
#include <mistfold/limit.h>

#ifdef __cplusplus
extern "C" {
#endif

/* How EPA's own program is written where a place is written. */
#define MF_PROGRAM_EPA "US"

typedef struct mf_program {
    const char *place;  /* "US-WI" */
    mf_day from, until; /* both included; MF_DAY_NONE = not found, still */
    const char *citation;
    mf_status_of_fact status;
    const char *note;
} mf_program;

/* All rows, in the order of their places; static. */
MF_API const mf_program *mf_program_rows(size_t *count);

/* The program in force on day at one of the places ("US-WI,US-WI-X", ids with
 * commas; a row of US-WI holds for US-WI-X). NULL: none is listed, EPA's governs as
 * far as the list knows. */
MF_API const mf_program *mf_program_at(const char *places, mf_day day);

/* Whether a certificate counts under the program of a place; one of which nobody
 * said whose it is counts as EPA's. */
MF_API bool mf_certificate_counts(const mf_certificate *certificate, const char *program);

#ifdef __cplusplus
}
#endif
#endif
