/* local.h - limits of a place: an entry that would loosen a rule is refused. */
#ifndef MF_BOOK_LOCAL_H
#define MF_BOOK_LOCAL_H

#include "book/refs.h"
#include "journal/line.h"

/* Checks the body of a local limit; others are good. *bad is the field at fault. */
mf_status mf_local_check(const mf_candidate *c, const mf_field **bad, mf_err *err);

#endif
