/* seen.h - what of a job the book had when something was said of all its entries: the program
 * writes it into the entry by itself (MF_F_BOOK). */
#ifndef MF_JOURNAL_SEEN_H
#define MF_JOURNAL_SEEN_H

#include "journal/lookup.h"

/* Puts the last entry of each device among those of the job (mf_seen_has) into the field of the
 * kind that has it, into a copy of *body in its place; whatever it said before. A kind without such
 * a field stays. */
mf_status mf_seen_put(json_t **body, const mf_kind *kind, const mf_folds *folds, const char *job,
                      mf_err *err);

#endif
