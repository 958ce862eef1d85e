/* The small DER reader. Encodings by hand after X.690, 8.1 and 10.1. */
#include "seal/der.h"
#include "seal/seal_kit.h"

#define BYTES(...)                                                                                 \
    (const unsigned char[]){__VA_ARGS__}, sizeof((const unsigned char[]){__VA_ARGS__})

static void lengths(void **state)
{
    (void)state;
    assert_int_equal(mf_der_length(BYTES(0x04, 0x01, 0xff, 0, 0)), 3);
    assert_int_equal(mf_der_length(BYTES(0x05, 0x00)), 2);
    assert_int_equal(mf_der_length(BYTES(0x04, 0x81, 0x01, 0xff)), 0); /* longer than need be */
    assert_int_equal(mf_der_length(BYTES(0x04, 0x82, 0x00, 0x01, 0xff)), 0); /* leading zero */
    assert_int_equal(mf_der_length(BYTES(0x04, 0x02, 0xff)), 0);             /* cut off */
    assert_int_equal(mf_der_length(BYTES(0x04, 0x84, 0xff, 0xff, 0xff, 0xff)), 0);
    assert_int_equal(mf_der_length(BYTES(0x04, 0x88, 1, 1, 1, 1, 1, 1, 1, 1)), 0);
    assert_int_equal(mf_der_length(BYTES(0x1f, 0x81, 0x01, 0x00)), 0); /* a long tag */
    assert_int_equal(mf_der_length(BYTES(0x00, 0x00)), 0);
    assert_int_equal(mf_der_length(BYTES(0x30)), 0);
}

/* As NSS writes them: closed by 00 00, one in another. */
static void open_lengths(void **state)
{
    (void)state;
    assert_int_equal(mf_der_length(BYTES(0x30, 0x80, 0x05, 0x00, 0, 0, 0, 0)), 6);
    assert_int_equal(mf_der_length(BYTES(0x30, 0x80, 0xa0, 0x80, 0x05, 0, 0, 0, 0, 0, 0, 0)), 10);
    assert_int_equal(mf_der_length(BYTES(0x30, 0x80, 0x05, 0x00)), 0);    /* never closed */
    assert_int_equal(mf_der_length(BYTES(0x30, 0x80, 0x05, 0x00, 0)), 0); /* half closed */
    assert_int_equal(mf_der_length(BYTES(0x04, 0x80, 0x05, 0x00, 0, 0)),
                     0); /* not built of parts */
}

static void soundness(void **state)
{
    (void)state;
    assert_true(mf_der_is_sound(BYTES(0x30, 0x02, 0x31, 0x00)));
    assert_true(mf_der_is_sound(BYTES(0x30, 0x02, 0x05, 0x00)));
    assert_false(mf_der_is_sound(BYTES(0x30, 0x02, 0x11, 0x00))); /* a SET not built of parts */
    assert_false(mf_der_is_sound(BYTES(0x10, 0x00)));
    assert_false(mf_der_is_sound(BYTES(0x24, 0x00))); /* an OCTET STRING of parts */
    assert_false(mf_der_is_sound(BYTES(0x30, 0x01, 0x05)));
}

/* Brackets in brackets: refused at a fixed depth, long before the stack ends. */
static void deep(void **state)
{
    (void)state;
    const size_t n = 1000000;
    unsigned char *bytes = malloc(n);
    assert_non_null(bytes);
    for (size_t i = 0; i < n; i += 2) {
        bytes[i] = 0x30;
        bytes[i + 1] = 0x80;
    }
    assert_int_equal(mf_der_length(bytes, n), 0);
    assert_false(mf_der_is_sound(bytes, n));
    free(bytes);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths),
        cmocka_unit_test(open_lengths),
        cmocka_unit_test(soundness),
        cmocka_unit_test(deep),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
