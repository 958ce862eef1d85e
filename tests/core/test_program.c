/* Whose program governs, and which certificate counts under it. 40 CFR 745.81(a), part
 * 745 subpart Q. The places: EPA's list of 2012-02-28 as a trade page quotes it, two lists
 * of a nonprofit, undated and of 2015 (secondary), FR Doc. 2022-24541; people and days
 * constructed. */
#include "core/given.h"

#include <mistfold/person.h>
#include <mistfold/program.h>
#include <string.h>

/* Fifteen: twelve secondary, two that say they are unconfirmed, and Vermont. */
static void the_listed_places(void **state)
{
    (void)state;
    static const char *const listed[] = {"US-AL", "US-DE", "US-GA", "US-IA", "US-KS",
                                         "US-MA", "US-MS", "US-NC", "US-OK", "US-OR",
                                         "US-RI", "US-UT", "US-VT", "US-WA", "US-WI"};
    size_t n;
    const mf_program *rows = mf_program_rows(&n);
    assert_int_equal(n, COUNT(listed));
    for (size_t i = 0; i < COUNT(listed); i++) {
        CHECK_ROW(strcmp(rows[i].place, listed[i]) == 0, listed[i]);
        bool vermont = strcmp(listed[i], "US-VT") == 0;
        bool doubt = strcmp(listed[i], "US-DE") == 0 || strcmp(listed[i], "US-OK") == 0;
        CHECK_ROW(rows[i].status == (vermont ? MF_VERIFIED : MF_SECONDARY), listed[i]);
        CHECK_ROW(strstr(rows[i].citation, "subpart Q") != NULL, listed[i]);
        CHECK_ROW((strncmp(rows[i].note, "Unconfirmed", 11) == 0) == doubt, listed[i]);
        CHECK_ROW((rows[i].from != MF_DAY_NONE) == vermont, listed[i]);
    }
    assert_null(mf_program_at("US-VT", day("2022-09-30")));
    assert_non_null(mf_program_at("US-VT", day("2022-10-01")));
}

static void where_a_house_stands(void **state)
{
    (void)state;
    static const struct {
        const char *places, *governs; /* "" = EPA's */
    } rows[] = {
        {"US-WI", "US-WI"},
        {"US-WI-X", "US-WI"},
        {"US-OH,US-WI", "US-WI"},
        {"US-IA-X,US-OH", "US-IA"},
        {"US-WIX", ""},
        {"US-OH", ""},
        {"US", ""},
        {"", ""},
        {"WI", ""},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_program *it = mf_program_at(rows[i].places, day("2026-09-14"));
        CHECK_ROW(strcmp(it == NULL ? "" : it->place, rows[i].governs) == 0, rows[i].places);
    }
    assert_null(mf_program_at(NULL, day("2026-09-14")));
}

static void what_counts(void **state)
{
    (void)state;
    static const struct {
        const char *programs, *program;
        bool counts;
    } rows[] = {
        {"", "US", true},         {NULL, "US", true},           {"", "US-WI", false},
        {"US-WI", "US-WI", true}, {"US-WI", "US", false},       {"US,US-WI", "US", true},
        {"US", "US", true},       {"US,US-WI", "US-WI", true},  {"US-WI", "US-IA", false},
        {"US", "US-WI", false},   {"US-IA,US-WI", "US", false}, {"US-WIX", "US-WI", false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_certificate it = {.programs = rows[i].programs};
        CHECK_ROW(mf_certificate_counts(&it, rows[i].program) == rows[i].counts,
                  rows[i].programs == NULL ? "NULL" : rows[i].programs);
    }
}

/* The one that counts is found though another one outlasts it, and only while it is valid. */
static void one_that_counts(void **state)
{
    (void)state;
    const mf_certificate held[] = {
        {.holder = "firm",
         .discipline = MF_DISC_FIRM,
         .issued = day("2024-05-10"),
         .expires = day("2029-05-10")},
        {.holder = "firm",
         .discipline = MF_DISC_FIRM,
         .issued = day("2026-01-01"),
         .expires = day("2026-12-31"),
         .programs = "US-WI"},
    };
    const mf_job job = {.certificate = held, .n_certificate = 2};
    assert_ptr_equal(mf_certified(&job, "firm", MF_DISC_FIRM, day("2026-09-14"), NULL), &held[0]);
    assert_ptr_equal(mf_certified_under(&job, "firm", MF_DISC_FIRM, day("2026-12-31"), "US-WI"),
                     &held[1]);
    assert_null(mf_certified_under(&job, "firm", MF_DISC_FIRM, day("2027-01-01"), "US-WI"));
    assert_null(mf_certified_under(&job, "firm", MF_DISC_FIRM, day("2026-09-14"), "US-IA"));
    assert_null(mf_certified_under(&job, "firm", MF_DISC_RENOVATOR, day("2026-09-14"), "US-WI"));
    assert_ptr_equal(
        mf_certified_under(&job, "firm", MF_DISC_FIRM, day("2026-09-14"), MF_PROGRAM_EPA),
        &held[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_listed_places),
        cmocka_unit_test(where_a_house_stands),
        cmocka_unit_test(what_counts),
        cmocka_unit_test(one_that_counts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
