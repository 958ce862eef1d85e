/* band.h - the tolerance of an instrument about its reference film. */
#ifndef MF_JOURNAL_BAND_H
#define MF_JOURNAL_BAND_H

#include "journal/candidate.h"

/* Refuses a tolerance that does not hold the film's value. *bad is the field at fault. */
mf_status mf_band_check(const mf_candidate *c, const mf_field **bad, mf_err *err);

#endif
