/* Of which corrections an answer tells. Records must be "sufficient to show compliance" (40 CFR
 * 745.86(a)): whatever was put right in them and decides something is told to whoever relies on
 * it. All rows by hand; the jobs are constructed. */
#include "core/finding.h"
#include "journal/body.h"
#include "support/case_job.h"

#include <mistfold/words.h>

static mf_arena arena;

static mf_correction correction_of(const char *entry, const char *replaces, const char *kind,
                                   const char *before, const char *after)
{
    mf_correction it = {.src = {entry, "", "lee", ""},
                        .target = "e/1",
                        .replaces = replaces,
                        .settles = "",
                        .kind = kind,
                        .reason = "typo",
                        .before = before,
                        .after = after};
    assert_int_equal(mf_body_item(&it.was, mf_kind_named(kind), before, &arena, NULL), MF_OK);
    assert_int_equal(mf_body_item(&it.now, mf_kind_named(kind), after, &arena, NULL), MF_OK);
    return it;
}

static void the_one_correction(const char *kind, const char *before, const char *after)
{
    fx_good(&fx);
    fx.correction[0] = correction_of("c/1", "e/1", kind, before, after);
    fx.job.n_correction = 1;
}

static const char told[] = "correction-of-result", alone[] = "correction-alone",
                  withdrawn[] = "correction-of-test";

static const struct {
    const char *kind, *before, *after, *why;
} rows[] = {
    {"kit_test", "{\"result\":\"positive\"}", "{\"result\":\"negative\"}", told},
    {"kit_test", "{\"component\":\"a\"}", "{\"component\":\"ab\"}", told},
    {"kit_test", "{\"component\":\"a\\\\\"}", "{\"component\":\"a\\\\\\\\\"}", told},
    {"kit_test", "{\"component\":\"a\\\"b\"}", "{\"component\":\"a\\\"c\"}", told},
    {"reading", "{\"loading_ug_cm2\":1200}", "{\"loading_ug_cm2\":200}", told},
    {"chip", "{\"weight_ppm\":5000}", "{}", told},
    {"determination", "{\"report\":\"1\"}", "", withdrawn},
    /* whatever decides, of whatever entry: a failed sample, a look that saw dust, a day of work, an
     * emergency, a window that must be sampled */
    {"dust_sample", "{\"day\":\"2026-09-15\"}", "{\"day\":\"2026-09-10\"}", told},
    {"dust_sample", "{\"time\":\"13:30\"}", "{\"time\":\"09:30\"}", told},
    {"dust_sample", "{\"place\":\"bath\"}", "{\"place\":\"kitchen\"}", told},
    {"dust_sample", "{\"area\":\"A1\"}", "{\"area\":\"A2\"}", told},
    {"dust_sample", "{\"length_in_1600\":19200}", "{\"length_in_1600\":38400}", told},
    {"dust_sample", "{\"width_in_1600\":19200}", "{\"width_in_1600\":38400}", told},
    {"dust_sample", "{\"wipes\":4}", "{\"wipes\":1}", told},
    {"dust_sample", "{\"outside_ft_100\":3000}", "{}", told},
    {"dust_sample", "{\"sampler\":\"lee\"}", "{\"sampler\":\"ines\"}", told},
    {"dust_sample", "{\"required\":true}", "{\"required\":false}", told},
    {"dust_sample", "{\"qualifier\":\"over\"}", "{}", told},
    {"dust_sample", "{\"nllap\":false}", "{\"nllap\":true}", told},
    {"verification", "{\"day\":\"2026-09-15\"}", "{\"day\":\"2026-09-10\"}", told},
    {"verification", "{\"person\":\"lee\"}", "{\"person\":\"rosa\"}", told},
    {"practice", "{\"day\":\"2026-09-16\"}", "{\"day\":\"2026-09-14\"}", told},
    {"practice", "{\"area\":\"A1\"}", "{\"area\":\"A2\"}", told},
    {"tick", "{\"measured_ft_100\":100}", "{\"measured_ft_100\":600}", told},
    {"emergency", "{\"day\":\"2026-09-15\"}", "{\"day\":\"2026-09-13\"}", told},
    {"emergency", "", "", withdrawn},
    {"opening", "{\"room\":\"bath\"}", "{\"room\":\"kitchen\"}", told},
    {"opening", "{\"id\":\"W03\"}", "", withdrawn},
    {"area", "{\"openings\":\"W01,W02\"}", "{\"openings\":\"W01\"}", told},
    {"house", "{\"year_built\":1950}", "{\"year_built\":1980}", told},
    {"house", "{\"start\":\"2026-09-14\"}", "{\"start\":\"2026-09-20\"}", told},
    {"training", "{\"topics\":\"signs\"}", "{\"topics\":\"signs; waste\"}", told},
    /* who may sign for whom, and whether the owner lives there */
    {"party", "{\"name\":\"Ira\"}", "{\"name\":\"Ida\"}", told},
    {"party", "{\"address\":\"5 A Rd\"}", "{\"address\":\"6 B Rd\"}", told},
    /* names, numbers of papers, remarks, what is for the plan */
    {"chip", "{\"report\":\"1\",\"weight_ppm\":90}", "{\"report\":\"2\",\"weight_ppm\":90}", alone},
    {"kit_test", "{\"lot\":\"\\\"result\\\":1\"}", "{\"lot\":\"\\\"result\\\":2\"}", alone},
    {"kit_test", "{\"component\":\"a\\\\\"}", "{\"component\":\"a\\\\\",\"lot\":\"2\"}", alone},
    {"dust_sample", "{\"laboratory\":\"Lb\"}", "{\"laboratory\":\"Lab\"}", alone},
    {"practice", "{\"note\":\"a\"}", "{\"note\":\"b\"}", alone},
    {"notice", "{\"signer\":\"Ira\"}", "{\"signer\":\"Ida\"}", told},
    {"house", "{\"address\":\"5 A Rd\"}", "{\"address\":\"6 B Rd\"}", told},
    {"firm", "{\"address\":\"5 A Rd\"}", "{\"address\":\"6 B Rd\"}", alone},
    {"person", "{\"name\":\"Ira\"}", "{\"name\":\"Ida\"}", alone},
    {"house", "{\"end\":\"2026-09-15\"}", "{\"end\":\"2026-09-18\"}", alone},
    {"opening", "{\"width_in\":30}", "{\"width_in\":32}", alone},
    {"sealed", "{\"day\":\"2026-09-15\"}", "{\"day\":\"2026-09-18\"}", alone},
    {"attachment", "{\"name\":\"a.jpg\"}", "", alone},
    /* of the firm what the job rests on, and no more */
    {"certificate", "{\"holder\":\"rosa\",\"issued\":\"2020-01-01\"}",
     "{\"holder\":\"rosa\",\"issued\":\"2024-01-01\"}", told},
    {"certificate", "{\"holder\":\"nobody\",\"issued\":\"2020-01-01\"}",
     "{\"holder\":\"nobody\",\"issued\":\"2024-01-01\"}", alone},
    {"column_map", "{\"column\":\"a\"}", "{\"column\":\"b\"}", alone},
    /* a change of the firm (745.89(c)) moved to another day hides that the amendment was late; what
     * befell it later on is logged by a correction of the certificate */
    {"certificate", "{\"changed\":\"2026-06-01\",\"holder\":\"firm\"}",
     "{\"changed\":\"2026-11-01\",\"holder\":\"firm\"}", told},
    {"certificate", "{\"changed\":\"2026-06-01\",\"holder\":\"firm\"}", "{\"holder\":\"firm\"}",
     told},
    {"certificate", "{\"holder\":\"firm\"}", "{\"changed\":\"2026-06-01\",\"holder\":\"firm\"}",
     alone},
};

static void what_decides_is_told(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        the_one_correction(rows[i].kind, rows[i].before, rows[i].after);
        const mf_finding *it = finding("corrections-agree", "e/1");
        CHECK_ROW(strcmp(it->why, rows[i].why) == 0, rows[i].before);
        CHECK_ROW((it->verdict == MF_WARNING) == (rows[i].why != alone), rows[i].before);
        mf_arena_free(&arena);
    }
}

/* Somebody may correct the same entry again, in a remark: what the first correction changed is told
 * all the same, once, from what the entry said at first. */
static void a_correction_hides_no_other(void **state)
{
    static const char first[] = "{\"loading_ng_ft2\":700000}",
                      second[] = "{\"loading_ng_ft2\":3000}",
                      third[] = "{\"loading_ng_ft2\":3000,\"report\":\"R2\"}";
    (void)state;
    the_one_correction("dust_sample", first, second);
    fx.correction[1] = correction_of("c/2", "c/1", "dust_sample", second, third);
    fx.job.n_correction = 2;
    size_t n = find_on(FX_TODAY, ""), n_told = 0;
    for (size_t i = 0; i < n; i++) {
        if (found[i].why != NULL && strcmp(found[i].why, told) == 0) {
            n_told++;
            assert_string_equal(found[i].evidence, "c/2");
            assert_ptr_equal(found[i].was, fx.correction[0].was);
        }
    }
    assert_int_equal(n_told, 1);
    /* there and back: it did say otherwise in between */
    fx.correction[1] = correction_of("c/2", "c/1", "dust_sample", second, first);
    assert_string_equal(finding("corrections-agree", "e/1")->why, told);
    mf_arena_free(&arena);
}

/* Of two corrections side by side the one that was settled says otherwise. */
static void what_was_settled_is_told(void **state)
{
    static const char was[] = "{\"loading_ng_ft2\":3000}", other[] = "{\"loading_ng_ft2\":700000}";
    (void)state;
    the_one_correction("dust_sample", was, "{\"loading_ng_ft2\":3000,\"report\":\"R2\"}");
    fx.correction[1] = correction_of("t/1", "e/1", "dust_sample", was, other);
    fx.correction[2] = correction_of("c/2", "c/1", "dust_sample", was, was);
    fx.correction[2].settles = "t/1";
    fx.job.n_correction = 3;
    const mf_finding *it = finding("corrections-agree", "e/1");
    for (size_t i = 0; it < found + MAX_FINDINGS && strcmp(it->why, told) != 0; i++)
        it++;
    assert_ptr_equal(it->was, fx.correction[1].now);
    mf_arena_free(&arena);
}

static void it_says_what_from_what_to_what_by_whom(void **state)
{
    char text[512];
    (void)state;
    the_one_correction("dust_sample", "{\"day\":\"2026-09-15\",\"wipes\":2}",
                       "{\"day\":\"2026-09-10\",\"time\":\"13:30\",\"wipes\":2}");
    mf_words_why(MF_LANG_EN, finding("corrections-agree", "e/1"), text, sizeof text);
    assert_string_equal(text, "An entry was corrected by lee: dust sample e/1, day 2026-09-15 -> "
                              "2026-09-10; time not given -> 13:30 (typo). Whoever relies on it "
                              "should know why.");
    the_one_correction("dust_sample", "{\"loading_ng_ft2\":700000,\"wipes\":2}",
                       "{\"loading_ng_ft2\":3000,\"required\":true,\"wipes\":4}");
    mf_words_why(MF_LANG_ES, finding("corrections-agree", "e/1"), text, sizeof text);
    assert_string_equal(text, "lee corrigió un asiento: muestra de polvo e/1, required no indicado "
                              "-> sí; resultado 700 µg/pie² -> 3 µg/pie²; wipes 2 -> 4 (typo). "
                              "Quien confíe en ello debe saber por qué.");
    /* where somebody lives need not be repeated */
    the_one_correction("area", "{\"unit\":\"3B\"}", "{\"unit\":\"4C\"}");
    mf_words_why(MF_LANG_EN, finding("corrections-agree", "e/1"), text, sizeof text);
    assert_string_equal(text, "An entry was corrected by lee: work area e/1, unit (typo). Whoever "
                              "relies on it should know why.");
    mf_arena_free(&arena);
}

/* ---- nothing that decides is left untold -------------------------------------------------- */

static case_job made;
static mf_finding before[MAX_FINDINGS];

static bool answers_alike(size_t n)
{
    mf_audit_ask question = {&made.job, fx_day(FX_TODAY), 0, ""};
    bool alike = mf_audit(&question, found, MAX_FINDINGS) == n;
    for (size_t i = 0; alike && i < n; i++)
        alike = mf_verdict_asks(found[i].verdict) == mf_verdict_asks(before[i].verdict);
    return alike;
}

/* Another value of the field, or none; each choice decides (corrected.c). */
static void try_field(const mf_kind *kind, const mf_field *field, unsigned char *item, size_t n)
{
    const mf_value others[] = {{true, 1, "another"},
                               {true, 20000, "2026-01-01"},
                               {true, 3, "9 Other Road"},
                               {false, 0, ""}};
    unsigned char kept[1024];
    memcpy(kept, item, kind->size);
    bool paper =
        field->type == MF_F_TEXT; /* its number is asked for; which one it is decides nothing */
    size_t n_others = paper || (field->flags & MF_F_NEEDED) != 0 ? 3 : 4;
    if (field->type == MF_F_CHOICE || (field->flags & MF_F_LATER) != 0 || /* which is logged so */
        !mf_field_is_typed(field)) /* no correction changes it (fold.c) */
        return;
    for (size_t i = 0; i < n_others; i++) {
        mf_item_put(field, item, &others[i]);
        if (!mf_field_corrected(kind, field, kept, item))
            CHECK_ROW(answers_alike(n), field->name);
        memcpy(item, kept, kind->size);
    }
}

static void what_is_not_told_decides_nothing(void **state)
{
    static const char *const bases[] = {"dwelling", "facility", "units", "assisted"};
    size_t n_kinds;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    (void)state;
    for (size_t b = 0; b < COUNT(bases); b++) {
        assert_true(case_base(&made, bases[b]));
        mf_audit_ask question = {&made.job, fx_day(FX_TODAY), 0, ""};
        size_t n = mf_audit(&question, before, MAX_FINDINGS);
        assert_in_range(n, 1, MAX_FINDINGS);
        for (size_t k = 0; k < n_kinds; k++)
            for (size_t i = 0; i < case_count(&made, &kinds[k]); i++)
                for (size_t f = 0; f < kinds[k].n_fields; f++)
                    try_field(&kinds[k], &kinds[k].fields[f], case_item(&made, &kinds[k], i), n);
        case_free(&made);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_decides_is_told),
        cmocka_unit_test(a_correction_hides_no_other),
        cmocka_unit_test(what_was_settled_is_told),
        cmocka_unit_test(it_says_what_from_what_to_what_by_whom),
        cmocka_unit_test(what_is_not_told_decides_nothing),
    };
    return cmocka_run_group_tests_name("corrected", tests, NULL, NULL);
}
