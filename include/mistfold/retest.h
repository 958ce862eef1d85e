/* mistfold/retest.h - the retest check of an XRF inspection.
 *
 * Ten testing combinations are read again; C = sum of the squared means of the ten
 * pairs, D = factor x C, E = D + base, F = root of E, limit = z x F. The check
 * passes when the means of the ten first and of the ten second readings differ by
 * less than the limit. Otherwise ten new combinations; a second failure makes the
 * inspection deficient. The rule was seen on a performance sheet; its steps and the
 * constants 0.0072, 0.032 and 1.645 are from memory and belong to the profile.
 */
#ifndef MISTFOLD_RETEST_H
#define MISTFOLD_RETEST_H

#include <mistfold/job.h>

#ifdef __cplusplus
extern "C" {
#endif

enum { MF_RETEST_PAIRS = 10 };

typedef struct mf_retest_constants {
    int64_t factor_millionths, base_thousandths, z_thousandths;
    bool from_profile; /* false: at least one is the recalled one */
} mf_retest_constants;

typedef enum mf_retest_verdict {
    MF_RETEST_INCOMPLETE,     /* fewer than ten pairs */
    MF_RETEST_NOT_COMPUTABLE, /* a display was saturated, or a retest has no first reading */
    MF_RETEST_PASS,
    MF_RETEST_REPEAT,   /* the first round failed: ten new combinations */
    MF_RETEST_DEFICIENT /* the second round failed too */
} mf_retest_verdict;

typedef struct mf_retest {
    const char *instrument;
    int round;                                /* from 1 */
    int n;                                    /* pairs in it */
    const mf_reading *first[MF_RETEST_PAIRS]; /* NULL = none found */
    const mf_reading *again[MF_RETEST_PAIRS];
    mf_retest_constants k;
    mf_retest_verdict verdict; /* decided in whole numbers */
    /* The steps in 1e-9 mg/cm2, c, d and e in 1e-9 of its square. For printing; cut, except c,
     * which is exact. */
    int64_t c, d, e, f, limit, mean_first, mean_again, difference;
} mf_retest;

/* Fills at most cap rounds (readings of purpose retest, ten by ten in order of
 * time, instrument by instrument) and returns how many there are. */
MF_API size_t mf_retests(const mf_job *job, mf_retest *out, size_t cap);

#ifdef __cplusplus
}
#endif
#endif
