/* Wording: every id in both languages, numbers as people read them, sentences
 * with their placeholders filled. Expected texts are constructed by hand. */
#include "support/cmocka_all.h"
#include "words/value.h"
#include "words/words_data.h"

#include <mistfold/contain.h>
#include <mistfold/limit.h>
#include <stdio.h>
#include <string.h>

static void rows_are_sorted_and_in_both_languages(void **state)
{
    (void)state;
    assert_true(mf_words_count > 100);
    for (size_t i = 0; i < mf_words_count; i++) {
        const mf_words_row *row = &mf_words_rows[i];
        if (i > 0)
            assert_true(strcmp(mf_words_rows[i - 1].id, row->id) < 0);
        for (int lang = 0; lang < MF_LANG_COUNT; lang++)
            if (row->text[lang][0] == '\0')
                fail_msg("[%s] has no wording in language %d", row->id, lang);
        assert_ptr_equal(mf_words(MF_LANG_EN, row->id), row->text[MF_LANG_EN]);
    }
}

/* A placeholder lost in translation would hide a number from the reader. */
static void both_languages_fill_the_same_placeholders(void **state)
{
    static const char *const holders[] = {"{s}", "{d1}", "{d2}", "{n1}", "{n2}"};
    (void)state;
    for (size_t i = 0; i < mf_words_count; i++)
        for (size_t h = 0; h < 5; h++) {
            bool en = strstr(mf_words_rows[i].text[MF_LANG_EN], holders[h]) != NULL;
            bool es = strstr(mf_words_rows[i].text[MF_LANG_ES], holders[h]) != NULL;
            if (en != es)
                fail_msg("[%s] fills %s in one language only", mf_words_rows[i].id, holders[h]);
        }
}

static void an_unknown_id_has_no_words(void **state)
{
    (void)state;
    assert_null(mf_words(MF_LANG_EN, "no.such.id"));
    assert_null(mf_words2(MF_LANG_EN, "step", "no-such-step"));
    assert_int_equal(mf_lang_of("es-MX"), MF_LANG_ES);
    assert_int_equal(mf_lang_of("est"), MF_LANG_EN);
    assert_int_equal(mf_lang_of(NULL), MF_LANG_EN);
    static const char *const known[] = {"en", "es", "en-US", "es_MX.UTF-8"};
    static const char *const unknown[] = {"fr", "", "e", "EN", "est", "english", "C"};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        assert_true(mf_lang_known(known[i]));
    for (size_t i = 0; i < sizeof unknown / sizeof unknown[0]; i++)
        assert_false(mf_lang_known(unknown[i]));
    assert_false(mf_lang_known(NULL));
}

typedef struct number_case {
    int64_t number;
    mf_unit unit;
    const char *text;
} number_case;

static void numbers(void **state)
{
    static const number_case cases[] = {
        {1000, MF_UNIT_UG_CM2, "1.0 mg/cm²"},
        {990, MF_UNIT_UG_CM2, "0.99 mg/cm²"},
        {-100, MF_UNIT_UG_CM2, "-0.1 mg/cm²"},
        {5, MF_UNIT_UG_CM2, "0.005 mg/cm²"},
        {600, MF_UNIT_FT_100, "6 ft"},
        {590, MF_UNIT_FT_100, "5.9 ft"},
        {625, MF_UNIT_SQFT_100, "6.25 sq ft"},
        {4900, MF_UNIT_NG_FT2, "4.9 µg/sq ft"},
        {40000, MF_UNIT_NG_FT2, "40 µg/sq ft"},
        {1978, MF_UNIT_CALENDAR_YEAR, "1978"},
        {60, MF_UNIT_MINUTES, "60 minutes"},
        {INT64_MIN + 1, MF_UNIT_PPM, "-9223372036854775807 ppm"},
    };
    char text[80];
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        mf_words_number(MF_LANG_EN, cases[i].number, cases[i].unit, text, sizeof text);
        assert_string_equal(text, cases[i].text);
    }
}

/* In a table the unit is in the head of the column. */
static void a_value_has_no_unit(void **state)
{
    static const mf_dust_sample dust = {.loading_ng_ft2 = 4900, .length_in_1600 = 18600};
    static const mf_component part = {.disturbed_sqft_100 = 625};
    const mf_kind *sample = mf_kind_named("dust_sample"), *component = mf_kind_named("component");
    char room[MF_VALUE_TEXT];
    (void)state;
    assert_string_equal(mf_words_value(mf_field_named(sample, "result"), &dust, room), "4.9");
    assert_string_equal(mf_words_value(mf_field_named(sample, "length"), &dust, room), "11 5/8");
    assert_string_equal(mf_words_value(mf_field_named(component, "disturbed"), &part, room),
                        "6.25");
}

static void loadings(void **state)
{
    char text[40];
    (void)state;
    mf_words_loading(1000, MF_QUAL_EXACT, text, sizeof text);
    assert_string_equal(text, "1.00");
    mf_words_loading(9900, MF_QUAL_OVER, text, sizeof text);
    assert_string_equal(text, ">9.90");
    mf_words_loading(-50, MF_QUAL_EXACT, text, sizeof text);
    assert_string_equal(text, "-0.05");
    mf_words_loading(995, MF_QUAL_EXACT, text, sizeof text);
    assert_string_equal(text, "0.995");
}

/* A reason without words is shown by its name; text is cut, never overrun. */
static void sentences(void **state)
{
    mf_finding finding = {.why = "no-words-for-this", .subject = "A1", .evidence = ""};
    char text[16];
    (void)state;
    assert_int_equal(mf_words_why(MF_LANG_EN, &finding, text, sizeof text), 17);
    assert_string_equal(text, "no-words-for-th");
}

/* What is asked stands before what came of it; cut, never overrun. */
static void what_was_asked_and_why(void **state)
{
    static const mf_requirement asked = {.id = "completion-day"};
    mf_finding finding = {
        .requirement = &asked, .why = "no-words-for-this", .subject = "", .evidence = ""};
    char text[200], begins[16], all[200];
    (void)state;
    snprintf(all, sizeof all, "%s no-words-for-this",
             mf_words2(MF_LANG_ES, "req", "completion-day"));
    assert_int_equal(mf_words_asked(MF_LANG_ES, &finding, text, sizeof text), strlen(all));
    assert_string_equal(text, all);
    mf_words_asked(MF_LANG_ES, &finding, begins, sizeof begins);
    assert_int_equal(strlen(begins), 15);
    assert_memory_equal(begins, all, 15);
}

/* 40 CFR 745.85(a)(2)(i)(D), (ii)(A), (ii)(C) and (5)(ii) give a distance; the words of such
 * a step say it in both languages, and the step says which limit it is, so that a stricter
 * one of a place can be told beside them. No other step's words have a number. */
static void the_number_in_the_words_of_a_step(void **state)
{
    static const char *const with_one[] = {"signs-assisted", "floor-sheet",    "windows-outside",
                                           "doors-outside",  "openings-below", "ground-sheet",
                                           "margin"};
    size_t count, found = 0;
    const mf_step *steps = mf_steps(&count);
    (void)state;
    for (size_t i = 0; i < count; i++) {
        char feet[2][40] = {"", ""};
        const char *words[2] = {mf_words_step(MF_LANG_EN, NULL, steps[i].id),
                                mf_words_step(MF_LANG_ES, NULL, steps[i].id)};
        bool named = strpbrk(words[0], "0123456789") != NULL;
        if (named != (steps[i].number >= 0) || named != (strpbrk(words[1], "0123456789") != NULL))
            fail_msg("%s", steps[i].id);
        if (!named)
            continue;
        assert_string_equal(steps[i].id, with_one[found++]);
        const mf_limit *limit = mf_limit_on((mf_limit_id)steps[i].number, mf_day_from(2026, 9, 14));
        assert_int_equal(limit->unit, MF_UNIT_FT_100);
        snprintf(feet[0], sizeof feet[0], " %lld ft", (long long)limit->value / 100);
        snprintf(feet[1], sizeof feet[1], " %lld pies", (long long)limit->value / 100);
        if (strstr(words[0], feet[0]) == NULL || strstr(words[1], feet[1]) == NULL)
            fail_msg("%s: %s / %s", steps[i].id, words[0], words[1]);
    }
    assert_int_equal(found, sizeof with_one / sizeof with_one[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_are_sorted_and_in_both_languages),
        cmocka_unit_test(both_languages_fill_the_same_placeholders),
        cmocka_unit_test(an_unknown_id_has_no_words),
        cmocka_unit_test(numbers),
        cmocka_unit_test(a_value_has_no_unit),
        cmocka_unit_test(loadings),
        cmocka_unit_test(sentences),
        cmocka_unit_test(what_was_asked_and_why),
        cmocka_unit_test(the_number_in_the_words_of_a_step),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
