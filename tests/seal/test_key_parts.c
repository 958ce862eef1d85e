/* Key files made to keep the machine busy: the rounds by which their parts are locked.
 * The files are constructed by OpenSSL; the passphrase is right and so is the seal over
 * the whole, because whoever made the file knows it. */
#include "seal/key_parts.h"
#include "seal/seal_kit.h"

#include <openssl/asn1t.h>

static mf_bytes small_p12(void)
{
    mf_bytes p12 = {0};
    mf_key_holder holder = {"Ottoline Fernbrake", "", "", 400};
    assert_int_equal(mf_key_make_rounds(&p12, &holder, KIT_PASSPHRASE, 1000, NULL), MF_OK);
    return p12;
}

/* Another number of rounds in the parameters of a lock. */
static void set_rounds(X509_ALGOR *how, long rounds)
{
    PBE2PARAM *outer = ASN1_TYPE_unpack_sequence(ASN1_ITEM_rptr(PBE2PARAM), how->parameter);
    assert_non_null(outer);
    PBKDF2PARAM *inner =
        ASN1_TYPE_unpack_sequence(ASN1_ITEM_rptr(PBKDF2PARAM), outer->keyfunc->parameter);
    assert_non_null(inner);
    assert_int_equal(ASN1_INTEGER_set(inner->iter, rounds), 1);
    assert_non_null(
        ASN1_TYPE_pack_sequence(ASN1_ITEM_rptr(PBKDF2PARAM), inner, &outer->keyfunc->parameter));
    assert_non_null(ASN1_TYPE_pack_sequence(ASN1_ITEM_rptr(PBE2PARAM), outer, &how->parameter));
    PBKDF2PARAM_free(inner);
    PBE2PARAM_free(outer);
}

/* The certificate lies in an encrypted part, the key in a bag of its own. */
static void change(STACK_OF(PKCS7) * safes, bool of_cert, long rounds)
{
    for (int i = 0; i < sk_PKCS7_num(safes); i++) {
        PKCS7 *safe = sk_PKCS7_value(safes, i);
        if (PKCS7_type_is_encrypted(safe) && of_cert)
            set_rounds(safe->d.encrypted->enc_data->algorithm, rounds);
        if (!PKCS7_type_is_data(safe) || of_cert)
            continue;
        STACK_OF(PKCS12_SAFEBAG) *bags = PKCS12_unpack_p7data(safe);
        const X509_ALGOR *how = NULL;
        X509_SIG_get0(PKCS12_SAFEBAG_get0_pkcs8(sk_PKCS12_SAFEBAG_value(bags, 0)), &how, NULL);
        set_rounds((X509_ALGOR *)(uintptr_t)how, rounds);
        PKCS7 *again = PKCS12_pack_p7data(bags);
        assert_non_null(again);
        PKCS7_free(sk_PKCS7_set(safes, i, again) == NULL ? again : safe);
        sk_PKCS12_SAFEBAG_pop_free(bags, PKCS12_SAFEBAG_free);
    }
}

/* Opens the file with other rounds in one of its parts. */
static mf_status open_with(bool of_cert, long rounds, mf_err *err)
{
    mf_bytes bytes = small_p12();
    mf_key *key = NULL;
    const unsigned char *at = bytes.data;
    unsigned char *made = NULL;
    PKCS12 *p12 = d2i_PKCS12(NULL, &at, (long)bytes.len);
    STACK_OF(PKCS7) *safes = PKCS12_unpack_authsafes(p12);
    assert_int_equal(sk_PKCS7_num(safes), 2);
    change(safes, of_cert, rounds);
    assert_int_equal(PKCS12_pack_authsafes(p12, safes), 1);
    assert_int_equal(PKCS12_set_mac(p12, KIT_PASSPHRASE, -1, NULL, 0, 1000, NULL), 1);
    int len = i2d_PKCS12(p12, &made);
    assert_true(len > 0);
    mf_status status = mf_key_open(&key, made, (size_t)len, KIT_PASSPHRASE, err);
    assert_true((status == MF_OK) == (key != NULL));
    mf_key_free(key);
    OPENSSL_free(made);
    sk_PKCS7_pop_free(safes, PKCS7_free);
    PKCS12_free(p12);
    mf_bytes_free(&bytes);
    return status;
}

/* Without the bound the first of these takes a quarter of an hour, unseen. */
static void endless_rounds(void **state)
{
    const long rounds[] = {2147483647, MF_KEY_ROUNDS_MAX + 1, MF_KEY_ROUNDS_MAX - 1500, 0, -5};
    (void)state;
    for (int of_cert = 0; of_cert < 2; of_cert++) {
        for (size_t i = 0; i < sizeof rounds / sizeof rounds[0]; i++) {
            mf_err err = {0};
            assert_int_equal(open_with(of_cert == 1, rounds[i], &err), MF_INPUT);
            assert_string_equal(err.what, "its contents cannot be opened");
            assert_true(err.mend[0] != '\0');
        }
    }
}

/* The frame of the test above is sound: the same rounds as before open it. */
static void same_rounds(void **state)
{
    (void)state;
    assert_int_equal(open_with(true, 1000, NULL), MF_OK);
    assert_int_equal(open_with(false, 1000, NULL), MF_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(same_rounds),
                                       cmocka_unit_test(endless_rounds)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
