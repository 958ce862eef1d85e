/* Stricter limits of a place. Which change is stricter is written by hand for each
 * limit from what the paragraph lets or asks; places, codes and jobs are invented. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <mistfold/clean.h>
#include <mistfold/contain.h>
#include <mistfold/notice.h>
#include <mistfold/paint.h>
#include <mistfold/person.h>
#include <mistfold/place.h>
#include <stdio.h>
#include <string.h>

static fixture fx;

/* ---- reading a row ----------------------------------------------------------- */

static mf_local_limit row_of(mf_limit_id id, mf_local_cmp comparison, const char *value)
{
    mf_local_limit row = {.row = {.id = id,
                                  .from = MF_DAY_NONE,
                                  .until = MF_DAY_NONE,
                                  .place = "US-XX",
                                  .citation = "Invented Code 1",
                                  .note = ""},
                          .comparison = comparison,
                          .value = value,
                          .built_before = MF_NUM_NONE};
    mf_local_limit_fill(&row);
    return row;
}

static mf_local_fault check(mf_limit_id id, mf_local_cmp comparison, const char *value)
{
    mf_local_limit row = row_of(id, comparison, value);
    return mf_local_limit_check(&row, NULL);
}

/* Of each limit a stricter value, the federal one, and a looser one, as typed. */
static const struct {
    mf_limit_id id;
    const char *stricter, *same, *looser;
} directions[] = {
    {MF_LIMIT_YEAR_BUILT, "1980", "1978", "1977"},       /* 745.103: covers more houses */
    {MF_LIMIT_PAINT_LOADING, "0.5", "1.0", "1.1"},       /* 745.82(a): less is lead */
    {MF_LIMIT_PAINT_WEIGHT, "0.25%", "0.5%", "0.6%"},    /* the same by weight */
    {MF_LIMIT_MINOR_INTERIOR, "3", "6", "6.01"},         /* 745.83: less is minor */
    {MF_LIMIT_MINOR_EXTERIOR, "10", "20", "20.01"},      /* the same outside */
    {MF_LIMIT_MINOR_DAYS, "60", "30", "29"},             /* 745.83: more jobs add up */
    {MF_LIMIT_PAMPHLET_DAYS, "30", "60", "61"},          /* 745.84(a): nearer the start */
    {MF_LIMIT_MAILING_DAYS, "10", "7", "6"},             /* 745.84(a)(1)(ii): earlier */
    {MF_LIMIT_FLOOR_SHEET, "10", "6", "5.99"},           /* 745.85(a)(2)(i)(D): further */
    {MF_LIMIT_GROUND_SHEET, "20", "10", "9.99"},         /* (ii)(C): further */
    {MF_LIMIT_EXTERIOR_OPENINGS, "30", "20", "19.99"},   /* (ii)(A): more openings closed */
    {MF_LIMIT_PROPERTY_LINE, "15", "10", "9.99"},        /* (ii)(D): containment more often */
    {MF_LIMIT_CLEAN_MARGIN, "5", "2", "1.99"},           /* 745.85(a)(5)(ii): further */
    {MF_LIMIT_HEAT_GUN, "700", "1100", "1101"},          /* 745.85(a)(3)(iii): cooler */
    {MF_LIMIT_SECTION_UNDIVIDED, "30", "40", "40.01"},   /* 745.85(b)(1)(ii)(B) */
    {MF_LIMIT_SECTION_PART, "20", "40", "40.01"},        /* the same */
    {MF_LIMIT_DRY_WAIT, "120", "60", "59"},              /* (b)(1)(ii): longer */
    {MF_LIMIT_DUST_FLOOR, "3", "5", "5.001"},            /* 745.227(e)(8): less passes */
    {MF_LIMIT_DUST_SILL, "10", "40", "40.001"},          /* the same */
    {MF_LIMIT_DUST_TROUGH, "40", "100", "100.001"},      /* the same */
    {MF_LIMIT_SAMPLE_WAIT, "120", "60", "59"},           /* 745.227(e)(8)(iv): later */
    {MF_LIMIT_COMPOSITE_WIPES, "2", "4", "5"},           /* 745.63: fewer */
    {MF_LIMIT_SAMPLE_ROOMS, "6", "4", "3"},              /* 745.227(e)(8)(v)(A): more rooms */
    {MF_LIMIT_HANDOVER_DAYS, "10", "30", "31"},          /* 745.86(c)(1): sooner */
    {MF_LIMIT_RETENTION_YEARS, "5", "3", "2"},           /* 745.86(a): longer */
    {MF_LIMIT_FIRM_YEARS, "1", "5", "6"},                /* 745.89(a): shorter */
    {MF_LIMIT_RENEWAL_DAYS, "120", "90", "89"},          /* 745.89(b)(1)(i): earlier */
    {MF_LIMIT_AMEND_DAYS, "60", "90", "91"},             /* 745.89(c): sooner */
    {MF_LIMIT_COURSE_YEARS, "3", "5", "6"},              /* 745.90(a)(4): shorter */
    {MF_LIMIT_COURSE_ONLINE_YEARS, "2", "3", "4"},       /* the same */
    {MF_LIMIT_CALIBRATION_HOURS, "120", "240", "241"},   /* more often */
    {MF_LIMIT_CHILD_AGE, "7", "6", "5"},                 /* 745.83: older children count */
    {MF_LIMIT_ZERO_BEDROOM_CHILD, "7", "6", "5"},        /* 745.103: the same */
    {MF_LIMIT_VISIT_DAYS, "1", "2", "3"},                /* 745.83: fewer make a facility */
    {MF_LIMIT_VISIT_MINUTES, "120", "180", "181"},       /* the same */
    {MF_LIMIT_VISIT_WEEK, "180", "360", "361"},          /* the same */
    {MF_LIMIT_VISIT_YEAR, "600", "3600", "3601"},        /* the same */
    {MF_LIMIT_ASSISTED_INTERIOR, "1", "2", "2.01"},      /* 24 CFR 35.1350(d) */
    {MF_LIMIT_ASSISTED_EXTERIOR, "10", "20", "20.01"},   /* the same */
    {MF_LIMIT_ASSISTED_PART, "5", "10", "10.01"},        /* the same */
    {MF_LIMIT_ASSISTED_HEAT_GUN, "900", "1100", "1101"}, /* 24 CFR 35.140 */
    {MF_LIMIT_DRY_SPOT_INTERIOR, "1", "2", "2.01"},      /* the same */
    {MF_LIMIT_DRY_SPOT_EXTERIOR, "1", "20", "20.01"},    /* the same */
    {MF_LIMIT_STAY_MINUTES, "240", "480", "481"},        /* 24 CFR 35.1345(a)(2) */
    {MF_LIMIT_STAY_DAYS, "3", "5", "6"},                 /* the same */
    {MF_LIMIT_STAY_MARGIN, "15", "10", "9.99"},          /* the same */
    {MF_LIMIT_SIGN_DISTANCE, "30", "20", "19.99"},       /* 24 CFR 35.1345(b)(2): farther */
    {MF_LIMIT_SAMPLE_OUTSIDE, "3", "5", "5.01"},         /* 24 CFR 35.1340(g)(2): nearer */
    {MF_LIMIT_BLOOD_LEAD, "5", "5", "3.4"},   /* excuses less often; 5 held before 2025-01-17 */
    {MF_LIMIT_ASSESSOR_YEARS, "3", "5", "6"}, /* 745.226(e): shorter */
    {MF_LIMIT_EMERGENCY_DAYS, "3", "7", "8"}, /* 745.82(b): excuses for less long */
};

static void stricter_same_looser(void **state)
{
    (void)state;
    size_t seen[MF_LIMIT_COUNT] = {0};
    for (size_t i = 0; i < COUNT(directions); i++) {
        const char *name = mf_limit_on(directions[i].id, MF_DAY_NONE)->name;
        seen[directions[i].id]++;
        CHECK_ROW(mf_limit_stricter(directions[i].id) != MF_STRICTER_NEVER, name);
        CHECK_ROW(check(directions[i].id, MF_AS_FEDERAL, directions[i].stricter) == MF_LOCAL_GOOD,
                  name);
        CHECK_ROW(check(directions[i].id, MF_AS_FEDERAL, directions[i].looser) == MF_LOCAL_LOOSER,
                  name);
        CHECK_ROW(check(directions[i].id, MF_AS_FEDERAL, directions[i].same) == MF_LOCAL_GOOD,
                  name);
    }
    for (int id = 0; id < MF_LIMIT_COUNT; id++) {
        bool never = mf_limit_stricter((mf_limit_id)id) == MF_STRICTER_NEVER;
        if (seen[id] + never != 1)
            fail_msg("limit %d has %zu cases", id, seen[id]);
    }
    assert_int_equal(check(MF_LIMIT_PLAUSIBLE_LOADING, MF_AS_FEDERAL, "50"), MF_LOCAL_NEVER);
}

/* "less than 1" is stricter than "up to 1", "less than 6" than the federal "up to 6". */
static void comparison_decides(void **state)
{
    (void)state;
    mf_local_limit below = row_of(MF_LIMIT_MINOR_INTERIOR, MF_BELOW, "6");
    assert_int_equal(mf_local_limit_check(&below, NULL), MF_LOCAL_GOOD);
    assert_true(mf_limit_holds(&below.row, 599));
    assert_false(mf_limit_holds(&below.row, 600));
    const mf_limit *federal = mf_limit_on(MF_LIMIT_MINOR_INTERIOR, MF_DAY_NONE);
    assert_false(mf_limit_as_strict(federal, &below.row));
    assert_true(mf_limit_as_strict(&below.row, federal));
    /* "up to 1100" would allow what "below 1100" does not */
    assert_int_equal(check(MF_LIMIT_HEAT_GUN, MF_UP_TO, "1100"), MF_LOCAL_LOOSER);
    assert_int_equal(check(MF_LIMIT_HEAT_GUN, MF_UP_TO, "1099"), MF_LOCAL_GOOD);
    assert_int_equal(check(MF_LIMIT_PAINT_LOADING, MF_ABOVE, "1.0"), MF_LOCAL_LOOSER);
    assert_int_equal(check(MF_LIMIT_PAINT_LOADING, MF_ABOVE, "0.999"), MF_LOCAL_GOOD);
    assert_int_equal(check(MF_LIMIT_MINOR_INTERIOR, MF_AT_LEAST, "1"), MF_LOCAL_OTHER);
}

static void faults(void **state)
{
    (void)state;
    assert_int_equal(check(MF_LIMIT_MINOR_INTERIOR, MF_AS_FEDERAL, "three"), MF_LOCAL_VALUE);
    assert_int_equal(check(MF_LIMIT_MINOR_INTERIOR, MF_AS_FEDERAL, "-1"), MF_LOCAL_VALUE);
    assert_int_equal(check(MF_LIMIT_MINOR_INTERIOR, MF_AS_FEDERAL, ""), MF_LOCAL_VALUE);
    assert_int_equal(check(MF_LIMIT_RETENTION_YEARS, MF_AS_FEDERAL, "1001"), MF_LOCAL_VALUE);
    mf_local_limit row = row_of(MF_LIMIT_MINOR_INTERIOR, MF_AS_FEDERAL, "3");
    row.row.place = "US";
    assert_int_equal(mf_local_limit_check(&row, NULL), MF_LOCAL_FEDERAL);
    row.row.place = "US-XX";
    row.row.from = day("2026-01-02");
    row.row.until = day("2026-01-01");
    assert_int_equal(mf_local_limit_check(&row, NULL), MF_LOCAL_DATES);
    row.row.until = row.row.from;
    assert_int_equal(mf_local_limit_check(&row, NULL), MF_LOCAL_GOOD);
}

/* 10 was stricter than 40 before 2021-03-08 and is looser than 5 from 2026-01-12. */
static void looser_on_some_day(void **state)
{
    (void)state;
    const mf_limit *federal = NULL;
    mf_local_limit row = row_of(MF_LIMIT_DUST_FLOOR, MF_AS_FEDERAL, "10");
    assert_int_equal(mf_local_limit_check(&row, &federal), MF_LOCAL_LOOSER);
    assert_int_equal(federal->value, 5000);
    row.row.until = day("2026-01-11");
    assert_int_equal(mf_local_limit_check(&row, NULL), MF_LOCAL_GOOD);
    row.row.until = day("2026-01-12");
    assert_int_equal(mf_local_limit_check(&row, NULL), MF_LOCAL_LOOSER);
}

/* ---- where and when it holds ---------------------------------------------------------- */

static void places(void **state)
{
    (void)state;
    static const struct {
        const char *row, *job;
        bool holds;
    } rows[] = {
        {"US-XX", "US-XX", true},
        {"US-XX", "US-OH,US-XX", true},
        {"US-XX", "US-XX-Town", true},
        {"US-XX-Town", "US-OH", false},
        {"US-XX", "US-OH-L", false},
        {"US-XX", "", false},
        {"US-XX", "US-OH", false},
        {"J-1926", "", true}, /* its contract */
        {"US-XX", "US-OH,US-XX-Town", true},
        {"", "US-OH,,US-WI", false}, /* what names no place holds in none */
        {"US-XX", "us-xx", true},    /* written otherwise it is the same place */
        {"us-xx", "US-XX-TOWN", true},
        {"Tribe-1", "tribe-1", true},
        {"j-1926", "", true},
        /* Nobody knows which place it is: any row may hold, but for contracts of others. */
        {"US-XX", "xanadu", true},
        {"US-XX", "US-XXL", true},
        {"US-XX", "US-OH,xanadu", true},
        {"US-IA", "US-IO", true}, /* no state: which one was meant? */
        {"US-IA", "US-QQ", true},
        {"US-IA", "US-IA-", true},
        {"US-IA", "US-IL", false},
        {"J-7", "xanadu", false},
        {"xanadu", "xanadu", true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        fx_good(&fx);
        mf_local_limit *row = fx_add_local(&fx, MF_LIMIT_MINOR_INTERIOR, MF_AS_FEDERAL, "3");
        row->row.place = rows[i].row;
        fx.house.place = rows[i].job;
        CHECK_ROW(mf_local_limit_holds(&fx.job, row) == rows[i].holds, rows[i].job);
        int64_t want = rows[i].holds ? 300 : 600;
        CHECK_ROW(mf_limit_for(&fx.job, MF_LIMIT_MINOR_INTERIOR, fx.house.start)->value == want,
                  rows[i].job);
    }
}

/* How a place is written: ISO 3166-2 has "US-" and two letters; what lies in a state goes on. */
static void written(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *kept;
        bool is_state;
    } rows[] = {
        {"us-ia", "US-IA", true},
        {"US-IA", "US-IA", true},
        {"us-ny-nyc", "US-NY-NYC", true},
        {"us", "US", false},
        {"IA", "IA", false},
        {"iowa", "iowa", false},
        {"us-iowa", "us-iowa", false},
        {"us-i", "us-i", false},
        {"us-i1", "us-i1", false},
        {"us-ia-", "us-ia-", false},
        {"us-ia--x", "us-ia--x", false},
        {"us-ia-x-", "us-ia-x-", false},
        {"us-ia-x-y", "US-IA-X-Y", true},
        {"us-io", "us-io", false},
        {"us-zz", "us-zz", false},
        {"us-iax", "us-iax", false},
        {"Tribe-1", "Tribe-1", false},
        {"", "", false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[40];
        snprintf(text, sizeof text, "%s", rows[i].typed);
        mf_places_write(text);
        CHECK_ROW(strcmp(text, rows[i].kept) == 0, rows[i].typed);
        CHECK_ROW(mf_place_is_state(text, strlen(text)) == rows[i].is_state, rows[i].typed);
    }
    char many[] = "us-ia,Tribe-1,us-ny-nyc";
    mf_places_write(many);
    assert_string_equal(many, "US-IA,Tribe-1,US-NY-NYC");
}

/* ISO 3166-2:US, its 57 codes: 50 states, a district, and of the outlying areas six. */
static void every_state(void **state)
{
    (void)state;
    static const char codes[] = "AK AL AR AS AZ CA CO CT DC DE FL GA GU HI IA ID IL IN KS KY LA MA "
                                "MD ME MI MN MO MP MS MT NC ND NE NH NJ NM NV NY OH OK OR PA PR RI "
                                "SC SD TN TX UM UT VA VI VT WA WI WV WY ";
    size_t n = 0, count = 0;
    const char *const *all = mf_place_states(&count);
    assert_int_equal(count, 57);
    for (int a = 'A'; a <= 'Z'; a++)
        for (int b = 'A'; b <= 'Z'; b++) {
            const char code[] = {(char)a, (char)b, ' ', '\0'};
            const char place[] = {'U', 'S', '-', (char)a, (char)b, '\0'};
            bool is = strstr(codes, code) != NULL;
            CHECK_ROW(mf_place_is_state(place, 5) == is, place);
            if (is)
                assert_string_equal(all[n++], place);
        }
    assert_int_equal(n, 57);
}

/* COMAR 26.16.01.03 speaks of houses built before 1950; an unknown year is presumed so. */
static void built_before(void **state)
{
    (void)state;
    static const struct {
        int64_t year;
        bool holds;
    } rows[] = {{1949, true}, {1950, false}, {1951, false}, {MF_NUM_NONE, true}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        fx_good(&fx);
        fx.house.year_built = rows[i].year;
        mf_local_limit *row = fx_add_local(&fx, MF_LIMIT_MINOR_INTERIOR, MF_AS_FEDERAL, "3");
        row->built_before = 1950;
        assert_int_equal(mf_local_limit_holds(&fx.job, row), rows[i].holds);
    }
}

static void dated(void **state)
{
    (void)state;
    fx_good(&fx);
    mf_local_limit *row = fx_add_local(&fx, MF_LIMIT_PAINT_LOADING, MF_AS_FEDERAL, "0.5");
    row->row.from = day("2021-12-01");
    row->row.until = day("2026-12-31");
    static const struct {
        const char *on;
        int64_t value;
    } rows[] = {
        {"2021-11-30", 1000}, {"2021-12-01", 500}, {"2026-12-31", 500}, {"2027-01-01", 1000}};
    for (size_t i = 0; i < COUNT(rows); i++)
        CHECK_ROW(mf_limit_for(&fx.job, MF_LIMIT_PAINT_LOADING, day(rows[i].on))->value ==
                      rows[i].value,
                  rows[i].on);
    /* no day given: the newest, so a row that ended is none and one that goes on is */
    assert_int_equal(mf_limit_for(&fx.job, MF_LIMIT_PAINT_LOADING, MF_DAY_NONE)->value, 1000);
    row->row.until = MF_DAY_NONE;
    assert_int_equal(mf_limit_for(&fx.job, MF_LIMIT_PAINT_LOADING, MF_DAY_NONE)->value, 500);
}

/* Whatever is in the book, the strictest decides and nothing looser is taken. */
static void strictest_of_many(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_add_local(&fx, MF_LIMIT_RETENTION_YEARS, MF_AS_FEDERAL, "5");
    fx_add_local(&fx, MF_LIMIT_RETENTION_YEARS, MF_AS_FEDERAL, "2"); /* came in by no import */
    fx_add_local(&fx, MF_LIMIT_RETENTION_YEARS, MF_AS_FEDERAL, "10");
    assert_int_equal(mf_limit_for(&fx.job, MF_LIMIT_RETENTION_YEARS, fx.house.start)->value, 10);
    mf_due due;
    mf_due_dates(&fx.job, &due);
    assert_int_equal(due.keep_until, day("2036-09-16")); /* completed 2026-09-16 */
    fx.house.place = "";
    mf_due_dates(&fx.job, &due);
    assert_int_equal(due.keep_until, day("2029-09-16")); /* 745.86(a): 3 years */
    assert_int_equal(mf_limit_for(NULL, MF_LIMIT_RETENTION_YEARS, fx.house.start)->value, 3);
}

/* ---- every question uses it ----------------------------------------------------------- */

enum { MAX_FINDINGS = 400 };
static mf_finding found[MAX_FINDINGS];

static const mf_finding *finding(const char *id, const char *why)
{
    mf_audit_ask question = {.job = &fx.job, .today = fx_day(FX_TODAY), .area = ""};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    assert_true(n <= MAX_FINDINGS);
    for (size_t i = 0; i < n; i++)
        if (strcmp(found[i].requirement->id, id) == 0 && strcmp(found[i].why, why) == 0 &&
            found[i].limit != NULL && strcmp(found[i].limit->place, "US-XX") == 0)
            return &found[i];
    fail_msg("%s: nothing says %s by the place", id, why);
    return NULL;
}

/* The good job meets the federal rule; under the invented place it falls short, and
 * the federal row is told beside it. */
static void decides_in_the_audit(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        mf_limit_id limit;
        const char *value, *why;
    } rows[] = {
        {"pamphlet-owner", MF_LIMIT_PAMPHLET_DAYS, "1", "notice-early"},
        {"floor-sheet", MF_LIMIT_FLOOR_SHEET, "10.01", "step-short"},
        {"ground-sheet", MF_LIMIT_GROUND_SHEET, "20", "step-done-to-barrier"}, /* at the line */
        {"margin", MF_LIMIT_CLEAN_MARGIN, "10.01", "step-short"},
        {"dust-level", MF_LIMIT_DUST_FLOOR, "4.9", "dust-at-or-above"},
        {"surface-verified", MF_LIMIT_SECTION_UNDIVIDED, "39.99", "section-unwiped"},
        {"handover-owner", MF_LIMIT_HANDOVER_DAYS, "3", "handover-late"},
        {"retention", MF_LIMIT_RETENTION_YEARS, "4", "retention-runs"},
        {"line-containment", MF_LIMIT_PROPERTY_LINE, "12", "step-done"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        fx_good(&fx);
        fx_add_local(&fx, rows[i].limit, MF_AS_FEDERAL, rows[i].value);
        const mf_finding *it = finding(rows[i].id, rows[i].why);
        CHECK_ROW(it->beside != NULL && strcmp(it->beside->place, "US") == 0, rows[i].id);
        CHECK_ROW(it->beside->id == rows[i].limit, rows[i].id);
    }
}

/* And where no finding names it. */
static void decides_elsewhere(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_add_local(&fx, MF_LIMIT_PAINT_LOADING, MF_AS_FEDERAL, "0.5");
    const mf_reading half = {.loading_ug_cm2 = 500, .on = fx.house.start};
    const mf_reading less = {.loading_ug_cm2 = 499, .on = fx.house.start};
    assert_int_equal(mf_reading_class_for(&fx.job, &half, NULL), MF_CLASS_POSITIVE);
    assert_int_equal(mf_reading_class_for(&fx.job, &less, NULL), MF_CLASS_NEGATIVE);
    assert_int_equal(mf_reading_class_for(NULL, &half, NULL), MF_CLASS_NEGATIVE);
    fx_add_local(&fx, MF_LIMIT_PAINT_WEIGHT, MF_AS_FEDERAL, "0.25%");
    const mf_chip chip = {.weight_ppm = 2500, .loading_ug_cm2 = MF_NUM_NONE, .on = fx.house.start};
    assert_int_equal(mf_chip_class_for(&fx.job, &chip), MF_CLASS_POSITIVE);
    assert_int_equal(mf_chip_class_for(NULL, &chip), MF_CLASS_NEGATIVE);
    fx_add_local(&fx, MF_LIMIT_COURSE_YEARS, MF_AS_FEDERAL, "2");
    /* course 2024-05-10; the card says 2029 */
    assert_int_equal(mf_certificate_last_day_for(&fx.job, &fx.certificate[1]), day("2026-05-10"));
    assert_null(mf_certified(&fx.job, "rosa", MF_DISC_RENOVATOR, fx.house.start, NULL));
    fx_add_local(&fx, MF_LIMIT_HEAT_GUN, MF_AS_FEDERAL, "700");
    const mf_practice gun = {.method = MF_METHOD_HEAT_GUN, .temp_f = 700, .on = fx.house.start};
    assert_true(mf_practice_refused(&fx.job, &gun));
    assert_false(mf_practice_refused(NULL, &gun));
    fx_add_local(&fx, MF_LIMIT_MAILING_DAYS, MF_AS_FEDERAL, "10");
    const mf_notice mailed = {
        .method = MF_DELIVERY_MAILED, .on = day("2026-09-05"), .signed_on = MF_DAY_NONE};
    assert_int_equal(mf_notice_check_for(&fx.job, &mailed, MF_ROLE_OWNER, day("2026-09-14")),
                     MF_NOTICE_TOO_LATE); /* 9 days */
    assert_int_equal(mf_notice_check_for(NULL, &mailed, MF_ROLE_OWNER, day("2026-09-14")),
                     MF_NOTICE_GOOD);
    fx_add_local(&fx, MF_LIMIT_SECTION_PART, MF_UP_TO, "20");
    assert_int_equal(mf_sections_for(NULL, 8000), 3);    /* 745.85(b)(1)(ii)(B): each below 40 */
    assert_int_equal(mf_sections_for(&fx.job, 8000), 4); /* each up to 20 */
    assert_int_equal(mf_sections_for(&fx.job, 8001), 5);
    assert_int_equal(mf_sections_for(&fx.job, 4000), 1); /* undivided up to 40 */
}

/* The line is near or not by what holds on the job's first day. Without a house, by the
 * federal 10 ft of today. */
static void line_by_the_start(void **state)
{
    (void)state;
    static const mf_area area = {.side = MF_SIDE_EXTERIOR, .line_ft_100 = 1200};
    const mf_step *step = mf_step_named("line-containment");
    fx_good(&fx);
    mf_local_limit *row = fx_add_local(&fx, MF_LIMIT_PROPERTY_LINE, MF_AS_FEDERAL, "12");
    row->row.until = fx.house.start;
    assert_true(mf_step_wanted(&fx.job, step, &area));
    row->row.until = fx.house.start - 1;
    assert_false(mf_step_wanted(&fx.job, step, &area));
    const mf_job nothing = {0};
    assert_false(mf_step_wanted(&nothing, step, &area));
}

/* A level that changes while the job runs: the day of sampling decides, and both
 * are told. 86 FR 983 until 2026-01-11, 89 FR 89416 from 2026-01-12. */
static void job_straddles_the_date(void **state)
{
    (void)state;
    static const struct {
        const char *sampled;
        int64_t level, beside;
        const char *why;
    } rows[] = {
        {"2026-01-10", 10000, 5000, "dust-below"},
        {"2026-01-11", 10000, 5000, "dust-below"},
        {"2026-01-12", 5000, 10000, "dust-at-or-above"},
        {"2026-01-13", 5000, 10000, "dust-at-or-above"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        fx_good(&fx);
        fx.house.start = day("2026-01-08");
        fx.completion.on = day("2026-01-14");
        fx.dust_sample[0].on = day(rows[i].sampled);
        fx.dust_sample[0].loading_ng_ft2 = 7000;
        mf_audit_ask question = {.job = &fx.job, .today = fx_day(FX_TODAY), .area = ""};
        size_t n = mf_audit(&question, found, MAX_FINDINGS), at = 0;
        while (at < n && strcmp(found[at].requirement->id, "dust-level") != 0)
            at++;
        CHECK_ROW(at < n && strcmp(found[at].why, rows[i].why) == 0, rows[i].sampled);
        CHECK_ROW(found[at].limit->value == rows[i].level, rows[i].sampled);
        CHECK_ROW(found[at].beside != NULL && found[at].beside->value == rows[i].beside,
                  rows[i].sampled);
    }
    fx_good(&fx); /* a job that lies on one side tells one */
    mf_audit_ask question = {.job = &fx.job, .today = fx_day(FX_TODAY), .area = ""};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    for (size_t i = 0; i < n; i++)
        assert_null(found[i].beside);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stricter_same_looser),
        cmocka_unit_test(comparison_decides),
        cmocka_unit_test(faults),
        cmocka_unit_test(looser_on_some_day),
        cmocka_unit_test(places),
        cmocka_unit_test(written),
        cmocka_unit_test(every_state),
        cmocka_unit_test(built_before),
        cmocka_unit_test(dated),
        cmocka_unit_test(strictest_of_many),
        cmocka_unit_test(decides_in_the_audit),
        cmocka_unit_test(decides_elsewhere),
        cmocka_unit_test(line_by_the_start),
        cmocka_unit_test(job_straddles_the_date),
    };
    return cmocka_run_group_tests_name("place", tests, NULL, NULL);
}
