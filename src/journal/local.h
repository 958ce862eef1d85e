/* local.h - limits of a place: an entry that would loosen a rule is refused. */
#ifndef MF_JOURNAL_LOCAL_H
#define MF_JOURNAL_LOCAL_H

#include "journal/candidate.h"
#include "journal/line.h"

/* Checks the body of a local limit; others are good. *bad is the field at fault. */
mf_status mf_local_check(const mf_candidate *c, const mf_field **bad, mf_err *err);

#endif
