/* Bytes as hex digits; values written by hand. */
#include "base/hex.h"

#include "support/cmocka_all.h"

static void bytes_as_digits(void **state)
{
    char out[9] = "........";
    (void)state;
    mf_hex_digits("\x00\x9f", 2, out);
    assert_string_equal(out, "009f....");
    mf_hex("\xff\x0a", 2, out);
    assert_string_equal(out, "ff0a");
    mf_hex("", 0, out);
    assert_string_equal(out, "");
}

static void small_digits_of_one_length(void **state)
{
    (void)state;
    unsigned char read[2] = {0};
    assert_true(mf_hex_bytes("00ff", read, 2));
    assert_int_equal(read[0], 0);
    assert_int_equal(read[1], 0xFF);
    assert_true(mf_hex_bytes("9a1c", read, 2));
    assert_int_equal(read[0], 0x9A);
    assert_int_equal(read[1], 0x1C);
    assert_false(mf_hex_bytes("00ff0", read, 2));
    assert_false(mf_hex_bytes("00fg", read, 2));
    assert_false(mf_hex_bytes("00FF", read, 2));
    assert_false(mf_hex_bytes("00", read, 2));
    assert_true(mf_hex_is("00ff", 4));
    assert_true(mf_hex_is("", 0));
    assert_false(mf_hex_is("00ff0", 4));
    assert_false(mf_hex_is("00f", 4));
    assert_false(mf_hex_is("00FF", 4));
    assert_false(mf_hex_is("00fg", 4));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bytes_as_digits),
        cmocka_unit_test(small_digits_of_one_length),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
