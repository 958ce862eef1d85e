/* draft.h - an entry being put together, and what can be wrong with a field. */
#ifndef MF_JOURNAL_DRAFT_H
#define MF_JOURNAL_DRAFT_H

#include "base/json.h"
#include <mistfold/book.h>

/* Bytes of a text, and of one that a machine writes (MF_F_LONG). Longer text belongs into an
 * attached file. */
#define MF_DRAFT_TEXT ((size_t)4000)
#define MF_DRAFT_LONG ((size_t)64 * 1024)

/* How many a field keeps. */
size_t mf_draft_most(const mf_field *field);
/* MF_INPUT: a text has more. */
mf_status mf_draft_too_long(const mf_field *field, const char *where, const char *mend,
                            mf_err *err);

struct mf_draft {
    const mf_kind *kind;
    json_t *body; /* a JSON null clears the field in a correction */
    json_t *said; /* by field, as which qualifier a number was typed, or the field itself says */
};

/* Fills err for a slip in the text typed for field. */
mf_status mf_slip_fail(mf_err *err, const mf_field *field, const char *where, const char *text,
                       mf_slip slip);

/* As mf_draft_set, of a field of the draft's kind. */
mf_status mf_draft_put(mf_draft *draft, const mf_field *field, const char *text, const char *unit,
                       const char *where, mf_day today, mf_err *err);

/* before with the draft's fields over it, for the caller to decref; NULL when memory ran out. */
json_t *mf_draft_over(const mf_draft *draft, const json_t *before);

/* Checks what the caller told about clock and hand: MF_USAGE when it is no UTC
 * time of the form, MF_INPUT when who is no text. */
mf_status mf_now_check(const mf_now *now, mf_err *err);

/* Why an entry is made, where it must say so: one line of text, not blank. */
#define MF_REASON_MAX ((size_t)1000)
bool mf_reason_fits(const char *reason);
/* MF_INPUT when it is none that fits; why and mend are for one that is missing. */
mf_status mf_reason_check(const char *reason, const char *where, const char *why, const char *mend,
                          mf_err *err);

/* body without its nulls: itself when it has none, else a copy, for the caller to decref.
 * NULL when memory ran out. */
json_t *mf_without_nulls(const json_t *body);

#endif
