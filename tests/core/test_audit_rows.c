/* One change a requirement: a good job, one thing taken out of it, and exactly
 * that requirement must be lacking (or warned of, where it never blocks). A
 * requirement without a case is a failure. The paragraph that each case breaks
 * stands beside it; the job is constructed (support/fixture_job.h). */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <string.h>

typedef void change(fixture *fx);

typedef struct row_case {
    const char *id, *why;
    mf_verdict verdict;
    change *base, *spoil;
    const char *today;
} row_case;

/* ---- the changes ------------------------------------------------------------------ */

static void built_1990(fixture *fx) /* 745.103: before 1978 */
{
    fx->house.year_built = 1990;
}
static void no_year(fixture *fx)
{
    fx->house.year_built = MF_NUM_NONE;
}
static void no_pay(fixture *fx)
{
    fx->house.for_compensation = MF_UNKNOWN;
}
static void no_owner_lives(fixture *fx)
{
    fx->house.owner_occupied = MF_UNKNOWN;
}
static void no_elder(fixture *fx)
{
    fx->house.elder_or_disabled = MF_UNKNOWN;
}
static void no_bedroom(fixture *fx)
{
    fx->house.zero_bedroom = MF_UNKNOWN;
}
static void no_child(fixture *fx) /* 745.103: the exemption hangs on it */
{
    fx->house.elder_or_disabled = MF_YES;
    fx->house.child_under_6 = MF_UNKNOWN;
}
static void emergency(fixture *fx) /* 745.82(b) */
{
    fx->house.emergency = MF_YES;
    fx->house.note = "storm broke both windows; pamphlet came after";
}
static void emergency_no_note(fixture *fx) /* 745.86(b)(6) */
{
    fx->house.emergency = MF_YES;
}
static void no_components(fixture *fx)
{
    fx->job.n_component = fx->job.n_kit_test = fx->job.n_chip = fx->job.n_determination = 0;
}
static void wrong_laboratory(fixture *fx) /* 745.82(a)(3): NLLAP */
{
    fx->chip[0].nllap = MF_NOT;
}
static void contradicting_kit(fixture *fx)
{
    fx->kit_test[1] = fx->kit_test[0];
    fx->kit_test[1].component = "W02.sash";
    fx->job.n_kit_test = 2;
}
static void no_last_check(fixture *fx)
{
    fx->job.n_reading = 4;
}
static void no_copy(fixture *fx) /* 745.82(a)(1): the firm holds a copy */
{
    fx->determination[0].firm_has_copy = MF_NOT;
}
static void no_model(fixture *fx) /* 745.86(b)(1)(ii) */
{
    fx->kit_test[0].model = "";
}
static void no_lab_address(fixture *fx) /* 745.86(b)(1)(iii) */
{
    fx->chip[0].lab_address = "";
}
static void firm_lapsed(fixture *fx) /* 745.89(a): valid on 09-15, work to 09-16 */
{
    fx->certificate[0].expires = fx_day("2026-09-15");
}
static void assigned_late(fixture *fx) /* 745.89(d)(2) */
{
    fx->assignment[0].on = fx->assignment[1].on = fx_day("2026-09-15");
}
static void omar_lapsed(fixture *fx) /* 745.90(a)(4) */
{
    fx->certificate[2].expires = fx_day("2026-09-13");
}
static void omar_no_number(fixture *fx) /* 745.86(b)(6) */
{
    fx->certificate[2].number = "";
}
static void stranger(fixture *fx) /* 745.89(d)(1) */
{
    fx->practice[0].person = "ines";
}
static void trained_late(fixture *fx) /* 745.90(b)(2) */
{
    fx->training[0].on = fx_day("2026-09-15");
}
static void no_topics(fixture *fx) /* 745.86(b)(6)(i) */
{
    fx->training[0].topics = "";
}
static void no_tenant(fixture *fx) /* 745.84(a)(2) */
{
    fx_drop_party(fx, "tenant");
}
static void owner_61_days(fixture *fx) /* 745.84(a): 60 days are 07-16 */
{
    fx_notice(fx, "owner")->on = fx_notice(fx, "owner")->signed_on = fx_day("2026-07-15");
}
static void tenant_mailed_6_days(fixture *fx) /* 745.84(a)(2)(ii): 7 days are 09-07 */
{
    fx_notice(fx, "tenant")->method = MF_DELIVERY_MAILED;
    fx_notice(fx, "tenant")->on = fx_day("2026-09-08");
}
static void daycare_no_reason(fixture *fx) /* 745.84(c)(1)(ii)(A) */
{
    fx_notice(fx, "daycare")->method = MF_DELIVERY_SELF_CERTIFIED;
    fx_notice(fx, "daycare")->deliverers = "lee";
}
static void units_acknowledged(fixture *fx) /* 745.84(b)(2): notice or signs */
{
    fx_notice(fx, "units")->method = MF_DELIVERY_ACKNOWLEDGED;
}
static void parents_no_statement(fixture *fx) /* 745.84(c)(3) */
{
    fx_notice(fx, "parents")->has_statement = MF_NOT;
}
static void other_language(fixture *fx) /* 745.84(d)(3) */
{
    fx_notice(fx, "tenant")->language = "es";
}
static void no_areas(fixture *fx)
{
    fx->job.n_area = 0;
}
static void loose_opening(fixture *fx) /* 745.85(a)(2) */
{
    fx->area[2].openings = "";
}
static void loose_wall(fixture *fx)
{
    fx->component[3].room = "pantry";
}
static void heat_gun_1100(fixture *fx) /* 745.85(a)(3)(iii): only below */
{
    fx->practice[0].method = MF_METHOD_HEAT_GUN;
    fx->practice[0].temp_f = 1100;
}
static void no_look_inside(fixture *fx) /* 745.85(b)(1)(i); a carpeted area without windows */
{
    fx->area[2].openings = "";
    fx->component[2].affected = MF_NOT;
    fx->job.n_dust_sample = 0;
    fx->job.n_verification = 4;
}
static void dirty_outside(fixture *fx) /* 745.85(b)(2) */
{
    fx->verification[3].event = MF_VER_LOOK_DIRTY;
}
static void no_floor(fixture *fx) /* 745.85(b)(1)(ii)(B) */
{
    fx->surface[1].kind = MF_SURFACE_COUNTERTOP;
}
static void floor_darker(fixture *fx)
{
    fx->verification[2].event = MF_VER_WET_DARKER;
}
static void wiped_after_pass(fixture *fx)
{
    mf_verification again = fx->verification[1];
    again.at_minute = 720;
    fx_add_verification(fx, again);
}
static void worker_looked(fixture *fx) /* 745.90(b)(1): in person */
{
    fx->verification[3].person = "lee";
}
static void nobody_looked(fixture *fx) /* 745.86(b)(6)(viii) */
{
    fx->verification[3].person = "";
}
static void voluntary_sample(fixture *fx) /* 745.85(c)(1) */
{
    mf_dust_sample sample = fx->dust_sample[0];
    sample.area = "A1";
    sample.required = MF_NOT;
    fx_add_sample(fx, sample);
}
static void dust_at_5(fixture *fx) /* 745.227(e)(8): below 5 from 2026-01-12 */
{
    fx->dust_sample[0].loading_ng_ft2 = 5000;
}
static void worker_sampled(fixture *fx) /* 745.85(c)(2) */
{
    fx->dust_sample[0].sampler = "lee";
}
static void dust_other_laboratory(fixture *fx) /* 745.90(c)(1) */
{
    fx->dust_sample[0].nllap = MF_NOT;
}
static void owner_without(fixture *fx) /* 745.86(c)(1)(i) */
{
    fx_drop_handover(fx, "owner");
}
static void tenant_late(fixture *fx) /* 745.86(c)(1)(ii): invoice 09-20 */
{
    fx->handover[1].on = fx_day("2026-09-21");
}
static void daycare_without(fixture *fx)
{
    fx_drop_handover(fx, "daycare");
}
static void units_without(fixture *fx) /* 745.86(c)(2) */
{
    fx_drop_handover(fx, "units");
}
static void parents_without(fixture *fx)
{
    fx_drop_handover(fx, "parents");
}
static void not_completed(fixture *fx)
{
    fx->job.n_completion = 0;
}
static void worker_certified_it(fixture *fx) /* 745.86(b)(6) */
{
    fx->certification[0].person = "lee";
}
static void nothing(fixture *fx)
{
    (void)fx;
}
static void broken(fixture *fx)
{
    fx->job.integrity = MF_INTEGRITY_BROKEN;
}
static void corrected_twice(fixture *fx)
{
    fx->correction[1] = fx->correction[0];
    fx->correction[1].src.entry = "tablet/9";
    fx->correction[1].after = "{\"size\":4100}";
    fx->job.n_correction = 2;
}
static void no_seal(fixture *fx)
{
    fx->job.n_sealed = 0;
}

/* ---- the table ------------------------------------------------------------------------ */

#define LACKS(id, why, spoil)                                                                      \
    {                                                                                              \
        id, why, MF_LACKING, fx_good, spoil, FX_TODAY                                              \
    }
#define WARNS(id, why, spoil)                                                                      \
    {                                                                                              \
        id, why, MF_WARNING, fx_good, spoil, FX_TODAY                                              \
    }
#define FACIL(id, why, spoil)                                                                      \
    {                                                                                              \
        id, why, MF_LACKING, fx_facility, spoil, FX_TODAY                                          \
    }
#define UNITS(id, why, spoil)                                                                      \
    {                                                                                              \
        id, why, MF_LACKING, fx_multi_unit, spoil, FX_TODAY                                        \
    }

static const row_case cases[] = {
    {"covered", "cover-built-later", MF_MET, fx_good, built_1990, FX_TODAY},
    WARNS("year-built", "fact-unknown", no_year),
    WARNS("for-pay", "fact-unknown", no_pay),
    WARNS("owner-lives", "fact-unknown", no_owner_lives),
    WARNS("elder-housing", "fact-unknown", no_elder),
    WARNS("zero-bedroom", "fact-unknown", no_bedroom),
    WARNS("child-under-6", "fact-unknown", no_child),
    WARNS("emergency-relief", "emergency-by-hand", emergency),
    LACKS("emergency-notes", "emergency-not-noted", emergency_no_note),
    LACKS("components-listed", "no-component", no_components),
    WARNS("paint-finding", "paint-laboratory", wrong_laboratory),
    LACKS("paint-agrees", "paint-contradiction", contradicting_kit),
    WARNS("xrf-calibration", "readings-not-enclosed", no_last_check),
    LACKS("determination-copy", "determination-no-copy", no_copy),
    LACKS("kit-record", "kit-no-maker", no_model),
    LACKS("chip-record", "chip-no-laboratory", no_lab_address),
    LACKS("firm-certified", "certificate-lapsed", firm_lapsed),
    LACKS("renovator-assigned", "renovator-assigned-late", assigned_late),
    LACKS("renovator-certified", "certificate-lapsed", omar_lapsed),
    LACKS("renovator-certificate-copy", "certificate-no-number", omar_no_number),
    LACKS("person-assigned", "person-not-assigned", stranger),
    LACKS("worker-trained", "training-late", trained_late),
    LACKS("training-topics", "topics-none", no_topics),
    LACKS("parties-named", "party-no-occupant", no_tenant),
    LACKS("pamphlet-owner", "notice-early", owner_61_days),
    LACKS("pamphlet-occupant", "notice-mailed-late", tenant_mailed_6_days),
    FACIL("pamphlet-facility", "notice-incomplete", daycare_no_reason),
    UNITS("notice-units", "notice-method", units_acknowledged),
    FACIL("notice-parents", "notice-no-statement", parents_no_statement),
    WARNS("notice-language", "language-differs", other_language),
    LACKS("areas-listed", "area-none", no_areas),
    LACKS("opening-in-area", "opening-no-area-inside", loose_opening),
    LACKS("component-in-area", "component-no-area", loose_wall),
    LACKS("method-allowed", "method-heat", heat_gun_1100),
    LACKS("visual-inspection", "looked-none", no_look_inside),
    LACKS("visual-outside", "looked-dirty", dirty_outside),
    LACKS("surfaces-listed", "floor-missing", no_floor),
    LACKS("surface-verified", "section-reclean", floor_darker),
    LACKS("verification-order", "refused-already-clean", wiped_after_pass),
    LACKS("verifier-certified", "verifier-not-certified", worker_looked),
    LACKS("verification-record", "verification-unsigned", nobody_looked),
    WARNS("dust-required", "sample-voluntary", voluntary_sample),
    LACKS("dust-level", "dust-at-or-above", dust_at_5),
    LACKS("dust-sampler", "sampler-not-lawful", worker_sampled),
    LACKS("dust-laboratory", "laboratory-not-lawful", dust_other_laboratory),
    LACKS("handover-owner", "handover-overdue", owner_without),
    LACKS("handover-occupant", "handover-late", tenant_late),
    FACIL("handover-facility", "handover-overdue", daycare_without),
    UNITS("handover-units", "handover-overdue", units_without),
    FACIL("handover-parents", "handover-overdue", parents_without),
    LACKS("completion-day", "completion-none", not_completed),
    LACKS("certification", "certification-not-assigned", worker_certified_it),
    {"retention", "retention-over", MF_WARNING, fx_good, nothing, "2029-09-17"},
    LACKS("book-unaltered", "integrity-broken", broken),
    LACKS("corrections-agree", "correction-contradicted", corrected_twice),
    WARNS("record-sealed", "seal-none", no_seal),
};

/* A step that is taken back in one area; the last paragraph of 745.85(a) it is. */
typedef struct step_case {
    const char *id, *area, *paragraph;
} step_case;

static const step_case steps[] = {
    {"signs", "A1", "(a)(1)"},
    {"signs-language", "A2", "(a)(1)"},
    {"isolate", "A1", "(a)(2)"},
    {"egress", "A3", "(a)(2)"},
    {"objects", "A1", "(a)(2)(i)(A)"},
    {"ducts", "A3", "(a)(2)(i)(B)"},
    {"windows-closed", "A1", "(a)(2)(i)(C)"},
    {"doors-closed", "A1", "(a)(2)(i)(C)"},
    {"doors-used", "A1", "(a)(2)(i)(C)"},
    {"floor-sheet", "A1", "(a)(2)(i)(D)"},
    {"windows-outside", "A2", "(a)(2)(ii)(A)"},
    {"doors-outside", "A2", "(a)(2)(ii)(A)"},
    {"openings-below", "A2", "(a)(2)(ii)(A)"},
    {"doors-used-outside", "A2", "(a)(2)(ii)(B)"},
    {"ground-sheet", "A2", "(a)(2)(ii)(C)"},
    {"line-containment", "A2", "(a)(2)(ii)(D)"},
    {"barriers-whole", "A1", "(a)(2)"},
    {"leave-clean", "A1", "(a)(2)(i)(E)"},
    {"waste-contained", "A1", "(a)(4)(i)"},
    {"waste-chute", "A2", "(a)(4)(i)"},
    {"waste-daily", "A1", "(a)(4)(ii)"},
    {"waste-transport", "A1", "(a)(4)(iii)"},
    {"chips", "A1", "(a)(5)(i)(A)"},
    {"sheeting", "A2", "(a)(5)(i)(B)"},
    {"walls", "A1", "(a)(5)(ii)(A)"},
    {"surfaces", "A1", "(a)(5)(ii)(B)-(C)"},
    {"carpet", "A3", "(a)(5)(ii)(B)"},
    {"mop", "A1", "(a)(5)(ii)(C)"},
    {"margin", "A1", "(a)(5)(ii)"},
    {"divider", "A1", "(a)(5)(i)(B)"},
    {"clean-outside", "A2", "(a)(5)"},
};

/* ---- the check ------------------------------------------------------------------------------ */

enum { MAX_FINDINGS = 400 };

static fixture fx;
static mf_finding found[MAX_FINDINGS];

static size_t ask(const char *today)
{
    mf_audit_ask question = {.job = &fx.job, .today = fx_day(today), .gates = 0, .area = ""};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    assert_true(n <= MAX_FINDINGS);
    return n;
}

static bool is_of(const mf_finding *finding, const char *id)
{
    return strcmp(finding->requirement->id, id) == 0;
}

/* Nothing of that verdict but under id, and there with that reason. */
static void only(size_t n, const char *id, mf_verdict verdict, const char *why)
{
    bool there = false;
    for (size_t i = 0; i < n; i++) {
        const mf_finding *it = &found[i];
        if (is_of(it, id) && it->verdict == verdict && strcmp(it->why, why) == 0)
            there = true;
        else if (it->verdict == MF_LACKING || (it->verdict == verdict && verdict == MF_WARNING))
            if (!is_of(it, id))
                fail_msg("case %s: also %s of \"%s\": %s", id, it->requirement->id, it->subject,
                         it->why);
    }
    if (!there)
        fail_msg("case %s: no finding says %s", id, why);
}

static void test_one_change_each(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        cases[i].base(&fx);
        cases[i].spoil(&fx);
        only(ask(cases[i].today), cases[i].id, cases[i].verdict, cases[i].why);
    }
}

static void test_one_step_each(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(steps); i++) {
        fx_good(&fx);
        fx_tick(&fx, steps[i].area, steps[i].id)->state = MF_TICK_UNDONE;
        size_t n = ask(FX_TODAY);
        only(n, steps[i].id, MF_LACKING, "step-open");
        for (size_t k = 0; k < n; k++) {
            if (!is_of(&found[k], steps[i].id) || found[k].verdict != MF_LACKING)
                continue;
            char cited[64] = "40 CFR 745.85";
            strncat(cited, steps[i].paragraph, sizeof cited - strlen(cited) - 1);
            const char *rest = found[k].requirement->citation + strlen(cited);
            CHECK_ROW(strncmp(found[k].requirement->citation, cited, strlen(cited)) == 0,
                      steps[i].id);
            CHECK_ROW(*rest == '\0' || *rest == ';', steps[i].id);
            CHECK_ROW(strcmp(found[k].subject, steps[i].area) == 0, steps[i].id);
        }
    }
}

/* The job that all cases start from answers yes to everything, with no warning. */
static void test_good(void **state)
{
    (void)state;
    change *const bases[] = {fx_good, fx_facility, fx_multi_unit};
    for (size_t b = 0; b < COUNT(bases); b++) {
        bases[b](&fx);
        size_t n = ask(FX_TODAY);
        for (size_t i = 0; i < n; i++)
            if (found[i].verdict == MF_LACKING || found[i].verdict == MF_WARNING)
                fail_msg("good job %zu: %s of \"%s\": %s", b, found[i].requirement->id,
                         found[i].subject, found[i].why);
        assert_true(mf_audit_yes(found, n));
    }
}

static bool has_case(const char *id)
{
    for (size_t i = 0; i < COUNT(cases); i++)
        if (strcmp(cases[i].id, id) == 0)
            return true;
    for (size_t i = 0; i < COUNT(steps); i++)
        if (strcmp(steps[i].id, id) == 0)
            return true;
    return false;
}

static void test_every_requirement_has_a_case(void **state)
{
    (void)state;
    size_t n;
    const mf_requirement *const *all = mf_requirements(&n);
    assert_int_equal(n, COUNT(cases) + COUNT(steps));
    for (size_t i = 0; i < n; i++)
        CHECK_ROW(has_case(all[i]->id), all[i]->id);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_good),
        cmocka_unit_test(test_one_change_each),
        cmocka_unit_test(test_one_step_each),
        cmocka_unit_test(test_every_requirement_has_a_case),
    };
    return cmocka_run_group_tests_name("audit_rows", tests, NULL, NULL);
}
