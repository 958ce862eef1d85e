/* Every bit of a signature counts: none can be changed unseen. The signature is that of
 * the fuzz seeds, over words of our own. Source of what must hold: RFC 5652, 5.1 and 5.3,
 * X.690, 8.14 ([0] IMPLICIT SET OF is constructed). */
#include "base/file.h"
#include "seal/cms.h"
#include "support/cmocka_all.h"

static const unsigned char words[] = "these words were signed";

static mf_seal_state state_of(const mf_bytes *der, bool cades)
{
    const mf_cms_spans spans = {words, words + 6, 6, sizeof words - 7};
    mf_seal_report report = {0};
    mf_cms_verify(&report, der->data, der->len, &spans, cades, NULL);
    return report.state;
}

static int set_up(void **state)
{
    static mf_bytes der;
    *state = &der;
    return mf_file_read(&der, MF_TESTS "/fuzz/seeds/cms/good.der", 4096, NULL) == MF_OK ? 0 : 1;
}

static int tear_down(void **state)
{
    mf_bytes_free(*state);
    return 0;
}

static void every_bit(void **state)
{
    mf_bytes *der = *state;
    assert_int_equal(state_of(der, true), MF_SEAL_GOOD);
    for (size_t bit = 0; bit < der->len * 8; bit++) {
        der->data[bit / 8] ^= (unsigned char)(1 << bit % 8);
        if (state_of(der, true) == MF_SEAL_GOOD)
            fail_msg("not noticed: bit %zu of byte %zu", bit % 8, bit / 8);
        der->data[bit / 8] ^= (unsigned char)(1 << bit % 8);
    }
}

/* The certificates and the signed attributes, told as not built of parts (found by
 * fuzzing: OpenSSL reads them all the same). */
static void not_built_of_parts(void **state)
{
    static const size_t at[] = {54, 721};
    mf_bytes *der = *state;
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        assert_int_equal(der->data[at[i]], 0xa0);
        der->data[at[i]] = 0x80;
        assert_int_equal(state_of(der, false), MF_SEAL_UNREADABLE);
        assert_int_equal(state_of(der, true), MF_SEAL_UNREADABLE);
        der->data[at[i]] = 0xa0;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_bit),
        cmocka_unit_test(not_built_of_parts),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
