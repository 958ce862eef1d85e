/* The number of units to test, and the draw. */
#include <mistfold/units.h>

#include <mistfold/limit.h>

typedef struct regime {
    int64_t part;       /* one of so many units is taken to be positive */
    int64_t most;       /* and at most so many */
    int64_t from;       /* from so many units the percentage holds */
    int64_t per_mille;  /* of the units, rounded up */
    int64_t multi_from; /* fewer units: all of them */
} regime;

/* MF1, MF3, MF6 of the testing digest: HUD Guidelines ch. 7 s. V and app. 12. */
static const regime regimes[] = {
    [MF_BUILT_BEFORE_1960] = {20, 50, 1040, 58, 21},
    [MF_BUILT_1960_1977] = {10, 100, 1000, 29, 10},
};

/* EP 1110-1-31 table B-1 (continued): the rows that were seen. */
static const struct {
    int64_t from, to, units[2];
} printed_rows[] = {
    {219, 258, {52, 27}},     {259, 279, {53, 27}},     {280, 299, {53, 28}},
    {300, 379, {54, 28}},     {380, 499, {55, 28}},     {500, 776, {56, 28}},
    {777, 939, {57, 28}},     {940, 1004, {57, 29}},    {1005, 1022, {58, 29}},
    {1023, 1032, {59, 29}},   {1033, 1039, {59, 30}},   {1500, 1500, {87, 44}},
    {2000, 2000, {116, 58}},  {2500, 2500, {145, 73}},  {3000, 3000, {174, 87}},
    {3500, 3500, {203, 102}}, {4000, 4000, {232, 116}},
};

bool mf_built_of(int64_t year, mf_built *out)
{
    const mf_limit *covered = mf_limit_on(MF_LIMIT_YEAR_BUILT, MF_DAY_NONE);
    *out = year == MF_NUM_NONE || year < 1960 ? MF_BUILT_BEFORE_1960 : MF_BUILT_1960_1977;
    return year == MF_NUM_NONE || mf_limit_holds(covered, year);
}

static int64_t assumed_positive(const regime *r, int64_t count)
{
    int64_t k = (count + r->part - 1) / r->part;
    return k > r->most ? r->most : k;
}

__extension__ typedef unsigned __int128 wide; /* a product of two 64-bit numbers */

/* Least n with C(N-K, n) / C(N, n) strictly below 0.05, in fixed point with 62 bits.
 * Cutting at each of n steps leaves the product too small by less than n / 2^62, far
 * below the tie of 1e-9: what is that near to 0.05 is exactly 1/20 (16 units of
 * 1960-1977, n = 12), and that is not below; the nearest other one for up to 1,040
 * units is 1.8e-7 away. */
static int64_t least(int64_t count, int64_t positive)
{
    const uint64_t one = (uint64_t)1 << 62;
    const uint64_t level = one / 20 - one / 1000000000;
    uint64_t none_found = one;
    for (int64_t n = 1; n <= count; n++) {
        int64_t left = count - positive - n + 1;
        none_found =
            left <= 0 ? 0
                      : (uint64_t)((wide)none_found * (uint64_t)left / (uint64_t)(count - n + 1));
        if (none_found < level)
            return n;
    }
    return count;
}

static int64_t running_maximum(const regime *r, int64_t count)
{
    int64_t most = 0;
    for (int64_t n = 1; n <= count; n++) {
        int64_t raw = least(n, assumed_positive(r, n));
        most = raw > most ? raw : most;
    }
    return most;
}

static int64_t printed_for(int64_t count, mf_built built)
{
    for (size_t i = 0; i < sizeof printed_rows / sizeof printed_rows[0]; i++)
        if (count >= printed_rows[i].from && count <= printed_rows[i].to)
            return printed_rows[i].units[built];
    return 0;
}

void mf_units_to_test(int64_t count, mf_built built, mf_units_plan *out)
{
    const regime *r = &regimes[built];
    *out = (mf_units_plan){.count = count, .built = built};
    out->by_percent = count >= r->from;
    if (out->by_percent) {
        out->formula = (r->per_mille * count + 999) / 1000;
    } else {
        out->assumed = assumed_positive(r, count);
        out->formula = running_maximum(r, count);
    }
    out->printed = printed_for(count, built);
    out->use = out->printed > out->formula ? out->printed : out->formula;
    if (count < r->multi_from)
        out->use = count;
    out->all = out->use >= count;
}

uint64_t mf_random_next(uint64_t *state)
{
    uint64_t z = *state += 0x9E3779B97F4A7C15U;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31);
}

uint64_t mf_random_below(uint64_t *state, uint64_t bound)
{
    uint64_t unfair = (UINT64_MAX % bound + 1) % bound;
    uint64_t number;
    do {
        number = mf_random_next(state);
    } while (number > UINT64_MAX - unfair);
    return number % bound;
}

static void swap(int64_t *a, int64_t *b)
{
    int64_t held = *a;
    *a = *b;
    *b = held;
}

/* Insertion is enough: a few hundred numbers at the most. */
static void sort(int64_t *numbers, int64_t n)
{
    for (int64_t i = 1; i < n; i++)
        for (int64_t at = i; at > 0 && numbers[at - 1] > numbers[at]; at--)
            swap(&numbers[at - 1], &numbers[at]);
}

void mf_draw_units(uint64_t seed, int64_t count, int64_t n, int64_t *out)
{
    for (int64_t i = 0; i < count; i++)
        out[i] = i + 1;
    for (int64_t i = 0; i < n && i < count; i++) {
        uint64_t left = (uint64_t)(count - i);
        swap(&out[i], &out[i + (int64_t)mf_random_below(&seed, left)]);
    }
    sort(out, n < count ? n : count);
}
