/* Strict UTF-8: Unicode 15, table 3-7 "Well-Formed UTF-8 Byte Sequences". */
#include "base/utf8.h"
#include "support/cmocka_all.h"
#include <stdio.h>
#include <string.h>

typedef struct row {
    const char *name, *text;
    mf_utf8 want;
    size_t at;
} row;

static const row rows[] = {
    {"empty", "", MF_UTF8_GOOD, 0},
    {"ascii", "Casa 12", MF_UTF8_GOOD, 0},
    {"two bytes, first U+00A0", "a\xC2\xA0", MF_UTF8_GOOD, 0},
    {"two bytes, last U+07FF", "\xDF\xBF", MF_UTF8_GOOD, 0},
    {"three bytes, first U+0800", "\xE0\xA0\x80", MF_UTF8_GOOD, 0},
    {"below the surrogates U+D7FF", "\xED\x9F\xBF", MF_UTF8_GOOD, 0},
    {"above the surrogates U+E000", "\xEE\x80\x80", MF_UTF8_GOOD, 0},
    {"four bytes, first U+10000", "\xF0\x90\x80\x80", MF_UTF8_GOOD, 0},
    {"the last, U+10FFFF", "\xF4\x8F\xBF\xBF", MF_UTF8_GOOD, 0},
    {"overlong slash", "ab\xC0\xAF", MF_UTF8_INVALID, 2},
    {"overlong, three bytes", "\xE0\x9F\xBF", MF_UTF8_INVALID, 0},
    {"overlong, four bytes", "\xF0\x8F\xBF\xBF", MF_UTF8_INVALID, 0},
    {"first surrogate U+D800", "\xED\xA0\x80", MF_UTF8_INVALID, 0},
    {"last surrogate U+DFFF", "\xED\xBF\xBF", MF_UTF8_INVALID, 0},
    {"above U+10FFFF", "\xF4\x90\x80\x80", MF_UTF8_INVALID, 0},
    {"cut short", "a\xE2\x82", MF_UTF8_INVALID, 1},
    {"Latin-1", "Jos\xE9", MF_UTF8_INVALID, 3},
    {"a lone continuation", "\x80", MF_UTF8_INVALID, 0},
    {"tab", "a\tb", MF_UTF8_CONTROL, 1},
    {"line break", "a\nb", MF_UTF8_CONTROL, 1},
    {"escape", "\x1B[31m", MF_UTF8_CONTROL, 0},
    {"delete U+007F", "ab\x7F", MF_UTF8_CONTROL, 2},
    {"next line U+0085", "a\xC2\x85", MF_UTF8_CONTROL, 1},
    {"line separator U+2028", "\xE2\x80\xA8", MF_UTF8_CONTROL, 0},
    {"right-to-left override U+202E", "a\xE2\x80\xAE", MF_UTF8_CONTROL, 1},
    {"left-to-right isolate U+2066", "\xE2\x81\xA6", MF_UTF8_CONTROL, 0},
    {"zero width joiner U+200D is a letter's", "\xE2\x80\x8D", MF_UTF8_GOOD, 0},
};

static void check_row(void **state)
{
    const row *r = *state;
    size_t at = 999;
    assert_int_equal(mf_utf8_check(r->text, strlen(r->text), &at), r->want);
    assert_int_equal(at, r->want == MF_UTF8_GOOD ? 999 : r->at);
    assert_int_equal(mf_utf8_valid(r->text, strlen(r->text), NULL), r->want != MF_UTF8_INVALID);
}

static void the_mark_of_a_file_is_no_text(void **state)
{
    (void)state;
    assert_int_equal(mf_utf8_mark("\xEF\xBB\xBFx", 4), 3);
    assert_int_equal(mf_utf8_mark("\xEF\xBB\xBF", 2), 0); /* cut short */
    assert_int_equal(mf_utf8_mark("x\xEF\xBB\xBF", 4), 0);
    assert_int_equal(mf_utf8_mark("", 0), 0);
}

static void nul_is_a_control(void **state)
{
    (void)state;
    size_t at = 0;
    assert_int_equal(mf_utf8_check("a\0b", 3, &at), MF_UTF8_CONTROL);
    assert_int_equal(at, 1);
}

static void show(void **state)
{
    (void)state;
    char out[12];
    mf_utf8_show(out, sizeof out, "a\nb\xFF");
    assert_string_equal(out, "a?b?");
    mf_utf8_show(out, sizeof out, "12345678");
    assert_string_equal(out, "12345678");
    mf_utf8_show(out, sizeof out, "123456789");
    assert_string_equal(out, "12345678...");
    mf_utf8_show(out, sizeof out, "1234567\xC3\xA9zz"); /* is cut before the e, not inside it */
    assert_string_equal(out, "1234567...");
}

/* Unicode 15: the general category Cf of UnicodeData.txt, and Default_Ignorable_Code_Point
 * of DerivedCoreProperties.txt. */
static void what_is_not_seen_is_not_shown(void **state)
{
    static const char *const unseen[] = {
        "\xE2\x80\x8B",     /* zero width space U+200B */
        "\xE2\x80\x8D",     /* zero width joiner U+200D */
        "\xE2\x80\x8E",     /* left-to-right mark U+200E */
        "\xE2\x80\x8F",     /* right-to-left mark U+200F */
        "\xD8\x9C",         /* Arabic letter mark U+061C */
        "\xC2\xAD",         /* soft hyphen U+00AD */
        "\xE2\x81\xA0",     /* word joiner U+2060 */
        "\xEF\xBB\xBF",     /* byte order mark U+FEFF */
        "\xE3\x85\xA4",     /* Hangul filler U+3164 */
        "\xF3\xA0\x81\x81", /* tag letter A U+E0041 */
        "\xE2\x80\xAE",     /* right-to-left override U+202E, a control here */
    };
    (void)state;
    char out[16];
    for (size_t i = 0; i < sizeof unseen / sizeof unseen[0]; i++) {
        char text[16];
        snprintf(text, sizeof text, "a%sb", unseen[i]);
        mf_utf8_show(out, sizeof out, text);
        assert_string_equal(out, "a?b");
    }
    mf_utf8_show(out, sizeof out, "\xC3\xA9\xD7\x90\xCC\x81"); /* letters, an accent by itself */
    assert_string_equal(out, "\xC3\xA9\xD7\x90\xCC\x81");
}

#define N_ROWS (sizeof rows / sizeof rows[0])

int main(void)
{
    struct CMUnitTest tests[N_ROWS + 4];
    memset(tests, 0, sizeof tests);
    for (size_t i = 0; i < N_ROWS; i++) {
        tests[i].name = rows[i].name;
        tests[i].test_func = check_row;
        tests[i].initial_state = (void *)(uintptr_t)&rows[i];
    }
    tests[N_ROWS] = (struct CMUnitTest)cmocka_unit_test(nul_is_a_control);
    tests[N_ROWS + 1] = (struct CMUnitTest)cmocka_unit_test(show);
    tests[N_ROWS + 2] = (struct CMUnitTest)cmocka_unit_test(what_is_not_seen_is_not_shown);
    tests[N_ROWS + 3] = (struct CMUnitTest)cmocka_unit_test(the_mark_of_a_file_is_no_text);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
