/* Of whom a requirement is not asked, and why: the condition of each row that a job with
 * everything in order would not show, since the answer would be yes as well. By hand,
 * from the paragraph beside each row; the job is constructed (support/fixture_job.h). */
#include "core/finding.h"
static const mf_own_step rinse = {.id = "rinse"};

/* ---- what is changed in the job -------------------------------------------------------- */

static void as_it_is(void)
{
}

static void in_a_dwelling(void)
{
    fx.house.building = MF_BUILDING_DWELLING;
}

static void untouched(void)
{
    fx.component[1].affected = MF_NOT;
}

static void no_language(void)
{
    fx.house.language = "";
}

static void told_of_a_change(void)
{
    in_a_dwelling();
    fx.scope_change[0] = (mf_scope_change){.src = {"sc/1", "", "", ""}, .on = fx.house.start};
    fx.job.n_scope_change = 1;
}

static void only_planned(void)
{
    fx.practice[0].planned = MF_YES;
}

static void nothing_cleaned(void)
{
    static const char *const steps[] = {"chips",  "sheeting", "walls",  "surfaces",
                                        "carpet", "mop",      "margin", "divider"};
    for (size_t i = 0; i < fx.job.n_tick; i++)
        for (size_t j = 0; j < COUNT(steps); j++)
            if (strcmp(fx.tick[i].area, "A1") == 0 && strcmp(fx.tick[i].step, steps[j]) == 0)
                fx.tick[i].step = "signs";
}

static void nothing_looked_at(void)
{
    for (size_t i = 0; i < fx.job.n_verification; i++)
        if (strcmp(fx.verification[i].area, "A3") == 0)
            fx.verification[i].area = "A1";
}

static void a_blank(void)
{
    mf_dust_sample it = fx.dust_sample[0];
    it.src.entry = "d/99";
    it.blank = MF_YES;
    fx_add_sample(&fx, it);
}

static void corrected_twice(void)
{
    for (size_t i = 0; i < 2; i++)
        fx.correction[i] = (mf_correction){.src = {i == 0 ? "co/1" : "co/2", "", "", ""},
                                           .target = "x/1",
                                           .replaces = i == 0 ? "x/1" : "co/1",
                                           .kind = "reading",
                                           .reason = "misread",
                                           .before = "{}",
                                           .after = i == 0 ? "{\"a\":1}" : "{\"a\":2}"};
    fx.job.n_correction = 2;
}

/* ---- who is asked ------------------------------------------------------------------------ */

/* NULL when the requirement is asked of that subject, else why it is of nobody, or "of
 * others". */
static const char *not_asked(const char *id, const char *subject)
{
    const char *why = "of others";
    size_t n = find_on(FX_TODAY, "");
    for (size_t i = 0; i < n; i++) {
        bool nobody = found[i].verdict == MF_NOT_DUE && found[i].subject[0] == '\0';
        if (strcmp(found[i].requirement->id, id) != 0)
            continue;
        if (nobody)
            why = found[i].why;
        else if (strcmp(found[i].subject, subject) == 0 || strcmp(found[i].evidence, subject) == 0)
            return NULL;
    }
    return why;
}

typedef struct asked {
    const char *id, *subject, *why, *paragraph;
    void (*job)(fixture *);
    void (*change)(void);
} asked;

static const asked rows[] = {
    {"paint-finding", "W01.xsill", "of others", "745.82(a): components affected", fx_good,
     untouched},
    {"paint-agrees", "W01.xsill", "of others", "745.82(a): components affected", fx_good,
     untouched},
    {"renovator-days", "lee", "of others", "745.90(b): duties of the renovator", fx_good, as_it_is},
    {"program-of-place", "US", "place-not-said", "745.81(a): of a place that is named", fx_good,
     as_it_is},
    {"pamphlet-facility", "daycare", "party-not-due", "745.84(c): in facilities", fx_facility,
     in_a_dwelling},
    {"notice-parents", "parents", "party-not-due", "745.84(c)(2): in facilities", fx_facility,
     in_a_dwelling},
    {"notice-units", "units", "party-not-due", "745.84(b): in multi-unit housing", fx_multi_unit,
     in_a_dwelling},
    {"handover-facility", "daycare", "party-not-due", "745.86(c)(1)(ii)", fx_facility,
     in_a_dwelling},
    {"dust-report", "parents", "of others", "745.86(d): not to parents", fx_facility, as_it_is},
    {"handover-units", "units", "party-not-due", "745.86(c)(2)", fx_multi_unit, in_a_dwelling},
    {"notice-language", "", "language-not-set", "745.84(d)(3): the language of the contract",
     fx_good, no_language},
    {"notice-changed", "sc/1", "party-not-due", "745.84(b)(4): in multi-unit housing",
     fx_multi_unit, told_of_a_change},
    {"method-allowed", "A1", "of others", "745.85(a)(3): what was done", fx_good, only_planned},
    {"cleaning-order", "A1", "of others", "745.85(a)(5): where it was cleaned", fx_good,
     nothing_cleaned},
    {"looked-after-cleaning", "A3", "of others", "745.85(b): where cloths were used", fx_good,
     nothing_looked_at},
    {"verification-order", "A3", "of others", "745.85(b)(1)(ii): the same", fx_good,
     nothing_looked_at},
    {"verifier-certified", "A3", "of others", "745.90(b)(1): the same", fx_good, nothing_looked_at},
    {"verification-record", "A3", "of others", "745.86(b)(6)(viii): the same", fx_good,
     nothing_looked_at},
    {"dust-required", "d/99", "of others", "745.85(c): a blank samples no surface", fx_good,
     a_blank},
    {"dust-sampler", "d/99", "of others", "745.85(c)(2): the same", fx_good, a_blank},
    {"dust-laboratory", "d/99", "of others", "745.90(c)(1): the same", fx_good, a_blank},
    {"corrections-agree", "co/1", "of others", "745.86(a): the last one counts", fx_good,
     corrected_twice},
};

static void it_is_not_asked(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        rows[i].job(&fx);
        rows[i].change();
        const char *why = not_asked(rows[i].id, rows[i].subject);
        if (why == NULL || strcmp(why, rows[i].why) != 0)
            fail_msg("%s of %s (%s): %s", rows[i].id, rows[i].subject, rows[i].paragraph,
                     why == NULL ? "asked" : why);
    }
}

/* The same subjects are asked when nothing is changed, or the row above proves nothing. */
static void else_it_is(void **state)
{
    static const struct {
        const char *id, *subject;
        void (*job)(fixture *);
    } of[] = {
        {"paint-finding", "W01.xsill", fx_good},
        {"paint-agrees", "W01.xsill", fx_good},
        {"renovator-days", "rosa", fx_good},
        {"method-allowed", "A1", fx_good},
        {"cleaning-order", "A1", fx_good},
        {"looked-after-cleaning", "A1", fx_good},
        {"verification-order", "A1", fx_good},
        {"verifier-certified", "A1", fx_good},
        {"verification-record", "A1", fx_good},
        {"notice-parents", "parents", fx_facility},
        {"pamphlet-facility", "daycare", fx_facility},
        {"handover-facility", "daycare", fx_facility},
        {"dust-report", "daycare", fx_facility},
        {"notice-units", "units", fx_multi_unit},
        {"handover-units", "units", fx_multi_unit},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        of[i].job(&fx);
        const char *why = not_asked(of[i].id, of[i].subject);
        if (why != NULL)
            fail_msg("%s of %s: %s", of[i].id, of[i].subject, why);
    }
}

/* 745.90(b)(2) asks for training of the rule's own tasks; what the firm asks beyond the
 * rule needs none. */
static void own_steps_need_no_topic(void **state)
{
    static const struct {
        const char *step;
        bool own;
        mf_verdict verdict;
    } of[] = {
        {"surfaces", false, MF_LACKING},
        {"surfaces", true, MF_LACKING},
        {"rinse", true, MF_MET},
        {"rinse", false, MF_LACKING}, /* of a firm that has no such step: taken for cleaning */
    };
    (void)state;
    for (size_t i = 0; i < COUNT(of); i++) {
        fx_good(&fx);
        for (size_t t = 0; t < fx.job.n_tick; t++)
            if (strcmp(fx.tick[t].person, "lee") == 0)
                fx.tick[t].person = "rosa";
        fx.training[0].topics = "signs; containment; practices; waste";
        mf_tick *tick = fx_tick(&fx, "A1", "surfaces");
        tick->person = "lee";
        tick->step = of[i].step;
        fx.job.own_step = &rinse;
        fx.job.n_own_step = of[i].own;
        CHECK_ROW(finding("training-tasks", "lee")->verdict == of[i].verdict, of[i].step);
    }
}

/* 745.85(a)(2): each day of work is asked once, of what was done first on it and not of
 * what was only planned for it. */
static void a_planned_day_is_none(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.practice[fx.job.n_practice] = fx.practice[0];
    fx.practice[fx.job.n_practice++].src.entry = "pr/last";
    fx.practice[0].planned = MF_YES;
    size_t n = find_on(FX_TODAY, "A1"), asked_days = 0;
    for (size_t f = 0; f < n; f++)
        if (strcmp(found[f].requirement->id, "barriers-each-day") == 0)
            asked_days += found[f].verdict != MF_NOT_DUE;
    assert_int_equal(asked_days, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_not_asked), cmocka_unit_test(else_it_is),
        cmocka_unit_test(own_steps_need_no_topic), cmocka_unit_test(a_planned_day_is_none)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
