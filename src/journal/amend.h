/* amend.h - the body of a correction: what it may change, and what it says. */
#ifndef MF_JOURNAL_AMEND_H
#define MF_JOURNAL_AMEND_H

#include "journal/candidate.h"
#include "journal/draft.h"
#include "journal/fold.h"
#include "journal/line.h"

#define MF_KIND_ATTACHMENT "attachment"

/* All that is known of the entry that is to be corrected. */
typedef struct mf_amend {
    const mf_folds *folds;
    const char *target;
    const mf_line *line;     /* the target as the journal has it; NULL = there is none */
    const mf_job_fold *fold; /* with its corrections */
    const mf_draft *draft;   /* the fields that change; NULL = withdraw */
    const char *reason;
    const char *device; /* who corrects */
    const mf_now *now;  /* and when */
    /* Refuses when other entries name the id key of the target (lookup.h). */
    mf_status (*free_of_refs)(void *data, const mf_kind *kind, const char *job, const char *key,
                              const char *entry, mf_err *err);
    void *data;
} mf_amend;

/* Whether there can be a correction for that reason: asked before anything is looked up. */
mf_status mf_amend_reason(const char *target, const char *reason, mf_err *err);
/* Whether there is such an entry, of a kind that can be corrected. */
mf_status mf_amend_target(const mf_amend *ask, mf_err *err);
/* Checks the corrected body like a new one. Where several corrections stand, of devices that did
 * not know of each other, it goes on from the one made last, of those that withdraw nothing, and
 * settles the others: who sees them all says what is true. A head that was noted can be withdrawn
 * again where that did not count so far (mistfold/heads.h). *out is the body of the correction, for
 * the caller to decref. */
mf_status mf_amend_body(const mf_amend *ask, json_t **out, mf_err *err);

/* Whether an attachment's bytes, size and media stay as they were. */
bool mf_attach_same(const json_t *before, const json_t *after);

#endif
