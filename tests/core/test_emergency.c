/* Emergencies: what is excused, what never is, what must be written down.
 * 40 CFR 745.82(b), 745.86(b)(6); R-EMG-* of the digest of the rule. And the
 * cautions of 29 CFR 1926.62(d)(2). Jobs are constructed. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <mistfold/contain.h>
#include <mistfold/emergency.h>
#include <string.h>

enum { MAX_FINDINGS = 400 };

static fixture fx;
static mf_finding found[MAX_FINDINGS];
static size_t n_found;

static void ask(void)
{
    mf_audit_ask question = {.job = &fx.job, .today = fx_day(FX_TODAY), .area = ""};
    n_found = mf_audit(&question, found, MAX_FINDINGS);
    assert_true(n_found <= MAX_FINDINGS);
}

/* The first finding of the requirement that is not MET; NULL when all are. */
static const mf_finding *open_of(const char *id)
{
    for (size_t i = 0; i < n_found; i++)
        if (strcmp(found[i].requirement->id, id) == 0 && found[i].verdict != MF_MET)
            return &found[i];
    return NULL;
}

static void undo(const char *area, const char *step)
{
    fx_tick(&fx, area, step)->state = MF_TICK_UNDONE;
}

static void cleaned_by(const char *who)
{
    for (size_t i = 0; i < fx.job.n_tick; i++)
        if (mf_step_named(fx.tick[i].step)->phase == MF_PHASE_CLEAN)
            fx.tick[i].person = who;
}

/* Leaves undone what each waiver is about. */
static void leave(mf_waiver waiver)
{
    switch (waiver) {
    case MF_WAIVE_PAMPHLET:
        fx.job.n_notice = 0;
        break;
    case MF_WAIVE_SIGNS:
        undo("A1", "signs");
        break;
    case MF_WAIVE_CONTAINMENT:
        undo("A1", "floor-sheet");
        break;
    case MF_WAIVE_WASTE:
        undo("A1", "waste-daily");
        break;
    case MF_WAIVE_TRAINING:
        fx.job.n_training = 0;
        cleaned_by("rosa"); /* a certified renovator: of cleaning nobody is excused */
        break;
    case MF_WAIVE_CERTIFICATION:
        fx.certificate[0].expires = fx_day("2026-09-13"); /* the firm's */
        break;
    case MF_WAIVER_COUNT:
        break;
    }
}

typedef struct waiver_case {
    mf_waiver waiver;
    const char *name, *requirement;
} waiver_case;

static const waiver_case waivers[] = {
    {MF_WAIVE_PAMPHLET, "pamphlet", "pamphlet-owner"},           /* 745.84 */
    {MF_WAIVE_SIGNS, "signs", "signs"},                          /* 745.85(a)(1) */
    {MF_WAIVE_CONTAINMENT, "containment", "floor-sheet"},        /* 745.85(a)(2) */
    {MF_WAIVE_WASTE, "waste", "waste-daily"},                    /* 745.85(a)(4) */
    {MF_WAIVE_TRAINING, "training", "worker-trained"},           /* 745.90(b)(2) */
    {MF_WAIVE_CERTIFICATION, "certification", "firm-certified"}, /* 745.89(a) */
};

/* R-EMG-EASE: excused when the entry says so, and the entry is named; lacking when
 * it does not. */
static void sudden_event(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(waivers); i++) {
        const waiver_case *c = &waivers[i];
        assert_string_equal(mf_waiver_name(c->waiver), c->name);
        fx_good(&fx);
        leave(c->waiver);
        fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, c->name, "open to the rain");
        ask();
        const mf_finding *it = open_of(c->requirement);
        CHECK_ROW(it != NULL && it->verdict == MF_NOT_DUE, c->name);
        CHECK_ROW(strcmp(it->why, "emergency") == 0, c->name);
        CHECK_ROW(strcmp(it->evidence, "em/1") == 0, c->name);
        CHECK_ROW(mf_audit_answer(found, n_found, 0) == MF_ANSWER_YES, c->name);
        fx.emergency[0].waived = "";
        ask();
        it = open_of(c->requirement);
        bool told = c->waiver == MF_WAIVE_PAMPHLET; /* 745.84 never applies to an emergency */
        CHECK_ROW(it != NULL && it->verdict == (told ? MF_NOT_DUE : MF_LACKING), c->name);
    }
}

/* R-EMG-STAY (certified renovators or those trained by 745.90(b)(2) clean): untrained people may be
 * excused of everything but the cleaning. */
static void untrained_cleaning(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.job.n_training = 0;
    fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, "training", "open to the rain");
    ask();
    const mf_finding *it = open_of("cleaned-by-crew");
    assert_true(it != NULL && it->verdict == MF_LACKING);
    assert_string_equal(it->why, "cleaned-untrained");
    assert_string_equal(it->subject, "lee");
}

/* What is no waiver has no name; where there is no house and no entry none is claimed. */
static void nothing_claimed(void **state)
{
    (void)state;
    const mf_job nothing = {0};
    assert_string_equal(mf_waiver_name(MF_WAIVER_COUNT), "");
    assert_int_equal(mf_waiver_named("cleaning", 8), MF_WAIVER_COUNT);
    assert_false(mf_emergency_claimed(&nothing));
}

/* R-EMG-EBL: excused from the pamphlet duties alone. */
static void blood_lead(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(waivers); i++) {
        const waiver_case *c = &waivers[i];
        bool pamphlet = c->waiver == MF_WAIVE_PAMPHLET;
        fx_good(&fx);
        leave(c->waiver);
        fx_add_emergency(&fx, MF_CAUSE_BLOOD_LEAD, c->name, "a child of the household");
        ask();
        const mf_finding *it = open_of(c->requirement);
        CHECK_ROW(it != NULL && it->verdict == (pamphlet ? MF_NOT_DUE : MF_LACKING), c->name);
        it = open_of("emergency-limits");
        CHECK_ROW((it == NULL) == pamphlet, c->name);
        if (it != NULL)
            CHECK_ROW(strcmp(it->why, "emergency-pamphlet-only") == 0, c->name);
    }
}

/* R-EMG-STAY: cleaning, verification and records stay; nor are methods allowed. */
static void never_waived(void **state)
{
    (void)state;
    static const char *const names[] = {"cleaning", "verification", "records", "methods", "Signs"};
    for (size_t i = 0; i < COUNT(names); i++) {
        fx_good(&fx);
        fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, names[i], "open to the rain");
        ask();
        const mf_finding *it = open_of("emergency-limits");
        CHECK_ROW(it != NULL && it->verdict == MF_LACKING, names[i]);
        CHECK_ROW(strcmp(it->why, "emergency-never") == 0, names[i]);
    }
    static const struct {
        const char *id, *area, *step;
    } steps[] = {{"mop", "A1", "mop"}, {"walls", "A1", "walls"}, {"chips", "A1", "chips"}};
    for (size_t i = 0; i < COUNT(steps); i++) {
        fx_good(&fx);
        undo(steps[i].area, steps[i].step);
        fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT,
                         "pamphlet,signs,containment,waste,training,certification", "flood");
        ask();
        CHECK_ROW(open_of(steps[i].id) != NULL && open_of(steps[i].id)->verdict == MF_LACKING,
                  steps[i].id);
    }
    fx_good(&fx);
    fx.verification[2].event = MF_VER_WET_DARKER;
    fx.practice[0].method = MF_METHOD_OPEN_FLAME;
    fx.job.n_certification = 0;
    fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, "pamphlet,signs,containment,waste", "flood");
    ask();
    assert_int_equal(open_of("surface-verified")->verdict, MF_LACKING);
    assert_int_equal(open_of("method-allowed")->verdict, MF_LACKING);
    assert_int_equal(open_of("certification")->verdict, MF_LACKING);
}

/* What is waived but was done all the same is shown as done. */
static void done_all_the_same(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, "pamphlet,signs", "flood");
    ask();
    assert_null(open_of("signs"));
    assert_null(open_of("pamphlet-owner"));
}

/* R-EMG-DOC: the nature, what was not followed, and why; a person judges how far. */
static void written_down(void **state)
{
    (void)state;
    fx_good(&fx);
    fx_add_emergency(&fx, MF_CAUSE_SUDDEN_EVENT, "signs", "");
    ask();
    assert_string_equal(open_of("emergency-notes")->why, "emergency-no-reason");
    assert_int_equal(open_of("emergency-relief")->verdict, MF_WARNING);
    fx.emergency[0].waived = ""; /* nothing waived: nothing to give a reason for */
    ask();
    assert_null(open_of("emergency-notes"));
    fx.emergency[0].nature = "";
    ask();
    assert_string_equal(open_of("emergency-notes")->why, "emergency-not-noted");
    fx_good(&fx);
    fx.house.emergency =
        MF_YES; /* claimed, but nobody wrote down what happened: nothing falls away */
    fx.job.n_notice = 0;
    undo("A1", "signs");
    ask();
    assert_string_equal(open_of("emergency-notes")->why, "emergency-not-noted");
    assert_int_equal(open_of("pamphlet-owner")->verdict, MF_LACKING);
    assert_int_equal(open_of("signs")->verdict, MF_LACKING);
}

/* ---- 29 CFR 1926.62(d)(2) ------------------------------------------------------------ */

static void cautions(void **state)
{
    (void)state;
    static const struct {
        mf_method method;
        mf_tri hepa;
        const char *why;
    } rows[] = {
        {MF_METHOD_HAND, MF_NOT, "osha-over-50"},         /* (i) scraping, sanding */
        {MF_METHOD_DRY_SCRAPE, MF_NOT, "osha-over-50"},   /* (i) */
        {MF_METHOD_DRY_SAND, MF_NOT, "osha-over-50"},     /* (i) */
        {MF_METHOD_DEMOLITION, MF_NOT, "osha-over-50"},   /* (i) manual demolition */
        {MF_METHOD_HEAT_GUN, MF_NOT, "osha-over-50"},     /* (i) */
        {MF_METHOD_MACHINE, MF_YES, "osha-over-50"},      /* (i) with dust collection */
        {MF_METHOD_MACHINE, MF_UNKNOWN, "osha-over-500"}, /* (iii) without */
        {MF_METHOD_BLASTING, MF_YES, "osha-over-2500"},   /* (iv) */
        {MF_METHOD_OPEN_FLAME, MF_NOT, "osha-over-2500"}, /* (iv) torch burning */
        {MF_METHOD_STRIPPER, MF_NOT, "osha-no-trigger"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        fx_good(&fx);
        fx.job.n_practice = 1;
        fx.practice[0].method = rows[i].method;
        fx.practice[0].shroud_and_hepa = rows[i].hepa;
        ask();
        const mf_finding *it = open_of("osha-trigger");
        CHECK_ROW(it != NULL && strcmp(it->why, rows[i].why) == 0, rows[i].why);
        CHECK_ROW(it->verdict != MF_LACKING, rows[i].why); /* never a no */
        CHECK_ROW(it->requirement->status == MF_VERIFIED, rows[i].why);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sudden_event),      cmocka_unit_test(untrained_cleaning),
        cmocka_unit_test(blood_lead),        cmocka_unit_test(never_waived),
        cmocka_unit_test(done_all_the_same), cmocka_unit_test(written_down),
        cmocka_unit_test(cautions),          cmocka_unit_test(nothing_claimed),
    };
    return cmocka_run_group_tests_name("emergency", tests, NULL, NULL);
}
