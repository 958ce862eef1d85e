/* Clearance samples. Levels: 66 FR 1206, 86 FR 983 (from 2021-03-08), 89 FR 89416
 * (complied with from 2026-01-12); strictly below passes (40 CFR 745.227(e)(8));
 * sampler and laboratory: 745.85(c)(2), 745.90(c)(1). Samples constructed. */
#include "core/given.h"

#include <mistfold/dust.h>

static mf_certificate held(const char *holder, mf_discipline discipline, const char *issued)
{
    return (mf_certificate){.holder = holder,
                            .discipline = discipline,
                            .issued = day(issued),
                            .expires = day("2030-01-01"),
                            .hands_on = MF_YES};
}

/* Each counts for five years, whatever is printed: who samples in all those years was certified
 * anew (745.226(e), 745.90(a)(4)). */
#define FIRST "2020-01-01"
#define ANEW  "2025-01-01"

static mf_dust_verdict judge(const char *sampler, mf_tri nllap, mf_dust_surface surface,
                             const char *on, mf_qualifier qualifier, int64_t ng)
{
    mf_certificate certificates[] = {held("ines", MF_DISC_INSPECTOR, FIRST),
                                     held("ines", MF_DISC_INSPECTOR, ANEW),
                                     held("omar", MF_DISC_RISK_ASSESSOR, ANEW),
                                     held("tomi", MF_DISC_DUST_TECHNICIAN, "2018-01-01"),
                                     held("rosa", MF_DISC_RENOVATOR, "2018-01-01")};
    const mf_job job = {.certificate = certificates, .n_certificate = COUNT(certificates)};
    const mf_dust_sample sample = {.sampler = sampler,
                                   .nllap = nllap,
                                   .surface = surface,
                                   .loading_ng_ft2 = ng,
                                   .qualifier = qualifier,
                                   .on = day(on)};
    const mf_limit *level = NULL;
    mf_dust_verdict verdict = mf_dust_judge(&job, &sample, &level);
    assert_non_null(level);
    assert_int_equal(level->id, surface == MF_DUST_FLOOR  ? MF_LIMIT_DUST_FLOOR
                                : surface == MF_DUST_SILL ? MF_LIMIT_DUST_SILL
                                                          : MF_LIMIT_DUST_TROUGH);
    assert_int_equal(mf_dust_judge(&job, &sample, NULL), verdict);
    return verdict;
}

/* Section 11 of the rule digest, rows "dust ...". */
static void levels_by_day(void **state)
{
    (void)state;
    static const struct {
        const char *on;
        mf_dust_surface surface;
        int64_t passes, fails; /* ng/ft2 */
    } rows[] = {
        {"2021-03-07", MF_DUST_FLOOR, 39900, 40000},
        {"2021-03-07", MF_DUST_SILL, 249000, 250000},
        {"2021-03-07", MF_DUST_TROUGH, 399000, 400000},
        {"2021-03-08", MF_DUST_FLOOR, 9900, 10000},
        {"2021-03-08", MF_DUST_SILL, 99000, 100000},
        {"2021-03-08", MF_DUST_TROUGH, 399000, 400000},
        {"2025-01-13", MF_DUST_FLOOR, 9900, 10000},
        {"2026-01-11", MF_DUST_FLOOR, 9900, 10000},
        {"2026-01-11", MF_DUST_SILL, 99000, 100000},
        {"2026-01-11", MF_DUST_TROUGH, 399000, 400000},
        {"2026-01-12", MF_DUST_FLOOR, 4900, 5000},
        {"2026-01-12", MF_DUST_SILL, 39900, 40000},
        {"2026-01-12", MF_DUST_TROUGH, 99900, 100000},
        {"2022-09-01", MF_DUST_FLOOR, 0, 10001},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        CHECK_ROW(judge("ines", MF_YES, rows[i].surface, rows[i].on, MF_QUAL_EXACT,
                        rows[i].passes) == MF_DUST_PASS,
                  rows[i].on);
        CHECK_ROW(judge("ines", MF_YES, rows[i].surface, rows[i].on, MF_QUAL_EXACT,
                        rows[i].fails) == MF_DUST_FAIL,
                  rows[i].on);
    }
}

/* Digest: "<5" reported = pass at 5, "<6" = cannot pass. */
static void qualified(void **state)
{
    (void)state;
    static const struct {
        mf_qualifier qualifier;
        int64_t ng;
        mf_dust_verdict verdict;
    } rows[] = {
        {MF_QUAL_UNDER, 4900, MF_DUST_PASS},
        {MF_QUAL_UNDER, 5000, MF_DUST_PASS},
        {MF_QUAL_UNDER, 5001, MF_DUST_NOT_SHOWN},
        {MF_QUAL_UNDER, 6000, MF_DUST_NOT_SHOWN},
        {MF_QUAL_OVER, 400000, MF_DUST_FAIL},
        {MF_QUAL_OVER, 5000, MF_DUST_FAIL},
        {MF_QUAL_OVER, 3000, MF_DUST_NOT_SHOWN},
        {MF_QUAL_EXACT, MF_NUM_NONE, MF_DUST_NOT_SHOWN},
        {MF_QUAL_UNDER, MF_NUM_NONE, MF_DUST_NOT_SHOWN},
        {MF_QUAL_EXACT, -1, MF_DUST_NOT_SHOWN},
    };
    for (size_t i = 0; i < COUNT(rows); i++)
        assert_int_equal(
            judge("ines", MF_YES, MF_DUST_FLOOR, "2026-03-01", rows[i].qualifier, rows[i].ng),
            rows[i].verdict);
}

static void hands_and_laboratory(void **state)
{
    (void)state;
    static const struct {
        const char *sampler, *on;
        mf_tri nllap;
        int64_t ng;
        mf_dust_verdict verdict;
    } rows[] = {
        {"ines", "2026-03-01", MF_YES, 4000, MF_DUST_PASS},
        {"omar", "2026-03-01", MF_YES, 4000, MF_DUST_PASS},
        {"tomi", "2022-03-01", MF_YES, 4000, MF_DUST_PASS},
        {"rosa", "2022-03-01", MF_YES, 4000, MF_DUST_WRONG_SAMPLER},
        {"nobody", "2022-03-01", MF_YES, 4000, MF_DUST_WRONG_SAMPLER},
        {"", "2022-03-01", MF_YES, 4000, MF_DUST_WRONG_SAMPLER},
        {"ines", "2030-01-02", MF_YES, 4000, MF_DUST_WRONG_SAMPLER}, /* expired the day before */
        {"ines", "2026-03-01", MF_NOT, 4000, MF_DUST_WRONG_LAB},
        {"ines", "2026-03-01", MF_UNKNOWN, 4000, MF_DUST_WRONG_LAB},
        /* a failing result fails whoever took it */
        {"rosa", "2022-03-01", MF_NOT, 10000, MF_DUST_FAIL},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        /* the technician's course of 2018 ran to 2023: judged here in 2022 */
        mf_dust_verdict verdict = judge(rows[i].sampler, rows[i].nllap, MF_DUST_FLOOR, rows[i].on,
                                        MF_QUAL_EXACT, rows[i].ng);
        CHECK_ROW(verdict == rows[i].verdict, rows[i].sampler);
    }
}

/* ---- mass and area: EPA course attachments 3-B and 3-C for the areas; the masses and
 * verdicts by hand from ug x 144 against level x square inches --------------------- */

typedef struct wipe_case {
    mf_dust_surface surface;
    int64_t mass_ng, length, width, wipes; /* sides in 1/1600 inch */
    mf_dust_verdict want;
    int64_t loading; /* ng/sq ft, rounded down */
} wipe_case;

static void wiped_areas(void **state)
{
    (void)state;
    enum { SHORT = 18600, WIDE = 19400 };               /* 11 5/8, 12 1/8 */
    enum { LONG = 38300, NARROW = 4600, FOOT = 19200 }; /* 23 15/16, 2 7/8, 12 */
    static const wipe_case cases[] = {
        {MF_DUST_FLOOR, 5000, FOOT, FOOT, 1, MF_DUST_FAIL, 5000}, /* at the level */
        {MF_DUST_FLOOR, 4900, FOOT, FOOT, 1, MF_DUST_PASS, 4900},
        {MF_DUST_FLOOR, 0, FOOT, FOOT, 1, MF_DUST_PASS, 0},
        {MF_DUST_FLOOR, 4880, SHORT, WIDE, 1, MF_DUST_PASS, 4985}, /* 4.9855 */
        {MF_DUST_FLOOR, 4900, SHORT, WIDE, 1, MF_DUST_FAIL, 5005}, /* 5.0059 */
        {MF_DUST_SILL, 20000, LONG, NARROW, 1, MF_DUST_FAIL, 41848},
        {MF_DUST_SILL, 19110, LONG, NARROW, 1, MF_DUST_PASS, 39985}, /* 39.986 */
        {MF_DUST_SILL, 19120, LONG, NARROW, 1, MF_DUST_FAIL, 40006}, /* 40.007 */
        {MF_DUST_SILL, 21750, 38600, 5200, 1, MF_DUST_PASS, 39945},  /* 24 1/8 x 3 1/4 */
        {MF_DUST_TROUGH, 11100, 6400, 6400, 1, MF_DUST_PASS, 99900}, /* 4 x 4 */
        {MF_DUST_FLOOR, 9600, FOOT, FOOT, 4, MF_DUST_PASS, 2400},    /* 5 / (4 / 2) = 2.5 */
        {MF_DUST_FLOOR, 10000, FOOT, FOOT, 4, MF_DUST_FAIL, 2500},
        {MF_DUST_FLOOR, 1000, FOOT, FOOT, 5, MF_DUST_NOT_SHOWN, 200}, /* at most four */
    };
    mf_certificate ines = held("ines", MF_DISC_INSPECTOR, ANEW);
    const mf_job job = {.certificate = &ines, .n_certificate = 1};
    for (size_t i = 0; i < COUNT(cases); i++) {
        const wipe_case *it = &cases[i];
        const mf_dust_sample sample = {.sampler = "ines",
                                       .nllap = MF_YES,
                                       .surface = it->surface,
                                       .loading_ng_ft2 = MF_NUM_NONE,
                                       .on = day("2026-09-16"),
                                       .mass_ng = it->mass_ng,
                                       .length_in_1600 = it->length,
                                       .width_in_1600 = it->width,
                                       .wipes = it->wipes};
        if (mf_dust_judge(&job, &sample, NULL) != it->want ||
            mf_dust_loading(&sample) != it->loading)
            fail_msg("case %zu: verdict %d, loading %lld", i,
                     (int)mf_dust_judge(&job, &sample, NULL), (long long)mf_dust_loading(&sample));
    }
}

/* A result beside mass and area: the higher is told; by hand, one square foot each. */
static void two_numbers(void **state)
{
    (void)state;
    enum { FOOT = 19200 };
    static const struct {
        int64_t result_ng, mass_ng;
        mf_qualifier qualifier;
        int64_t loading;
        bool two;
    } rows[] = {
        {3000, 9000, MF_QUAL_EXACT, 9000, true},
        {9000, 3000, MF_QUAL_EXACT, 9000, true},
        {3100, 3060, MF_QUAL_EXACT, 3100, false},
        {9000, 9100, MF_QUAL_EXACT, 9100, false},
        {3000, 2000, MF_QUAL_UNDER, 3000, true},
        {3000, MF_NUM_NONE, MF_QUAL_UNDER, 3000, false},
        {MF_NUM_NONE, 9000, MF_QUAL_EXACT, 9000, false},
    };
    mf_certificate ines = held("ines", MF_DISC_INSPECTOR, ANEW);
    const mf_job job = {.certificate = &ines, .n_certificate = 1};
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_dust_sample sample = {.sampler = "ines",
                                       .nllap = MF_YES,
                                       .surface = MF_DUST_FLOOR,
                                       .loading_ng_ft2 = rows[i].result_ng,
                                       .qualifier = rows[i].qualifier,
                                       .on = day("2026-09-16"),
                                       .mass_ng = rows[i].mass_ng,
                                       .length_in_1600 = FOOT,
                                       .width_in_1600 = FOOT,
                                       .wipes = MF_NUM_NONE};
        assert_int_equal(mf_dust_loading(&sample), rows[i].loading);
        assert_int_equal(mf_dust_two_numbers(&job, &sample), rows[i].two);
    }
}

/* Of a floor, by ines, on the base of which the tests below say the rest. */
static mf_dust_sample floor_sample(void)
{
    return (mf_dust_sample){.sampler = "ines",
                            .nllap = MF_YES,
                            .surface = MF_DUST_FLOOR,
                            .loading_ng_ft2 = MF_NUM_NONE,
                            .on = day("2026-09-16"),
                            .mass_ng = MF_NUM_NONE,
                            .wipes = MF_NUM_NONE};
}

/* What is reported and what was measured must both pass; one "<" cannot speak for two. */
static void both_given(void **state)
{
    (void)state;
    mf_certificate ines = held("ines", MF_DISC_INSPECTOR, ANEW);
    const mf_job job = {.certificate = &ines, .n_certificate = 1};
    mf_dust_sample sample = floor_sample();
    sample.loading_ng_ft2 = sample.mass_ng = 4000;
    sample.length_in_1600 = sample.width_in_1600 = 19200;
    assert_int_equal(mf_dust_judge(&job, &sample, NULL), MF_DUST_PASS);
    sample.mass_ng = 5000;
    assert_int_equal(mf_dust_judge(&job, &sample, NULL), MF_DUST_FAIL);
    sample.mass_ng = 4000;
    sample.qualifier = MF_QUAL_UNDER;
    assert_int_equal(mf_dust_judge(&job, &sample, NULL), MF_DUST_NOT_SHOWN);
}

/* Nobody can have logged as much; where it can be counted it fails, else it shows nothing. */
static void too_much_to_count(void **state)
{
    (void)state;
    mf_certificate ines = held("ines", MF_DISC_INSPECTOR, ANEW);
    const mf_job job = {.certificate = &ines, .n_certificate = 1};
    mf_dust_sample sample = floor_sample();
    sample.loading_ng_ft2 = INT64_MAX / 2;
    sample.wipes = 2;
    assert_int_equal(mf_dust_judge(&job, &sample, NULL), MF_DUST_FAIL);
    sample.loading_ng_ft2++;
    assert_int_equal(mf_dust_judge(&job, &sample, NULL), MF_DUST_NOT_SHOWN);
}

/* A mass without an area shows no loading (745.227(e)(8): micrograms per square foot). */
static void no_area(void **state)
{
    static const int64_t sides[][2] = {
        {0, 19200}, {19200, 0}, {-1, 19200}, {MF_NUM_NONE, 19200}, {19200, MF_NUM_NONE}};
    (void)state;
    mf_certificate ines = held("ines", MF_DISC_INSPECTOR, ANEW);
    const mf_job job = {.certificate = &ines, .n_certificate = 1};
    for (size_t i = 0; i < COUNT(sides); i++) {
        mf_dust_sample sample = floor_sample();
        sample.mass_ng = 10;
        sample.length_in_1600 = sides[i][0];
        sample.width_in_1600 = sides[i][1];
        assert_true(mf_dust_loading(&sample) == MF_NUM_NONE);
        assert_int_equal(mf_dust_judge(&job, &sample, NULL), MF_DUST_NOT_SHOWN);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(levels_by_day),
        cmocka_unit_test(qualified),
        cmocka_unit_test(hands_and_laboratory),
        cmocka_unit_test(wiped_areas),
        cmocka_unit_test(two_numbers),
        cmocka_unit_test(both_given),
        cmocka_unit_test(no_area),
        cmocka_unit_test(too_much_to_count),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
