/* places.h - where a house stands, as typed: no place may be taken for another. */
#ifndef MF_JOURNAL_PLACES_H
#define MF_JOURNAL_PLACES_H

#include "base/mem.h"
#include "journal/candidate.h"

/* Appends the states that an item of len bytes may have been meant for, with commas; none where it
 * is like none. */
void mf_place_guess(mf_buf *out, const char *item, size_t len);

/* Appends the mend that a guess makes. */
void mf_place_mend(mf_buf *out, const mf_buf *guess);

/* MF_INPUT: the candidate, a house or a certificate, names a place that is no state and that no row
 * of the book names. *bad is the field. */
mf_status mf_places_check(const mf_candidate *c, const mf_field **bad, mf_err *err);

#endif
