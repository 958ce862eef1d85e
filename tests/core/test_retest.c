/* The retest check. Expected steps are those of T6 of the testing digest: K,
 * constructed there from RT3 to RT5, constants from memory. */
#include "core/given.h"

#include <math.h>
#include <mistfold/retest.h>

enum { MOST = 64 };

typedef struct bench {
    mf_instrument gun;
    mf_reading reading[MOST];
    mf_job job;
} bench;

static mf_reading *put(bench *b, mf_purpose purpose, const char *component, int64_t ug)
{
    size_t n = b->job.n_reading++;
    b->reading[n] = (mf_reading){.number = (int64_t)n + 1,
                                 .purpose = purpose,
                                 .component = component,
                                 .instrument = "X-1",
                                 .loading_ug_cm2 = ug,
                                 .on = day("2026-08-12"),
                                 .at_minute = 600};
    return &b->reading[n];
}

static void begin(bench *b)
{
    *b = (bench){.gun = {.serial = "X-1"}};
    b->job = (mf_job){.instrument = &b->gun, .n_instrument = 1, .reading = b->reading};
}

static const char *const names[] = {"C0", "C1", "C2", "C3", "C4", "C5", "C6", "C7", "C8", "C9"};

static void ten(bench *b, const int64_t first[10], const int64_t again[10])
{
    for (int i = 0; i < 10; i++)
        put(b, MF_READ_PAINT, names[i], first[i]);
    for (int i = 0; i < 10; i++)
        put(b, MF_READ_RETEST, names[i], again[i]);
}

typedef struct case_of_t6 {
    const char *name;
    int64_t first[10], again[10];
    double c, d, e, f, limit, difference;
    mf_retest_verdict verdict;
} case_of_t6;

static const case_of_t6 cases[] = {
    {"zeros", {0}, {0}, 0, 0, 0.032, 0.178885, 0.294267, 0, MF_RETEST_PASS},
    {"ones",
     {1000, 1000, 1000, 1000, 1000, 1000, 1000, 1000, 1000, 1000},
     {1000, 1000, 1000, 1000, 1000, 1000, 1000, 1000, 1000, 1000},
     10,
     0.072,
     0.104,
     0.322490,
     0.530497,
     0,
     MF_RETEST_PASS},
    {"0 and 0.3",
     {0},
     {300, 300, 300, 300, 300, 300, 300, 300, 300, 300},
     0.225,
     0.00162,
     0.03362,
     0.183358,
     0.301623,
     0.3,
     MF_RETEST_PASS},
    {"0 and 0.4",
     {0},
     {400, 400, 400, 400, 400, 400, 400, 400, 400, 400},
     0.4,
     0.00288,
     0.03488,
     0.186762,
     0.307223,
     0.4,
     MF_RETEST_REPEAT},
    {"fifth row",
     {0, 100, 200, 1100, 2500, 300, 4200, 900, 0, 6000},
     {100, 0, 300, 1400, 2200, 200, 4800, 1200, -100, 5500},
     61.6325,
     0.443754,
     0.475754,
     0.689749,
     1.134637,
     0.03,
     MF_RETEST_PASS},
    {"sixth row",
     {1000, 1200, 800, 400, 200, 2000, 3100, 600, 100, 0},
     {1600, 1900, 1500, 1000, 900, 2800, 3900, 1200, 900, 700},
     25.4,
     0.18288,
     0.21488,
     0.463552,
     0.762542,
     0.70,
     MF_RETEST_PASS},
    {"last",
     {500, 1200, 100, 2400, 0, 900, 1600, 300, 3100, 700},
     {600, 1100, 100, 2200, 100, 1000, 1500, 300, 3300, 600},
     20.985,
     0.151092,
     0.183092,
     0.427893,
     0.703883,
     0,
     MF_RETEST_PASS},
};

/* The table is rounded to six places, the steps are cut after nine. */
static bool near(int64_t nano, double expected)
{
    return fabs((double)nano / 1e9 - expected) < 6e-7;
}

static void steps_of_t6(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        bench b;
        mf_retest got;
        begin(&b);
        ten(&b, cases[i].first, cases[i].again);
        assert_int_equal(mf_retests(&b.job, &got, 1), 1);
        CHECK_ROW(got.n == 10, cases[i].name);
        CHECK_ROW(near(got.c, cases[i].c) && near(got.d, cases[i].d), cases[i].name);
        CHECK_ROW(near(got.e, cases[i].e) && near(got.f, cases[i].f), cases[i].name);
        CHECK_ROW(near(got.limit, cases[i].limit), cases[i].name);
        CHECK_ROW(near(got.difference, cases[i].difference), cases[i].name);
        CHECK_ROW(got.verdict == cases[i].verdict, cases[i].name);
        assert_false(got.k.from_profile);
    }
}

/* RT5: a second failure makes the inspection deficient. */
static void twice(void **state)
{
    (void)state;
    bench b;
    mf_retest got[3];
    begin(&b);
    ten(&b, cases[3].first, cases[3].again);
    ten(&b, cases[3].first, cases[3].again);
    assert_int_equal(mf_retests(&b.job, got, 3), 2);
    assert_int_equal(got[0].verdict, MF_RETEST_REPEAT);
    assert_int_equal(got[1].verdict, MF_RETEST_DEFICIENT);
    assert_int_equal(got[1].round, 2);
    got[1].round = -1;
    assert_int_equal(mf_retests(&b.job, got, 1), 2); /* no more is written than there is room */
    assert_int_equal(got[1].round, -1);
}

static void not_whole(void **state)
{
    (void)state;
    bench b;
    mf_retest got;
    begin(&b);
    assert_int_equal(mf_retests(&b.job, &got, 1), 0);
    ten(&b, cases[0].first, cases[0].again);
    b.job.n_reading--;
    mf_retests(&b.job, &got, 1);
    assert_int_equal(got.verdict, MF_RETEST_INCOMPLETE);
    b.job.n_reading++;
    b.reading[3].qualifier = MF_QUAL_OVER; /* RT9 */
    mf_retests(&b.job, &got, 1);
    assert_int_equal(got.verdict, MF_RETEST_NOT_COMPUTABLE);
    b.reading[3].qualifier = MF_QUAL_EXACT;
    b.reading[3].component = "other"; /* read again without a first reading */
    mf_retests(&b.job, &got, 1);
    assert_int_equal(got.verdict, MF_RETEST_NOT_COMPUTABLE);
}

/* Readings of one minute that nobody numbered: as they were entered. Of two first
 * readings of a component the one just before the retest was read again. Constructed. */
static void as_entered(void **state)
{
    (void)state;
    bench b;
    mf_retest got;
    begin(&b);
    put(&b, MF_READ_PAINT, "C0", 400);
    put(&b, MF_READ_PAINT, "C0", 500);
    put(&b, MF_READ_PAINT, "C1", 600);
    put(&b, MF_READ_RETEST, "C0", 510);
    put(&b, MF_READ_RETEST, "C1", 610);
    put(&b, MF_READ_PAINT, "C1", 700);
    for (size_t i = 0; i < b.job.n_reading; i++)
        b.reading[i].number = 0;
    assert_int_equal(mf_retests(&b.job, &got, 1), 1);
    assert_int_equal(got.n, 2);
    assert_ptr_equal(got.first[0], &b.reading[1]);
    assert_ptr_equal(got.again[0], &b.reading[3]);
    assert_ptr_equal(got.first[1], &b.reading[2]);
    assert_ptr_equal(got.again[1], &b.reading[4]);
}

/* What no instrument shows, a thousand mg/cm2 and more, is not computed with. Constructed. */
static void no_number(void **state)
{
    (void)state;
    static const struct {
        int64_t ug;
        bool computed;
    } rows[] = {{1000000, true}, {1000001, false}, {-1000000, true}, {-1000001, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        bench b;
        mf_retest got;
        begin(&b);
        ten(&b, cases[0].first, cases[0].again);
        b.reading[13].loading_ug_cm2 = rows[i].ug;
        mf_retests(&b.job, &got, 1);
        assert_int_equal(got.verdict != MF_RETEST_NOT_COMPUTABLE, rows[i].computed);
    }
}

/* The profile's constants go before the recalled ones: a factor of 0 and a base of
 * 0.09 give a limit of z x 0.3. Constructed. d = 0.3 equals it at z = 1: fails. */
static void constants_of_the_profile(void **state)
{
    (void)state;
    bench b;
    mf_retest got;
    mf_profile_row row = {.instrument = "X-1",
                          .retest_factor_millionths = 0,
                          .retest_base_thousandths = 90,
                          .retest_z_thousandths = 1000};
    begin(&b);
    b.job.profile_row = &row;
    b.job.n_profile_row = 1;
    ten(&b, cases[2].first, cases[2].again);
    mf_retests(&b.job, &got, 1);
    assert_true(got.k.from_profile);
    assert_int_equal(got.verdict, MF_RETEST_REPEAT);
    assert_int_equal(got.f, 300000000); /* the root of 0.09 */
    assert_int_equal(got.limit, 300000000);
    row.retest_z_thousandths = 1001;
    mf_retests(&b.job, &got, 1);
    assert_int_equal(got.verdict, MF_RETEST_PASS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_of_t6), cmocka_unit_test(twice),
        cmocka_unit_test(not_whole),   cmocka_unit_test(as_entered),
        cmocka_unit_test(no_number),   cmocka_unit_test(constants_of_the_profile),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
