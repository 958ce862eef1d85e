/* What may stand in a name or reason of a signature, and its times as PDF writes them. */
#include "seal/seal_kit.h"
#include "seal/text.h"
#include "seal/when.h"

static void count(void **state)
{
    (void)state;
    assert_int_equal(mf_text_count(""), 0);
    assert_int_equal(mf_text_count("abc"), 3);
    assert_int_equal(mf_text_count("\xc3\xa9\xe1\xba\xa5\xf0\x9f\x8f\xa0"), 3);
    assert_int_equal(mf_text_count("a\tb"), -1);
    assert_int_equal(mf_text_count("\x7f"), -1);
    assert_int_equal(mf_text_count("\xc2\x9b"), -1); /* a C1 control */
    assert_int_equal(mf_text_count("\xe2\x80\xae"
                                   "a"),
                     -1);                            /* turns the writing round */
    assert_int_equal(mf_text_count("\xc0\xaf"), -1); /* overlong (RFC 3629, 10) */
    assert_int_equal(mf_text_count("\xe0\x80\xaf"), -1);
    assert_int_equal(mf_text_count("\xed\xa0\x80"), -1);     /* surrogate */
    assert_int_equal(mf_text_count("\xf4\x90\x80\x80"), -1); /* above U+10FFFF */
    assert_int_equal(mf_text_count("\xe1\xba"), -1);         /* cut off */
}

static void tame_is(const char *text, size_t size, const char *want)
{
    char out[16];
    mf_text_tame(out, size, (const unsigned char *)text, strlen(text));
    assert_string_equal(out, want);
}

static void tame(void **state)
{
    (void)state;
    tame_is("plain", 16, "plain");
    tame_is("a\x1b[31mb", 16, "a?[31mb");
    tame_is("\xff\xc3\xa9", 16, "?\xc3\xa9");
    tame_is("a\xe2\x80\x8f"
            "b",
            16, "a?b");             /* a mark of direction, U+200F */
    tame_is("ab\xc3\xa9", 4, "ab"); /* never half a letter */
    tame_is("ab\xc3\xa9", 5, "ab\xc3\xa9");
}

static void pdf_is(const char *text, const char *want)
{
    mf_buf buf = {0};
    mf_text_pdf(&buf, text);
    assert_string_equal(mf_buf_str(&buf), want);
    mf_buf_free(&buf);
}

static void pdf_text(void **state)
{
    (void)state;
    pdf_is("plain", "(plain)");
    pdf_is("a(b)\\c", "(a\\(b\\)\\\\c)");
    pdf_is("\xc3\xa9", "<FEFF00E9>");
    /* U+1F3E0 is the pair D83C DFE0 (Unicode 15, 3.9, D91) */
    pdf_is("h\xf0\x9f\x8f\xa0", "<FEFF0068D83CDFE0>");
}

static void when_is(int64_t seconds, const char *want)
{
    char out[MF_WHEN_SIZE];
    assert_true(mf_when_print(out, seconds));
    assert_string_equal(out, want);
    assert_int_equal(mf_when_read((const unsigned char *)out, strlen(out)), seconds);
}

/* The seconds were taken from `date -u -d ... +%s` (GNU coreutils 9.1). */
static void dates(void **state)
{
    char out[MF_WHEN_SIZE];
    (void)state;
    when_is(951782399, "D:20000228235959+00'00'");
    when_is(951868800, "D:20000301000000+00'00'");
    when_is(951782400, "D:20000229000000+00'00'");
    when_is(4107542400, "D:21000301000000+00'00'");
    when_is(1767225600, "D:20260101000000+00'00'");
    when_is(253402300799, "D:99991231235959+00'00'");
    assert_false(mf_when_print(out, -1));
    assert_false(mf_when_print(out, INT64_C(253402300800)));
    assert_false(mf_when_print(out, INT64_MAX));
}

/* Every day of 400 years there and back. */
static void all_days(void **state)
{
    char out[MF_WHEN_SIZE];
    (void)state;
    for (int64_t day = 0; day < 146097; day++) {
        assert_true(mf_when_print(out, day * 86400));
        assert_int_equal(mf_when_read((const unsigned char *)out, strlen(out)), day * 86400);
    }
}

static int64_t read_when(const char *text)
{
    return mf_when_read((const unsigned char *)text, strlen(text));
}

static void foreign_dates(void **state)
{
    (void)state;
    assert_int_equal(read_when("D:20260101013000+01'30'"), 1767225600);
    assert_int_equal(read_when("D:20251231190000-05'00"), 1767225600);
    assert_int_equal(read_when("D:20260101000000Z"), 1767225600);
    assert_int_equal(read_when("D:2026"), 1767225600);
    assert_int_equal(read_when("20260101"), 1767225600);
    assert_int_equal(read_when(""), 0);
    assert_int_equal(read_when("D:"), 0);
    assert_int_equal(read_when("D:202"), 0);
    assert_int_equal(read_when("D:20261301"), 0);
    assert_int_equal(read_when("D:20260101250000"), 0);
    assert_int_equal(read_when("yesterday"), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(count), cmocka_unit_test(tame),     cmocka_unit_test(pdf_text),
        cmocka_unit_test(dates), cmocka_unit_test(all_days), cmocka_unit_test(foreign_dates),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
