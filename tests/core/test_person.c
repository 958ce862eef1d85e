/* Certificates on their last day and the day after. Expected days from 40 CFR
 * 745.89(a)-(c) and 745.90(a)(4); people and numbers constructed. */
#include "core/given.h"

#include <mistfold/person.h>

static void last_days(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        mf_discipline discipline;
        const char *issued, *expires; /* "" = not given */
        mf_tri hands_on;
        const char *last; /* "" = none */
    } rows[] = {
        {"firm, printed date", MF_DISC_FIRM, "2022-06-15", "2027-06-01", MF_UNKNOWN, "2027-06-01"},
        {"firm, at most 5 years", MF_DISC_FIRM, "2022-06-15", "2030-01-01", MF_UNKNOWN,
         "2027-06-15"},
        {"renovator, hands-on", MF_DISC_RENOVATOR, "2021-05-10", "2026-05-10", MF_YES,
         "2026-05-10"},
        {"renovator, printed earlier", MF_DISC_RENOVATOR, "2021-05-10", "2026-05-01", MF_YES,
         "2026-05-01"},
        {"renovator, printed later", MF_DISC_RENOVATOR, "2021-05-10", "2026-05-31", MF_YES,
         "2026-05-10"},
        {"renovator, no hands-on part", MF_DISC_RENOVATOR, "2021-05-10", "2026-05-10", MF_NOT,
         "2024-05-10"},
        {"renovator, not said, printed", MF_DISC_RENOVATOR, "2021-05-10", "2026-05-10", MF_UNKNOWN,
         "2024-05-10"},
        {"renovator, not said, printed for less", MF_DISC_RENOVATOR, "2021-05-10", "2023-05-10",
         MF_UNKNOWN, "2023-05-10"},
        {"technician, not said, printed", MF_DISC_DUST_TECHNICIAN, "2021-05-10", "2026-05-10",
         MF_UNKNOWN, "2024-05-10"},
        {"renovator, nothing printed", MF_DISC_RENOVATOR, "2021-05-10", "", MF_YES, "2026-05-10"},
        {"renovator, nothing said", MF_DISC_RENOVATOR, "2021-05-10", "", MF_UNKNOWN, "2024-05-10"},
        {"renovator, leap day", MF_DISC_RENOVATOR, "2024-02-29", "", MF_YES, "2029-03-01"},
        {"technician", MF_DISC_DUST_TECHNICIAN, "2021-05-10", "2029-05-10", MF_YES, "2026-05-10"},
        {"inspector, printed date", MF_DISC_INSPECTOR, "2021-05-10", "2026-05-09", MF_UNKNOWN,
         "2026-05-09"},
        {"inspector, 745.226(e): 5 years", MF_DISC_INSPECTOR, "2021-05-10", "2031-05-10",
         MF_UNKNOWN, "2026-05-10"},
        {"assessor, the same", MF_DISC_RISK_ASSESSOR, "1999-01-01", "2030-01-01", MF_UNKNOWN,
         "2004-01-01"},
        {"inspector, 61 FR 45778: no program yet", MF_DISC_INSPECTOR, "1996-08-28", "1999-08-28",
         MF_UNKNOWN, ""},
        {"inspector, of that day", MF_DISC_INSPECTOR, "1996-08-29", "1999-08-29", MF_UNKNOWN,
         "1999-08-29"},
        {"assessor, printed date", MF_DISC_RISK_ASSESSOR, "2021-05-10", "2022-05-10", MF_NOT,
         "2022-05-10"},
        {"inspector, nothing printed", MF_DISC_INSPECTOR, "2021-05-10", "", MF_UNKNOWN, ""},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_certificate it = {.discipline = rows[i].discipline,
                             .issued = mf_day_parse(rows[i].issued, NULL),
                             .expires = mf_day_parse(rows[i].expires, NULL),
                             .hands_on = rows[i].hands_on};
        CHECK_ROW(mf_certificate_last_day_for(NULL, &it) == mf_day_parse(rows[i].last, NULL),
                  rows[i].name);
    }
}

/* The last day counts and the day after does not (facts section 11; no grace). */
static void both_ends_count(void **state)
{
    (void)state;
    const mf_certificate held[] = {
        {.holder = "rosa",
         .discipline = MF_DISC_RENOVATOR,
         .issued = day("2021-05-10"),
         .expires = day("2026-05-10"),
         .hands_on = MF_YES},
        {.holder = "firm",
         .discipline = MF_DISC_FIRM,
         .issued = day("2022-01-01"),
         .expires = day("2026-12-31")},
    };
    const mf_job job = {.certificate = held, .n_certificate = 2};
    static const struct {
        const char *holder;
        mf_discipline discipline;
        const char *on;
        bool valid, near;
    } rows[] = {
        {"rosa", MF_DISC_RENOVATOR, "2021-05-09", false, true},
        {"rosa", MF_DISC_RENOVATOR, "2021-05-10", true, false},
        {"rosa", MF_DISC_RENOVATOR, "2026-05-10", true, false},
        {"rosa", MF_DISC_RENOVATOR, "2026-05-11", false, true},
        {"rosa", MF_DISC_INSPECTOR, "2026-05-10", false, false},
        {"ben", MF_DISC_RENOVATOR, "2026-05-10", false, false},
        {"", MF_DISC_RENOVATOR, "2026-05-10", false, false},
        {"firm", MF_DISC_FIRM, "2026-12-31", true, false},
        {"firm", MF_DISC_FIRM, "2027-01-01", false, true},
        {"firm", MF_DISC_RENOVATOR, "2026-12-31", false, false},
        {"rosa", MF_DISC_FIRM, "2026-05-10", false, false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_certificate *near = &held[0];
        const mf_certificate *it =
            mf_certified(&job, rows[i].holder, rows[i].discipline, day(rows[i].on), &near);
        CHECK_ROW((it != NULL) == rows[i].valid, rows[i].on);
        CHECK_ROW((near != NULL) == rows[i].near, rows[i].on);
    }
    assert_null(mf_certified(&job, "rosa", MF_DISC_RENOVATOR, MF_DAY_NONE, NULL));
}

static void a_certificate_without_a_day_is_not_relied_on(void **state)
{
    (void)state;
    const mf_certificate held[] = {{.holder = "rosa",
                                    .discipline = MF_DISC_RENOVATOR,
                                    .issued = MF_DAY_NONE,
                                    .expires = day("2030-01-01"),
                                    .hands_on = MF_YES}};
    const mf_job job = {.certificate = held, .n_certificate = 1};
    const mf_certificate *near = NULL;
    assert_null(mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day("2026-05-10"), &near));
    assert_ptr_equal(near, &held[0]);
}

static void the_best_and_the_closest(void **state)
{
    (void)state;
    const mf_certificate held[] = {
        {.holder = "rosa",
         .discipline = MF_DISC_RENOVATOR,
         .issued = day("2010-05-10"),
         .expires = day("2015-05-10"),
         .hands_on = MF_YES},
        {.holder = "rosa",
         .discipline = MF_DISC_RENOVATOR,
         .issued = day("2015-05-01"),
         .expires = day("2020-05-01"),
         .hands_on = MF_YES},
        {.holder = "rosa",
         .discipline = MF_DISC_RENOVATOR,
         .issued = day("2022-05-01"),
         .expires = day("2027-05-01"),
         .hands_on = MF_YES},
    };
    const mf_job job = {.certificate = held, .n_certificate = 3};
    const mf_certificate *near = NULL;
    /* both first ones are valid in early May 2015: the longer one is named */
    assert_ptr_equal(mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day("2015-05-05"), &near),
                     &held[1]);
    /* whichever was entered first */
    const mf_certificate turned[] = {held[1], held[0]};
    const mf_job other = {.certificate = turned, .n_certificate = 2};
    assert_ptr_equal(mf_certified(&other, "rosa", MF_DISC_RENOVATOR, day("2015-05-05"), &near),
                     &turned[0]);
    assert_null(mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day("2020-06-01"), &near));
    assert_ptr_equal(near, &held[1]);
    assert_null(mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day("2022-04-30"), &near));
    assert_ptr_equal(near, &held[2]);
}

/* 745.90(a)(4): after a refresher without a hands-on part the next must have one. */
static void not_twice_running_without_hands_on(void **state)
{
    (void)state;
    mf_certificate held[] = {
        {.holder = "rosa",
         .discipline = MF_DISC_RENOVATOR,
         .issued = day("2020-05-10"),
         .expires = day("2023-05-10"),
         .hands_on = MF_UNKNOWN},
        {.holder = "rosa",
         .discipline = MF_DISC_RENOVATOR,
         .issued = day("2023-05-01"),
         .expires = day("2026-05-01"),
         .hands_on = MF_NOT},
    };
    const mf_job job = {.certificate = held, .n_certificate = 2};
    const mf_certificate *near = NULL;
    assert_null(mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day("2025-01-01"), &near));
    assert_ptr_equal(near, &held[1]);
    assert_non_null(mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day("2023-05-10"), NULL));
    held[0].hands_on = MF_YES;
    assert_ptr_equal(mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day("2025-01-01"), NULL),
                     &held[1]);
    /* the same for technicians, and for nobody else */
    static const struct {
        mf_discipline discipline;
        bool valid;
    } rows[] = {{MF_DISC_RENOVATOR, false},
                {MF_DISC_DUST_TECHNICIAN, false},
                {MF_DISC_INSPECTOR, true},
                {MF_DISC_RISK_ASSESSOR, true},
                {MF_DISC_FIRM, true}};
    held[0].hands_on = MF_NOT;
    for (size_t i = 0; i < COUNT(rows); i++) {
        held[0].discipline = held[1].discipline = rows[i].discipline;
        const mf_certificate *it =
            mf_certified(&job, "rosa", rows[i].discipline, day("2025-01-01"), NULL);
        assert_ptr_equal(it, rows[i].valid ? &held[1] : NULL);
    }
}

/* Two courses of one day before it, of which one says that it had no hands-on part: no
 * yes rests on the other, whichever was entered first. Constructed. */
static void the_stricter_of_one_day(void **state)
{
    (void)state;
    static const mf_tri said[][2] = {{MF_YES, MF_NOT}, {MF_NOT, MF_YES}, {MF_YES, MF_YES}};
    mf_certificate held[3];
    for (size_t i = 0; i < 3; i++)
        held[i] = (mf_certificate){.holder = "rosa",
                                   .discipline = MF_DISC_RENOVATOR,
                                   .issued = day(i < 2 ? "2020-05-10" : "2023-05-01"),
                                   .expires = day(i < 2 ? "2023-05-10" : "2026-05-01"),
                                   .hands_on = MF_NOT};
    const mf_job job = {.certificate = held, .n_certificate = 3};
    for (size_t i = 0; i < COUNT(said); i++) {
        held[0].hands_on = said[i][0];
        held[1].hands_on = said[i][1];
        bool without = said[i][0] == MF_NOT || said[i][1] == MF_NOT;
        const mf_certificate *it =
            mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day("2026-01-01"), NULL);
        assert_ptr_equal(it, without ? NULL : &held[2]);
    }
}

/* Nobody said it of one of two courses: it is presumed to have had no hands-on part, so the second
 * serves for nothing until somebody says; a second one that had it serves after any. By hand. */
static void unsaid_counts_as_without(void **state)
{
    static const struct {
        mf_tri before, it;
        bool serves;
        int unsaid; /* of which nobody said it; -1 = of none */
    } rows[] = {
        {MF_UNKNOWN, MF_NOT, false, 0},     {MF_NOT, MF_UNKNOWN, false, 1},
        {MF_UNKNOWN, MF_UNKNOWN, false, 1}, {MF_YES, MF_UNKNOWN, true, -1},
        {MF_UNKNOWN, MF_YES, true, -1},     {MF_NOT, MF_NOT, false, -1},
    };
    (void)state;
    mf_certificate held[2];
    for (size_t i = 0; i < 2; i++)
        held[i] = (mf_certificate){.holder = "rosa",
                                   .discipline = MF_DISC_RENOVATOR,
                                   .issued = day(i == 0 ? "2021-05-10" : "2024-05-01"),
                                   .expires = day(i == 0 ? "2026-05-10" : "2029-05-01")};
    const mf_job job = {.certificate = held, .n_certificate = 2};
    for (size_t i = 0; i < COUNT(rows); i++) {
        held[0].hands_on = rows[i].before;
        held[1].hands_on = rows[i].it;
        const mf_certificate *it =
            mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day("2026-06-01"), NULL);
        assert_ptr_equal(it, rows[i].serves ? &held[1] : NULL);
        assert_ptr_equal(mf_certificate_presumed_online(&job, &held[1]),
                         rows[i].unsaid < 0 ? NULL : &held[rows[i].unsaid]);
        assert_null(mf_certificate_presumed_online(&job, &held[0]));
    }
}

/* Of two that serve or miss the day alike the one entered first is named. Constructed. */
static void the_first_of_two(void **state)
{
    (void)state;
    const mf_certificate held[] = {
        {.holder = "omar",
         .discipline = MF_DISC_INSPECTOR,
         .issued = day("2024-01-01"),
         .expires = day("2026-01-01")},
        {.holder = "omar",
         .discipline = MF_DISC_INSPECTOR,
         .issued = day("2025-01-01"),
         .expires = day("2026-01-01")},
        {.holder = "omar",
         .discipline = MF_DISC_INSPECTOR,
         .issued = day("2026-01-21"),
         .expires = day("2028-01-01")},
    };
    const mf_job job = {.certificate = held, .n_certificate = 3};
    const mf_certificate *near = NULL;
    assert_ptr_equal(mf_certified(&job, "omar", MF_DISC_INSPECTOR, day("2025-06-01"), NULL),
                     &held[0]);
    assert_null(mf_certified(&job, "omar", MF_DISC_INSPECTOR, day("2026-01-11"), &near));
    assert_ptr_equal(near, &held[0]); /* ten days from all three */
}

static void assessors(void **state)
{
    (void)state;
    const mf_certificate held[] = {
        {.holder = "ines",
         .discipline = MF_DISC_INSPECTOR,
         .issued = day("2024-01-01"),
         .expires = day("2026-01-01")},
        {.holder = "omar",
         .discipline = MF_DISC_RISK_ASSESSOR,
         .issued = day("2024-01-01"),
         .expires = day("2026-01-01")},
        {.holder = "rosa",
         .discipline = MF_DISC_RENOVATOR,
         .issued = day("2024-01-01"),
         .expires = day("2026-01-01")},
    };
    const mf_job job = {.certificate = held, .n_certificate = 3};
    assert_ptr_equal(mf_certified_assessor(&job, "ines", day("2026-01-01")), &held[0]);
    assert_ptr_equal(mf_certified_assessor(&job, "omar", day("2025-01-01")), &held[1]);
    assert_null(mf_certified_assessor(&job, "rosa", day("2025-01-01")));
    assert_null(mf_certified_assessor(&job, "ines", day("2026-01-02")));
}

/* 745.89(b)(1)(i): postmarked 90 days or more before 2026-09-15 is by 2026-06-17; it then
 * holds to its day or the decision, "whichever is later". */
static void renewed(void **state)
{
    (void)state;
    static const struct {
        const char *name, *sent, *decided;
        mf_discipline discipline;
        const char *until; /* "" = open */
    } rows[] = {
        {"not sent", "", "", MF_DISC_FIRM, "2026-09-15"},
        {"91 days", "2026-06-16", "", MF_DISC_FIRM, ""},
        {"90 days", "2026-06-17", "", MF_DISC_FIRM, ""},
        {"89 days", "2026-06-18", "", MF_DISC_FIRM, "2026-09-15"},
        {"decided later", "2026-06-17", "2026-11-02", MF_DISC_FIRM, "2026-11-02"},
        {"decided earlier", "2026-06-17", "2026-08-02", MF_DISC_FIRM, "2026-09-15"},
        {"late, decided later", "2026-06-18", "2026-11-02", MF_DISC_FIRM, "2026-09-15"},
        {"before it was issued", "2022-06-01", "", MF_DISC_FIRM, "2026-09-15"},
        {"no firm", "2026-06-16", "", MF_DISC_RENOVATOR, "2026-09-15"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_certificate it = {.discipline = rows[i].discipline,
                                   .issued = day("2022-06-15"),
                                   .expires = day("2026-09-15"),
                                   .hands_on = MF_YES,
                                   .renewal_sent = mf_day_parse(rows[i].sent, NULL),
                                   .renewal_decided = mf_day_parse(rows[i].decided, NULL)};
        mf_day open = rows[i].until[0] == '\0' ? MF_DAY_OPEN : day(rows[i].until);
        CHECK_ROW(mf_certificate_until(NULL, &it) == open, rows[i].name);
    }
}

/* 745.89(c): within 90 days of 2026-06-15 is by 2026-09-13. */
static void amended(void **state)
{
    (void)state;
    static const struct {
        const char *name, *changed, *amended, *on;
        bool unamended;
    } rows[] = {
        {"no change", "", "", "2026-09-14", false},
        {"day 89", "2026-06-15", "", "2026-09-12", false},
        {"day 90", "2026-06-15", "", "2026-09-13", false},
        {"day 91", "2026-06-15", "", "2026-09-14", true},
        {"amended that day", "2026-06-15", "2026-09-14", "2026-09-14", false},
        {"amended the day after", "2026-06-15", "2026-09-15", "2026-09-14", true},
        {"before the change", "2026-06-15", "", "2026-06-14", false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_certificate it = {.discipline = MF_DISC_FIRM,
                             .changed = mf_day_parse(rows[i].changed, NULL),
                             .amended = mf_day_parse(rows[i].amended, NULL)};
        CHECK_ROW(mf_certificate_unamended(NULL, &it, day(rows[i].on)) == rows[i].unamended,
                  rows[i].name);
        it.discipline = MF_DISC_RENOVATOR;
        CHECK_ROW(!mf_certificate_unamended(NULL, &it, day(rows[i].on)), rows[i].name);
    }
}

/* One certificate with two terms holds on the days of both alone (745.86(a)); what is renewed in
 * the last year of the one before it is no contradiction. */
static void two_terms(void **state)
{
    (void)state;
    static const struct {
        const char *name, *number, *issuer, *issued, *expires;
        mf_tri hands_on;
        const char *last, *on, *off; /* it holds through, on a day, not on a day */
    } rows[] = {
        {"the end", "R-1", "Example", "2024-05-10", "2026-05-10", MF_YES, "2026-05-10",
         "2026-05-10", "2026-05-11"},
        {"spelt otherwise", "r 1", "example", "2024-05-10", "2026-05-10", MF_YES, "2026-05-10",
         "2026-05-10", "2026-05-11"},
        {"the course", "R-1", "Example", "2024-05-10", "2029-05-10", MF_NOT, "2027-05-10", "", ""},
        {"the course, not said", "R-1", "Example", "2024-05-10", "2029-05-10", MF_UNKNOWN,
         "2029-05-10", "2029-05-10", "2029-05-11"},
        {"begins earlier", "R-1", "Example", "2021-05-11", "2025-05-11", MF_YES, "2025-05-11",
         "2024-05-10", "2024-05-09"},
        {"a renewal", "R-1", "Example", "2021-05-10", "2025-05-10", MF_YES, "2029-05-10",
         "2024-05-09", "2029-05-11"},
        {"another number", "R-2", "Example", "2024-05-10", "2026-05-10", MF_YES, "2029-05-10",
         "2029-05-10", "2029-05-11"},
        {"another issuer", "R-1", "Sample", "2024-05-10", "2026-05-10", MF_YES, "2029-05-10",
         "2029-05-10", "2029-05-11"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const mf_certificate of[] = {{.holder = "rosa",
                                      .discipline = MF_DISC_RENOVATOR,
                                      .number = "R-1",
                                      .issuer = "Example",
                                      .issued = day("2024-05-10"),
                                      .expires = day("2029-05-10"),
                                      .hands_on = MF_YES},
                                     {.holder = "rosa",
                                      .discipline = MF_DISC_RENOVATOR,
                                      .number = rows[i].number,
                                      .issuer = rows[i].issuer,
                                      .issued = day(rows[i].issued),
                                      .expires = day(rows[i].expires),
                                      .hands_on = rows[i].hands_on}};
        const mf_job job = {.certificate = of, .n_certificate = 2};
        bool served = rows[i].on[0] != '\0';
        CHECK_ROW(mf_certificate_last_day_for(&job, &of[0]) == day(rows[i].last), rows[i].name);
        CHECK_ROW(mf_certificate_until(&job, &of[0]) == day(rows[i].last), rows[i].name);
        const char *on = served ? rows[i].on : "2025-01-01";
        CHECK_ROW((mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day(on), NULL) != NULL) == served,
                  rows[i].name);
        if (served)
            CHECK_ROW(mf_certified(&job, "rosa", MF_DISC_RENOVATOR, day(rows[i].off), NULL) == NULL,
                      rows[i].name);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(last_days),
        cmocka_unit_test(two_terms),
        cmocka_unit_test(both_ends_count),
        cmocka_unit_test(a_certificate_without_a_day_is_not_relied_on),
        cmocka_unit_test(the_best_and_the_closest),
        cmocka_unit_test(not_twice_running_without_hands_on),
        cmocka_unit_test(unsaid_counts_as_without),
        cmocka_unit_test(the_stricter_of_one_day),
        cmocka_unit_test(the_first_of_two),
        cmocka_unit_test(assessors),
        cmocka_unit_test(renewed),
        cmocka_unit_test(amended),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
