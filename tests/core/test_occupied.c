/* Whom work in a building is told to, by where it is, and on which days it may be. 40 CFR
 * 745.84(a)(2), (b)(1)-(4). The jobs are constructed (support/fixture_job.h). */
#include "core/finding.h"

/* 745.84(a) and (b): whom work in an area of a multi-unit building is told to. The job's unit
 * is 3 where it has one, and the only interior area has what stands here. */
static void whom_an_area_is_told_to(void **state)
{
    static const struct {
        const char *jobs, *unit;
        mf_tri common;
        const char *tenant; /* unit of the occupant that is listed */
        bool occupant, units, unsaid;
    } of[] = {
        {"", "2", MF_UNKNOWN, "2", true, false, false},
        {"", "2", MF_UNKNOWN, "4", false, false, false}, /* somebody of another unit */
        {"", "", MF_YES, "2", false, true, false},
        {"", "", MF_UNKNOWN, "2", false, true, true},
        {"", "", MF_NOT, "2", false, true, true},
        {"", "2", MF_YES, "2", true, true, true}, /* contradicts itself */
        {"3", "", MF_UNKNOWN, "", true, false, false},
        {"3", "", MF_UNKNOWN, "3", true, false, false},
        {"3", "", MF_YES, "3", false, true, false},
        {"3", "2", MF_UNKNOWN, "3", false, false, false},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_multi_unit(&fx);
        fx.job.n_area = 1;
        fx.house.unit = of[i].jobs;
        fx.area[0].unit = of[i].unit;
        fx.area[0].common = of[i].common;
        fx.party[fx.job.n_party++] =
            (mf_party){.id = "tenant", .role = MF_ROLE_OCCUPANT, .unit = of[i].tenant};
        bool occupant = finding("pamphlet-occupant", NULL)->verdict == MF_LACKING;
        bool units = finding("notice-units", NULL)->verdict == MF_MET;
        bool unsaid = finding("area-unit", "A1")->verdict == MF_LACKING;
        if (occupant != of[i].occupant || units != of[i].units || unsaid != of[i].unsaid)
            fail_msg("row %zu", i);
    }
}

/* Outside and before any area is laid out; 745.84(a)(2) where the owner lives in the unit. */
static void whom_a_job_is_told_to(void **state)
{
    static const struct {
        mf_building building;
        const char *unit;
        mf_side side;
        size_t areas;
        mf_tri owner_lives;
        bool occupant, units;
    } of[] = {
        {MF_BUILDING_MULTI, "", MF_SIDE_INTERIOR, 0, MF_NOT, false, true},
        {MF_BUILDING_MULTI, "3", MF_SIDE_INTERIOR, 0, MF_NOT, true, false},
        {MF_BUILDING_MULTI, "3", MF_SIDE_INTERIOR, 0, MF_YES, false, false},
        {MF_BUILDING_MULTI, "3", MF_SIDE_EXTERIOR, 1, MF_NOT, false, true},
        {MF_BUILDING_MULTI, "3", MF_SIDE_INTERIOR, 1, MF_YES, false, false},
        {MF_BUILDING_FACILITY, "3", MF_SIDE_INTERIOR, 1, MF_NOT, false, false},
        {MF_BUILDING_DWELLING, "", MF_SIDE_INTERIOR, 1, MF_NOT, true, false},
        {MF_BUILDING_DWELLING, "", MF_SIDE_INTERIOR, 1, MF_YES, false, false},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx.house.building = of[i].building;
        fx.house.unit = of[i].unit;
        fx.house.owner_occupied = of[i].owner_lives;
        fx.job.n_area = of[i].areas;
        fx.area[0].side = of[i].side;
        if (of[i].owner_lives == MF_YES) /* and nobody else is listed there */
            fx.job.n_party = 1;
        fx.party[fx.job.n_party++] = (mf_party){.id = "all", .role = MF_ROLE_UNITS, .unit = ""};
        bool occupant = finding("pamphlet-occupant", NULL)->verdict == MF_MET;
        bool units = finding("notice-units", NULL)->verdict == MF_LACKING;
        if (occupant != of[i].occupant || units != of[i].units)
            fail_msg("row %zu", i);
    }
}

/* 745.84(a)(2): one adult of a unit decides, the one who was told best; whoever it is stands
 * in the finding. */
static void told_best_decides(void **state)
{
    (void)state;
    for (int second = 0; second < 2; second++) {
        fx_good(&fx);
        fx.party[fx.job.n_party] = *fx_party(&fx, "tenant");
        fx.party[fx.job.n_party++].id = "cousin";
        fx.notice[fx.job.n_notice] = *fx_notice(&fx, "tenant");
        fx.notice[fx.job.n_notice].party = "cousin";
        mf_notice *better = &fx.notice[fx.job.n_notice], *worse = fx_notice(&fx, "tenant");
        if (second == 0) {
            better = worse;
            worse = &fx.notice[fx.job.n_notice];
        }
        fx.job.n_notice++;
        worse->states_receipt = MF_NOT; /* both delivered, one paper is not whole */
        const mf_finding *it = finding("acknowledgement-contents", better->party);
        assert_int_equal(it->verdict, MF_MET);
        assert_string_equal(finding("pamphlet-occupant", NULL)->subject, better->party);
        better->method = MF_DELIVERY_UNIT_NOTICE; /* does not serve: the other one decides */
        assert_string_equal(finding("pamphlet-occupant", NULL)->subject, worse->party);
    }
}

/* A finding about a unit names it; one about a dwelling names none. */
static void the_unit_is_named(void **state)
{
    (void)state;
    fx_good(&fx);
    assert_string_equal(finding("pamphlet-occupant", NULL)->in_unit, "");
    fx.house.building = MF_BUILDING_MULTI;
    fx.house.unit = "3";
    assert_string_equal(finding("pamphlet-occupant", NULL)->in_unit, "3");
    assert_string_equal(finding("handover-occupant", NULL)->in_unit, "3");
    assert_string_equal(finding("area-unit", "A1")->in_unit, "3");
    assert_string_equal(finding("pamphlet-owner", NULL)->in_unit, "");
}

/* What is said to be vacant, and in which building it counts. */
static void what_is_vacant(void **state)
{
    static const struct {
        mf_building building;
        const char *jobs, *unit;
        bool counts;
    } of[] = {
        {MF_BUILDING_DWELLING, "", "", true},   {MF_BUILDING_DWELLING, "", "2", false},
        {MF_BUILDING_DWELLING, "2", "2", true}, {MF_BUILDING_MULTI, "2", "", true},
        {MF_BUILDING_MULTI, "2", "2", true},    {MF_BUILDING_MULTI, "2", "3", false},
        {MF_BUILDING_MULTI, "2", "2b", false},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        fx_drop_party(&fx, "tenant");
        fx.house.building = of[i].building;
        fx.house.unit = of[i].jobs;
        fx.vacancy[0] = (mf_vacancy){.unit = of[i].unit, .on = fx_day("2026-09-13")};
        fx.job.n_vacancy = 1;
        bool lacking = false;
        size_t n = find_on(FX_TODAY, "");
        for (size_t k = 0; k < n; k++)
            lacking = lacking || strcmp(found[k].why, "party-no-occupant") == 0;
        if (lacking == of[i].counts)
            fail_msg("row %zu", i);
    }
}

/* 745.84(b)(4) speaks of what the units were told: common areas. The kitchen is worked in on
 * 09-14, all else on 09-15, and the units were told of 09-15 on. */
static void work_inside_a_unit_is_not_theirs(void **state)
{
    (void)state;
    fx_multi_unit(&fx);
    for (size_t i = 1; i < fx.job.n_practice; i++)
        fx.practice[i].on = fx_day("2026-09-15");
    fx_notice(&fx, "units")->work_from = fx_day("2026-09-15");
    assert_int_equal(finding("told-dates", "units")->verdict, MF_LACKING);
    fx.area[0].common = MF_UNKNOWN;
    fx.area[0].unit = "2";
    assert_int_equal(finding("told-dates", "units")->verdict, MF_MET);
    fx.area[0].unit = ""; /* nobody knows where: it may be common */
    assert_int_equal(finding("told-dates", "units")->verdict, MF_LACKING);
}

/* The days told and a day of work: both ends belong to them, and one that was not told is
 * held against nobody. */
static void the_days_told(void **state)
{
    static const struct {
        const char *from, *until;
        mf_verdict verdict;
        const char *why;
        int64_t days;
    } of[] = {
        {"2026-09-14", "2026-09-14", MF_MET, "told-days-hold", MF_NUM_NONE},
        {"2026-09-15", "2026-09-16", MF_LACKING, "told-before", 1},
        {"2026-09-10", "2026-09-13", MF_LACKING, "told-beyond", 1},
        {"2026-09-14", NULL, MF_WARNING, "told-days-unsaid", MF_NUM_NONE},
        {NULL, "2026-09-14", MF_WARNING, "told-days-unsaid", MF_NUM_NONE},
        {"2026-09-15", NULL, MF_LACKING, "told-before", 1},
        {NULL, "2026-09-13", MF_LACKING, "told-beyond", 1},
        {NULL, NULL, MF_WARNING, "told-days-unsaid", MF_NUM_NONE},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_multi_unit(&fx);
        for (size_t k = 0; k < fx.job.n_practice; k++)
            fx.practice[k].on = fx_day("2026-09-14");
        mf_notice *told = fx_notice(&fx, "units");
        told->work_from = of[i].from == NULL ? MF_DAY_NONE : fx_day(of[i].from);
        told->work_until = of[i].until == NULL ? MF_DAY_NONE : fx_day(of[i].until);
        const mf_finding *it = finding("told-dates", "units");
        if (it->verdict != of[i].verdict || strcmp(it->why, of[i].why) != 0 || it->n1 != of[i].days)
            fail_msg("row %zu: %s", i, it->why);
    }
}

/* Work planned counts for nothing; two entries of a day are one day. */
static void days_are_counted_once(void **state)
{
    (void)state;
    fx_multi_unit(&fx);
    fx_notice(&fx, "units")->work_until = fx_day("2026-09-13");
    int64_t days = finding("told-dates", "units")->n1;
    fx.practice[fx.job.n_practice] = fx.practice[0];
    fx.job.n_practice++;
    assert_int_equal(finding("told-dates", "units")->n1, days);
    fx.practice[fx.job.n_practice - 1].on = fx_day("2026-09-20");
    assert_int_equal(finding("told-dates", "units")->n1, days + 1);
    fx.practice[fx.job.n_practice - 1].planned = MF_YES;
    assert_int_equal(finding("told-dates", "units")->n1, days);
}

/* The day that is asked about, of a job that is not over: before the start nobody works. */
static void the_day_asked_about(void **state)
{
    static const struct {
        const char *today;
        mf_verdict verdict;
    } of[] = {
        {"2026-09-13", MF_NOT_DUE},
        {"2026-09-14", MF_MET},
        {"2026-09-16", MF_MET},
        {"2026-09-17", MF_LACKING},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_multi_unit(&fx);
        fx.job.n_completion = 0;
        if (finding_on(of[i].today, "told-today", NULL)->verdict != of[i].verdict)
            fail_msg("%s", of[i].today);
    }
    assert_int_equal(finding_on("2026-09-17", "told-today", "owner")->verdict, MF_LACKING);
    fx.job.n_completion = 1;
    assert_int_equal(finding_on("2026-09-17", "told-today", NULL)->verdict, MF_NOT_DUE);
}

/* A sign put up anew with a later end holds from the day it hangs. */
static void signs_put_up_anew(void **state)
{
    static const struct {
        const char *on, *until, *why;
    } of[] = {
        {"2026-09-14", "2026-09-16", "sign-date-holds"},
        {"2026-09-14", "2026-09-13", "sign-out-of-date"},
        {"2026-09-30", "2026-09-16", "sign-out-of-date"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_multi_unit(&fx);
        mf_notice *first = fx_notice(&fx, "units"), *anew = &fx.notice[fx.job.n_notice++];
        first->method = MF_DELIVERY_POSTED;
        first->work_until = fx_day("2026-09-13");
        *anew = *first;
        anew->on = fx_day(of[i].on);
        anew->work_until = fx_day(of[i].until);
        anew->of_change = MF_YES;
        assert_string_equal(finding("sign-dates", "units")->why, of[i].why);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whom_an_area_is_told_to),
        cmocka_unit_test(whom_a_job_is_told_to),
        cmocka_unit_test(told_best_decides),
        cmocka_unit_test(the_unit_is_named),
        cmocka_unit_test(what_is_vacant),
        cmocka_unit_test(work_inside_a_unit_is_not_theirs),
        cmocka_unit_test(the_days_told),
        cmocka_unit_test(days_are_counted_once),
        cmocka_unit_test(the_day_asked_about),
        cmocka_unit_test(signs_put_up_anew),
    };
    return cmocka_run_group_tests_name("occupied", tests, NULL, NULL);
}
