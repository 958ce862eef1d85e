/* days.h - two days of an entry, or two times of its day, of which one cannot lie before the
 * other, and times that are still to come. */
#ifndef MF_JOURNAL_DAYS_H
#define MF_JOURNAL_DAYS_H

#include "journal/candidate.h"

/* Refuses a last day or time before its first one. *bad is the field of the last. */
mf_status mf_days_check(const mf_candidate *c, const mf_field **bad, mf_err *err);

/* Refuses a time of today that is still to come by the candidate's clock, as a day to come is
 * refused. *bad is its field. */
mf_status mf_times_check(const mf_candidate *c, const mf_field **bad, mf_err *err);

#endif
