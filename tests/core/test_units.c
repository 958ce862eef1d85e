/* Number of units to test. Labels are those of section 10, T7 and T6 of the
 * project's testing digest: P = printed (EP 1110-1-31 table B-1, continued), K =
 * from memory and equal to the formula; the rows it holds in doubt (158 to 197) are
 * left out. The independent reference is GSL's hypergeometric distribution. */
#include "core/given.h"

#include <gsl/gsl_randist.h>
#include <mistfold/units.h>

static int64_t use(int64_t count, mf_built built)
{
    mf_units_plan plan;
    mf_units_to_test(count, built, &plan);
    return plan.use;
}

static int64_t formula(int64_t count, mf_built built)
{
    mf_units_plan plan;
    mf_units_to_test(count, built, &plan);
    return plan.formula;
}

typedef struct row {
    int64_t from, to, before, after; /* 0 = all */
} row;

/* P: the rows seen in print. */
static const row printed[] = {
    {219, 258, 52, 27},     {259, 279, 53, 27},    {280, 299, 53, 28},    {300, 379, 54, 28},
    {380, 499, 55, 28},     {777, 939, 57, 28},    {940, 1000, 57, 29},   {1500, 1500, 87, 44},
    {2000, 2000, 116, 58},  {2500, 2500, 145, 73}, {3000, 3000, 174, 87}, {3500, 3500, 203, 102},
    {4000, 4000, 232, 116},
};

/* K: recalled rows, equal to the formula. */
static const row recalled[] = {
    {1, 9, 0, 0},       {10, 13, 0, 10},    {14, 14, 0, 11},    {15, 15, 0, 12},
    {16, 17, 0, 13},    {18, 18, 0, 14},    {19, 19, 0, 15},    {20, 20, 0, 16},
    {21, 26, 20, 16},   {27, 27, 21, 17},   {28, 28, 22, 18},   {29, 29, 23, 18},
    {30, 30, 23, 19},   {31, 31, 24, 19},   {32, 32, 25, 19},   {33, 34, 26, 19},
    {35, 35, 27, 19},   {36, 36, 28, 19},   {37, 37, 29, 19},   {38, 39, 30, 20},
    {40, 48, 31, 21},   {49, 50, 31, 22},   {51, 51, 32, 22},   {52, 53, 33, 22},
    {54, 54, 34, 22},   {55, 56, 35, 22},   {57, 58, 36, 22},   {59, 59, 37, 23},
    {60, 69, 38, 23},   {70, 73, 38, 24},   {74, 75, 39, 24},   {76, 77, 40, 24},
    {78, 79, 41, 24},   {80, 88, 42, 24},   {89, 95, 42, 25},   {96, 97, 43, 25},
    {98, 99, 44, 25},   {100, 109, 45, 25}, {110, 117, 45, 26}, {118, 119, 46, 26},
    {120, 138, 47, 26}, {139, 157, 48, 26}, {198, 218, 51, 27},
};

static void check_rows(const row *rows, size_t n)
{
    for (size_t i = 0; i < n; i++)
        for (int64_t count = rows[i].from; count <= rows[i].to; count++) {
            int64_t before = rows[i].before == 0 ? count : rows[i].before;
            int64_t after = rows[i].after == 0 ? count : rows[i].after;
            if (use(count, MF_BUILT_BEFORE_1960) != before)
                fail_msg("%lld before 1960", (long long)count);
            if (use(count, MF_BUILT_1960_1977) != after)
                fail_msg("%lld of 1960-1977", (long long)count);
        }
}

static void printed_rows(void **state)
{
    (void)state;
    check_rows(printed, COUNT(printed));
}

static void recalled_rows(void **state)
{
    (void)state;
    check_rows(recalled, COUNT(recalled));
}

/* P: each row of the table speaks from its first number of units to its last. */
static void edges_of_the_table(void **state)
{
    (void)state;
    static const row rows[] = {
        {1, 218, 0, 0},
        {219, 258, 52, 27},
        {259, 279, 53, 27},
        {280, 299, 53, 28},
        {300, 379, 54, 28},
        {380, 499, 55, 28},
        {500, 776, 56, 28},
        {777, 939, 57, 28},
        {940, 1004, 57, 29},
        {1005, 1022, 58, 29},
        {1023, 1032, 59, 29},
        {1033, 1039, 59, 30},
        {1040, 1499, 0, 0},
        {1500, 1500, 87, 44},
        {1501, 1999, 0, 0},
        {2000, 2000, 116, 58},
        {2001, 2499, 0, 0},
        {2500, 2500, 145, 73},
        {2501, 2999, 0, 0},
        {3000, 3000, 174, 87},
        {3001, 3499, 0, 0},
        {3500, 3500, 203, 102},
        {3501, 3999, 0, 0},
        {4000, 4000, 232, 116},
        {4001, MF_UNITS_MAX, 0, 0},
    };
    for (size_t i = 0; i < COUNT(rows); i++)
        for (int edge = 0; edge < 2; edge++) {
            int64_t count = edge == 0 ? rows[i].from : rows[i].to;
            mf_units_plan before, after;
            mf_units_to_test(count, MF_BUILT_BEFORE_1960, &before);
            mf_units_to_test(count, MF_BUILT_1960_1977, &after);
            if (before.printed != rows[i].before || after.printed != rows[i].after)
                fail_msg("%lld units: %lld, %lld", (long long)count, (long long)before.printed,
                         (long long)after.printed);
        }
}

/* MF1: every unit of fewer than 21 is tested, or of fewer than 10 where all are of 1960
 * to 1977; of 1040 or more by MF3 never all. */
static void all_of_them(void **state)
{
    (void)state;
    static const struct {
        int64_t count;
        mf_built built;
        bool all;
    } rows[] = {{1, MF_BUILT_BEFORE_1960, true},   {20, MF_BUILT_BEFORE_1960, true},
                {21, MF_BUILT_BEFORE_1960, false}, {1040, MF_BUILT_BEFORE_1960, false},
                {9, MF_BUILT_1960_1977, true},     {10, MF_BUILT_1960_1977, true}, /* 10 of 10 */
                {11, MF_BUILT_1960_1977, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_units_plan plan;
        mf_units_to_test(rows[i].count, rows[i].built, &plan);
        if (plan.all != rows[i].all)
            fail_msg("%lld units", (long long)rows[i].count);
    }
}

/* P: the example printed with the table: built 1962, 200 similar units, 20 similar
 * common areas, 9 similar exterior sites: 27, 16 and all 9. */
static void example_of_1962(void **state)
{
    (void)state;
    mf_built built;
    assert_true(mf_built_of(1962, &built));
    assert_int_equal(use(200, built), 27);
    assert_int_equal(use(20, built), 16);
    assert_int_equal(use(9, built), 9);
}

/* Table and formula apart: the larger is used, both are told (section 7). */
static void where_they_differ(void **state)
{
    (void)state;
    mf_units_plan plan;
    mf_units_to_test(699, MF_BUILT_BEFORE_1960, &plan);
    assert_true(plan.printed == 56 && plan.formula == 56 && plan.use == 56);
    mf_units_to_test(700, MF_BUILT_BEFORE_1960, &plan);
    assert_true(plan.printed == 56 && plan.formula == 57 && plan.use == 57);
    mf_units_to_test(1001, MF_BUILT_1960_1977, &plan);
    assert_true(plan.printed == 29 && plan.formula == 30 && plan.use == 30 && plan.by_percent);
    mf_units_to_test(1034, MF_BUILT_1960_1977, &plan);
    assert_true(plan.printed == 30 && plan.formula == 30 && plan.use == 30);
    mf_units_to_test(1035, MF_BUILT_1960_1977, &plan);
    assert_true(plan.printed == 30 && plan.formula == 31 && plan.use == 31);
    mf_units_to_test(1040, MF_BUILT_BEFORE_1960, &plan); /* 5.8 %, not 60 */
    assert_true(plan.use == 61 && plan.by_percent);
    mf_units_to_test(170, MF_BUILT_1960_1977, &plan); /* not seen in print */
    assert_true(plan.printed == 0 && plan.use == 27);
    assert_int_equal(formula(16, MF_BUILT_1960_1977), 13); /* 12 is exactly 1/20 */
}

/* The least n of GSL, by its own arithmetic; 1e-9 as the tie. */
static int64_t gsl_least(int64_t count, int64_t positive)
{
    for (int64_t n = 1; n <= count; n++) {
        double none = gsl_ran_hypergeometric_pdf(0, (unsigned)positive,
                                                 (unsigned)(count - positive), (unsigned)n);
        if (none < 0.05 - 1e-9)
            return n;
    }
    return count;
}

static void check_against_gsl(mf_built built, int64_t until, int64_t part, int64_t cap)
{
    int64_t most = 0;
    for (int64_t count = 1; count < until; count++) {
        int64_t positive = (count + part - 1) / part;
        int64_t raw = gsl_least(count, positive < cap ? positive : cap);
        most = raw > most ? raw : most;
        if (count % 7 == 0 || count > until - 60 || count < 220)
            if (formula(count, built) != most)
                fail_msg("%lld units: GSL says %lld", (long long)count, (long long)most);
    }
}

static void against_gsl(void **state)
{
    (void)state;
    check_against_gsl(MF_BUILT_BEFORE_1960, 1040, 20, 50);
    check_against_gsl(MF_BUILT_1960_1977, 1000, 10, 100);
}

static void never_fewer_for_more(void **state)
{
    (void)state;
    for (int built = 0; built < 2; built++)
        for (int64_t count = 2; count <= 1100; count += 13)
            assert_true(use(count, (mf_built)built) >= use(count - 1, (mf_built)built));
}

static void columns_by_year(void **state)
{
    (void)state;
    mf_built built;
    assert_true(mf_built_of(MF_NUM_NONE, &built) && built == MF_BUILT_BEFORE_1960);
    assert_true(mf_built_of(1959, &built) && built == MF_BUILT_BEFORE_1960);
    assert_true(mf_built_of(1960, &built) && built == MF_BUILT_1960_1977);
    assert_true(mf_built_of(1977, &built) && built == MF_BUILT_1960_1977);
    assert_false(mf_built_of(1978, &built));
}

/* SplitMix64 from seed 1234567: the first five numbers as published with the
 * xoshiro generators and on Rosetta Code. */
static void the_generator(void **state)
{
    (void)state;
    static const uint64_t first[] = {6457827717110365317U, 3203168211198807973U,
                                     9817491932198370423U, 4593380528125082431U,
                                     16408922859458223821U};
    uint64_t seed = 1234567;
    for (size_t i = 0; i < COUNT(first); i++)
        assert_true(mf_random_next(&seed) == first[i]);
}

static void draws(void **state)
{
    (void)state;
    int64_t a[200], b[200];
    int seen[201] = {0};
    mf_draw_units(7, 200, 27, a);
    mf_draw_units(7, 200, 27, b);
    assert_memory_equal(a, b, 27 * sizeof a[0]); /* the seed says it all */
    for (int i = 0; i < 27; i++) {
        assert_true(a[i] >= 1 && a[i] <= 200);
        assert_int_equal(seen[a[i]]++, 0);
        assert_true(i == 0 || a[i] > a[i - 1]);
    }
    mf_draw_units(8, 200, 27, b);
    assert_memory_not_equal(a, b, 27 * sizeof a[0]);
    mf_draw_units(8, 5, 9, b); /* more than there are: all */
    for (int i = 0; i < 5; i++)
        assert_int_equal(b[i], i + 1);
}

/* Of 2^64 numbers three take one too many: the last is thrown away, the one before it is
 * kept. The seeds were found by walking the generator back. Constructed. */
static void what_is_thrown_away(void **state)
{
    (void)state;
    uint64_t seed = 0x4F10D6FFA9921217U;
    assert_true(mf_random_next(&seed) == UINT64_MAX - 1);
    seed = 0x4F10D6FFA9921217U;
    assert_true(mf_random_below(&seed, 3) == 2);
    seed = 0x31628AF67B2131ABU;
    assert_true(mf_random_next(&seed) == UINT64_MAX);
    uint64_t second = seed;
    seed = 0x31628AF67B2131ABU;
    assert_true(mf_random_below(&seed, 3) == mf_random_next(&second) % 3);
    assert_true(seed == second); /* two numbers were taken */
}

/* Constructed: 3,000 draws of 3 out of 10 take each unit about 900 times; 120 is
 * some five standard deviations. */
static void draws_are_even(void **state)
{
    (void)state;
    int64_t out[10];
    int taken[11] = {0};
    for (uint64_t seed = 1; seed <= 3000; seed++) {
        mf_draw_units(seed, 10, 3, out);
        for (int i = 0; i < 3; i++)
            taken[out[i]]++;
    }
    for (int unit = 1; unit <= 10; unit++)
        assert_true(taken[unit] > 780 && taken[unit] < 1020);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(printed_rows),
        cmocka_unit_test(recalled_rows),
        cmocka_unit_test(example_of_1962),
        cmocka_unit_test(where_they_differ),
        cmocka_unit_test(against_gsl),
        cmocka_unit_test(never_fewer_for_more),
        cmocka_unit_test(columns_by_year),
        cmocka_unit_test(the_generator),
        cmocka_unit_test(draws),
        cmocka_unit_test(draws_are_even),
        cmocka_unit_test(edges_of_the_table),
        cmocka_unit_test(all_of_them),
        cmocka_unit_test(what_is_thrown_away),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
