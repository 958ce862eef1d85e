/* Assisted housing: which components are small, 24 CFR 35.1350(d)(3). Houses and work are
 * constructed. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/assisted.h>

static fixture fx;

static int start(void **state)
{
    (void)state;
    fx_assisted_repair(&fx);
    return 0;
}

static mf_assisted_answer judge(void)
{
    mf_assisted_answer out;
    mf_assisted_judge(&fx.job, &out);
    return out;
}

/* 35.1350(d)(3) by what the part is, whatever type it was logged as. A fifth of it is disturbed. */
static void small_by_label(void **state)
{
    static const struct {
        mf_component_type type;
        const char *label;
        bool small;
    } rows[] = {
        {MF_COMP_SASH, "", true},
        {MF_COMP_OTHER, "", true}, /* presumed: nobody says what it is */
        {MF_COMP_OTHER, "window sill", true},
        {MF_COMP_OTHER, "picture rail trim", true},
        {MF_COMP_OTHER, "wall trim", true},
        {MF_COMP_OTHER, "cornice, 2nd floor", true},
        {MF_COMP_OTHER, "mantel", true},
        {MF_COMP_OTHER, "ceiling", false},
        {MF_COMP_OTHER, "North wall", false},
        {MF_COMP_OTHER, "wood siding", false},
        {MF_COMP_OTHER, "the north", true}, /* which, but not what */
        {MF_COMP_OTHER, "Techo", false},
        {MF_COMP_WALL, "behind the stove", false},
        {MF_COMP_WALL, "baseboard of the wall", true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        start(state);
        fx.component[0].type = rows[i].type;
        fx.component[0].label = rows[i].label;
        fx.component[0].disturbed_sqft_100 = 100;
        fx.component[0].whole_sqft_100 = 500;
        if (judge().over != rows[i].small)
            fail_msg("label, row %zu", i);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(small_by_label, start),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
