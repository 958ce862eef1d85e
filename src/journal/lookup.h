/* lookup.h - what a draft is checked against: which ids there are in a job and its firm, and
 * which was meant. */
#ifndef MF_JOURNAL_LOOKUP_H
#define MF_JOURNAL_LOOKUP_H

#include "base/mem.h"
#include "journal/fold.h"

/* Where the entries of a job ("" = of the firm) come from: folded and corrected, but for the
 * readings, as there may be very many and no draft is checked against one. *out lives until
 * the next call for another job. */
typedef struct mf_folds {
    mf_status (*of)(const mf_job_fold **out, void *data, const char *job, mf_err *err);
    void *data;
} mf_folds;

/* The text in the member of a field of type TEXT, ID or IDS. */
const char *mf_known_text(const void *item, const mf_field *field);

/* Whether the fields that name a thing of the kind are the same in two items. */
bool mf_same_keys(const mf_kind *kind, const void *a, const void *b);

/* Whether a thing of kind with this id is in job (or the firm). */
mf_status mf_known(const mf_folds *folds, const mf_kind *kind, const char *job, const char *id,
                   bool *known, mf_err *err);

/* What there is where an id is unknown. */
typedef struct mf_known_ids {
    char nearest[48]; /* the one that was meant; "" = none is like it */
    int apart;        /* how many letters it is off */
    size_t count;
    mf_buf list; /* the first ones, the caller frees it */
} mf_known_ids;
mf_status mf_known_ids_of(mf_known_ids *out, const mf_folds *folds, const mf_kind *kind,
                          const char *job, const char *id, mf_err *err);
/* The mend they make: the nearest one, else the first ones. */
void mf_known_ids_mend(mf_buf *out, const mf_known_ids *ids, const mf_kind *kind);

/* Appends such a mend for an unknown id. */
mf_status mf_known_mend(mf_buf *out, const mf_folds *folds, const mf_kind *kind, const char *job,
                        const char *id, mf_err *err);

/* The first entry of the fold, not but, that names the id key of kind; *by = NULL: none does.
 * Every entry of a job hangs on its house. */
void mf_named_in(const mf_job_fold *fold, const mf_kind *kind, const char *key, const char *but,
                 const mf_kind **by, char entry[MF_ENTRY_ID]);
/* MF_INPUT: what others name cannot change its id or go away. */
mf_status mf_named_refuse(const mf_kind *kind, const char *key, const mf_kind *by,
                          const char *entry, mf_err *err);

#endif
