/* fail.h - filling an mf_err in one line. */
#ifndef MF_BASE_FAIL_H
#define MF_BASE_FAIL_H

#include <mistfold/err.h>

/* Fills err (which may be NULL) and returns status. Any text may be "". Text too
 * long for its field is cut. */
mf_status mf_fail(mf_err *err, mf_status status, const char *where, const char *what,
                  const char *why, const char *mend);

/* As mf_fail, with what printed from a format. */
mf_status mf_failf(mf_err *err, mf_status status, const char *where, const char *why,
                   const char *mend, const char *format, ...) MF_PRINTF(6, 7);

/* Names what mf_fail filled in, with up to MF_ERR_PARTS parts; NULL = no more of them. */
void mf_fail_name(mf_err *err, const char *name, const char *first, const char *second,
                  const char *third);

/* MF_SYSTEM, "out of memory". */
mf_status mf_fail_memory(mf_err *err);

#endif
