/* Which question each requirement bears on. By hand, from the paragraph beside each
 * row, never from the table under test: what must be so before the work begins
 * (745.84, 745.85(a)(1)-(2), 745.89, 745.90), what before the signs come down
 * (745.85(a)(1): they stay until the cleaning verification is done; (a)(3)-(5), (b),
 * (c)), what people are owed (745.86(c)-(d)), what an inspector asks for (745.86(a)-(b):
 * all but the facts that only say whether the rule covers the job). A requirement
 * without a row is a failure, and so is a gate too many. */
#include "core/given.h"

#include <mistfold/audit.h>
#include <string.h>

/* Gates by a letter: r under the rule, d demo, s signs, h hand-over, i inspection. */
typedef struct gate_case {
    const char *id, *gates, *from;
} gate_case;

static const gate_case cases[] = {
    /* Facts of the house: 745.82(a) and the definitions decide whether it is covered, and
     * nothing else. Local rows must also be shown to have been followed. */
    {"said-twice", "i", "745.86(a)"},
    {"said-twice-stricter", "rdsh", "745.86(a)"},
    {"limits-of-start", "dsi",
     "745.86(a): by which limits the work of each day is shown to comply"},
    {"times-can-be", "dshi", "745.86(a): a time nobody knows shows no order and no wait"},
    {"covered", "r", "745.82(a), 745.83"},
    {"year-built", "r", "745.103, target housing"},
    {"for-pay", "r", "745.82(a), for compensation"},
    {"owner-lives", "r", "745.82(a); 745.84(a)(2) asks where the owner does not live there"},
    {"elder-housing", "r", "745.103"},
    {"zero-bedroom", "r", "745.103"},
    {"child-under-6", "r", "745.103"},
    {"facility-visits", "r", "745.83, child-occupied facility"},
    {"house-agrees", "r", "745.103, 745.83: the word that would take the house out"},
    {"work-listed", "ri",
     "745.82(a)(1)-(3): each component; 745.83: how much a room; 745.86(a): the file"},
    {"minor-area", "r", "745.83, minor repair"},
    {"local-limits", "rdi", "745.81(a): the authorized program governs in place of EPA's"},
    /* 745.82(b): an emergency changes which rules hold, before the work and when it is
     * cleaned; what it never excuses is lacking at the same gates. */
    {"emergency-relief", "rdsi", "745.82(b): relief from (a)(1), (a)(2), (a)(4)"},
    {"emergency-notes", "i", "745.86(b)(6): the record of it, made as soon as practicable"},
    {"emergency-limits", "di",
     "745.82(b): left out before or in the work; signs go by (b)(1)(iii)"},

    /* The paint: the finding decides whether the job needs containment, so before the work;
     * the papers behind it are records. */
    {"components-listed", "di", "745.82(a): each affected component"},
    {"paint-finding", "di", "745.82(a)(1)-(3)"},
    {"paint-agrees", "i", "745.86(a): records that contradict each other"},
    {"xrf-calibration", "rdi", "745.227(b): readings that decide whether it is covered"},
    {"xrf-substrate", "rdi", "745.82(a): what frees the paint, before the work"},
    {"determination-copy", "i", "745.86(b)(1)(i)"},
    {"owner-record", "i", "745.86(b)(1)(i)"},
    {"kit-record", "i", "745.86(b)(1)(ii)"},
    {"chip-record", "i", "745.86(b)(1)(iii)"},
    {"determination-assessor", "i", "745.86(b)(1)(i)"},
    {"kit-place", "i", "745.86(b)(1)(ii)"},
    {"kit-lot", "i", "745.86(b)(1)(ii)"},
    {"kit-substrate", "rdi", "745.82(a)(2): what frees the paint, before the work"},
    {"chip-place", "i", "745.86(b)(1)(iii)"},

    /* Who may work: certificates are held before anybody offers or performs. */
    {"firm-certified", "di", "745.81(a)(2)(ii): no firm may perform without it"},
    {"program-of-place", "di", "745.81(a), subpart Q: the program of the place governs"},
    {"renovator-assigned", "di", "745.89(d)(2): to each renovation"},
    {"renovator-certified", "di", "745.90(a)"},
    {"renovator-certificate-copy", "i", "745.90(b)(7), 745.86(b)(6): the copy"},
    {"person-assigned", "i", "745.89(d)(1): who acted, seen afterwards"},
    {"worker-trained", "di", "745.90(b)(2): before he or she does the task"},
    {"contained-by-crew", "di", "745.90(b)(2): before the task"},
    {"disturbed-by-crew", "di", "745.90(b)(2): the practices, before they are used"},
    {"cleaned-by-crew", "si", "745.90(b)(2): cleaning is one of the tasks"},
    {"training-topics", "i", "745.86(b)(6)(i): the record of it"},
    {"renovator-days", "i", "745.90(b)(2)-(4): on the days acted, seen afterwards"},
    {"training-tasks", "i", "745.86(b)(6)(i)"},

    /* 745.84 all says before: no more than 60 days before beginning the renovation. */
    {"area-unit", "di", "745.84(a)(2), (b): whom the work is told to"},
    {"occupant-unit", "di", "745.84(a)(2)"},
    {"unit-vacant", "di", "745.84(a)(2)"},
    {"parties-named", "di", "745.84(a)-(c)"},
    {"pamphlet-owner", "di", "745.84(a)(1)"},
    {"pamphlet-occupant", "di", "745.84(a)(2)"},
    {"pamphlet-facility", "di", "745.84(c)(1)(ii)"},
    {"notice-units", "di", "745.84(b)(2)"},
    {"notice-parents", "di", "745.84(c)(2)"},
    {"notice-language", "di", "745.84(d)(3)"},
    {"acknowledgement-contents", "di", "745.84(d)(1)-(2)"},
    {"paper-names", "di", "745.84(d)(1)"},
    {"mailing-receipt", "di", "745.84(a)(1)(ii)"},
    {"notice-contents", "di", "745.84(b)(2), (c)(2)"},
    {"notice-changed", "di", "745.84(b)(4): before the work goes beyond the first notice"},
    {"told-dates", "di", "745.84(b)(4): the same of the days told"},
    {"told-today", "d", "745.84(b)(4): work today; of an inspector no day is asked"},
    {"sign-dates", "di", "745.84(b)(2)(ii)"},

    /* 745.85(a)(2): before beginning the renovation the work area is isolated. Without a
     * work area no step is asked for and a yes for the signs would be empty. */
    {"areas-listed", "dsi", "745.85(a)(1)-(2), (b)"},
    {"areas-hold-all", "s", "745.85(a)(1), (b): until the cleaning was verified"},
    {"opening-in-area", "di", "745.85(a)(2)"},
    {"component-in-area", "di", "745.85(a)(2)"},
    {"signs", "di", "745.85(a)(1): posted before beginning"},
    {"signs-language", "di", "745.85(a)(1)"},
    {"signs-assisted", "di", "24 CFR 35.1345(b)(2)"},
    {"isolate", "di", "745.85(a)(2): before beginning"},
    {"egress", "di", "745.85(a)(2)"},
    {"objects", "di", "745.85(a)(2)(i)(A)"},
    {"ducts", "di", "745.85(a)(2)(i)(B)"},
    {"windows-closed", "di", "745.85(a)(2)(i)(C)"},
    {"doors-closed", "di", "745.85(a)(2)(i)(C)"},
    {"doors-used", "di", "745.85(a)(2)(i)(C)"},
    {"floor-sheet", "di", "745.85(a)(2)(i)(D)"},
    {"windows-outside", "di", "745.85(a)(2)(ii)(A)"},
    {"doors-outside", "di", "745.85(a)(2)(ii)(A)"},
    {"openings-below", "di", "745.85(a)(2)(ii)(A)"},
    {"doors-used-outside", "di", "745.85(a)(2)(ii)(B)"},
    {"ground-sheet", "di", "745.85(a)(2)(ii)(C)"},
    {"line-containment", "di", "745.85(a)(2)(ii)(D)"},
    {"job-open", "d", "745.85(a)(2): before beginning; a job that is over begins nothing"},
    {"area-called-off", "d", "745.85(a)(2): nor in an area of it"},
    {"called-off", "d", "745.85(a)(2): nothing is to be torn out in a job that nobody is to do"},
    {"start-reached", "d", "745.84: people were told of that day"},
    {"contained-still", "d", "745.85(a)(2): before the renovation, and again"},
    {"line-measured", "di", "745.85(a)(2)(ii)(D)"},

    /* During the work: what must have held when the signs come down; a forbidden method is
     * refused before it is used. */
    {"method-allowed", "di", "745.85(a)(3): prohibited or restricted"},
    {"signs-first", "i", "745.85(a)(1): before the renovation; the record of it"},
    {"contained-first", "i", "745.85(a)(2): before the renovation; the record of it"},
    {"area-off-signs", "s", "745.83, 745.85(a)(1): nothing was modified there"},
    {"contained-all-along", "s", "745.85(a)(1)-(2): what got out before the signs come down"},
    {"methods-logged", "i", "745.86(b)(6): the record of (a)(3)"},
    {"work-logged", "s", "745.85(a)(2), (a)(4)(ii): whether each day of it could be asked"},
    {"work-directed", "i", "745.90(b)(1), (b)(4): the record of it"},
    {"barriers-each-day", "si", "745.85(a)(2): kept during the renovation"},
    {"waste-each-day", "si", "745.85(a)(4)(ii): at the end of each work day"},
    {"waste-at-end", "si", "745.85(a)(4)(ii)"},
    {"leave-each-day", "si", "745.85(a)(2)(i)(E)"},
    {"barriers-whole", "si", "745.85(a)(2): not ripped or displaced"},
    {"leave-clean", "si", "745.85(a)(2)(i)(E)"},
    {"waste-contained", "si", "745.85(a)(4)(i)"},
    {"waste-chute", "si", "745.85(a)(4)(i)"},
    {"waste-daily", "si", "745.85(a)(4)(ii)"},
    /* The load may leave the site after the signs are down. */
    {"waste-transport", "i", "745.85(a)(4)(iii): when it is transported"},

    /* 745.85(a)(5): no dust, debris or residue remains; then (b) or (c). */
    {"chips", "si", "745.85(a)(5)(i)(A)"},
    {"sheeting", "si", "745.85(a)(5)(i)(B)"},
    {"walls", "si", "745.85(a)(5)(ii)(A)"},
    {"surfaces", "si", "745.85(a)(5)(ii)(B)-(C)"},
    {"carpet", "si", "745.85(a)(5)(ii)(B)"},
    {"mop", "si", "745.85(a)(5)(ii)(C)"},
    {"margin", "si", "745.85(a)(5)(ii)"},
    {"divider", "si", "745.85(a)(5)(i)(B)"},
    {"clean-outside", "si", "745.85(a)(5)"},
    {"cleaning-order", "si", "745.85(a)(5)(ii): from higher to lower"},
    {"looked-after-cleaning", "si", "745.85(b)(1)(i), (b)(2)"},
    {"visual-inspection", "si", "745.85(b)(1)(i)"},
    {"visual-outside", "si", "745.85(b)(2)"},
    {"surfaces-listed", "si", "745.85(b)(1)(ii)(A)-(B)"},
    {"surface-verified", "si", "745.85(b)(1)(ii)"},
    {"verification-order", "si", "745.85(b)(1)(i)-(ii)"},
    {"verifier-certified", "si", "745.85(b), 745.90(b)(1)"},
    {"verification-record", "si", "745.86(b)(6)(viii)"},
    {"dust-required", "si", "745.85(c)(1)"},
    {"dust-wait", "si", "745.227(e)(8)(iv): an hour after the final cleaning"},
    {"dust-level", "si", "745.85(c)(3)"},
    {"dust-sampler", "si", "745.85(c)(2)"},
    {"dust-laboratory", "si", "745.90(c)(1)"},
    {"dust-places", "si", "745.227(e)(8)(v): where clearance is sampled"},
    {"dust-in-area", "si", "745.227(e)(8)(v): each room of the area"},
    {"dust-wiped-area", "si", "745.227(e)(8)(vii): the loading is of the area wiped"},
    {"dust-recleaned", "si", "745.85(c)(3)"},
    {"dust-levels-changed", "si", "745.227(e)(8), on the day of sampling"},

    /* 24 CFR part 35: methods and occupants before the work, the site and the clearance
     * before people come back. */
    {"assisted-scope", "r", "24 CFR 35.1350(d)"},
    {"assisted-tested", "rdi", "24 CFR 35.110: what frees the paint, before the work"},
    {"assisted-said", "dsi", "35.115: whether part 35 holds, before anything it asks"},
    {"assisted-emergency", "di", "24 CFR 35.115(a)(9)"},
    {"assisted-method", "di", "24 CFR 35.140"},
    /* As areas-listed: without a work area a yes would be empty. */
    {"assisted-prepared", "dsi", "24 CFR 35.1345(b): prepared before, contained until it is clean"},
    {"assisted-contained-first", "i", "24 CFR 35.1345(b): before the work and while it goes on"},
    {"assisted-contained-all-along", "s", "as contained-all-along: told where the signs come down"},
    {"assisted-methods-logged", "i", "24 CFR 35.140: nothing else shows it of work that is over"},
    {"assisted-crew", "di", "24 CFR 35.1330(a)(4): as disturbed-by-crew"},
    {"assisted-cleaners", "si", "24 CFR 35.1330(a)(4): as cleaned-by-crew"},
    {"assisted-site", "si", "24 CFR 35.1350(c): cleaned"},
    {"assisted-occupants-out", "di", "24 CFR 35.1345(a)(1)"},
    {"assisted-relocation", "di", "24 CFR 35.1345(a)(2)"},
    {"assisted-today", "d", "24 CFR 35.1345(a)(2): work today"},
    {"assisted-clearance", "si", "24 CFR 35.1340(g)"},
    {"assisted-recleaned", "si", "24 CFR 35.1340(e): what clearance rests on"},
    {"assisted-visual", "si", "24 CFR 35.1340(b)(2)(ii)"},
    {"assisted-examiner", "si", "24 CFR 35.1340(b)(1), (f)"},
    {"assisted-approved", "si", "24 CFR 35.1340(b)(1)(iii)"},
    {"assisted-blood-lead", "i", "24 CFR 35.110"},
    {"osha-trigger", "di", "29 CFR 1926.62(d)(2): protection until it is measured"},

    /* 745.86(c)-(d): within 30 days or with the final invoice. */
    {"handover-owner", "hi", "745.86(c)(1)(i)"},
    {"handover-occupant", "hi", "745.86(c)(1)(ii)"},
    {"handover-facility", "hi", "745.86(c)(1)(ii)"},
    {"handover-units", "hi", "745.86(c)(2)"},
    {"dust-report", "hi", "745.86(d)"},

    /* 745.86(a): kept, available, for three years. */
    {"job-goes-on", "shi", "745.83: nothing was modified, and nothing is owed"},
    {"area-off-agrees", "i", "745.86(a): records that contradict each other"},
    {"called-off-agrees", "i", "745.86(a): records that contradict each other"},
    {"completion-day", "i", "745.86(a)"},
    {"certification", "i", "745.86(b)(6)"},
    {"retention", "i", "745.86(a)"},
    {"book-unaltered", "i", "745.86(a)"},
    {"corrections-agree", "rdshi", "745.86(a)"},
    {"record-sealed", "i", "745.86(a)"},
};
#define N_CASES (sizeof cases / sizeof cases[0])

static const char letters[] = "rdshi";

static unsigned gates_of(const char *written)
{
    unsigned gates = 0;
    for (; *written != '\0'; written++)
        gates |= 1u << (strchr(letters, *written) - letters);
    return gates;
}

static const gate_case *case_of(const char *id)
{
    for (size_t i = 0; i < N_CASES; i++) {
        if (strcmp(cases[i].id, id) == 0)
            return &cases[i];
    }
    return NULL;
}

static void each_requirement_bears_on_its_gates(void **state)
{
    size_t count, wrong = 0;
    const mf_requirement *const *all = mf_requirements(&count);
    (void)state;
    for (size_t i = 0; i < count; i++) {
        const gate_case *by_hand = case_of(all[i]->id);
        if (by_hand == NULL) {
            print_error("%s: no gates written by hand for it\n", all[i]->id);
            wrong++;
        } else if (gates_of(by_hand->gates) != all[i]->gates) {
            print_error("%s: gates %#x, but %s by %s\n", all[i]->id, all[i]->gates, by_hand->gates,
                        by_hand->from);
            wrong++;
        }
    }
    assert_int_equal(wrong, 0);
    assert_int_equal(count, N_CASES); /* and none twice or gone */
}

/* The bits are those of the names. "Design": docs/ and the command line use these. */
static void letters_are_the_gates(void **state)
{
    static const char *const names[] = {"rule", "demo", "signs", "handover", "inspection"};
    (void)state;
    assert_int_equal(MF_GATE_COUNT, 5);
    for (size_t i = 0; i < 5; i++) {
        assert_string_equal(mf_gate_name((mf_gate)i), names[i]);
        assert_int_equal(mf_gate_named(names[i]), i);
    }
    assert_int_equal(mf_gate_named("nothing"), MF_GATE_COUNT);
    assert_string_equal(mf_gate_name(MF_GATE_COUNT), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_requirement_bears_on_its_gates),
        cmocka_unit_test(letters_are_the_gates),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
