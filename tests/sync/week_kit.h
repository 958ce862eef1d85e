/* week_kit.h - weeks of a firm with everything that goes wrong in one (week.py says what): small in
 * "make check" and large in "make torture"; SEED=9 in the environment tries another. */
#ifndef TESTS_SYNC_WEEK_KIT_H
#define TESTS_SYNC_WEEK_KIT_H

#include "support/cmocka_all.h"
#include "support/torture.h"

#include <stdio.h>

/* Where they meet: what runs a script there, and its name for week.py. */
static void (*week_script)(const char *text);
static const char *week_place;

static void weeks(const char *seeds, const char *size)
{
    char text[600];
    const char *seed = getenv("SEED");
    snprintf(text, sizeof text,
             "for s in %s; do rm -rf w && mkdir w && (cd w && python3 -B " MF_TESTS
             "/sync/week.py $MISTFOLD $s %s %s) || exit 1; done\n",
             seed == NULL ? seeds : seed, size, week_place);
    week_script(text);
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

static inline int weeks_at(const char *place, void (*script_there)(const char *text),
                           CMFixtureFunction start, CMFixtureFunction stop)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_small_firm),
        cmocka_unit_test(a_larger_one),
    };
    week_script = script_there;
    week_place = place;
    return cmocka_run_group_tests(tests, start, stop);
}

#endif
