/* days.h - two days of an entry, or two times of its day, of which one cannot lie before the
 * other. */
#ifndef MF_JOURNAL_DAYS_H
#define MF_JOURNAL_DAYS_H

#include "journal/candidate.h"

/* Refuses a last day or time before its first one. *bad is the field of the last. */
mf_status mf_days_check(const mf_candidate *c, const mf_field **bad, mf_err *err);

#endif
