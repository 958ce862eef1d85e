/* Cleaning verification, 40 CFR 745.85(b). Sequences are constructed; what each
 * must lead to is written by hand from sections 4 and 11 of the project's digest
 * of the rule. */
#include "core/given.h"

#include <mistfold/clean.h>
#include <string.h>

/* ---- sections: undivided up to 40 sq ft, else parts of less than 40 ------------------- */

static void test_sections(void **state)
{
    static const struct {
        int64_t size, sections;
    } cases[] = {{1, 1},    {3999, 1}, {4000, 1}, {4001, 2},  {4100, 2},        {7990, 2},
                 {7999, 2}, {8000, 3}, {8001, 3}, {12000, 4}, {MF_NUM_NONE, 1}, {0, 1}};
    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++)
        assert_int_equal(mf_sections_for(NULL, cases[i].size), cases[i].sections);
}

/* ---- sequences ----------------------------------------------------------------------- */

/* One event in short: 'L' looks clean, 'l' looks dirty, 'm' wet and matches, 'd'
 * wet and darker, 'r' cleaned again, 's' seen dry, 'x' dry cloth; small letters
 * f: with a fresh fold. */
typedef struct step {
    const char *when; /* "HH:MM", "+HH:MM" the day after, "" not said */
    char what;
    mf_cloth cloth;
    int section;
} step;

#define MAX_STEPS 12
typedef struct sequence {
    const char *name;
    mf_surface_kind kind;
    int64_t size;
    step steps[MAX_STEPS];
    mf_ver_state state; /* of section 1 */
    mf_ver_refusal refused;
    int wet, dry;
} sequence;

#define NEW  MF_CLOTH_NEW
#define FOLD MF_CLOTH_FRESH_FOLD
#define NO   MF_CLOTH_NONE

#include "core/verification_sequences.inc"

static const char letters[] = "LlmdrSx";

static mf_wipe_event event_of(char what)
{
    static const mf_wipe_event events[] = {MF_VER_LOOK_CLEAN, MF_VER_LOOK_DIRTY, MF_VER_WET_MATCH,
                                           MF_VER_WET_DARKER, MF_VER_RECLEANED,  MF_VER_SEEN_DRY,
                                           MF_VER_DRY_WIPE};
    const char *at = strchr(letters, what == 's' ? 'S' : what);
    assert_non_null(at);
    return events[at - letters];
}

static mf_verification verification_of(const step *it)
{
    bool next = it->when[0] == '+';
    bool look = it->what == 'L' || it->what == 'l';
    return (mf_verification){.src = {"v/1", "", "", ""},
                             .area = "A1",
                             .surface = look ? "" : "S",
                             .section = look ? 0 : it->section,
                             .event = event_of(it->what),
                             .cloth = it->cloth,
                             .person = "rosa",
                             .on = day(next ? "2026-09-16" : "2026-09-15"),
                             .at_minute = it->when[0] == '\0' ? MF_MINUTE_NONE
                                                              : minute(it->when + (next ? 1 : 0))};
}

typedef struct scene {
    mf_area area;
    mf_surface surface;
    mf_verification events[MAX_STEPS];
    mf_job job;
} scene;

static void scene_of(scene *out, mf_side side, mf_surface_kind kind, int64_t size,
                     const step *steps)
{
    *out = (scene){.area = {.id = "A1", .side = side, .openings = ""},
                   .surface = {.id = "S", .area = "A1", .kind = kind, .size_sqft_100 = size}};
    size_t n = 0;
    while (n < MAX_STEPS && steps[n].what != 0) {
        out->events[n] = verification_of(&steps[n]);
        n++;
    }
    out->job = (mf_job){.area = &out->area, .n_area = 1, .surface = &out->surface, .n_surface = 1};
    out->job.verification = out->events;
    out->job.n_verification = n;
}

static void test_sequences(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(sequences); i++) {
        const sequence *it = &sequences[i];
        scene s;
        mf_ver_section got;
        scene_of(&s, MF_SIDE_INTERIOR, it->kind, it->size, it->steps);
        mf_verification_replay(&s.job, &s.area, &s.surface, 1, &got);
        CHECK_ROW(got.state == it->state, it->name);
        CHECK_ROW(got.refused == it->refused, it->name);
        CHECK_ROW(got.wet == it->wet, it->name);
        CHECK_ROW(got.dry == it->dry, it->name);
        CHECK_ROW((strcmp(got.refused_entry, "v/1") == 0) == (it->refused != MF_VR_NONE), it->name);
    }
}

/* The whole wait by number: minutes since 1970 (date -u -d '2026-09-15 08:15' +%s / 60). */
static void test_wait_from(void **state)
{
    (void)state;
    static const step steps[MAX_STEPS] = {{"08:00", 'L', NO, 0},
                                          {"08:05", 'd', NEW, 1},
                                          {"08:10", 'r', NO, 1},
                                          {"08:15", 'd', NEW, 1},
                                          {"08:50", 's', NO, 1}};
    scene s;
    mf_ver_section got;
    scene_of(&s, MF_SIDE_INTERIOR, MF_SURFACE_SILL, 300, steps);
    mf_verification_replay(&s.job, &s.area, &s.surface, 1, &got);
    assert_int_equal(got.wait_from, 29824335);
    assert_int_equal(got.dry_seen, 29824370);
    assert_int_equal(got.last, 29824370);
    assert_true(got.looked);
}

/* The entry that counts is the one by which the section stands where it does: looking
 * again at what passed proves no more than the cloth did. */
static void test_evidence(void **state)
{
    (void)state;
    static const step steps[MAX_STEPS] = {{"08:00", 'L', NO, 0},
                                          {"08:05", 'm', NEW, 1},
                                          {"08:30", 'L', NO, 0},
                                          {"08:40", 'l', NO, 0}};
    static const char *const entries[] = {"look", "cloth", "look again", "dust"};
    static const char *const counts[] = {"", "look", "cloth", "cloth", "dust"};
    scene s;
    scene_of(&s, MF_SIDE_INTERIOR, MF_SURFACE_SILL, 300, steps);
    for (size_t i = 0; i < COUNT(entries); i++)
        s.events[i].src.entry = entries[i];
    for (size_t n = 0; n < COUNT(counts); n++) {
        mf_ver_section got;
        s.job.n_verification = n;
        mf_verification_replay(&s.job, &s.area, &s.surface, 1, &got);
        assert_string_equal(got.evidence, counts[n]);
    }
}

/* ---- may this event follow? ------------------------------------------------------------ */

static const step waiting[MAX_STEPS] = {
    {"08:00", 'L', NO, 0}, {"08:05", 'd', NEW, 1}, {"08:10", 'r', NO, 1}, {"08:15", 'd', NEW, 1}};
static const step looked[MAX_STEPS] = {{"08:00", 'L', NO, 0}};

typedef struct may_case {
    const char *name;
    const step *before;
    mf_side side;
    mf_surface_kind kind;
    step event;
    mf_ver_refusal refusal;
} may_case;

#define SILL MF_SURFACE_SILL
#define IN   MF_SIDE_INTERIOR

static const may_case may_cases[] = {
    {"first wet", looked, IN, SILL, {"08:05", 'm', NEW, 1}, MF_VR_NONE},
    {"the same minute", looked, IN, SILL, {"08:00", 'm', NEW, 1}, MF_VR_NONE},
    {"before the look", looked, IN, SILL, {"07:59", 'm', NEW, 1}, MF_VR_OUT_OF_ORDER},
    {"without a time, same day", looked, IN, SILL, {"", 'm', NEW, 1}, MF_VR_NONE},
    {"a look before the last event", waiting, IN, SILL, {"08:14", 'L', NO, 0}, MF_VR_OUT_OF_ORDER},
    {"a look in its minute", waiting, IN, SILL, {"08:15", 'L', NO, 0}, MF_VR_NONE},
    {"a look after it", waiting, IN, SILL, {"08:16", 'l', NO, 0}, MF_VR_NONE},
    {"dry cloth after 59 minutes", waiting, IN, SILL, {"09:14", 'x', NEW, 1}, MF_VR_DRY_TOO_SOON},
    {"dry cloth after 60, not seen dry", waiting, IN, SILL, {"09:15", 'x', NEW, 1}, MF_VR_NOT_DRY},
    {"dry cloth without a time", waiting, IN, SILL, {"", 'x', NEW, 1}, MF_VR_NO_TIME},
    {"third wet", waiting, IN, SILL, {"09:15", 'm', NEW, 1}, MF_VR_NO_THIRD_WET},
    {"seen dry", waiting, IN, SILL, {"08:40", 's', NO, 1}, MF_VR_NONE},
    {"section 2 of a sill", looked, IN, SILL, {"08:05", 'm', NEW, 2}, MF_VR_NO_SECTION},
    {"section 0", looked, IN, SILL, {"08:05", 'm', NEW, 0}, MF_VR_NO_SECTION},
    {"section 2 of 50 sq ft", looked, IN, MF_SURFACE_FLOOR, {"08:05", 'm', NEW, 2}, MF_VR_NONE},
    {"section 3 of 50 sq ft",
     looked,
     IN,
     MF_SURFACE_FLOOR,
     {"08:05", 'm', NEW, 3},
     MF_VR_NO_SECTION},
    {"fold on a floor",
     looked,
     IN,
     MF_SURFACE_FLOOR,
     {"08:05", 'm', FOLD, 1},
     MF_VR_NEEDS_NEW_CLOTH},
    {"a wipe outside", /* 745.85(b)(2): looking only */
     looked,
     MF_SIDE_EXTERIOR,
     SILL,
     {"08:05", 'm', NEW, 1},
     MF_VR_EXTERIOR},
    {"a look outside", looked, MF_SIDE_EXTERIOR, SILL, {"08:05", 'L', NO, 0}, MF_VR_NONE},
};

static void test_may(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(may_cases); i++) {
        const may_case *it = &may_cases[i];
        scene s;
        scene_of(&s, it->side, it->kind, 5000, it->before);
        mf_verification event = verification_of(&it->event);
        CHECK_ROW(mf_verification_may(&s.job, &event) == it->refusal, it->name);
    }
}

static void test_may_nowhere(void **state)
{
    (void)state;
    scene s;
    scene_of(&s, IN, SILL, 300, looked);
    mf_verification event = verification_of(&(step){"08:05", 'm', NEW, 1});
    event.surface = "none";
    assert_int_equal(mf_verification_may(&s.job, &event), MF_VR_NO_SECTION);
    event.surface = "S";
    event.area = "A9";
    assert_int_equal(mf_verification_may(&s.job, &event), MF_VR_NO_SECTION);
    event.area = "A1";
    s.surface.area = "A2";
    assert_int_equal(mf_verification_may(&s.job, &event), MF_VR_NO_SECTION);
}

/* ---- the area ------------------------------------------------------------------------------ */

static void test_area_inside(void **state)
{
    (void)state;
    static const step steps[MAX_STEPS] = {
        {"08:00", 'L', NO, 0}, {"08:05", 'm', NEW, 1}, {"+07:00", 'm', NEW, 2}};
    scene s;
    mf_ver_area got;
    scene_of(&s, IN, MF_SURFACE_FLOOR, 5000, steps);
    mf_verification_area(&s.job, &s.area, &got);
    assert_true(got.verified);
    assert_int_equal(got.n_sections, 2);
    assert_int_equal(got.n_clean, 2);
    assert_int_equal(got.wet, 2);
    assert_int_equal(got.verified_on, day("2026-09-16"));
    s.job.n_verification = 2; /* section 2 was never wiped */
    mf_verification_area(&s.job, &s.area, &got);
    assert_false(got.verified);
    assert_int_equal(got.n_clean, 1);
    assert_int_equal(got.verified_on, day("2026-09-15"));
    s.job.n_surface = 0; /* nothing to wipe is not clean */
    mf_verification_area(&s.job, &s.area, &got);
    assert_true(got.looked_clean);
    assert_false(got.verified);
}

/* Sections wiped in one minute: the last of them is told. */
static void test_area_evidence(void **state)
{
    (void)state;
    static const step steps[MAX_STEPS] = {
        {"08:00", 'L', NO, 0}, {"08:05", 'm', NEW, 1}, {"08:05", 'm', NEW, 2}};
    scene s;
    mf_ver_area got;
    scene_of(&s, IN, MF_SURFACE_FLOOR, 5000, steps);
    s.events[2].src.entry = "v/3";
    mf_verification_area(&s.job, &s.area, &got);
    assert_string_equal(got.evidence, "v/3");
}

static void test_area_outside(void **state)
{
    (void)state;
    static const step dirty[MAX_STEPS] = {{"08:00", 'L', NO, 0}, {"09:00", 'l', NO, 0}};
    scene s;
    mf_ver_area got;
    scene_of(&s, MF_SIDE_EXTERIOR, SILL, 300, looked);
    mf_verification_area(&s.job, &s.area, &got);
    assert_true(got.verified); /* 745.85(b)(2): visual only */
    scene_of(&s, MF_SIDE_EXTERIOR, SILL, 300, dirty);
    mf_verification_area(&s.job, &s.area, &got);
    assert_false(got.verified);
    s.job.n_verification = 0;
    mf_verification_area(&s.job, &s.area, &got);
    assert_false(got.verified);
    assert_int_equal(got.verified_on, MF_DAY_NONE);
    assert_string_equal(got.evidence, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sections),      cmocka_unit_test(test_sequences),
        cmocka_unit_test(test_wait_from),     cmocka_unit_test(test_evidence),
        cmocka_unit_test(test_may),           cmocka_unit_test(test_may_nowhere),
        cmocka_unit_test(test_area_inside),   cmocka_unit_test(test_area_outside),
        cmocka_unit_test(test_area_evidence),
    };
    return cmocka_run_group_tests_name("clean", tests, NULL, NULL);
}
