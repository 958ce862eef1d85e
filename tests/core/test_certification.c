/* What a certification of the record came before: 40 CFR 745.86(b)(6) has it of the work that was
 * done, which is what the entries hold. The job is fixture_job.h. */
#include "support/cmocka_all.h"
#include "support/fixture_job.h"

#include "core/seen.h"
#include <mistfold/audit.h>
#include <mistfold/kind.h>
#include <string.h>

static fixture fx;

static void says(mf_verdict verdict, const char *why)
{
    mf_finding found = {0};
    mf_certification_judge(&fx.job, &fx.certification[0], &found);
    assert_int_equal(found.verdict, verdict);
    assert_string_equal(found.why, why);
    assert_int_equal(mf_job_certified(&fx.job), verdict == MF_MET);
}

/* Of one device by the numbers of the entries, of two by their clocks. */
static void test_certified_before(void **state)
{
    static const struct {
        const char *tick, *at, *certification;
        bool outrun;
    } of[] = {
        {"office/9", "2026-09-20T08:00:00Z", "office/10", false},
        {"office/11", "2026-09-01T08:00:00Z", "office/10", true},
        {"truck/99", "2026-09-14T12:00:00Z", "office/10", false},
        {"truck/1", "2026-09-14T12:00:01Z", "office/10", true},
    };
    (void)state;
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        fx_good(&fx);
        mf_tick *tick = fx_tick(&fx, "A1", "mop");
        fx.certification[0].src.entry = of[i].certification;
        fx.certification[0].src.at = "2026-09-14T12:00:00Z";
        tick->src.entry = of[i].tick;
        tick->src.at = of[i].at;
        says(of[i].outrun ? MF_LACKING : MF_MET,
             of[i].outrun ? "certification-outrun" : "certification-signed");
    }
}

/* A correction of what was certified is a later word, too; one of another kind is not. */
static void test_certified_before_a_correction(void **state)
{
    static const char *const kinds[][2] = {{"verification", "certification-outrun"},
                                           {"opening", "certification-outrun"},
                                           {"component", "certification-outrun"},
                                           {"handover", "certification-signed"}};
    (void)state;
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        fx_good(&fx);
        fx.correction[0] = (mf_correction){.src = {"x/1", "2026-09-20T08:00:00Z", "rosa", ""},
                                           .target = "gone/1",
                                           .replaces = "gone/1",
                                           .settles = "",
                                           .kind = kinds[i][0],
                                           .reason = "never done",
                                           .before = "{}",
                                           .after = ""};
        fx.job.correction = fx.correction;
        fx.job.n_correction = 1;
        bool stands = strcmp(kinds[i][1], "certification-signed") == 0;
        says(stands ? MF_MET : MF_LACKING, kinds[i][1]);
    }
}

/* What a text tells of an entry: in one form alone; of any other it tells of nothing seen. */
static void test_seen(void **state)
{
    static const struct {
        const char *entry, *seen;
        bool has;
    } of[] = {
        {"truck/4", "office/9 truck/4", true},
        {"truck/5", "office/9 truck/4", false},
        {"truck/5", "", false},
        {"truck/5", "office/9", false},
        {"truck/5", "truck/12", true},
        {"truck/12", "truck/5", false},
        {"truck/5", "truc/9 truck-2/9", false},
        {"truck/5", "-/1 truck/5", true},
        {"truck/5", "tru/1 truck/5 trucks/1", true},
        {"truck/5", "truck/5 office/9", false}, /* in another order */
        {"truck/5", "truck/5 truck/5", false},
        {"truck/5", "truck/5 tru/1", false},
        {"truck/5", "office/9 truck/5 ", false},
        {"truck/5", "office/9  truck/5", false},
        {"truck/5", " truck/5", false},
        {"truck/5", "truck/05", false},
        {"truck/5", "truck/", false},
        {"truck/5", "office/ truck/5", false},
        {"truck/", "truck/5", false},
        {"truck/5", "truck 5", false},
        {"truck/5", "office/9, truck/5", false},
        {"truck/5", "truck/5 x", false},
        {"truck/5", "Truck/5", false},
        {"truck/5", "/5 truck/5", false},
        {"truck/5", "truck/999999999999999", true},
        {"truck/5", "truck/1000000000000000", false},
        {"truck", "truck/5", false},
        {"truck/5x", "truck/9", false},
        {"", "truck/5", false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
        assert_int_equal(mf_seen_has(of[i].seen, of[i].entry), of[i].has);
}

/* As if one device had logged all of it. */
static void of_the_office(void)
{
    size_t kinds, count;
    const mf_kind *kind = mf_kinds(&kinds);
    for (size_t k = 0; k < kinds; k++) {
        unsigned char *items = (unsigned char *)(uintptr_t)mf_kind_items(&fx.job, &kind[k], &count);
        for (size_t i = 0; i < count; i++)
            memcpy(items + i * kind[k].size, &(mf_src){"office/1", "", "rosa", ""}, sizeof(mf_src));
    }
}

/* What the device that certified did not have is not certified, though by the clocks it is older;
 * what it had, and is younger by them, is not either, as nobody knows which is wrong. */
static void test_certified_unseen(void **state)
{
    static const struct {
        const char *tick, *at, *seen, *why;
    } of[] = {
        {"truck/4", "2026-09-14T11:59:59Z", "office/9 truck/4", "certification-signed"},
        {"truck/5", "2026-09-14T11:59:59Z", "office/9 truck/4", "certification-unseen"},
        {"truck/5", "2026-09-14T12:00:01Z", "office/9 truck/4", "certification-outrun"},
        {"truck/4", "2026-09-14T12:00:01Z", "office/9 truck/4", "certification-outrun"},
        {"truck/5", "2026-09-14T11:59:59Z", "", "certification-signed"},
        {"truck/5", "2026-09-14T11:59:59Z", NULL, "certification-signed"},
        {"office/9", "2026-09-14T11:59:59Z", "truck/4", "certification-signed"},
        {"office/11", "2026-09-14T11:59:59Z", "truck/4", "certification-outrun"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        fx_good(&fx);
        of_the_office();
        mf_tick *tick = fx_tick(&fx, "A1", "mop");
        tick->src.entry = of[i].tick;
        tick->src.at = of[i].at;
        fx.certification[0].src = (mf_src){"office/10", "2026-09-14T12:00:00Z", "rosa", ""};
        fx.certification[0].seen = of[i].seen;
        says(strstr(of[i].why, "signed") != NULL ? MF_MET : MF_LACKING, of[i].why);
    }
}

/* The first that no clock tells of is named; all of them are counted. */
static void test_unseen_is_named(void **state)
{
    mf_finding found = {0};
    const mf_src *after[4];
    (void)state;
    fx_good(&fx);
    of_the_office();
    fx.assignment[0].src = (mf_src){"office/11", "2026-09-14T11:00:00Z", "rosa", ""};
    fx.tick[0].src = (mf_src){"truck/5", "2026-09-14T11:00:00Z", "rosa", ""};
    fx.tick[1].src = (mf_src){"truck/6", "2026-09-14T11:00:00Z", "rosa", ""};
    fx.certification[0].src = (mf_src){"office/10", "2026-09-14T12:00:00Z", "rosa", ""};
    fx.certification[0].seen = "office/9";
    mf_certification_judge(&fx.job, &fx.certification[0], &found);
    assert_string_equal(found.why, "certification-unseen");
    assert_string_equal(found.other, "truck/5");
    assert_int_equal(found.n1, 3);
    assert_int_equal(mf_certification_after(&fx.job, &fx.certification[0], after, 4), 3);
    assert_string_equal(after[0]->entry, "office/11");
}

static void corrected(const char *kind, const void *was, const void *now)
{
    fx.correction[0] = (mf_correction){.src = {"x/1", "2026-09-20T08:00:00Z", "rosa", ""},
                                       .target = "o/1",
                                       .replaces = "o/1",
                                       .settles = "",
                                       .kind = kind,
                                       .reason = "mistyped",
                                       .before = "{}",
                                       .after = "{}",
                                       .was = was,
                                       .now = now};
    fx.job.correction = fx.correction;
    fx.job.n_correction = 1;
}

/* What windows, doors and parts are, where and of what decides what had to be done: 745.86(b)(6)
 * was said of those on file. What was let alone, and what no answer is made of, was not. */
static void test_certified_before_a_part_changed(void **state)
{
    (void)state;
    fx_good(&fx);
    mf_opening door = fx.opening[0], taller = fx.opening[0];
    door.kind = MF_OPENING_DOOR;
    corrected("opening", &fx.opening[0], &door);
    says(MF_LACKING, "certification-outrun");
    taller.height_in = 70;
    corrected("opening", &fx.opening[0], &taller);
    says(MF_MET, "certification-signed");
    mf_component bare = fx.component[0], worded = fx.component[0];
    bare.painted = MF_NOT;
    corrected("component", &fx.component[0], &bare);
    says(MF_LACKING, "certification-outrun");
    worded.label = "the left one";
    corrected("component", &fx.component[0], &worded);
    says(MF_MET, "certification-signed");
    worded.affected = bare.affected = MF_NOT;
    corrected("component", &worded, &bare);
    says(MF_MET, "certification-signed");
    bare.affected = MF_YES;
    corrected("component", &worded, &bare);
    says(MF_LACKING, "certification-outrun");
    mf_area off = fx.area[0];
    off.called_off = fx_day("2026-09-13");
    corrected("area", &fx.area[0], &off);
    says(MF_LACKING, "certification-outrun");
    corrected("area", &off, &off);
    says(MF_MET, "certification-signed");
}

/* A window of which nothing was on file. */
static void test_certified_before_a_part_was_listed(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.opening[0].src.at = "2026-09-20T08:00:00Z";
    says(MF_LACKING, "certification-outrun");
    fx_good(&fx);
    fx.component[0].src.at = "2026-09-20T08:00:00Z";
    says(MF_LACKING, "certification-outrun");
    fx.component[0].affected = MF_NOT;
    says(MF_MET, "certification-signed");
}

/* A plan, a step of the firm's own, and what was taken down when all was clean: none of them is
 * what is certified. */
static void test_not_of_the_work(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.practice[0].src.at = "2026-09-20T08:00:00Z";
    fx.practice[0].planned = MF_YES;
    says(MF_MET, "certification-signed");
    fx_good(&fx);
    mf_tick *sign = fx_tick(&fx, "A1", "signs");
    mf_tick down = *sign;
    down.state = MF_TICK_UNDONE;
    down.on = fx_day("2026-09-20");
    down.at_minute = MF_MINUTE_NONE;
    down.src.at = "2026-09-20T08:00:00Z";
    fx.tick[fx.job.n_tick++] = down;
    says(MF_MET, "certification-signed");
    fx.tick[fx.job.n_tick - 1].on = fx_day("2026-09-14"); /* it was torn off while work went on */
    says(MF_LACKING, "certification-outrun");
}

/* Of a job whose end nobody logged nothing is certified. */
static void test_not_completed(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.job.n_completion = 0;
    says(MF_LACKING, "completion-none");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_certified_before),
        cmocka_unit_test(test_certified_before_a_correction),
        cmocka_unit_test(test_seen),
        cmocka_unit_test(test_certified_unseen),
        cmocka_unit_test(test_unseen_is_named),
        cmocka_unit_test(test_certified_before_a_part_changed),
        cmocka_unit_test(test_certified_before_a_part_was_listed),
        cmocka_unit_test(test_not_of_the_work),
        cmocka_unit_test(test_not_completed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
