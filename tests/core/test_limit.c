/* Every limit just below, at and above, with values written by hand from the
 * regulation; the citation of each stands in the row. Values are those of 40 CFR
 * part 745 subpart E and its neighbours, as listed in section 11 of the project's
 * digest of the rule. */
#include "core/given.h"

#include <mistfold/limit.h>
#include <string.h>

typedef struct limit_case {
    mf_limit_id id;
    const char *name;
    mf_unit unit;
    int64_t values[3]; /* below, at, above */
    bool holds[3];
    const char *cites;
    mf_status_of_fact status;
} limit_case;

#define T true
#define F false

static const limit_case cases[] = {
    /* 1977 covered, 1978 not */
    {MF_LIMIT_YEAR_BUILT,
     "year-built",
     MF_UNIT_CALENDAR_YEAR,
     {1977, 1978, 1979},
     {T, F, F},
     "40 CFR 745.103",
     MF_VERIFIED},
    /* 0.99 free, 1.0 is lead (mg/cm2) */
    {MF_LIMIT_PAINT_LOADING,
     "paint-loading",
     MF_UNIT_UG_CM2,
     {999, 1000, 1001},
     {F, T, T},
     "40 CFR 745.82(a)",
     MF_VERIFIED},
    /* 4,999 ppm free, 0.5 % is lead */
    {MF_LIMIT_PAINT_WEIGHT,
     "paint-weight",
     MF_UNIT_PPM,
     {4999, 5000, 5001},
     {F, T, T},
     "40 CFR 745.82(a)",
     MF_VERIFIED},
    /* own number: 100 mg/cm2 is let pass, more is asked about */
    {MF_LIMIT_PLAUSIBLE_LOADING,
     "plausible-loading",
     MF_UNIT_UG_CM2,
     {99999, 100000, 100001},
     {F, F, T},
     "none",
     MF_DERIVED},
    /* 6.00 sq ft a room is minor, 6.01 is not */
    {MF_LIMIT_MINOR_INTERIOR,
     "minor-interior",
     MF_UNIT_SQFT_100,
     {599, 600, 601},
     {T, T, F},
     "40 CFR 745.83",
     MF_VERIFIED},
    /* 20.00 sq ft outside is minor, 20.01 is not */
    {MF_LIMIT_MINOR_EXTERIOR,
     "minor-exterior",
     MF_UNIT_SQFT_100,
     {1999, 2000, 2001},
     {T, T, F},
     "40 CFR 745.83",
     MF_VERIFIED},
    /* 30 days apart together, 31 apart not */
    {MF_LIMIT_MINOR_DAYS,
     "minor-days",
     MF_UNIT_DAYS,
     {29, 30, 31},
     {T, T, F},
     "40 CFR 745.83",
     MF_VERIFIED},
    /* 60 days before the start, 61 is too early */
    {MF_LIMIT_PAMPHLET_DAYS,
     "pamphlet-days",
     MF_UNIT_DAYS,
     {59, 60, 61},
     {T, T, F},
     "40 CFR 745.84",
     MF_VERIFIED},
    /* mailed 7 days before, 6 is too late */
    {MF_LIMIT_MAILING_DAYS,
     "mailing-days",
     MF_UNIT_DAYS,
     {6, 7, 8},
     {F, T, T},
     "40 CFR 745.84(a)(1)(ii)",
     MF_VERIFIED},
    /* 6.0 ft of floor sheeting, 5.9 falls short */
    {MF_LIMIT_FLOOR_SHEET,
     "floor-sheet",
     MF_UNIT_FT_100,
     {599, 600, 601},
     {F, T, T},
     "40 CFR 745.85(a)(2)(i)(D)",
     MF_VERIFIED},
    /* 10.0 ft of ground sheeting */
    {MF_LIMIT_GROUND_SHEET,
     "ground-sheet",
     MF_UNIT_FT_100,
     {999, 1000, 1001},
     {F, T, T},
     "40 CFR 745.85(a)(2)(ii)(C)",
     MF_VERIFIED},
    /* an opening at 20.0 ft must be closed */
    {MF_LIMIT_EXTERIOR_OPENINGS,
     "exterior-openings",
     MF_UNIT_FT_100,
     {1999, 2000, 2001},
     {T, T, F},
     "40 CFR 745.85(a)(2)(ii)(A)",
     MF_VERIFIED},
    /* a line at 10.0 ft needs vertical containment, at 10.1 it does not */
    {MF_LIMIT_PROPERTY_LINE,
     "property-line",
     MF_UNIT_FT_100,
     {999, 1000, 1001},
     {T, T, F},
     "40 CFR 745.85(a)(2)(ii)(D)",
     MF_VERIFIED},
    /* clean 2.0 ft around the area */
    {MF_LIMIT_CLEAN_MARGIN,
     "clean-margin",
     MF_UNIT_FT_100,
     {199, 200, 201},
     {F, T, T},
     "40 CFR 745.85(a)(5)(ii)",
     MF_VERIFIED},
    /* 1,099 F permitted, 1,100 not */
    {MF_LIMIT_HEAT_GUN,
     "heat-gun",
     MF_UNIT_DEG_F,
     {1099, 1100, 1101},
     {T, F, F},
     "40 CFR 745.85(a)(3)(iii)",
     MF_VERIFIED},
    /* 40.0 sq ft undivided passes */
    {MF_LIMIT_SECTION_UNDIVIDED,
     "section-undivided",
     MF_UNIT_SQFT_100,
     {3999, 4000, 4001},
     {T, T, F},
     "40 CFR 745.85(b)(1)(ii)(B)",
     MF_VERIFIED},
    /* a part of 40 does not */
    {MF_LIMIT_SECTION_PART,
     "section-part",
     MF_UNIT_SQFT_100,
     {3999, 4000, 4001},
     {T, F, F},
     "40 CFR 745.85(b)(1)(ii)(B)",
     MF_VERIFIED},
    /* 60 minutes is long enough, 59 is not */
    {MF_LIMIT_DRY_WAIT,
     "dry-wait",
     MF_UNIT_MINUTES,
     {59, 60, 61},
     {F, T, T},
     "40 CFR 745.85(b)",
     MF_VERIFIED},
    /* newest dust levels: 5, 40, 100 ug/ft2, at the level fails */
    {MF_LIMIT_DUST_FLOOR,
     "dust-floor",
     MF_UNIT_NG_FT2,
     {4999, 5000, 5001},
     {T, F, F},
     "40 CFR 745.227(e)(8)(viii)",
     MF_VERIFIED},
    {MF_LIMIT_DUST_SILL,
     "dust-sill",
     MF_UNIT_NG_FT2,
     {39999, 40000, 40001},
     {T, F, F},
     "40 CFR 745.227(e)(8)(viii)",
     MF_VERIFIED},
    {MF_LIMIT_DUST_TROUGH,
     "dust-trough",
     MF_UNIT_NG_FT2,
     {99999, 100000, 100001},
     {T, F, F},
     "40 CFR 745.227(e)(8)(viii)",
     MF_VERIFIED},
    /* sampled 60 minutes after cleaning ended; 59 is too soon */
    {MF_LIMIT_SAMPLE_WAIT,
     "sample-wait",
     MF_UNIT_MINUTES,
     {59, 60, 61},
     {F, T, T},
     "40 CFR 745.227(e)(8)(iv)",
     MF_VERIFIED},
    /* two to four subsamples */
    {MF_LIMIT_COMPOSITE_WIPES,
     "composite-wipes",
     MF_UNIT_COUNT,
     {3, 4, 5},
     {T, T, F},
     "40 CFR 745.63",
     MF_VERIFIED},
    /* completion 2026-03-01: 03-31 is 30 days later */
    {MF_LIMIT_HANDOVER_DAYS,
     "handover-days",
     MF_UNIT_DAYS,
     {29, 30, 31},
     {T, T, F},
     "40 CFR 745.86(c)(1)",
     MF_VERIFIED},
    {MF_LIMIT_RETENTION_YEARS,
     "retention-years",
     MF_UNIT_YEARS,
     {2, 3, 4},
     {F, T, T},
     "40 CFR 745.86(a)",
     MF_VERIFIED},
    {MF_LIMIT_FIRM_YEARS,
     "firm-years",
     MF_UNIT_YEARS,
     {4, 5, 6},
     {T, T, F},
     "40 CFR 745.89(a)",
     MF_VERIFIED},
    /* postmarked 90 days or more before */
    {MF_LIMIT_RENEWAL_DAYS,
     "renewal-days",
     MF_UNIT_DAYS,
     {89, 90, 91},
     {F, T, T},
     "40 CFR 745.89(b)(1)(i)",
     MF_VERIFIED},
    /* amended within 90 days of the change */
    {MF_LIMIT_AMEND_DAYS,
     "amend-days",
     MF_UNIT_DAYS,
     {89, 90, 91},
     {T, T, F},
     "40 CFR 745.89(c)",
     MF_VERIFIED},
    {MF_LIMIT_COURSE_YEARS,
     "course-years",
     MF_UNIT_YEARS,
     {4, 5, 6},
     {T, T, F},
     "40 CFR 745.90(a)(4)",
     MF_VERIFIED},
    {MF_LIMIT_COURSE_ONLINE_YEARS,
     "course-online-years",
     MF_UNIT_YEARS,
     {2, 3, 4},
     {T, T, F},
     "40 CFR 745.90(a)(4)",
     MF_VERIFIED},
    /* four hours */
    {MF_LIMIT_CALIBRATION_HOURS,
     "calibration-hours",
     MF_UNIT_MINUTES,
     {239, 240, 241},
     {T, T, F},
     "HUD Guidelines",
     MF_SECONDARY},
    /* 3.99 is corrected, 4.0 is not (SC6) */
    {MF_LIMIT_CORRECTION_BELOW,
     "correction-below",
     MF_UNIT_UG_CM2,
     {3999, 4000, 4001},
     {T, F, F},
     "HUD Guidelines",
     MF_MEMORY},
    /* 5 y 364 d counts, the sixth birthday does not */
    {MF_LIMIT_CHILD_AGE,
     "child-age",
     MF_UNIT_YEARS,
     {5, 6, 7},
     {T, F, F},
     "40 CFR 745.83",
     MF_VERIFIED},
    {MF_LIMIT_ZERO_BEDROOM_CHILD,
     "zero-bedroom-child",
     MF_UNIT_YEARS,
     {5, 6, 7},
     {T, F, F},
     "40 CFR 745.103",
     MF_VERIFIED},
    /* two different days */
    {MF_LIMIT_VISIT_DAYS,
     "visit-days",
     MF_UNIT_COUNT,
     {1, 2, 3},
     {F, T, T},
     "40 CFR 745.83",
     MF_VERIFIED},
    /* 3 h counts, 2 h 59 does not */
    {MF_LIMIT_VISIT_MINUTES,
     "visit-minutes",
     MF_UNIT_MINUTES,
     {179, 180, 181},
     {F, T, T},
     "40 CFR 745.83",
     MF_VERIFIED},
    /* 6 h a week */
    {MF_LIMIT_VISIT_WEEK,
     "visit-week",
     MF_UNIT_MINUTES,
     {359, 360, 361},
     {F, T, T},
     "40 CFR 745.83",
     MF_VERIFIED},
    /* 60 h a year; 59 h 59 is not */
    {MF_LIMIT_VISIT_YEAR,
     "visit-year",
     MF_UNIT_MINUTES,
     {3599, 3600, 3601},
     {F, T, T},
     "40 CFR 745.83",
     MF_VERIFIED},
    /* 2.00 sq ft a room is de minimis, 2.01 is not */
    {MF_LIMIT_ASSISTED_INTERIOR,
     "assisted-interior",
     MF_UNIT_SQFT_100,
     {199, 200, 201},
     {T, T, F},
     "24 CFR 35.1350(d)",
     MF_VERIFIED},
    {MF_LIMIT_ASSISTED_EXTERIOR,
     "assisted-exterior",
     MF_UNIT_SQFT_100,
     {1999, 2000, 2001},
     {T, T, F},
     "24 CFR 35.1350(d)",
     MF_VERIFIED},
    /* 10.0 % is de minimis, 10.1 % is not */
    {MF_LIMIT_ASSISTED_PART,
     "assisted-part",
     MF_UNIT_PERCENT_100,
     {999, 1000, 1010},
     {T, T, F},
     "24 CFR 35.1350(d)",
     MF_VERIFIED},
    /* HUD forbids only above 1,100 F */
    {MF_LIMIT_ASSISTED_HEAT_GUN,
     "assisted-heat-gun",
     MF_UNIT_DEG_F,
     {1099, 1100, 1101},
     {T, T, F},
     "24 CFR 35.140(d)",
     MF_VERIFIED},
    {MF_LIMIT_DRY_SPOT_INTERIOR,
     "dry-spot-interior",
     MF_UNIT_SQFT_100,
     {199, 200, 201},
     {T, T, F},
     "24 CFR 35.140(e)",
     MF_VERIFIED},
    {MF_LIMIT_DRY_SPOT_EXTERIOR,
     "dry-spot-exterior",
     MF_UNIT_SQFT_100,
     {1999, 2000, 2001},
     {T, T, F},
     "24 CFR 35.140(e)",
     MF_VERIFIED},
    /* 8 h passes, 8 h 01 does not */
    {MF_LIMIT_STAY_MINUTES,
     "stay-minutes",
     MF_UNIT_MINUTES,
     {479, 480, 481},
     {T, T, F},
     "24 CFR 35.1345(a)(2)(iii)",
     MF_VERIFIED},
    /* 5 days pass, 6 do not */
    {MF_LIMIT_STAY_DAYS,
     "stay-days",
     MF_UNIT_DAYS,
     {4, 5, 6},
     {T, T, F},
     "24 CFR 35.1345(a)(2)(iv)",
     MF_VERIFIED},
    {MF_LIMIT_STAY_MARGIN,
     "stay-margin",
     MF_UNIT_FT_100,
     {999, 1000, 1001},
     {F, T, T},
     "24 CFR 35.1345(a)(2)(iv)",
     MF_VERIFIED},
    /* easily read 20 ft from the edge */
    {MF_LIMIT_SIGN_DISTANCE,
     "sign-distance",
     MF_UNIT_FT_100,
     {1999, 2000, 2001},
     {F, T, T},
     "24 CFR 35.1345(b)(2)",
     MF_VERIFIED},
    /* 3.5 ug/dL is elevated, 3.4 is not */
    {MF_LIMIT_BLOOD_LEAD,
     "blood-lead",
     MF_UNIT_UG_DL_100,
     {340, 350, 360},
     {F, T, T},
     "24 CFR 35.110",
     MF_VERIFIED},
};

static void below_at_above(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        const limit_case *c = &cases[i];
        const mf_limit *row = mf_limit_on(c->id, MF_DAY_NONE);
        CHECK_ROW(row != NULL, c->name);
        CHECK_ROW(strcmp(row->name, c->name) == 0, c->name);
        CHECK_ROW(row->unit == c->unit, c->name);
        for (size_t v = 0; v < 3; v++)
            CHECK_ROW(mf_limit_holds(row, c->values[v]) == c->holds[v], c->name);
        CHECK_ROW(strstr(row->citation, c->cites) != NULL, c->name);
        CHECK_ROW(row->status == c->status, c->name);
    }
}

static void every_limit_has_a_case(void **state)
{
    (void)state;
    size_t seen[MF_LIMIT_COUNT] = {0};
    for (size_t i = 0; i < COUNT(cases); i++)
        seen[cases[i].id]++;
    for (int id = 0; id < MF_LIMIT_COUNT; id++) {
        if (seen[id] != 1)
            fail_msg("limit %d has %zu cases", id, seen[id]);
    }
}

/* Rows follow the enum, say all they must, and do not overlap in time. */
static void rows_are_whole(void **state)
{
    (void)state;
    size_t count = 0;
    const mf_limit *rows = mf_limit_rows(&count);
    assert_true(count >= MF_LIMIT_COUNT);
    for (size_t i = 0; i < count; i++) {
        const mf_limit *row = &rows[i];
        CHECK_ROW(row->name[0] != '\0' && row->says[0] != '\0', row->name);
        CHECK_ROW(row->citation[0] != '\0' && row->note != NULL, row->name);
        CHECK_ROW(strcmp(row->place, "US") == 0, row->name);
        CHECK_ROW(row->status == MF_VERIFIED || row->note[0] != '\0', row->name);
        if (i == 0 || rows[i - 1].id != row->id) {
            CHECK_ROW((int)row->id == (i == 0 ? 0 : (int)rows[i - 1].id + 1), row->name);
            CHECK_ROW(row->from == MF_DAY_NONE, row->name);
        } else {
            CHECK_ROW(row->from == rows[i - 1].until + 1, row->name);
            CHECK_ROW(strcmp(row->name, rows[i - 1].name) == 0, row->name);
        }
        if (i + 1 == count || rows[i + 1].id != row->id)
            CHECK_ROW(row->until == MF_DAY_NONE, row->name);
    }
    assert_int_equal(rows[count - 1].id, MF_LIMIT_COUNT - 1);
}

/* 66 FR 1206; 86 FR 983, from 2021-03-08; 89 FR 89416, compliance from 2026-01-12
 * and not from 2025-01-13, the day the rule took effect. */
static void dust_by_date(void **state)
{
    (void)state;
    static const struct {
        const char *on;
        int64_t floor, sill, trough;
    } rows[] = {
        {"2010-04-22", 40000, 250000, 400000}, {"2021-03-07", 40000, 250000, 400000},
        {"2021-03-08", 10000, 100000, 400000}, {"2025-01-13", 10000, 100000, 400000},
        {"2026-01-11", 10000, 100000, 400000}, {"2026-01-12", 5000, 40000, 100000},
        {"2026-11-25", 5000, 40000, 100000},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_day on = day(rows[i].on);
        CHECK_ROW(mf_limit_on(MF_LIMIT_DUST_FLOOR, on)->value == rows[i].floor, rows[i].on);
        CHECK_ROW(mf_limit_on(MF_LIMIT_DUST_SILL, on)->value == rows[i].sill, rows[i].on);
        CHECK_ROW(mf_limit_on(MF_LIMIT_DUST_TROUGH, on)->value == rows[i].trough, rows[i].on);
    }
    assert_int_equal(mf_limit_on(MF_LIMIT_DUST_FLOOR, day("2026-01-12"))->from, day("2026-01-12"));
}

/* What held before: 24 CFR 35.110 until 90 FR 5975 (5 ug/dL, equal to or greater than); of
 * zero-bedroom dwellings no child was an exception, not a newborn (40 CFR 745.103 before
 * 89 FR 89416). */
static void earlier_rows(void **state)
{
    (void)state;
    const mf_limit *blood = mf_limit_on(MF_LIMIT_BLOOD_LEAD, day("2025-01-16"));
    assert_false(mf_limit_holds(blood, 499));
    assert_true(mf_limit_holds(blood, 500));
    const mf_limit *child = mf_limit_on(MF_LIMIT_ZERO_BEDROOM_CHILD, day("2025-01-12"));
    assert_int_equal(child->value, 0);
    assert_false(mf_limit_holds(child, 0));
}

static void no_row_holds_nothing(void **state)
{
    (void)state;
    assert_null(mf_limit_on(MF_LIMIT_COUNT, 0));
    assert_false(mf_limit_holds(NULL, 0));
}

/* What is no limit and no comparison, as an import may bring it, is not read for one. */
static void beyond_the_last(void **state)
{
    (void)state;
    assert_string_equal(mf_cmp_text(MF_LT), "<");
    assert_string_equal(mf_cmp_text(MF_GT), ">");
    assert_string_equal(mf_cmp_text((mf_cmp)(MF_GT + 1)), "");
    assert_int_equal(mf_limit_named("no-such-limit"), MF_LIMIT_COUNT);
    assert_int_equal(mf_limit_stricter(mf_limit_named("no-such-limit")), MF_STRICTER_NEVER);
}

static void statuses_have_words(void **state)
{
    (void)state;
    assert_string_equal(mf_status_of_fact_text(MF_VERIFIED), "verified");
    assert_string_equal(mf_status_of_fact_text(MF_SECONDARY), "secondary");
    assert_string_equal(mf_status_of_fact_text(MF_MEMORY), "from memory");
    assert_string_equal(mf_status_of_fact_text(MF_DERIVED), "derived");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(below_at_above),       cmocka_unit_test(every_limit_has_a_case),
        cmocka_unit_test(rows_are_whole),       cmocka_unit_test(dust_by_date),
        cmocka_unit_test(no_row_holds_nothing), cmocka_unit_test(statuses_have_words),
        cmocka_unit_test(beyond_the_last),      cmocka_unit_test(earlier_rows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
