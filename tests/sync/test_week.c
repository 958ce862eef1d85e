/* A week of a firm with everything that goes wrong in one (week.py says what), small in "make
 * check" and large in "make torture"; SEED=9 in the environment tries another. */
#include "support/torture.h"
#include "sync/script.h"

static void weeks(const char *seeds, const char *size)
{
    char command[600];
    const char *seed = getenv("SEED");
    snprintf(command, sizeof command,
             "for s in %s; do rm -rf w && mkdir w && (cd w && python3 -B " MF_TESTS
             "/sync/week.py $MISTFOLD $s %s) || exit 1; done",
             seed == NULL ? seeds : seed, size);
    run(command);
    if (r.status != 0)
        fail_msg("%d:\n%s%s", r.status, r.out, r.err);
}

static void a_small_firm(void **state)
{
    (void)state;
    weeks(torture(1, 0) ? "1" : "1 2 3 4 5 6 7 8 9 10 11 12", "1 2 3");
}

static void a_larger_one(void **state)
{
    (void)state;
    if (torture(1, 0))
        skip();
    weeks("1 2 3", "3 12 7");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_small_firm),
        cmocka_unit_test(a_larger_one),
    };
    return cmocka_run_group_tests(tests, script_start, shell_stop);
}
