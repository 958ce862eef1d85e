/* The retest check in whole numbers. The steps are cut, for printing; the verdict
 * is decided without them. */
#include <mistfold/retest.h>

#include "core/reading_order.h"
#include "core/text.h"

__extension__ typedef __int128 wide; /* the exact comparison needs some 90 bits */

enum {
    FACTOR = 7200, /* 0.0072, from memory */
    BASE = 32,     /* 0.032 (mg/cm2)^2, from memory */
    Z = 1645,      /* 1.645, from memory; 10 % of the normal distribution lies beyond it */
    SANE_UG_CM2 = 1000000
};

static mf_retest_constants constants_of(const mf_job *job, const char *instrument)
{
    mf_retest_constants k = {MF_NUM_NONE, MF_NUM_NONE, MF_NUM_NONE, true};
    for (size_t i = 0; i < job->n_profile_row; i++) {
        const mf_profile_row *row = &job->profile_row[i];
        if (!mf_same(row->instrument, instrument))
            continue;
        if (row->retest_factor_millionths != MF_NUM_NONE)
            k.factor_millionths = row->retest_factor_millionths;
        if (row->retest_base_thousandths != MF_NUM_NONE)
            k.base_thousandths = row->retest_base_thousandths;
        if (row->retest_z_thousandths != MF_NUM_NONE)
            k.z_thousandths = row->retest_z_thousandths;
    }
    k.from_profile = k.factor_millionths != MF_NUM_NONE && k.base_thousandths != MF_NUM_NONE &&
                     k.z_thousandths != MF_NUM_NONE;
    if (k.factor_millionths == MF_NUM_NONE)
        k.factor_millionths = FACTOR;
    if (k.base_thousandths == MF_NUM_NONE)
        k.base_thousandths = BASE;
    if (k.z_thousandths == MF_NUM_NONE)
        k.z_thousandths = Z;
    return k;
}

/* ---- the order of readings --------------------------------------------------------- */

/* Both are elements of one array. */
static int order(const mf_reading *a, const mf_reading *b)
{
    int by = mf_reading_taken(a, 0, b, 0);
    return by != 0 ? by : (a > b) - (a < b);
}

/* The reading that was read again: the last one of the component before it. */
static const mf_reading *first_of(const mf_job *job, const mf_reading *again)
{
    const mf_reading *found = NULL;
    const char *component = again->component;
    for (size_t i = mf_reading_first(job, component); i != SIZE_MAX;
         i = mf_reading_next(job, component, i)) {
        const mf_reading *it = &job->reading[i];
        if (it->purpose != MF_READ_PAINT || !mf_same(it->instrument, again->instrument) ||
            order(it, again) >= 0)
            continue;
        if (found == NULL || order(it, found) > 0)
            found = it;
    }
    return found;
}

/* The retest of the instrument that comes next after one; NULL = the first. */
static const mf_reading *next_retest(const mf_job *job, const char *instrument,
                                     const mf_reading *after)
{
    const mf_reading *found = NULL;
    size_t from = 0;
    for (const mf_reading *it; (it = mf_reading_special(job, &from)) != NULL;) {
        if (it->purpose != MF_READ_RETEST || !mf_same(it->instrument, instrument) ||
            (after != NULL && order(it, after) <= 0))
            continue;
        if (found == NULL || order(it, found) < 0)
            found = it;
    }
    return found;
}

/* ---- computing ------------------------------------------------------------------------ */

static bool usable(const mf_reading *it)
{
    return it != NULL && it->qualifier == MF_QUAL_EXACT && it->loading_ug_cm2 >= -SANE_UG_CM2 &&
           it->loading_ug_cm2 <= SANE_UG_CM2;
}

static bool all_usable(const mf_retest *round)
{
    for (int i = 0; i < round->n; i++)
        if (!usable(round->first[i]) || !usable(round->again[i]))
            return false;
    return true;
}

/* |difference of the means| < z * sqrt(factor * C + base), both sides squared and
 * times 4e12 n^2, in the units of the constants: no root, no division. */
static bool within(const mf_retest *round, int64_t difference, int64_t squares)
{
    const mf_retest_constants *k = &round->k;
    wide n = round->n, z = k->z_thousandths;
    wide left = (wide)4000000000000 * difference * difference;
    wide inner = (wide)k->factor_millionths * squares + (wide)4000000000 * k->base_thousandths;
    return left < n * n * z * z * inner;
}

/* The largest whole number whose square is not above x, by halving. */
static int64_t root(wide x)
{
    int64_t low = 0, high = (int64_t)1 << 60;
    while (low < high) {
        int64_t middle = low + (high - low + 1) / 2;
        if ((wide)middle * middle <= x)
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}

/* The steps and the verdict of a round whose pairs and constants are set. */
static void compute(mf_retest *round)
{
    int64_t sum_first = 0, sum_again = 0, squares = 0; /* squares: of first + again */
    round->verdict = MF_RETEST_NOT_COMPUTABLE;
    if (!all_usable(round))
        return;
    for (int i = 0; i < round->n; i++) {
        int64_t first = round->first[i]->loading_ug_cm2, again = round->again[i]->loading_ug_cm2;
        sum_first += first;
        sum_again += again;
        squares += (first + again) * (first + again);
    }
    round->verdict = MF_RETEST_INCOMPLETE;
    if (round->n < MF_RETEST_PAIRS)
        return;
    const mf_retest_constants *k = &round->k;
    round->c = squares * 250; /* (first + again)^2 / 4, from 1e-6 to 1e-9 */
    round->d = (int64_t)((wide)round->c * k->factor_millionths / 1000000);
    round->e = round->d + k->base_thousandths * 1000000;
    round->f = root((wide)round->e * 1000000000);
    round->limit = (int64_t)((wide)round->f * k->z_thousandths / 1000);
    int64_t apart = sum_first - sum_again;
    round->mean_first = sum_first * 1000000 / round->n;
    round->mean_again = sum_again * 1000000 / round->n;
    round->difference = (apart < 0 ? -apart : apart) * 1000000 / round->n;
    if (within(round, apart, squares))
        round->verdict = MF_RETEST_PASS;
    else
        round->verdict = round->round > 1 ? MF_RETEST_DEFICIENT : MF_RETEST_REPEAT;
}

/* Fills the round that begins after a retest; returns the last one in it. */
static const mf_reading *fill_round(const mf_job *job, const char *instrument, int number,
                                    const mf_reading *after, mf_retest *out)
{
    const mf_reading *last = after;
    *out =
        (mf_retest){.instrument = instrument, .round = number, .k = constants_of(job, instrument)};
    while (out->n < MF_RETEST_PAIRS) {
        const mf_reading *next = next_retest(job, instrument, last);
        if (next == NULL)
            break;
        out->again[out->n] = next;
        out->first[out->n++] = first_of(job, next);
        last = next;
    }
    compute(out);
    return last;
}

size_t mf_retests(const mf_job *job, mf_retest *out, size_t cap)
{
    size_t count = 0;
    for (size_t i = 0; i < job->n_instrument; i++) {
        const char *serial = job->instrument[i].serial;
        const mf_reading *last = NULL;
        for (int round = 1; next_retest(job, serial, last) != NULL; round++) {
            mf_retest made;
            last = fill_round(job, serial, round, last, &made);
            if (count < cap)
                out[count] = made;
            count++;
        }
    }
    return count;
}
