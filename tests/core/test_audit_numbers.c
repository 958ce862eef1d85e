/* What a finding shows beside its verdict: the number that was measured, the limit it
 * was held against, and why something was not asked. A reader who sees "no" must see
 * how far off it is. The numbers are the rule's (paragraph beside each row); the jobs
 * are constructed (support/fixture_job.h). */
#include "core/finding.h"

#include <mistfold/contain.h>

typedef void change(fixture *of);

static void nothing(fixture *of)
{
    (void)of;
}
static void gun_1099(fixture *of)
{
    of->practice[0].method = MF_METHOD_HEAT_GUN;
    of->practice[0].temp_f = 1099;
}
static void stripped(fixture *of)
{
    of->practice[0].method = MF_METHOD_STRIPPER;
    of->practice[0].temp_f = 1099;
}
static void twenty_outside(fixture *of)
{
    of->house.assisted = MF_YES;
    of->house.work = "repair";
    of->component[0].disturbed_sqft_100 = 100;
    of->component[1].disturbed_sqft_100 = 2000;
    of->component[0].whole_sqft_100 = of->component[2].whole_sqft_100 = 1000; /* small parts, too */
    of->component[1].whole_sqft_100 = of->component[4].whole_sqft_100 = 10000;
}
static void older_child(fixture *of) /* a place that counts children of six as well */
{
    of->house.elder_or_disabled = MF_YES;
    of->house.child_under_6 = MF_NOT;
    of->house.place = "US-XX";
    fx_add_local(of, MF_LIMIT_CHILD_AGE, MF_AS_FEDERAL, "7");
}
static void child_3_6(fixture *of)
{
    fx_add_emergency(of, MF_CAUSE_BLOOD_LEAD, "pamphlet", "a child of the household");
    of->emergency[0].blood_lead_100 = 360;
}

static void parents_mailed_late(fixture *of)
{
    for (size_t i = 0; i < of->job.n_notice; i++) {
        if (strcmp(of->notice[i].party, "parents") != 0)
            continue;
        of->notice[i].method = MF_DELIVERY_MAILED;
        of->notice[i].on = of->house.start - 5;
    }
}

/* One wipe is judged by the level, a composite of four by twice the level divided by
 * four (745.227(e)(8)(vii)). */
static void one_wipe(fixture *of)
{
    of->dust_sample[0].wipes = 1;
}
static void four_wipes(fixture *of)
{
    of->dust_sample[0].wipes = 4;
}
static void wipes_unsaid(fixture *of)
{
    of->dust_sample[0].wipes = MF_NUM_NONE;
}

static const struct {
    const char *id, *from;
    change *base, *spoil;
    int64_t n1, n2;
    mf_unit unit;
} rows[] = {
    {"covered", "745.103: before 1978; built 1926", fx_good, nothing, 1926, 1978,
     MF_UNIT_CALENDAR_YEAR},
    {"method-allowed", "745.85(a)(3)(iii): 1,100 F", fx_good, gun_1099, 1099, 1100, MF_UNIT_DEG_F},
    {"method-allowed", "no temperature of a stripper", fx_good, stripped, MF_NUM_NONE, MF_NUM_NONE,
     MF_UNIT_COUNT},
    {"assisted-method", "24 CFR 35.140(c): 1,100 F", fx_assisted, gun_1099, 1099, 1100,
     MF_UNIT_DEG_F},
    {"assisted-method", "no temperature of a stripper", fx_assisted, stripped, MF_NUM_NONE,
     MF_NUM_NONE, MF_UNIT_COUNT},
    {"assisted-scope", "24 CFR 35.1350(d)(1): 20 sq ft outside", fx_good, twenty_outside, 2000,
     2000, MF_UNIT_SQFT_100},
    {"child-under-6", "a place that counts children of six", fx_good, older_child, 6, 7,
     MF_UNIT_YEARS},
    {"paint-finding", "745.103: 1.0 mg/cm2; 5.0 read on the sash", fx_good, nothing, 5000, 1000,
     MF_UNIT_UG_CM2},
    {"xrf-calibration", "its one reading lies between two checks", fx_good, nothing, 1, 1,
     MF_UNIT_COUNT},
    {"dust-level", "745.227(e)(8): 5 ug/ft2 of a floor; 4.9 found", fx_good, wipes_unsaid, 4900,
     5000, MF_UNIT_NG_FT2},
    {"dust-level", "one wipe", fx_good, one_wipe, 4900, 5000, MF_UNIT_NG_FT2},
    {"dust-level", "four wipes", fx_good, four_wipes, 4900, 2500, MF_UNIT_NG_FT2},
    {"notice-parents", "745.84(a)(2)(ii): 7 days for others; 5 here", fx_facility,
     parents_mailed_late, 7, 5, MF_UNIT_DAYS},
    {"assisted-blood-lead", "90 FR 5975: 3.5 ug/dL; 3.6 found", fx_assisted, child_3_6, 360, 350,
     MF_UNIT_UG_DL_100},
};

static void numbers_beside_the_verdict(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        rows[i].base(&fx);
        rows[i].spoil(&fx);
        const mf_finding *it = finding(rows[i].id, NULL);
        CHECK_ROW(it->n1 == rows[i].n1, rows[i].from);
        CHECK_ROW(it->n2 == rows[i].n2, rows[i].from);
        CHECK_ROW(it->unit == rows[i].unit, rows[i].from);
        /* a limit beside each number but a count, and none where nothing was measured */
        CHECK_ROW(it->limit == NULL || rows[i].n2 != MF_NUM_NONE, rows[i].from);
        CHECK_ROW(it->limit != NULL || rows[i].unit == MF_UNIT_COUNT, rows[i].from);
    }
}

/* Blood lead is asked of assisted housing, and there of that emergency alone. */
static void blood_lead_is_asked_of_its_own(void **state)
{
    (void)state;
    fx_good(&fx);
    child_3_6(&fx);
    assert_string_equal(finding("assisted-blood-lead", NULL)->why, "not-assisted");
    fx_assisted(&fx);
    fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, "signs", "a burst pipe");
    assert_string_equal(finding("assisted-blood-lead", NULL)->why, "no-blood-lead");
}

/* 745.103: whether a child under 6 lives there decides for housing for the elderly and
 * for dwellings without a bedroom, for no other. */
static void a_child_matters_where_it_might_be_exempt(void **state)
{
    static const struct {
        mf_tri elder, zero;
        mf_verdict verdict;
    } of[] = {
        {MF_NOT, MF_NOT, MF_NOT_DUE},
        {MF_YES, MF_NOT, MF_MET},
        {MF_NOT, MF_YES, MF_MET},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.house.elder_or_disabled = of[i].elder;
        fx.house.zero_bedroom = of[i].zero;
        fx.house.child_under_6 = MF_YES;
        if (finding("child-under-6", NULL)->verdict != of[i].verdict)
            fail_msg("row %zu", i);
    }
}

/* 745.85(b)(1)(ii)(B): sections of 40 sq ft need the size of a floor; a sill is one. */
static void only_a_sill_needs_no_size(void **state)
{
    bool sill = false, floor = false;
    (void)state;
    fx_good(&fx);
    for (size_t i = 0; i < fx.job.n_surface; i++) {
        mf_surface *it = &fx.surface[i];
        int64_t size = it->size_sqft_100;
        if (strcmp(it->area, "A1") != 0)
            continue;
        it->size_sqft_100 = MF_NUM_NONE;
        const mf_finding *of = finding("surface-verified", it->id);
        if (it->kind == MF_SURFACE_SILL) {
            sill = true;
            assert_int_equal(of->verdict, MF_MET);
        } else {
            floor = true;
            assert_string_equal(of->why, "surface-no-size");
        }
        it->size_sqft_100 = size;
    }
    assert_true(sill && floor);
}

/* 745.82(b): 745.84 does not apply to an emergency, so nobody need be named before it; who is owed
 * the records afterwards (745.86(c)) is asked by the handover. */
static void an_emergency_asks_for_no_parties(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, "pamphlet", "a burst pipe");
    fx_drop_party(&fx, "tenant");
    fx_drop_handover(&fx, "tenant");
    const mf_finding *it = finding("parties-named", "");
    assert_int_equal(it->verdict, MF_NOT_DUE);
    assert_string_equal(it->why, "emergency");
    assert_int_equal(finding("handover-occupant", NULL)->verdict, MF_LACKING);
}

/* 745.85(c)(3): a sample that does not show a level below is cleaned after, then
 * sampled again; the new sample, of the same day too, is the next in the book. */
static void cleaned_between_two_samples(void **state)
{
    static const struct {
        const char *failed, *cleaned, *again, *why;
        int64_t loading;
        mf_qualifier qualifier;
    } of[] = {
        {"2026-09-14", "2026-09-15", "2026-09-16", "dust-recleaned", 5000, MF_QUAL_EXACT},
        {"2026-09-15", "2026-09-14", "2026-09-16", "dust-not-recleaned", 5000, MF_QUAL_EXACT},
        {"2026-09-15", "2026-09-16", "2026-09-16", "dust-recleaned", 5000, MF_QUAL_EXACT},
        {"2026-09-15", "2026-09-17", "2026-09-16", "dust-not-recleaned", 5000, MF_QUAL_EXACT},
        {"2026-09-16", "2026-09-15", "2026-09-16", "dust-not-recleaned", 5000, MF_QUAL_EXACT},
        /* "<6" shows nothing of a level of 5 */
        {"2026-09-15", "2026-09-14", "2026-09-16", "dust-not-recleaned", 6000, MF_QUAL_UNDER},
        {"2026-09-15", "2026-09-14", "2026-09-16", "sample-did-not-fail", 4900, MF_QUAL_EXACT},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        mf_dust_sample again = fx.dust_sample[0];
        fx.dust_sample[0].on = day(of[i].failed);
        fx.dust_sample[0].loading_ng_ft2 = of[i].loading;
        fx.dust_sample[0].qualifier = of[i].qualifier;
        again.on = day(of[i].again);
        fx_add_sample(&fx, again);
        for (size_t k = 0; k < fx.job.n_tick; k++)
            if (strcmp(fx.tick[k].area, "A3") == 0)
                fx.tick[k].on = day("2026-09-13");
        fx_tick(&fx, "A3", "carpet")->on = day(of[i].cleaned);
        CHECK_ROW(strcmp(finding("dust-recleaned", NULL)->why, of[i].why) == 0, of[i].cleaned);
    }
}

/* Of a limit that comes into force while the sheet lies there the one that decided is named:
 * 6.5 ft are enough on the 14th (745.85(a)(2)(i)(D): 6 ft) and too little on the 15th, of 8. */
static void a_sheet_names_the_limit_of_the_day(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.job.n_completion = 0;
    for (size_t i = 0; i < fx.job.n_tick; i++) /* not cleaned: paint may be disturbed yet */
        if (mf_step_named(fx.tick[i].step)->phase == MF_PHASE_CLEAN)
            fx.tick[i].state = MF_TICK_UNDONE;
    fx_tick(&fx, "A1", "floor-sheet")->measured_ft_100 = 650;
    fx_add_local(&fx, MF_LIMIT_FLOOR_SHEET, MF_AS_FEDERAL, "8")->row.from = day("2026-09-15");
    const mf_finding *before = finding_on("2026-09-14", "floor-sheet", "A1");
    assert_int_equal(before->verdict, MF_MET);
    assert_int_equal(before->n2, 600);
    const mf_finding *after = finding_on("2026-09-15", "floor-sheet", "A1");
    assert_string_equal(after->why, "step-short");
    assert_int_equal(after->n1, 650);
    assert_int_equal(after->n2, 800);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_beside_the_verdict),
        cmocka_unit_test(blood_lead_is_asked_of_its_own),
        cmocka_unit_test(a_child_matters_where_it_might_be_exempt),
        cmocka_unit_test(only_a_sill_needs_no_size),
        cmocka_unit_test(an_emergency_asks_for_no_parties),
        cmocka_unit_test(cleaned_between_two_samples),
        cmocka_unit_test(a_sheet_names_the_limit_of_the_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
