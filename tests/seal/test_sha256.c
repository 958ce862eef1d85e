/* SHA-256 by the examples of FIPS 180-4. */
#include "seal/seal_kit.h"

static void check(const char *data, size_t len, const char *want)
{
    char got[MF_FINGERPRINT_HEX];
    mf_sha256_hex((const unsigned char *)data, len, got);
    assert_string_equal(got, want);
}

/* FIPS 180-4, example "One-Block Message" of the NIST file SHA256.pdf. */
static void abc(void **state)
{
    (void)state;
    check("abc", 3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

/* NIST CAVP, SHA256ShortMsg.rsp, Len = 0. */
static void empty(void **state)
{
    (void)state;
    check("", 0, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

/* FIPS 180-4, example "Two-Block Message" (448 bits) of the NIST file SHA256.pdf. */
static void two_blocks(void **state)
{
    const char *text = "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
    (void)state;
    check(text, strlen(text), "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

/* FIPS 180-2, Appendix B.3: one million times "a". */
static void million(void **state)
{
    (void)state;
    char *text = malloc(1000000);
    assert_non_null(text);
    memset(text, 'a', 1000000);
    check(text, 1000000, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(abc),
        cmocka_unit_test(empty),
        cmocka_unit_test(two_blocks),
        cmocka_unit_test(million),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
