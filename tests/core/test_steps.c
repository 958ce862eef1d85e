/* The rows of the steps: what 745.85(a), 745.86(b)(6) and 745.90(b)(3) say of each, by
 * hand. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/contain.h>
#include <string.h>

/* What 745.85(a) and 745.86(b)(6) say of each step, by hand. */
typedef struct row_case {
    const char *id;
    mf_phase phase;
    const char *citation, *record;
    int extent;
    bool renovator; /* 745.90(b)(3): signs, containment, cleaning */
} row_case;

static const row_case row_cases[] = {
    {"signs", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(1)", "745.86(b)(6)(ii)", -1, true},
    {"signs-assisted", MF_PHASE_CONTAIN, "24 CFR 35.1345(b)(2)", "", -1, true},
    {"objects", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(i)(A)", "745.86(b)(6)(v)(A)", -1, true},
    {"ducts", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(i)(B)", "745.86(b)(6)(v)(B)", -1, true},
    {"windows-closed", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(i)(C)", "745.86(b)(6)(v)(C)", -1,
     true},
    {"doors-closed", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(i)(C)", "745.86(b)(6)(v)(D)", -1, true},
    {"doors-used", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(i)(C)", "745.86(b)(6)(v)(E)", -1, true},
    {"floor-sheet", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(i)(D)", "745.86(b)(6)(v)(F)",
     MF_LIMIT_FLOOR_SHEET, true},
    {"windows-outside", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(ii)(A)", "745.86(b)(6)(v)(C)", -1,
     true},
    {"doors-outside", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(ii)(A)", "745.86(b)(6)(v)(D)", -1,
     true},
    {"ground-sheet", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(ii)(C)", "745.86(b)(6)(v)(F)",
     MF_LIMIT_GROUND_SHEET, true},
    {"line-containment", MF_PHASE_CONTAIN, "40 CFR 745.85(a)(2)(ii)(D)", "745.86(b)(6)(v)(G)", -1,
     true},
    {"leave-clean", MF_PHASE_WORK, "40 CFR 745.85(a)(2)(i)(E)", "", -1, false},
    {"waste-contained", MF_PHASE_WORK, "40 CFR 745.85(a)(4)(i)", "745.86(b)(6)(vi)", -1, false},
    {"waste-daily", MF_PHASE_WORK, "40 CFR 745.85(a)(4)(ii)", "745.86(b)(6)(vi)", -1, false},
    {"waste-transport", MF_PHASE_WORK, "40 CFR 745.85(a)(4)(iii)", "745.86(b)(6)(vi)", -1, false},
    {"chips", MF_PHASE_CLEAN, "40 CFR 745.85(a)(5)(i)(A)", "745.86(b)(6)(vii)(A)", -1, true},
    {"sheeting", MF_PHASE_CLEAN, "40 CFR 745.85(a)(5)(i)(B)", "745.86(b)(6)(vii)(A)", -1, true},
    {"walls", MF_PHASE_CLEAN, "40 CFR 745.85(a)(5)(ii)(A)", "745.86(b)(6)(vii)(B)", -1, true},
    {"margin", MF_PHASE_CLEAN, "40 CFR 745.85(a)(5)(ii)", "745.86(b)(6)(vii)(B)",
     MF_LIMIT_CLEAN_MARGIN, true},
};

static void test_rows(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(row_cases); i++) {
        const row_case *it = &row_cases[i];
        const mf_step *step = mf_step_named(it->id);
        CHECK_ROW(step != NULL, it->id);
        CHECK_ROW(step->phase == it->phase, it->id);
        CHECK_ROW(strcmp(step->citation, it->citation) == 0, it->id);
        CHECK_ROW(strcmp(step->record, it->record) == 0, it->id);
        CHECK_ROW(step->extent == it->extent, it->id);
        CHECK_ROW(it->extent < 0 || step->number == it->extent, it->id);
        CHECK_ROW(step->renovator_present == it->renovator, it->id);
    }
    assert_null(mf_step_named("no-such-step"));
}

/* 745.90(b)(3): the renovator is there when signs are posted, the work area is contained
 * and cleaned; during the rest it is enough that he or she directs it. */
static void test_presence(void **state)
{
    size_t count;
    const mf_step *steps = mf_steps(&count);
    (void)state;
    for (size_t i = 0; i < count; i++)
        CHECK_ROW(steps[i].renovator_present == (steps[i].phase != MF_PHASE_WORK), steps[i].id);
}

/* What hangs on what is there (objects, vents, windows, a chute, carpet, a bare floor, a
 * plastic toward clean rooms) may be left out where it is not there; sheeting where it cannot
 * be laid (EPA FAQ 23002-19908). Each paragraph was read in print: "all objects from the work
 * area", "all ducts opening in the work area", "windows and doors in the work area", "doors used
 * as an entrance", "within 20 feet", "on multi-story buildings ... on all floors below", "if a
 * chute is used", "carpets", "uncarpeted floors", "sheeting used to isolate". */
typedef struct ground_case {
    const char *id, *citation;
    mf_ground ground, other; /* other = ground: there is one only */
} ground_case;

#define ONE(ground) MF_GROUND_##ground, MF_GROUND_##ground

static const ground_case ground_cases[] = {
    {"objects", "40 CFR 745.85(a)(2)(i)(A)", ONE(NONE_PRESENT)},
    {"ducts", "40 CFR 745.85(a)(2)(i)(B)", ONE(NONE_PRESENT)},
    {"windows-closed", "40 CFR 745.85(a)(2)(i)(C)", ONE(NONE_PRESENT)},
    {"doors-closed", "40 CFR 745.85(a)(2)(i)(C)", ONE(NONE_PRESENT)},
    {"doors-used", "40 CFR 745.85(a)(2)(i)(C)", ONE(NOT_USED)},
    {"vertical-barrier", "40 CFR 745.85(a)(2)(i)(D), (ii)(C)", ONE(OWN_WORDS)}, /* never asked */
    {"floor-sheet", "EPA FAQ 23002-19908", ONE(IMPOSSIBLE)},
    {"windows-outside", "40 CFR 745.85(a)(2)(ii)(A)", ONE(NONE_PRESENT)},
    {"doors-outside", "40 CFR 745.85(a)(2)(ii)(A)", ONE(NONE_PRESENT)},
    {"openings-below", "40 CFR 745.85(a)(2)(ii)(A)", MF_GROUND_ONE_STORY, MF_GROUND_NONE_PRESENT},
    {"doors-used-outside", "40 CFR 745.85(a)(2)(ii)(B)", ONE(NOT_USED)},
    {"ground-sheet", "EPA FAQ 23002-19908", ONE(IMPOSSIBLE)},
    {"waste-chute", "40 CFR 745.85(a)(4)(i)", ONE(NOT_USED)},
    {"sheeting", "40 CFR 745.82(b); 745.85(a)(5)(i)(B)", ONE(NONE_PRESENT)},
    {"carpet", "40 CFR 745.85(a)(5)(ii)(B)", ONE(NONE_PRESENT)},
    {"mop", "40 CFR 745.85(a)(5)(ii)(C)", ONE(ALL_CARPET)},
    {"divider", "40 CFR 745.85(a)(5)(i)(B)", ONE(NONE_PRESENT)},
};

static void has_ground(const mf_step *step, const ground_case *of, mf_ground ground)
{
    const mf_step_ground *row = mf_step_ground_of(step, ground);
    CHECK_ROW(row != NULL, step->id);
    CHECK_ROW(strcmp(row->citation, of->citation) == 0, step->id);
    bool derived = strcmp(step->id, "sheeting") == 0; /* an emergency alone frees of it */
    CHECK_ROW(row->status == (derived ? MF_DERIVED : MF_VERIFIED), step->id);
}

/* Nothing else may be left out, and on no other ground. */
static void test_may_be_left_out(void **state)
{
    size_t count, found = 0;
    const mf_step *steps = mf_steps(&count);
    (void)state;
    for (size_t i = 0; i < count; i++) {
        size_t n = 0, wanted = 0;
        for (int ground = 0; ground <= MF_GROUND_IMPOSSIBLE; ground++)
            n += mf_step_ground_of(&steps[i], (mf_ground)ground) != NULL;
        for (size_t k = 0; k < COUNT(ground_cases); k++) {
            const ground_case *it = &ground_cases[k];
            if (strcmp(it->id, steps[i].id) != 0)
                continue;
            has_ground(&steps[i], it, it->ground);
            has_ground(&steps[i], it, it->other);
            wanted = it->ground == it->other ? 1 : 2;
            found++;
        }
        CHECK_ROW(n == wanted, steps[i].id);
        CHECK_ROW(mf_step_may_skip(&steps[i]) == (wanted > 0), steps[i].id);
    }
    assert_int_equal(found, COUNT(ground_cases));
}

/* (a)(2)(i)(D), (ii)(C): a vertical barrier may stand inside and outside. */
static void test_barrier(void **state)
{
    (void)state;
    assert_int_equal(mf_step_named("vertical-barrier")->sides, MF_ON_INTERIOR | MF_ON_EXTERIOR);
}

/* Crews go through the list once: no phase may come before an earlier one. */
static void test_order(void **state)
{
    (void)state;
    size_t count;
    const mf_step *steps = mf_steps(&count);
    assert_true(count >= 25);
    for (size_t i = 1; i < count; i++) {
        CHECK_ROW(steps[i].phase >= steps[i - 1].phase, steps[i].id);
        CHECK_ROW(mf_step_named(steps[i].id) == &steps[i], steps[i].id); /* ids differ */
    }
}

/* A place that wants openings closed within 30 ft (constructed; (a)(2)(ii)(A) says 20). */
static void test_stricter(void **state)
{
    static fixture fx;
    const mf_step *windows = mf_step_named("windows-outside"), *signs = mf_step_named("signs");
    (void)state;
    fx_good(&fx);
    assert_null(mf_step_stricter(&fx.job, windows, fx.house.start));
    fx_add_local(&fx, MF_LIMIT_EXTERIOR_OPENINGS, MF_AS_FEDERAL, "30");
    const mf_limit *ours = mf_step_stricter(&fx.job, windows, fx.house.start);
    assert_non_null(ours);
    assert_int_equal(ours->value, 3000);
    assert_null(mf_step_stricter(&fx.job, signs, fx.house.start));
    assert_null(mf_step_stricter(NULL, windows, fx.house.start));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows),    cmocka_unit_test(test_presence),
        cmocka_unit_test(test_barrier), cmocka_unit_test(test_may_be_left_out),
        cmocka_unit_test(test_order),   cmocka_unit_test(test_stricter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
