/* The firm's own steps on the lists of a job (docs/own-steps.md). */
#include "support/cmocka_all.h"

#include <mistfold/contain.h>

/* By phase: the rule's steps, then the firm's; in force by the start of the job. The
 * steps and days are constructed. */
static void steps_of_the_firm(void **state)
{
    const mf_own_step own[] = {
        {.id = "c", .phase = MF_PHASE_CLEAN, .from = mf_day_from(2026, 9, 1), .until = MF_DAY_NONE},
        {.id = "a",
         .phase = MF_PHASE_CONTAIN,
         .side = MF_OWN_EXTERIOR,
         .from = mf_day_from(2026, 9, 14),
         .until = mf_day_from(2026, 9, 14)},
        {.id = "x", .phase = MF_PHASE_WORK, .from = mf_day_from(2026, 9, 15), .until = MF_DAY_NONE},
        {.id = "y",
         .phase = MF_PHASE_WORK,
         .from = mf_day_from(2026, 1, 1),
         .until = mf_day_from(2026, 9, 13)}};
    const mf_house house = {.start = mf_day_from(2026, 9, 14)};
    const mf_area inside = {.side = MF_SIDE_INTERIOR}, outside = {.side = MF_SIDE_EXTERIOR};
    const mf_job job = {.house = &house, .n_house = 1, .own_step = own, .n_own_step = 4};
    mf_step step;
    size_t count, n = 0, seen = 0;
    int phase = 0;
    (void)state;
    mf_steps(&count);
    for (; mf_step_at(&job, n, &step); n++) {
        assert_true((int)step.phase >= phase); /* no list is begun twice */
        phase = (int)step.phase;
        seen += step.id == own[0].id || step.id == own[1].id;
        assert_true(step.id != own[2].id && step.id != own[3].id);
        if (step.id != own[1].id)
            continue;
        assert_false(mf_step_wanted(&job, &step, &inside));
        assert_true(mf_step_wanted(&job, &step, &outside));
        assert_false(step.renovator_present);
        assert_true(mf_step_may_skip(&step));
        assert_non_null(mf_step_ground_of(&step, MF_GROUND_OWN_WORDS));
        assert_null(mf_step_ground_of(&step, MF_GROUND_NONE_PRESENT));
    }
    assert_int_equal(n, count + 2);
    assert_int_equal(seen, 2);
    for (n = 0; mf_step_at(NULL, n, &step); n++)
        assert_non_null(mf_step_named(step.id));
    assert_int_equal(n, count);
    assert_ptr_equal(mf_own_step_named(&job, "y"), &own[3]);
    assert_null(mf_own_step_named(&job, "signs"));
    assert_null(mf_step_named("c")); /* so no requirement can rest on it */
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(steps_of_the_firm)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
