/* One entry that two devices corrected in two ways: who settles it, and whom it concerns. All
 * constructed (support/fixture_job.h). */
#include "core/finding.h"

/* Why, when that is the verdict of a correction of an entry; else "otherwise". */
static const char *said_of(const char *entry, mf_verdict verdict)
{
    const mf_finding *it = finding("corrections-agree", entry);
    return it->verdict == verdict ? it->why : "otherwise";
}

/* Who saw both says what is true; another device's line about another entry settles nothing. */
static void who_saw_both_settles_both(void **state)
{
    (void)state;
    fx_good(&fx);
    fx.correction[1] = fx.correction[2] = fx.correction[0];
    fx.correction[1].src.entry = "tablet/9";
    fx.correction[1].after = ""; /* withdrawn there */
    fx.correction[2].src.entry = "cr/2";
    fx.correction[2].replaces = "cr/1";
    fx.correction[2].settles = "phone/1,tablet/9";
    fx.correction[2].after = "{\"size\":4200}";
    fx.job.n_correction = 3;
    assert_string_equal(said_of("s/2", MF_MET), "correction-alone");
    fx.correction[2].target = "s/3";
    assert_string_equal(said_of("s/2", MF_LACKING), "correction-contradicted");
}

/* Of the firm's entries: the kind, what two devices say, and whether a job of rosa's and SN-TEST's
 * rests on which is true. */
static void of_the_firm_it_concerns_who_rests_on_it(void **state)
{
    static const struct {
        const char *kind, *one, *other;
        bool rests;
    } of[] = {
        {"certificate", "{\"holder\":\"rosa\",\"number\":\"1\"}", "{\"holder\":\"rosa\"}", true},
        {"certificate", "{\"holder\":\"eve\"}", "{\"holder\":\"rosa\"}", true},
        {"certificate", "{\"holder\":\"ros\"}", "{\"holder\":\"rosalie\"}", false},
        {"certificate", "{\"holder\":\"eve\",\"number\":\"1\"}", "{\"holder\":\"eve\"}", false},
        {"certificate", "{\"holder\":\"eve\"}", "", false},
        {"certificate", "{\"holder\":\"rosa\"}", "", true},
        {"certificate", "{\"holder\":\"firm\"}", "", true},
        {"certificate", "{\"number\":\"1\"}", "", true},
        {"certificate", "{\"holder\":\"ros\\u0061\"}", "", true},
        {"person", "{\"id\":\"rosa\",\"name\":\"A\"}", "{\"id\":\"rosa\",\"name\":\"B\"}", false},
        {"person", "{\"id\":\"rosa\",\"name\":\"A\"}", "", true},
        {"person", "{\"id\":\"rosa\",\"name\":\"A\"}", "{\"id\":\"eve\",\"name\":\"A\"}", true},
        {"person", "{\"id\":\"eve\",\"name\":\"A\"}", "", false},
        {"instrument", "{\"serial\":\"SN-TEST\"}", "", true},
        {"instrument", "{\"serial\":\"X-101\"}", "", false},
        {"profile_row", "{\"instrument\":\"SN-TEST\"}", "", true},
        {"profile_row", "{\"instrument\":\"X-1\"}", "", false},
        {"firm", "{\"name\":\"A\"}", "{\"name\":\"B\"}", true},
        {"local_limit", "{\"place\":\"US-XX\"}", "", true},
        {"own_step", "{\"id\":\"shoes\"}", "", false},
        {"column_map", "{\"instrument\":\"SN-TEST\"}", "", false},
        {"a kind that is not known here", "{\"id\":\"eve\"}", "", true},
    };
    (void)state;
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        fx_good(&fx);
        fx.correction[0].target = "ce/9";
        fx.correction[0].replaces = "ce/9";
        fx.correction[0].kind = of[i].kind;
        fx.correction[0].before = "";
        fx.correction[1] = fx.correction[0];
        fx.correction[0].after = of[i].one;
        fx.correction[1].src.entry = "tablet/9";
        fx.correction[1].after = of[i].other;
        fx.job.n_correction = 2;
        const char *why = said_of("ce/9", of[i].rests ? MF_LACKING : MF_MET);
        if (strcmp(why, of[i].rests ? "correction-contradicted" : "correction-elsewhere") != 0)
            fail_msg("%s %s: %s", of[i].one, of[i].other, why);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(who_saw_both_settles_both),
                                       cmocka_unit_test(of_the_firm_it_concerns_who_rests_on_it)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
