/* One change a requirement: a good job, one thing taken out of it, and exactly
 * that requirement must be lacking (or warned of, where it never blocks). A
 * requirement without a case is a failure. The paragraph that each case breaks
 * stands beside it; the job is constructed (support/fixture_job.h). */
#include "core/audit_changes.h"
#include "core/audit_changes_assisted.h"
#include "core/audit_changes_clear.h"
#include "core/audit_changes_told.h"
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <mistfold/contain.h>
#include <mistfold/words.h>
#include <string.h>

typedef void change(fixture *fx);

typedef struct row_case {
    const char *id, *why;
    mf_verdict verdict;
    change *base, *spoil;
    const char *today;
} row_case;

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
#define ASSIST(id, why, spoil)                                                                     \
    {                                                                                              \
        id, why, MF_LACKING, fx_assisted, spoil, FX_TODAY                                          \
    }
#define UNITS(id, why, spoil)                                                                      \
    {                                                                                              \
        id, why, MF_LACKING, fx_multi_unit, spoil, FX_TODAY                                        \
    }

static void stricter_from_the_next_day(fixture *fx) /* 745.86(a) */
{
    mf_limit_id id = MF_LIMIT_YEAR_BUILT;
    second_day(fx, "");
    fx_add_local(fx, id, MF_AS_FEDERAL, "1990")->row.from = fx_day("2026-09-15");
}

static const row_case cases[] = {
    LACKS("limits-of-start", "limits-changed", stricter_from_the_next_day),
    LACKS("said-twice", "said-otherwise", house_twice),
    WARNS("said-twice-stricter", "said-stricter", house_twice),
    LACKS("times-can-be", "time-to-come", hours_ahead),
    {"covered", "cover-built-later", MF_MET, fx_good, built_1990, FX_TODAY},
    WARNS("year-built", "fact-unknown", no_year),
    WARNS("for-pay", "fact-unknown", no_pay),
    WARNS("owner-lives", "fact-unknown", no_owner_lives),
    WARNS("elder-housing", "fact-unknown", no_elder),
    WARNS("zero-bedroom", "fact-unknown", no_bedroom),
    WARNS("child-under-6", "fact-unknown", no_child),
    {"facility-visits", "visits-unknown", MF_WARNING, fx_facility, shop_without_visits, FX_TODAY},
    {"house-agrees", "says-lives", MF_WARNING, fx_facility, shop_where_children_live, FX_TODAY},
    WARNS("work-listed", "worked-beside-list", nothing_listed_outside),
    {"minor-area", "minor-over", MF_MET, fx_good, repair_7_sqft, FX_TODAY},
    WARNS("local-limits", "place-no-rows", place_without_rows),
    WARNS("emergency-relief", "emergency-as-needed", emergency),
    LACKS("emergency-notes", "emergency-no-reason", emergency_no_note),
    LACKS("emergency-limits", "emergency-never", emergency_cleaning),
    LACKS("components-listed", "no-component", no_components),
    WARNS("paint-finding", "paint-laboratory", wrong_laboratory),
    LACKS("paint-agrees", "paint-contradiction", contradicting_kit),
    WARNS("xrf-calibration", "readings-not-enclosed", no_last_check),
    WARNS("xrf-substrate", "substrate-differs", sash_of_metal),
    LACKS("determination-copy", "determination-no-copy", no_copy),
    LACKS("owner-record", "owner-record-no-copy", owner_record_no_copy),
    LACKS("kit-record", "kit-no-maker", no_model),
    LACKS("chip-record", "chip-no-laboratory", no_lab_address),
    LACKS("determination-assessor", "determination-no-number", assessor_no_number),
    LACKS("kit-place", "test-no-place", kit_nowhere),
    WARNS("kit-lot", "kit-no-lot", kit_no_lot),
    WARNS("kit-substrate", "kit-substrate-unsaid", kit_without_substrates),
    LACKS("chip-place", "test-no-place", chip_nowhere),
    WARNS("program-of-place", "program-not-own", place_of_own_program),
    LACKS("firm-certified", "certificate-lapsed", firm_lapsed),
    LACKS("renovator-assigned", "renovator-assigned-late", assigned_late),
    LACKS("renovator-certified", "certificate-lapsed", omar_lapsed),
    LACKS("renovator-certificate-copy", "certificate-no-number", omar_no_number),
    LACKS("person-assigned", "person-not-assigned", stranger),
    LACKS("worker-trained", "training-late", trained_late),
    LACKS("contained-by-crew", "contained-untrained", stranger_contains),
    LACKS("disturbed-by-crew", "disturbed-untrained", stranger_disturbs),
    LACKS("cleaned-by-crew", "cleaned-untrained", stranger_cleans),
    LACKS("training-topics", "topics-none", no_topics),
    LACKS("renovator-days", "acted-not-certified", trained_before_course),
    LACKS("training-tasks", "untaught-waste", no_waste_topic),
    {"area-unit", "area-unit-unsaid", MF_LACKING, unit_2, kitchen_unsaid, FX_TODAY},
    {"occupant-unit", "occupant-of-no-unit", MF_WARNING, unit_2, cousin_unsaid, FX_TODAY},
    {"unit-vacant", "vacancy-but-occupant", MF_WARNING, fx_good, vacant_but_tenant, FX_TODAY},
    LACKS("parties-named", "party-no-occupant", no_tenant),
    LACKS("pamphlet-owner", "notice-early", owner_61_days),
    LACKS("pamphlet-occupant", "notice-mailed-late", tenant_mailed_6_days),
    FACIL("pamphlet-facility", "notice-no-reason", daycare_no_reason),
    UNITS("notice-units", "notice-method", units_acknowledged),
    FACIL("notice-parents", "notice-no-statement", parents_no_statement),
    WARNS("notice-language", "language-differs", other_language),
    LACKS("acknowledgement-contents", "notice-no-receipt-statement", no_statement_of_receipt),
    LACKS("paper-names", "paper-other-house", paper_of_other_road),
    LACKS("mailing-receipt", "notice-no-mailing-receipt", no_mailing_receipt),
    UNITS("notice-contents", "notice-no-dates", units_no_dates),
    UNITS("notice-changed", "change-nobody-told", changed_untold),
    UNITS("told-dates", "told-beyond", told_until_13),
    {"told-today", "told-today-beyond", MF_LACKING, fx_multi_unit, not_completed, "2026-09-17"},
    {"sign-dates", "sign-out-of-date", MF_WARNING, fx_multi_unit, sign_until_13, FX_TODAY},
    LACKS("areas-listed", "area-none", no_areas),
    LACKS("areas-hold-all", "component-no-area", loose_wall), /* and component-in-area */
    LACKS("opening-in-area", "opening-no-area-inside", loose_opening),
    LACKS("component-in-area", "component-no-area", loose_wall),
    LACKS("method-allowed", "method-heat", heat_gun_1100),
    LACKS("contained-still", "contained-verified", not_completed), /* and completion-day */
    {"job-open", "job-over", MF_NOT_NOW, fx_good, fx_good, FX_TODAY},
    LACKS("called-off", "called-off", called_off_unbegun),
    {"job-goes-on", "called-off-nothing-due", MF_NOT_NOW, fx_good, called_off_unbegun, FX_TODAY},
    LACKS("called-off-agrees", "called-off-begun", called_off_at_work), /* and called-off */
    LACKS("area-called-off", "area-off-begun", area_off_at_work),       /* and area-off-agrees */
    LACKS("area-off-agrees", "area-off-begun", area_off_at_work),       /* and area-called-off */
    WARNS("area-off-signs", "area-off-begun", area_off_at_work),
    {"start-reached", "start-not-reached", MF_NOT_NOW, fx_good, fx_good, "2026-09-13"},
    WARNS("line-measured", "line-not-measured", line_not_given),
    LACKS("signs-first", "contained-late", set_up_after_work),
    LACKS("contained-first", "contained-late", set_up_after_work),
    WARNS("contained-all-along", "contained-late", set_up_after_work), /* and contained-first */
    LACKS("methods-logged", "methods-none", no_method_outside),
    WARNS("work-logged", "work-unlogged", no_method_outside), /* and methods-logged */
    LACKS("work-directed", "work-not-directed", undirected),
    LACKS("barriers-each-day", "day-not-ticked", second_day_barriers),
    LACKS("waste-each-day", "day-not-ticked", second_day_waste),
    WARNS("leave-each-day", "day-not-ticked", second_day_left),
    LACKS("waste-at-end", "waste-end-unsaid", folded_next_day),
    LACKS("cleaning-order", "cleaned-low-first", walls_last),
    LACKS("looked-after-cleaning", "looked-before-cleaning", looked_too_soon),
    LACKS("visual-inspection", "looked-none", no_look_inside),
    LACKS("visual-outside", "looked-dirty", dirty_outside),
    LACKS("surfaces-listed", "floor-missing", no_floor),
    LACKS("surface-verified", "section-reclean", floor_darker),
    LACKS("verification-order", "refused-already-clean", wiped_after_pass),
    LACKS("verifier-certified", "verifier-not-certified", worker_looked),
    LACKS("verification-record", "verification-unsigned", nobody_looked),
    LACKS("dust-places", "window-not-sampled", window_not_wiped),
    WARNS("dust-required", "sample-voluntary", voluntary_sample),
    LACKS("dust-wait", "sample-too-soon", sampled_after_59_minutes),
    LACKS("dust-level", "dust-at-or-above", dust_at_5),
    LACKS("dust-sampler", "sampler-not-lawful", worker_sampled),
    LACKS("dust-laboratory", "laboratory-not-lawful", dust_other_laboratory),
    LACKS("dust-in-area", "sample-of-another-area", sampled_in_the_kitchen),
    WARNS("dust-wiped-area", "wiped-area-large", wiped_30_by_30),
    LACKS("dust-recleaned", "dust-not-recleaned", not_recleaned),
    WARNS("dust-levels-changed", "levels-changed", straddling),
    LACKS("dust-report", "dust-report-overdue", owner_no_dust_report),
    {"assisted-tested", "tested-by-firm", MF_WARNING, fx_assisted, chip_by_renovator, FX_TODAY},
    {"assisted-scope", "assisted-de-minimis", MF_MET, fx_good, assisted_2_sqft, FX_TODAY},
    LACKS("assisted-said", "assisted-not-stated", moved_out),
    ASSIST("assisted-method", "assisted-dry", assisted_dry_spot),
    {"assisted-prepared", "assisted-not-prepared", MF_LACKING, fx_assisted_minor,
     assisted_uncovered, FX_TODAY},
    {"assisted-contained-first", "contained-after-work", MF_LACKING, fx_assisted_minor,
     assisted_covered_late, FX_TODAY},
    {"assisted-contained-all-along", "contained-after-work", MF_WARNING, fx_assisted_minor,
     assisted_covered_late, FX_TODAY},
    {"assisted-methods-logged", "methods-none", MF_LACKING, fx_assisted_minor, assisted_no_method,
     FX_TODAY},
    {"assisted-crew", "disturbed-untrained", MF_LACKING, fx_assisted_minor, stranger_disturbs,
     FX_TODAY},
    {"assisted-cleaners", "cleaned-untrained", MF_LACKING, fx_assisted_minor, stranger_cleans,
     FX_TODAY},
    {"assisted-site", "assisted-site-open", MF_LACKING, fx_assisted_minor, assisted_uncleaned,
     FX_TODAY},
    ASSIST("assisted-occupants-out", "occupants-not-kept-out", assisted_in_and_out),
    ASSIST("assisted-relocation", "stay-too-long", assisted_6_days),
    {"assisted-today", "stay-not-today", MF_LACKING, fx_assisted, not_completed, "2026-09-17"},
    ASSIST("assisted-clearance", "clearance-none", assisted_not_sampled),
    {"assisted-recleaned", "dust-not-recleaned", MF_LACKING, fx_assisted_minor, assisted_resampled,
     FX_TODAY},
    ASSIST("assisted-examiner", "examiner-worked", assisted_own_work),
    ASSIST("assisted-visual", "assessed-by-crew", assisted_seen_by_crew),
    ASSIST("assisted-approved", "approval-none", assisted_not_approved),
    {"assisted-emergency", "assisted-emergency", MF_WARNING, fx_assisted, assisted_storm, FX_TODAY},
    {"signs-assisted", "step-undone-over", MF_LACKING, fx_assisted, assisted_no_sign, FX_TODAY},
    ASSIST("assisted-blood-lead", "blood-lead-below", assisted_blood_lead_34),
    WARNS("osha-trigger", "osha-over-50", nothing),
    LACKS("handover-owner", "handover-overdue", owner_without),
    LACKS("handover-occupant", "handover-late", tenant_late),
    FACIL("handover-facility", "handover-overdue", daycare_without),
    UNITS("handover-units", "handover-overdue", units_without),
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
    for (size_t i = 0; i < n; i++)
        CHECK_ROW(mf_words2(MF_LANG_EN, "why", found[i].why) != NULL, found[i].why);
    return n;
}

static bool is_of(const mf_finding *finding, const char *id)
{
    return strcmp(finding->requirement->id, id) == 0;
}

/* Every method of a crew is worth a caution to it: 29 CFR 1926.62(d)(2). No job is
 * without one, and none is lacking for it. */
static bool is_caution(const mf_finding *finding)
{
    return is_of(finding, "osha-trigger") && finding->verdict == MF_WARNING;
}

/* Whoever may not sample may not look either, and an area that is not sampled was not looked
 * over. A worksite without the sign was not prepared, and EPA's relief is told of each emergency.
 * Of a job that is over nobody asks whether the containment stands, and of one that is not
 * over the completion is lacking. What lies in no area is told before demo, and of the signs. */
static bool comes_along(const mf_finding *finding, const char *id)
{
    if (strcmp(finding->why, "handover-never-completed") == 0) /* where the job is left open */
        return true;
    if (strcmp(id, "areas-hold-all") == 0)
        return is_of(finding, "component-in-area");
    if (strcmp(id, "opening-in-area") == 0 || strcmp(id, "component-in-area") == 0)
        return is_of(finding, "areas-hold-all");
    if (strcmp(id, "barriers-whole") == 0)
        return is_of(finding, "barriers-each-day") || is_of(finding, "contained-first") ||
               is_of(finding, "contained-all-along");
    if (strcmp(id, "contained-first") == 0 || strcmp(id, "signs-first") == 0 ||
        strcmp(id, "contained-all-along") == 0)
        return is_of(finding, "contained-all-along") || is_of(finding, "contained-first") ||
               is_of(finding, "signs-first");
    if (strcmp(id, "assisted-contained-first") == 0 ||
        strcmp(id, "assisted-contained-all-along") == 0)
        return is_of(finding, "assisted-contained-first") ||
               is_of(finding, "assisted-contained-all-along");
    if (strcmp(id, "work-logged") == 0)
        return is_of(finding, "methods-logged");
    if (strcmp(id, "said-twice") == 0)
        return is_of(finding, "said-twice-stricter");
    if (strcmp(id, "said-twice-stricter") == 0)
        return is_of(finding, "said-twice");
    if (strcmp(id, "assisted-clearance") == 0 || strcmp(id, "assisted-examiner") == 0)
        return is_of(finding, "assisted-visual");
    if (strcmp(id, "signs-assisted") == 0)
        return is_of(finding, "assisted-prepared");
    if (strcmp(id, "assisted-emergency") == 0)
        return is_of(finding, "emergency-relief");
    if (strcmp(id, "kit-substrate") == 0) /* then it is no proof that the paint is free */
        return is_of(finding, "paint-finding");
    if (strcmp(id, "program-of-place") == 0) /* of that place the book has no limits either */
        return is_of(finding, "local-limits");
    if (strcmp(id, "called-off") == 0 || strcmp(id, "job-goes-on") == 0)
        return is_of(finding, "called-off") || is_of(finding, "job-goes-on");
    if (strcmp(id, "called-off-agrees") == 0)
        return is_of(finding, "called-off");
    if (strncmp(id, "area-off-", 9) == 0 || strcmp(id, "area-called-off") == 0)
        return is_of(finding, "area-called-off") || is_of(finding, "area-off-agrees");
    if (strcmp(id, "completion-day") == 0)
        return is_of(finding, "contained-still");
    if (strcmp(id, "parties-named") == 0) /* and to nobody of the unit the record was given */
        return is_of(finding, "handover-occupant");
    if (strcmp(id, "area-unit") == 0) /* it may be of any unit, or common */
        return is_of(finding, "parties-named") || is_of(finding, "handover-occupant") ||
               is_of(finding, "handover-units");
    if (strcmp(id, "worker-trained") == 0)
        return is_of(finding, "contained-by-crew") || is_of(finding, "disturbed-by-crew");
    if (strcmp(id, "person-assigned") == 0)
        return is_of(finding, "disturbed-by-crew");
    if (strcmp(id, "training-topics") == 0) /* nobody knows whether it was what was done */
        return is_of(finding, "contained-by-crew") || is_of(finding, "disturbed-by-crew") ||
               is_of(finding, "cleaned-by-crew");
    if (strcmp(id, "told-today") == 0 || strcmp(id, "assisted-today") == 0)
        return is_of(finding, "completion-day") || is_of(finding, "contained-still");
    return strcmp(id, "contained-still") == 0 && is_of(finding, "completion-day");
}

/* Nothing of that verdict but under id, and there with that reason. */
static void only(size_t n, const char *id, mf_verdict verdict, const char *why)
{
    bool there = false;
    for (size_t i = 0; i < n; i++) {
        const mf_finding *it = &found[i];
        if (is_of(it, id) && it->verdict == verdict && strcmp(it->why, why) == 0)
            there = true;
        else if (!is_caution(it) && !comes_along(it, id) &&
                 (it->verdict == MF_LACKING || (it->verdict == verdict && verdict == MF_WARNING)))
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

/* A later line says undone; what was ticked before it stays on record. */
static void take_back(const char *area, const char *step)
{
    mf_tick undone = *fx_tick(&fx, area, step);
    undone.state = MF_TICK_UNDONE;
    if (strcmp(step, "waste-daily") == 0) /* asked for each day by itself */
        undone.on = fx_day("2026-09-16");
    else
        undone.at_minute++;
    assert_true(fx.job.n_tick < FX_TICKS);
    fx.tick[fx.job.n_tick++] = undone;
}

static void test_one_step_each(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(steps); i++) {
        fx_good(&fx);
        take_back(steps[i].area, steps[i].id);
        size_t n = ask(FX_TODAY);
        /* waste and cleaning can still be done; what was down on the day of work cannot */
        bool mends = strncmp(steps[i].id, "waste", 5) == 0 ||
                     mf_step_named(steps[i].id)->phase == MF_PHASE_CLEAN;
        only(n, steps[i].id, MF_LACKING, mends ? "step-undone" : "step-undone-over");
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
    change *const bases[] = {fx_good, fx_facility, fx_multi_unit, fx_assisted, fx_assisted_minor};
    for (size_t b = 0; b < COUNT(bases); b++) {
        bases[b](&fx);
        size_t n = ask(FX_TODAY);
        for (size_t i = 0; i < n; i++)
            if (!is_caution(&found[i]) &&
                (found[i].verdict == MF_LACKING || found[i].verdict == MF_WARNING))
                fail_msg("good job %zu: %s of \"%s\": %s", b, found[i].requirement->id,
                         found[i].subject, found[i].why);
        assert_true(mf_audit_answer(found, n, 0) == MF_ANSWER_YES);
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

/* A step and its requirement are two rows: they must say the same. */
static void test_steps_and_requirements_agree(void **state)
{
    (void)state;
    size_t n, n_steps;
    const mf_requirement *const *all = mf_requirements(&n);
    const mf_step *every = mf_steps(&n_steps);
    for (size_t s = 0; s < n_steps; s++) {
        size_t i = 0;
        while (i < n && strcmp(all[i]->id, every[s].id) != 0)
            i++;
        CHECK_ROW((i < n) == (every[s].when != MF_WHEN_CHOSEN), every[s].id);
        if (i == n)
            continue;
        CHECK_ROW(all[i]->status == every[s].status, every[s].id);
        CHECK_ROW(strstr(all[i]->citation, every[s].citation) == all[i]->citation, every[s].id);
        CHECK_ROW(strstr(all[i]->citation, every[s].record) != NULL, every[s].id);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_good),
        cmocka_unit_test(test_one_change_each),
        cmocka_unit_test(test_one_step_each),
        cmocka_unit_test(test_every_requirement_has_a_case),
        cmocka_unit_test(test_steps_and_requirements_agree),
    };
    return cmocka_run_group_tests_name("audit_rows", tests, NULL, NULL);
}
