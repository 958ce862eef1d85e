/* A work area that was called off before any work in it: nothing was modified there, 40 CFR 745.83,
 * so nothing is asked of it; what is logged of work there, or is still to be done, is believed
 * before the word that there was none, 745.86(a). The job is constructed (support/fixture_job.h):
 * the bedroom was contained and given up. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <mistfold/stage.h>
#include <string.h>

enum { MAX_FINDINGS = 700 };

static fixture fx;
static mf_finding found[MAX_FINDINGS];

static void say_parts(mf_tri affected)
{
    for (size_t i = 0; i < fx.job.n_component; i++)
        if (strcmp(fx.component[i].opening, "W02") == 0)
            fx.component[i].affected = affected;
}

#define KEEP_ELSEWHERE(list, area_of)                                                              \
    do {                                                                                           \
        size_t kept = 0;                                                                           \
        for (size_t i = 0; i < fx.job.n_##list; i++)                                               \
            if (strcmp(fx.list[i].area, area_of) != 0)                                             \
                fx.list[kept++] = fx.list[i];                                                      \
        fx.job.n_##list = kept;                                                                    \
    } while (0)

static int start(void **state)
{
    (void)state;
    fx_good(&fx);
    KEEP_ELSEWHERE(practice, "A3");
    KEEP_ELSEWHERE(verification, "A3");
    KEEP_ELSEWHERE(dust_sample, "A3");
    KEEP_ELSEWHERE(tick, "A3");
    say_parts(MF_NOT);
    for (size_t i = 0; i < fx.job.n_opening; i++)
        if (strcmp(fx.opening[i].id, "W02") == 0)
            fx.opening[i].replaced = MF_NOT;
    fx.area[2].called_off = fx_day("2026-09-15");
    return 0;
}

static const mf_finding *says(const char *id, const char *area)
{
    const mf_audit_ask question = {&fx.job, fx_day(FX_TODAY), 0, area};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    for (size_t i = 0; i < n; i++)
        if (strcmp(found[i].requirement->id, id) == 0)
            return &found[i];
    fail_msg("nothing says %s", id);
    return NULL;
}

static void is(const char *id, const char *area, mf_verdict verdict, const char *why)
{
    const mf_finding *it = says(id, area);
    assert_string_equal(it->why, why);
    assert_int_equal(it->verdict, verdict);
}

static bool open_on(mf_gate gate, const char *area, const char *today)
{
    const mf_audit_ask question = {&fx.job, fx_day(today), 1u << gate, area};
    return mf_gate_open(&question, NULL);
}

static void nothing_is_asked_there(void **state)
{
    (void)state;
    assert_true(mf_area_off(&fx.job, "A3", fx_day("2026-09-15")));
    assert_false(mf_area_off(&fx.job, "A3", fx_day("2026-09-14")));
    assert_false(mf_area_off(&fx.job, "A1", fx_day(FX_TODAY)));
    assert_false(mf_area_off(&fx.job, "", fx_day(FX_TODAY)));
    is("area-off-agrees", "A3", MF_MET, "area-off");
    is("isolate", "A3", MF_NOT_DUE, "area-called-off");
    assert_true(open_on(MF_GATE_SIGNS, "", FX_TODAY));
    assert_true(open_on(MF_GATE_SIGNS, "A3", FX_TODAY));
    assert_true(open_on(MF_GATE_INSPECTION, "", FX_TODAY));
    assert_false(open_on(MF_GATE_SIGNS, "A3", "2026-09-14"));
    fx.area[2].called_off = MF_DAY_NONE;
    is("area-off-agrees", "A3", MF_NOT_DUE, "area-not-called-off");
    is("methods-logged", "A3", MF_LACKING, "area-never-worked");
    is("work-logged", "A3", MF_WARNING, "area-never-worked");
    assert_false(open_on(MF_GATE_SIGNS, "A3", FX_TODAY));
    assert_false(open_on(MF_GATE_INSPECTION, "", FX_TODAY));
}

/* 745.85(a)(2): it is not contained, and nothing may be torn out. */
static void demo_is_no_there(void **state)
{
    (void)state;
    is("area-called-off", "A3", MF_LACKING, "area-off");
    is("area-called-off", "", MF_MET, "area-off");
    is("area-called-off", "A1", MF_NOT_DUE, "area-not-called-off");
}

/* In the order in which it is looked for. */
static void contradicted(const char *why, const char *by)
{
    is("area-off-agrees", "A3", MF_LACKING, why);
    is("area-off-signs", "A3", MF_WARNING, why);
    is("area-called-off", "", MF_LACKING, why);
    assert_string_equal(says("area-off-agrees", "A3")->evidence, by);
    assert_false(mf_area_off(&fx.job, "A3", fx_day(FX_TODAY)));
    assert_false(open_on(MF_GATE_SIGNS, "A3", FX_TODAY));
    assert_false(open_on(MF_GATE_INSPECTION, "", FX_TODAY));
}

static void work_is_believed(void **state)
{
    (void)state;
    mf_practice *work = &fx.practice[fx.job.n_practice++];
    *work = fx.practice[0];
    work->src.entry = "new/1";
    work->area = "A3";
    contradicted("area-off-begun", "new/1");
    work->on = MF_DAY_NONE; /* at no time */
    work->at_minute = work->began_minute = MF_MINUTE_NONE;
    contradicted("area-off-begun", "new/1");
    fx.job.n_practice--;
    mf_verification *look = &fx.verification[fx.job.n_verification++];
    *look = fx.verification[0];
    look->src.entry = "new/2";
    look->area = "A3";
    contradicted("area-off-begun", "new/2");
    fx.job.n_verification--;
}

/* "None is logged or planned there": a plan that is older than the word was given up with the area,
 * and disturbs nothing. */
static void a_plan_there(void **state)
{
    (void)state;
    mf_practice *plan = &fx.practice[fx.job.n_practice++];
    *plan = fx.practice[0];
    plan->src.entry = "new/1";
    plan->area = "A3";
    plan->planned = MF_YES;
    plan->method = MF_METHOD_OPEN_FLAME;
    plan->on = fx_day("2026-09-14"); /* the day before */
    assert_true(mf_area_off(&fx.job, "A3", fx_day(FX_TODAY)));
    assert_true(open_on(MF_GATE_SIGNS, "A3", FX_TODAY));
    plan->on = fx_day("2026-09-15");
    contradicted("area-off-planned", "new/1");
    plan->on = fx_day("2026-09-16");
    contradicted("area-off-planned", "new/1");
    plan->on = MF_DAY_NONE;
    contradicted("area-off-planned", "new/1");
    plan->on = fx_day("2026-09-14");
    fx.area[3] = fx.area[2]; /* of two days that were said the earlier one */
    fx.area[3].called_off = fx_day("2026-09-12");
    fx.job.n_area = 4;
    contradicted("area-off-planned", "new/1");
    plan->area = "A1";
    assert_true(mf_area_off(&fx.job, "A3", fx_day(FX_TODAY)));
}

/* 745.86(a): whoever certified it, and though all else was done there; not of a house outside the
 * rule. */
static void a_done_one_shows_nothing(void **state)
{
    (void)state;
    fx_good(&fx);
    assert_true(open_on(MF_GATE_INSPECTION, "", FX_TODAY));
    fx.area[2].called_off = fx_day("2026-09-13");
    is("area-off-agrees", "A3", MF_LACKING, "area-off-begun");
    assert_true(open_on(MF_GATE_SIGNS, "", FX_TODAY));
    assert_false(open_on(MF_GATE_INSPECTION, "", FX_TODAY));
    fx.house.year_built = 1990;
    is("area-off-agrees", "A3", MF_WARNING, "area-off-begun");
}

static void a_part_is_still_to_be_done(void **state)
{
    (void)state;
    say_parts(MF_UNKNOWN);
    is("area-off-agrees", "A3", MF_LACKING, "area-off-parts");
    assert_false(mf_area_off(&fx.job, "A3", fx_day(FX_TODAY)));
    assert_false(open_on(MF_GATE_INSPECTION, "", FX_TODAY));
    say_parts(MF_NOT);
    assert_true(mf_area_off(&fx.job, "A3", fx_day(FX_TODAY)));
    for (size_t i = 0; i < fx.job.n_opening; i++)
        if (strcmp(fx.opening[i].id, "W02") == 0)
            fx.opening[i].replaced = MF_YES;
    is("area-off-agrees", "A3", MF_LACKING, "area-off-parts");
    assert_false(mf_area_off(&fx.job, "A3", fx_day(FX_TODAY)));
}

static void ticks(void **state)
{
    static const struct {
        const char *step, *why;
        bool off;
    } rows[] = {
        {"floor-sheet", "area-off-contained", true},
        {"barriers-whole", "area-off-contained", true},
        {"waste-contained", "area-off-begun", false},
        {"mop", "area-off-begun", false},
    };
    (void)state;
    mf_tick *tick = &fx.tick[fx.job.n_tick++];
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        *tick = fx.tick[0];
        tick->src.entry = "new/1";
        tick->area = "A3";
        tick->step = rows[i].step;
        is("area-off-agrees", "A3", rows[i].off ? MF_WARNING : MF_LACKING, rows[i].why);
        assert_int_equal(mf_area_off(&fx.job, "A3", fx_day(FX_TODAY)), rows[i].off);
        assert_int_equal(open_on(MF_GATE_SIGNS, "A3", FX_TODAY), rows[i].off);
    }
}

/* Two devices drew the area, and one of them does not say it. */
static void each_entry_says_so(void **state)
{
    (void)state;
    fx.area[3] = fx.area[2];
    fx.area[3].called_off = MF_DAY_NONE;
    fx.job.n_area = 4;
    assert_false(mf_area_off(&fx.job, "A3", fx_day(FX_TODAY)));
    is("area-off-agrees", "A3", MF_LACKING, "area-off-doubted");
    fx.area[3].called_off = fx_day("2026-09-16");
    assert_false(mf_area_off(&fx.job, "A3", fx_day("2026-09-15")));
    assert_true(mf_area_off(&fx.job, "A3", fx_day("2026-09-16")));
}

/* A job without an area in which anything is done has no work to show. */
static void all_of_them(void **state)
{
    (void)state;
    fx.area[0] = fx.area[2];
    fx.job.n_area = 1;
    is("areas-listed", "", MF_LACKING, "areas-all-off");
    assert_false(open_on(MF_GATE_SIGNS, "", FX_TODAY));
    assert_false(open_on(MF_GATE_DEMO, "", FX_TODAY));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(nothing_is_asked_there, start),
        cmocka_unit_test_setup(demo_is_no_there, start),
        cmocka_unit_test_setup(work_is_believed, start),
        cmocka_unit_test_setup(a_plan_there, start),
        cmocka_unit_test_setup(a_done_one_shows_nothing, start),
        cmocka_unit_test_setup(a_part_is_still_to_be_done, start),
        cmocka_unit_test_setup(ticks, start),
        cmocka_unit_test_setup(each_entry_says_so, start),
        cmocka_unit_test_setup(all_of_them, start),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
