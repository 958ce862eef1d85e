/* candidate.h - whether a body may stand beside what is logged already: fields
 * that are needed, ids that are taken, things that do not exist. */
#ifndef MF_JOURNAL_CANDIDATE_H
#define MF_JOURNAL_CANDIDATE_H

#include "base/json.h"
#include "journal/lookup.h"
#include <mistfold/book.h>

/* A body that wants to be the row of kind in job. */
typedef struct mf_candidate {
    const mf_folds *folds;
    const mf_kind *kind;
    const json_t *body;
    const char *job;
    const char *except; /* the entry it would replace, or "" */
    const char *where;  /* for messages, may be "" */
    /* It corrects an entry and keeps its name: whatever a merge brought in under the same name
     * is no reason to refuse, or neither of the two could be mended. */
    bool keeps_name;
    const mf_now *now; /* NULL = the clock is not asked */
} mf_candidate;

/* MF_INPUT when it may not; *bad (may be NULL) is then the field at fault, NULL
 * when it is the whole entry. */
mf_status mf_candidate_check(const mf_candidate *c, const mf_field **bad, mf_err *err);

/* Whether an entry other than the one it would replace makes the thing of that id as well. */
mf_status mf_candidate_again(const mf_candidate *c, bool *again, mf_err *err);

/* Where an error of the candidate lies: "where, --option", or what there is of it; field
 * NULL = the whole entry. */
enum { MF_WHERE = 160 };
void mf_candidate_where(char out[MF_WHERE], const mf_candidate *c, const mf_field *field);

#endif
