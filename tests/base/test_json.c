/* Canonical JSON against RFC 8785 (JCS), and the reader's refusals. */
#include "base/json.h"
#include "support/cmocka_all.h"
#include "support/run.h"
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void check_canonical(const char *input, const char *want)
{
    mf_err err = {0};
    mf_buf out = {0};
    json_t *value = mf_json_parse(input, strlen(input), &err);
    assert_non_null(value);
    assert_true(mf_json_canonical(&out, value));
    assert_string_equal(mf_buf_str(&out), want);
    json_decref(value);
    mf_buf_free(&out);
}

/* RFC 8785 3.2.2 and the UTF-8 bytes of 3.2.4. */
static void rfc_example(void **state)
{
    (void)state;
    check_canonical("{\n"
                    "  \"numbers\": [333333333.33333329, 1E30, 4.50,\n"
                    "              2e-3, 0.000000000000000000000000001],\n"
                    "  \"string\": \"\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\\"\\/\",\n"
                    "  \"literals\": [null, true, false]\n"
                    "}",
                    "\x7b\x22\x6c\x69\x74\x65\x72\x61\x6c\x73\x22\x3a\x5b\x6e\x75\x6c\x6c\x2c\x74"
                    "\x72\x75\x65\x2c\x66\x61\x6c\x73\x65\x5d\x2c\x22\x6e\x75\x6d\x62\x65\x72\x73"
                    "\x22\x3a\x5b\x33\x33\x33\x33\x33\x33\x33\x33\x33\x2e\x33\x33\x33\x33\x33\x33"
                    "\x33\x2c\x31\x65\x2b\x33\x30\x2c\x34\x2e\x35\x2c\x30\x2e\x30\x30\x32\x2c\x31"
                    "\x65\x2d\x32\x37\x5d\x2c\x22\x73\x74\x72\x69\x6e\x67\x22\x3a\x22\xe2\x82\xac"
                    "\x24\x5c\x75\x30\x30\x30\x66\x5c\x6e\x41\x27\x42\x5c\x22\x5c\x5c\x5c\x5c\x5c"
                    "\x22\x2f\x22\x7d");
}

/* RFC 8785 3.2.3: keys in order of UTF-16 code units. The emoji (a surrogate
 * pair) comes before U+FB33, which it would follow by code points. */
static void rfc_sorting(void **state)
{
    (void)state;
    check_canonical("{\"\\u20ac\":\"Euro Sign\",\"\\r\":\"Carriage Return\","
                    "\"\\ufb33\":\"Hebrew Letter Dalet With Dagesh\",\"1\":\"One\","
                    "\"\\ud83d\\ude00\":\"Emoji: Grinning Face\",\"\\u0080\":\"Control\","
                    "\"\\u00f6\":\"Latin Small Letter O With Diaeresis\"}",
                    "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\xC2\x80\":\"Control\","
                    "\"\xC3\xB6\":\"Latin Small Letter O With Diaeresis\","
                    "\"\xE2\x82\xAC\":\"Euro Sign\",\"\xF0\x9F\x98\x80\":\"Emoji: Grinning Face\","
                    "\"\xEF\xAC\xB3\":\"Hebrew Letter Dalet With Dagesh\"}");
}

/* RFC 8785 3.2.2.2: the escapes. */
static void escapes(void **state)
{
    (void)state;
    check_canonical("\"\\u0001\\b\\t\\n\\u000b\\f\\r\\u001f\\u007f/\"",
                    "\"\\u0001\\b\\t\\n\\u000b\\f\\r\\u001f\x7f/\"");
}

/* RFC 8785 appendix B: IEEE 754 bits and their text. */
static const struct {
    uint64_t bits;
    const char *text; /* NULL = has no text */
} appendix_b[] = {
    {0x0000000000000000, "0"},
    {0x8000000000000000, "0"},
    {0x0000000000000001, "5e-324"},
    {0x8000000000000001, "-5e-324"},
    {0x7fefffffffffffff, "1.7976931348623157e+308"},
    {0xffefffffffffffff, "-1.7976931348623157e+308"},
    {0x4340000000000000, "9007199254740992"},
    {0xc340000000000000, "-9007199254740992"},
    {0x4430000000000000, "295147905179352830000"},
    {0x7fffffffffffffff, NULL},
    {0x7ff0000000000000, NULL},
    {0x44b52d02c7e14af5, "9.999999999999997e+22"},
    {0x44b52d02c7e14af6, "1e+23"},
    {0x44b52d02c7e14af7, "1.0000000000000001e+23"},
    {0x444b1ae4d6e2ef4e, "999999999999999700000"},
    {0x444b1ae4d6e2ef4f, "999999999999999900000"},
    {0x444b1ae4d6e2ef50, "1e+21"},
    {0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7"},
    {0x3eb0c6f7a0b5ed8d, "0.000001"},
    {0x41b3de4355555553, "333333333.3333332"},
    {0x41b3de4355555554, "333333333.33333325"},
    {0x41b3de4355555555, "333333333.3333333"},
    {0x41b3de4355555556, "333333333.3333334"},
    {0x41b3de4355555557, "333333333.33333343"},
    {0xbecbf647612f3696, "-0.0000033333333333333333"},
    {0x43143ff3c1cb0959, "1424953923781206.2"},
};

static void check_number(uint64_t bits, const char *want)
{
    double number;
    mf_buf out = {0};
    memcpy(&number, &bits, sizeof number);
    if (want == NULL) {
        assert_true(isfinite(number) == 0);
        assert_null(json_real(number)); /* such a number does not even become a value */
    } else {
        json_t *value = json_real(number);
        assert_true(mf_json_canonical(&out, value));
        assert_string_equal(mf_buf_str(&out), want);
        json_decref(value);
    }
    mf_buf_free(&out);
}

static void rfc_numbers(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof appendix_b / sizeof appendix_b[0]; i++)
        check_number(appendix_b[i].bits, appendix_b[i].text);
}

/* ECMA-262 Number::toString takes the fewest digits. 2^-44 (constructed) lies
 * where the nearest decimal of 16 digits, ...801e-14, does not read back while
 * ...802e-14 does: 2^-44 = 5.684341886080801486968994140625e-14. */
static void fewest_digits_at_a_power_of_two(void **state)
{
    (void)state;
    check_number(0x3d30000000000000, "5.684341886080802e-14");
}

/* RFC 7493 2.2: integers beyond 2^53 - 1 do not survive every reader. */
static void integers(void **state)
{
    (void)state;
    mf_buf out = {0};
    check_canonical("[9007199254740991,-9007199254740991,0,-0]",
                    "[9007199254740991,-9007199254740991,0,0]");
    json_t *large = json_integer(INT64_C(9007199254740992));
    assert_false(mf_json_canonical(&out, large));
    json_decref(large);
    mf_buf_free(&out);
}

static void refused(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "{\"a\":1,\"a\":2}", /* RFC 8785 3.1: no duplicate keys */
        "{\"a\":1} x",
        "{\"a\":01}",
        "\"\\ud800\"", /* a lone surrogate */
        "\"\xC0\x80\"",
        "{'a':1}",
        "",
        "[1,]",
        "NaN",
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        mf_err err = {0};
        assert_null(mf_json_parse(texts[i], strlen(texts[i]), &err));
        assert_int_equal(err.status, MF_INPUT);
        assert_true(err.what[0] != '\0');
    }
}

static void depth_is_limited(void **state)
{
    (void)state;
    char text[2 * MF_JSON_MAX_DEPTH + 8] = "";
    for (int levels = MF_JSON_MAX_DEPTH; levels <= MF_JSON_MAX_DEPTH + 1; levels++) {
        memset(text, '[', (size_t)levels);
        memset(text + levels, ']', (size_t)levels);
        json_t *value = mf_json_parse(text, (size_t)levels * 2, NULL);
        assert_int_equal(value != NULL, levels <= MF_JSON_MAX_DEPTH);
        json_decref(value);
    }
}

static void size_is_limited(void **state)
{
    (void)state;
    size_t size = MF_JSON_MAX_SIZE + 1;
    char *text = malloc(size);
    assert_non_null(text);
    memset(text, ' ', size);
    text[0] = '1';
    json_t *value = mf_json_parse(text, size - 1, NULL);
    assert_non_null(value);
    json_decref(value);
    assert_null(mf_json_parse(text, size, NULL));
    free(text);
}

/* ---- under a decimal comma ---------------------------------------------------------- */

static bool use_comma_locale(const char *folder)
{
    static const char *const names[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "es_ES.UTF-8", "de_DE"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (setlocale(LC_ALL, names[i]) != NULL)
            return true;
    run_result result;
    run_shell(&result, folder, "localedef -i de_DE -f UTF-8 ./de_DE.UTF-8");
    setenv("LOCPATH", folder, 1);
    return setlocale(LC_ALL, "de_DE.UTF-8") != NULL;
}

static void comma_locale(void **state)
{
    char folder[64], text[16];
    run_folder(folder);
    bool found = use_comma_locale(folder);
    if (found) {
        snprintf(text, sizeof text, "%.1f", 0.5);
        assert_string_equal(text, "0,5"); /* else this test would prove nothing */
        rfc_example(state);
        rfc_numbers(state);
        fewest_digits_at_a_power_of_two(state);
    }
    setlocale(LC_ALL, "C");
    unsetenv("LOCPATH");
    run_remove(folder);
    if (!found)
        skip();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rfc_example),
        cmocka_unit_test(rfc_sorting),
        cmocka_unit_test(escapes),
        cmocka_unit_test(rfc_numbers),
        cmocka_unit_test(fewest_digits_at_a_power_of_two),
        cmocka_unit_test(integers),
        cmocka_unit_test(refused),
        cmocka_unit_test(depth_is_limited),
        cmocka_unit_test(size_is_limited),
        cmocka_unit_test(comma_locale),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
