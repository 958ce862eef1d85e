/* How long a certificate of an inspector or a risk assessor may run. */
#ifndef MF_CORE_ASSESSOR_TERM_H
#define MF_CORE_ASSESSOR_TERM_H

#include <mistfold/job.h>

/* The last day of one issued on a day, with its printed last day; MF_DAY_NONE = nobody could hold
 * it, as there was no program yet, or nothing is printed. job NULL = by the federal limits. */
mf_day mf_assessor_until(const mf_job *job, mf_day issued, mf_day printed);

/* Whether nobody could hold the certificate that an owner's record names: it runs longer than any
 * one may, or the record is of before the first program. */
bool mf_owner_record_impossible(const mf_job *job, const mf_owner_record *record);

#endif
