/* The questions asked of a whole job: gates, what does not apply, due dates, and
 * what a finding says. Expected values by hand from 40 CFR 745.82-745.90 as in the
 * project's digest of the rule; jobs are constructed. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <string.h>

enum { MAX_FINDINGS = 400 };

static fixture fx;
static mf_finding found[MAX_FINDINGS];

#define GATE(name) (1u << MF_GATE_##name)

static size_t ask(const char *today, unsigned gates, const char *area)
{
    mf_audit_ask question = {.job = &fx.job, .today = fx_day(today), .gates = gates, .area = area};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    assert_true(n <= MAX_FINDINGS);
    return n;
}

static bool is_yes(size_t n)
{
    return mf_audit_answer(found, n, 0) == MF_ANSWER_YES;
}

static const mf_finding *one(size_t n, const char *id, const char *subject)
{
    for (size_t i = 0; i < n; i++)
        if (strcmp(found[i].requirement->id, id) == 0 &&
            (subject == NULL || strcmp(found[i].subject, subject) == 0))
            return &found[i];
    fail_msg("no finding %s of %s", id, subject == NULL ? "anything" : subject);
    return NULL;
}

static size_t count_of(size_t n, const char *id)
{
    size_t count = 0;
    for (size_t i = 0; i < n; i++)
        count += strcmp(found[i].requirement->id, id) == 0;
    return count;
}

static void says(const mf_finding *it, mf_verdict verdict, const char *why)
{
    assert_string_equal(it->why, why);
    assert_int_equal(it->verdict, verdict);
}

/* ---- gates --------------------------------------------------------------------------- */

static void test_gate_names(void **state)
{
    (void)state;
    static const char *const names[] = {"rule", "demo", "signs", "handover", "inspection"};
    for (int i = 0; i < MF_GATE_COUNT; i++) {
        assert_string_equal(mf_gate_name((mf_gate)i), names[i]);
        assert_int_equal(mf_gate_named(names[i]), i);
    }
    assert_int_equal(mf_gate_named("Demo"), MF_GATE_COUNT);
    assert_int_equal(mf_gate_named(NULL), MF_GATE_COUNT);
}

/* Every gate of the good job says yes; each asks only its own requirements. */
static void test_gates(void **state)
{
    (void)state;
    fx_good(&fx);
    for (unsigned gate = 0; gate < MF_GATE_COUNT; gate++) {
        size_t n = ask(FX_TODAY, 1u << gate, "");
        assert_true(n > 0);
        assert_true(is_yes(n));
        for (size_t i = 0; i < n; i++)
            assert_true((found[i].requirement->gates & 1u << gate) != 0);
    }
}

/* Which question a lack bears on. */
typedef struct gate_case {
    const char *step, *area;
    bool demo, signs, inspection;
} gate_case;

static void test_steps_bear_on_their_gate(void **state)
{
    (void)state;
    static const gate_case cases[] = {
        {"floor-sheet", "A1", true, false, true},      /* before demo */
        {"waste-daily", "A1", false, true, true},      /* while it goes on */
        {"mop", "A1", false, true, true},              /* before the signs come down */
        {"waste-transport", "A1", false, false, true}, /* signs may come down before the ride */
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        fx_good(&fx);
        fx_tick(&fx, cases[i].area, cases[i].step)->state = MF_TICK_UNDONE;
        size_t n = ask(FX_TODAY, GATE(DEMO), "");
        CHECK_ROW(is_yes(n) == !cases[i].demo, cases[i].step);
        n = ask(FX_TODAY, GATE(SIGNS), "");
        CHECK_ROW(is_yes(n) == !cases[i].signs, cases[i].step);
        n = ask(FX_TODAY, GATE(INSPECTION), "");
        CHECK_ROW(is_yes(n) == !cases[i].inspection, cases[i].step);
    }
}

/* Before anything was done: demo no, and what is owed later is neither given nor lacking. */
static void test_fresh_job(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.job.n_tick = fx.job.n_verification = fx.job.n_practice = 0;
    fx.job.n_completion = fx.job.n_invoice = fx.job.n_handover = 0;
    size_t n = ask("2026-09-10", GATE(DEMO), "");
    assert_false(is_yes(n));
    says(one(n, "signs", "A1"), MF_LACKING, "step-open");
    n = ask("2026-09-10", GATE(HANDOVER), "");
    assert_int_equal(mf_audit_answer(found, n, GATE(HANDOVER)), MF_ANSWER_NOT_YET);
    says(one(n, "handover-owner", "owner"), MF_PENDING, "handover-when-completed");
    assert_int_equal(mf_audit_due(found, n), MF_DAY_NONE);
}

/* ---- the walk ---------------------------------------------------------------------------- */

static void test_cap(void **state)
{
    (void)state;
    fx_good(&fx);
    mf_audit_ask question = {.job = &fx.job, .today = fx_day(FX_TODAY), .area = NULL};
    size_t n = ask(FX_TODAY, 0, "");
    assert_int_equal(mf_audit(&question, NULL, 0), n);
    mf_finding few[3];
    memset(few, 0x5a, sizeof few);
    mf_finding guard = few[2];
    assert_int_equal(mf_audit(&question, few, 2), n);
    assert_memory_equal(&few[2], &guard, sizeof guard);
    assert_ptr_equal(few[0].requirement, found[0].requirement);
}

/* In the order of the requirements, each at least once, and nothing left NULL. */
static void test_order(void **state)
{
    (void)state;
    fx_good(&fx);
    size_t n = ask(FX_TODAY, 0, ""), n_all, at = 0;
    const mf_requirement *const *all = mf_requirements(&n_all);
    assert_true(n_all >= 35);
    for (size_t i = 0; i < n; i++) {
        if (found[i].requirement != all[at])
            at++;
        assert_ptr_equal(found[i].requirement, all[at]);
        assert_non_null(found[i].why);
        assert_non_null(found[i].subject);
        assert_non_null(found[i].evidence);
    }
    assert_int_equal(at, n_all - 1);
}

static void test_area_filter(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_tick(&fx, "A1", "signs")->state = MF_TICK_UNDONE;
    size_t n = ask(FX_TODAY, GATE(DEMO), "A3");
    assert_true(is_yes(n)); /* what A1 lacks does not stop A3 */
    assert_int_equal(count_of(n, "signs"), 1);
    says(one(n, "ground-sheet", ""), MF_NOT_DUE, "step-not-called-for");
    assert_int_equal(count_of(n, "paint-finding"), 1);
    n = ask(FX_TODAY, GATE(DEMO), "A1");
    assert_false(is_yes(n));
    n = ask(FX_TODAY, GATE(DEMO), "A9");
    says(one(n, "areas-listed", "A9"), MF_LACKING, "area-unknown");
}

/* ---- not covered, emergency ---------------------------------------------------------------- */

/* 745.82: only the records of why it is not covered can be lacking. */
static void test_not_covered(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.house.year_built = 1978;
    fx.job.n_tick = fx.job.n_notice = fx.job.n_certificate = 0;
    size_t n = ask(FX_TODAY, 0, "");
    assert_true(is_yes(n));
    says(one(n, "covered", ""), MF_MET, "cover-built-later");
    says(one(n, "signs", ""), MF_NOT_DUE, "not-covered");
    says(one(n, "handover-owner", ""), MF_NOT_DUE, "not-covered");
    fx.kit_test[0].maker = ""; /* 745.86(b)(1)(ii) holds all the same */
    n = ask(FX_TODAY, GATE(INSPECTION), "");
    says(one(n, "kit-record", NULL), MF_LACKING, "kit-no-maker");
    assert_false(is_yes(n));
}

/* 745.82(a): all free, by chip, kit and determination; the evidence must be on file. */
static void test_all_free(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.job.n_reading = 0;
    fx.kit_test[0].result = MF_RES_NEGATIVE;
    fx.component[0].affected = MF_NOT;
    size_t n = ask(FX_TODAY, 0, "");
    const mf_finding *it = one(n, "covered", "");
    says(it, MF_MET, "cover-all-free");
    assert_int_equal(it->n1, 3);
    assert_int_equal(it->n2, 3);
    fx.determination[0].firm_has_copy = MF_NOT; /* then it is covered again */
    n = ask(FX_TODAY, 0, "");
    says(one(n, "covered", ""), MF_MET, "cover-built-before");
}

/* 745.82(b), 745.86(b)(6): nothing falls away until somebody wrote down what happened. */
static void test_emergency(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.house.emergency = MF_YES;
    fx.house.note = "a window fell out in a storm";
    fx.job.n_notice = 0;
    size_t n = ask(FX_TODAY, GATE(DEMO), "");
    says(one(n, "pamphlet-owner", "owner"), MF_LACKING, "notice-none");
    says(one(n, "emergency-relief", NULL), MF_WARNING, "emergency-by-hand");
    fx_tick(&fx, "A1", "signs")->state = MF_TICK_UNDONE;
    n = ask(FX_TODAY, GATE(DEMO), "");
    says(one(n, "signs", "A1"), MF_LACKING, "step-undone-over");
}

/* 745.84(a)(2): an owner who lives there is told once, as owner. */
static void test_owner_lives_there(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.house.owner_occupied = MF_YES;
    fx_drop_party(&fx, "tenant");
    size_t n = ask(FX_TODAY, 0, "");
    assert_true(is_yes(n));
    fx.house.owner_occupied = MF_UNKNOWN; /* not known: the occupant must be told */
    n = ask(FX_TODAY, 0, "");
    says(one(n, "parties-named", ""), MF_LACKING, "party-no-occupant");
}

/* ---- what a finding says -----------------------------------------------------------------------
 */

static void numbers(const mf_finding *it, mf_unit unit, int64_t n1, int64_t n2, mf_limit_id limit)
{
    assert_int_equal(it->unit, unit);
    assert_int_equal(it->n1, n1);
    assert_int_equal(it->n2, n2);
    assert_non_null(it->limit);
    assert_int_equal(it->limit->id, limit);
}

static void test_notice_numbers(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_notice(&fx, "owner")->on = fx_notice(&fx, "owner")->signed_on = fx_day("2026-07-15");
    size_t n = ask(FX_TODAY, GATE(DEMO), "");
    const mf_finding *it = one(n, "pamphlet-owner", "owner");
    says(it, MF_LACKING, "notice-early");
    assert_int_equal(it->d1, fx_day("2026-07-15"));
    assert_int_equal(it->d2, fx_day("2026-09-14"));
    numbers(it, MF_UNIT_DAYS, 60, 61, MF_LIMIT_PAMPHLET_DAYS); /* R-EDU-60 */
    assert_string_equal(it->evidence, "n/1");
}

static void test_step_numbers(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_tick(&fx, "A1", "floor-sheet")->measured_ft_100 = 590;
    size_t n = ask(FX_TODAY, GATE(DEMO), "");
    const mf_finding *it = one(n, "floor-sheet", "A1");
    says(it, MF_LACKING, "step-short");
    numbers(it, MF_UNIT_FT_100, 590, 600, MF_LIMIT_FLOOR_SHEET); /* 745.85(a)(2)(i)(D) */
    it = one(n, "line-containment", "A2");
    numbers(it, MF_UNIT_FT_100, 1000, 1000, MF_LIMIT_PROPERTY_LINE); /* (ii)(D), inclusive */
    fx_tick(&fx, "A1", "floor-sheet")->state = MF_TICK_NOT_NEEDED;
    fx_tick(&fx, "A1", "floor-sheet")->ground = MF_GROUND_IMPOSSIBLE;
    fx_tick(&fx, "A1", "floor-sheet")->reason = "the floor itself comes out";
    n = ask(FX_TODAY, GATE(DEMO), "");
    says(one(n, "floor-sheet", "A1"), MF_WARNING, "step-excused"); /* R-IMPOSS */
    fx_tick(&fx, "A1", "ducts")->renovator = "";
    n = ask(FX_TODAY, GATE(DEMO), "");
    says(one(n, "ducts", "A1"), MF_LACKING, "step-no-renovator"); /* 745.90(b)(3) */
}

static void test_dust_numbers(void **state)
{
    (void)state;
    fx_good(&fx);
    const mf_dust_sample others[] = {fx.dust_sample[1], fx.dust_sample[2], fx.dust_sample[3]};
    fx.job.n_dust_sample = 1; /* the floor */
    fx.dust_sample[0].loading_ng_ft2 = 5000;
    size_t n = ask(FX_TODAY, GATE(SIGNS), "");
    numbers(one(n, "dust-level", NULL), MF_UNIT_NG_FT2, 5000, 5000, MF_LIMIT_DUST_FLOOR);
    fx.dust_sample[0].on = fx_day("2026-01-11"); /* the day before 5/40/100: 10 */
    n = ask(FX_TODAY, GATE(SIGNS), "");
    says(one(n, "dust-level", NULL), MF_MET, "dust-below");
    fx.dust_sample[0].on = fx_day("2026-09-15");
    mf_dust_sample again = fx.dust_sample[0]; /* cleaned and sampled again */
    again.on = fx_day("2026-09-16");
    again.loading_ng_ft2 = 1000;
    fx_add_sample(&fx, again);
    fx_tick(&fx, "A3", "carpet")->on = fx_day("2026-09-16");
    fx_tick(&fx, "A3", "divider")->on = fx_day("2026-09-16");
    fx.tick[fx.job.n_tick] = *fx_tick(&fx, "A3", "waste-daily");
    fx.tick[fx.job.n_tick].at_minute = MF_MINUTE_NONE;
    fx.tick[fx.job.n_tick++].on = fx_day("2026-09-16"); /* of the plastic that came down */
    n = ask(FX_TODAY, GATE(SIGNS), "");
    assert_int_equal(count_of(n, "dust-level"), 1);
    says(one(n, "dust-level", NULL), MF_MET, "dust-below");
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        fx_add_sample(&fx, others[i]);
    assert_true(is_yes(ask(FX_TODAY, GATE(SIGNS), "")));
}

/* 745.85(c)(1): a sample that nothing requires does not replace wiping. */
static void test_voluntary_sample(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.job.n_dust_sample = 1; /* the floor */
    fx.dust_sample[0].required = MF_UNKNOWN;
    fx.dust_sample[0].loading_ng_ft2 = 9000;
    size_t n = ask(FX_TODAY, GATE(SIGNS), "A3");
    says(one(n, "dust-level", NULL), MF_WARNING, "dust-at-or-above");
    says(one(n, "surfaces-listed", "A3"), MF_LACKING, "sills-missing");
}

static void test_section_numbers(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.surface[1].size_sqft_100 = 8000; /* 80 sq ft: three sections, only one wiped */
    size_t n = ask(FX_TODAY, GATE(SIGNS), "");
    const mf_finding *it = one(n, "surface-verified", "floor");
    says(it, MF_LACKING, "section-unwiped");
    numbers(it, MF_UNIT_COUNT, 2, 3, MF_LIMIT_SECTION_UNDIVIDED);
    it = one(n, "verification-record", "A1");
    assert_int_equal(it->n1, 2); /* wet cloths */
    assert_int_equal(it->n2, 0); /* dry cloths */
}

/* ---- corrections, certificates over the years --------------------------------------------------
 */

static void test_contradiction_mended(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.correction[1] = fx.correction[0];
    fx.correction[1].src.entry = "tablet/9";
    fx.correction[1].after = "{\"size\":4100}";
    fx.job.n_correction = 2;
    size_t n = ask(FX_TODAY, GATE(INSPECTION), "");
    assert_int_equal(count_of(n, "corrections-agree"), 2);
    says(one(n, "corrections-agree", "s/2"), MF_LACKING, "correction-contradicted");
    fx.correction[2] = fx.correction[1]; /* the tablet's line now says the same */
    fx.correction[2].src.entry = "tablet/12";
    fx.correction[2].replaces = "tablet/9";
    fx.correction[2].after = fx.correction[0].after;
    fx.job.n_correction = 3;
    n = ask(FX_TODAY, GATE(INSPECTION), "");
    says(one(n, "corrections-agree", "s/2"), MF_MET, "correction-alone");
}

/* Years later the certificates have lapsed; on the days of the job they had not. */
static void test_years_later(void **state)
{
    (void)state;
    fx_good(&fx);
    size_t n = ask("2029-09-16", 0, "");
    assert_true(is_yes(n));
    const mf_finding *it = one(n, "retention", "");
    says(it, MF_MET, "retention-runs");
    assert_int_equal(it->d1, fx_day("2029-09-16")); /* 3 years, 745.86(a) */
    fx.job.n_completion = 0;
    n = ask("2029-09-16", GATE(DEMO), ""); /* but work may not go on today */
    says(one(n, "firm-certified", ""), MF_LACKING, "certificate-lapsed");
}

/* 745.90(b)(2): on the first morning is before the tasks, a day later is not. */
static void test_trained_on_the_day(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.training[0].on = fx_day("2026-09-14");
    says(one(ask(FX_TODAY, GATE(DEMO), ""), "worker-trained", "lee"), MF_MET, "training-given");
    fx.training[0].trainer = "lee"; /* not a certified renovator */
    says(one(ask(FX_TODAY, GATE(DEMO), ""), "worker-trained", "lee"), MF_LACKING,
         "trainer-not-certified");
}

/* 745.86(b)(6): after the work, by a renovator assigned to it. */
static void test_certification(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.certification[0].on = fx_day("2026-09-15");
    says(one(ask(FX_TODAY, 0, ""), "certification", "rosa"), MF_LACKING, "certification-early");
    fx.job.n_certification = 0;
    says(one(ask(FX_TODAY, 0, ""), "certification", ""), MF_LACKING, "certification-none");
}

/* ---- due dates
 * ------------------------------------------------------------------------------------ */

typedef struct due_case {
    const char *completed, *invoiced, *handover, *keep_until;
} due_case;

static void test_due_dates(void **state)
{
    (void)state;
    static const due_case cases[] = {
        {"2026-03-01", NULL, "2026-03-31", "2029-03-01"}, /* 30 days; 3 years */
        {"2026-03-01", "2026-03-10", "2026-03-10", "2029-03-01"},
        {"2026-03-01", "2026-03-31", "2026-03-31", "2029-03-01"},
        {"2026-03-01", "2026-04-01", "2026-03-31", "2029-03-01"},
        {"2028-02-29", NULL, "2028-03-30", "2031-03-01"}, /* 29 Feb: through 1 March */
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        fx_good(&fx);
        mf_due due;
        fx.job.n_tick = fx.job.n_practice = fx.job.n_verification = fx.job.n_dust_sample = 0;
        fx.completion.on = fx_day(cases[i].completed);
        fx.job.n_invoice = cases[i].invoiced == NULL ? 0 : 1;
        if (cases[i].invoiced != NULL)
            fx.invoice.on = fx_day(cases[i].invoiced);
        mf_due_dates(&fx.job, &due);
        CHECK_ROW(due.handover == fx_day(cases[i].handover), cases[i].completed);
        CHECK_ROW(due.keep_until == fx_day(cases[i].keep_until), cases[i].completed);
    }
    mf_due due;
    fx_good(&fx); /* work shown on 2026-09-16, completed on the 14th: 745.86(c)(1), (a) */
    fx.completion.on = fx_day("2026-09-14");
    fx.job.n_invoice = 0;
    mf_due_dates(&fx.job, &due);
    assert_int_equal(due.handover, fx_day("2026-10-14"));
    assert_int_equal(due.keep_until, fx_day("2029-09-16"));
    fx_good(&fx);
    fx.job.n_completion = 0;
    mf_due_dates(&fx.job, &due);
    assert_int_equal(due.handover, fx_day("2026-09-20")); /* the invoice's day */
    assert_int_equal(due.keep_until, MF_DAY_NONE);
    fx.job.n_invoice = 0;
    mf_due_dates(&fx.job, &due);
    assert_int_equal(due.handover, MF_DAY_NONE);
}

/* 745.86(c)(1): due 2026-09-20, the day of the invoice. */
static void test_handover_days(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_drop_handover(&fx, "owner");
    const mf_finding *it = one(ask("2026-09-20", GATE(HANDOVER), ""), "handover-owner", "owner");
    says(it, MF_PENDING, "handover-due");
    assert_int_equal(it->d2, fx_day("2026-09-20"));
    assert_int_equal(mf_audit_answer(it, 1, GATE(HANDOVER)), MF_ANSWER_NOT_YET);
    assert_int_equal(mf_audit_due(it, 1), fx_day("2026-09-20"));
    it = one(ask("2026-09-21", GATE(HANDOVER), ""), "handover-owner", "owner");
    says(it, MF_LACKING, "handover-overdue");
    assert_int_equal(it->limit->id, MF_LIMIT_HANDOVER_DAYS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_gate_names),
        cmocka_unit_test(test_gates),
        cmocka_unit_test(test_steps_bear_on_their_gate),
        cmocka_unit_test(test_fresh_job),
        cmocka_unit_test(test_cap),
        cmocka_unit_test(test_order),
        cmocka_unit_test(test_area_filter),
        cmocka_unit_test(test_not_covered),
        cmocka_unit_test(test_all_free),
        cmocka_unit_test(test_emergency),
        cmocka_unit_test(test_owner_lives_there),
        cmocka_unit_test(test_notice_numbers),
        cmocka_unit_test(test_step_numbers),
        cmocka_unit_test(test_dust_numbers),
        cmocka_unit_test(test_voluntary_sample),
        cmocka_unit_test(test_section_numbers),
        cmocka_unit_test(test_contradiction_mended),
        cmocka_unit_test(test_years_later),
        cmocka_unit_test(test_trained_on_the_day),
        cmocka_unit_test(test_certification),
        cmocka_unit_test(test_due_dates),
        cmocka_unit_test(test_handover_days),
    };
    return cmocka_run_group_tests_name("audit", tests, NULL, NULL);
}
