/* The program and a second, independent reading of the rule (rule.py) answer made-up
 * whole jobs alike; and what must hold of any answer holds (properties.py). Many more:
 * "make oracle". */
#include "support/cmocka_all.h"
#include "support/run.h"

#define COMPARE "python3 -B " MF_TESTS "/oracle/compare.py --answer $MF_BUILD/tests/oracle/answer "

static void yes(const char *command)
{
    run_result r;
    run_shell(&r, "", command);
    if (r.status != 0)
        fail_msg("%s%s", r.out, r.err);
}

static void answers_are_the_same(void **state)
{
    (void)state;
    yes(COMPARE "--seed 1 --jobs 1000 --show 3");
}

static void properties_hold(void **state)
{
    (void)state;
    yes(COMPARE "--seed 1 --jobs 100 --show 10 --properties");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(answers_are_the_same),
        cmocka_unit_test(properties_hold),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
