/* two_terms.h - one certificate that was logged with two terms. Nobody knows which is true until
 * one of the entries is corrected or withdrawn: what both say counts. */
#ifndef MF_CORE_TWO_TERMS_H
#define MF_CORE_TWO_TERMS_H

#include <mistfold/job.h>

/* Whether two entries are of one certificate. */
bool mf_one_certificate(const mf_certificate *a, const mf_certificate *b);

/* Whether two entries of one certificate cannot both be true; each with the last day that it has by
 * itself. */
bool mf_two_terms(const mf_certificate *a, mf_day a_last, const mf_certificate *b, mf_day b_last);

/* The first entry after another one (NULL = of all) that contradicts this one; NULL = none. */
const mf_certificate *mf_certificate_contradicting(const mf_job *job, const mf_certificate *it,
                                                   const mf_certificate *after);

#endif
