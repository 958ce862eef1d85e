/* given.h - what jobs for the tests of core are put together from. Every person, house and number
 * put together with them is constructed; none is real. */
#ifndef MF_TESTS_CORE_GIVEN_H
#define MF_TESTS_CORE_GIVEN_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>
#include <mistfold/job.h>

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

/* Fails with the name of the row of a table. fail_msg does not return, but the
 * static analyser has to be told. */
#define CHECK_ROW(condition, name)                                                                 \
    do {                                                                                           \
        if (!(condition)) {                                                                        \
            fail_msg("row \"%s\": %s", name, #condition);                                          \
            abort();                                                                               \
        }                                                                                          \
    } while (0)

/* The day of a date that must exist. */
static inline mf_day day(const char *text)
{
    mf_day parsed = mf_day_parse(text, NULL);
    assert_int_not_equal(parsed, MF_DAY_NONE);
    return parsed;
}

/* Minutes after midnight of a time that must exist. */
static inline int32_t minute(const char *text)
{
    int32_t parsed = mf_minute_parse(text);
    assert_int_not_equal(parsed, MF_MINUTE_NONE);
    return parsed;
}

/* A work area with nothing in it but its openings, which the test names. */
static inline mf_area area_of(mf_side side)
{
    return (mf_area){.id = "A1",
                     .side = side,
                     .place = "kitchen",
                     .openings = "",
                     .length_ft_100 = 1200,
                     .width_ft_100 = 1000,
                     .objects = MF_NOT,
                     .ducts = MF_NOT,
                     .doors_used = MF_NOT,
                     .carpet = MF_NOT,
                     .countertops = MF_NOT,
                     .storeys = 1,
                     .line_ft_100 = MF_NUM_NONE};
}

#endif
