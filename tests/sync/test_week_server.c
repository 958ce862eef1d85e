/* The week of a firm at a server (week.py): small in "make check" and large in "make torture";
 * SEED=9 in the environment tries another. */
#include "support/torture.h"
#include "sync/pg_script.h"

static void weeks(const char *seeds, const char *size)
{
    char text[600];
    const char *seed = getenv("SEED");
    snprintf(text, sizeof text,
             "for s in %s; do rm -rf w && mkdir w && (cd w && python3 -B " MF_TESTS
             "/sync/week.py $MISTFOLD $s %s server) || exit 1; done\n",
             seed == NULL ? seeds : seed, size);
    pg_script(text);
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
    return cmocka_run_group_tests(tests, pg_start, pg_stop);
}
