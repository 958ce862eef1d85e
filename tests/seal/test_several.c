/* Several seals in turn, by keys of several kinds: P-256 made here, P-256 and
 * RSA-3072 made by the openssl program and brought in. pdfsig says of each whether
 * it is valid. Everything is invented. */
#include "seal/cms.h"
#include "seal/seal_kit.h"

#include <time.h>

static char dir[] = "/tmp/mistfold-several-XXXXXX";

static int set_up(void **state)
{
    (void)state;
    return mkdtemp(dir) == NULL;
}

static int tear_down(void **state)
{
    (void)state;
    char line[128], out[256];
    snprintf(line, sizeof line, "rm -r '%s'", dir);
    return kit_run("/", line, out, sizeof out);
}

/* A key that the openssl program made. */
static mf_key *foreign_key(const char *name, const char *algorithm)
{
    char line[900], out[4096];
    snprintf(line, sizeof line,
             "openssl req -utf8 -x509 -newkey %s -nodes -keyout k.pem -out c.pem -days 90 -subj "
             "'/CN=%s/title=certified firm' && openssl pkcs12 -export -inkey k.pem -in c.pem -out "
             "k.p12 -passout 'pass:" KIT_PASSPHRASE "'",
             algorithm, name);
    if (kit_run(dir, line, out, sizeof out) != 0)
        fail_msg("openssl: %s", out);
    snprintf(line, sizeof line, "%s/k.p12", dir);
    static unsigned char p12[16384];
    FILE *file = fopen(line, "rb");
    assert_non_null(file);
    size_t len = fread(p12, 1, sizeof p12, file);
    fclose(file);
    mf_key *key = NULL;
    mf_err err = {0};
    if (mf_key_open(&key, p12, len, KIT_PASSPHRASE, &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    return key;
}

static mf_bytes one_more(mf_bytes pdf, const mf_key *key, bool draw, float y)
{
    mf_bytes out = {0};
    mf_err err = {0};
    mf_seal_ask ask = kit_ask(key);
    ask.draw = draw;
    ask.place = (mf_seal_place){1, 72, y, 210, 48};
    if (mf_seal_sign(&out, pdf.data, pdf.len, &ask, &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    mf_bytes_free(&pdf);
    return out;
}

/* Renovator, then firm with an imported RSA-3072 key, then the renovator again. */
static mf_bytes three(void)
{
    mf_key *own = kit_key();
    mf_key *rsa = foreign_key("Invented Renovation \xc3\x89"
                              "xito",
                              "rsa:3072");
    mf_bytes pdf = one_more(kit_paper(1), own, false, 72);
    pdf = one_more(pdf, rsa, true, 200);
    pdf = one_more(pdf, own, true, 300);
    mf_key_free(rsa);
    mf_key_free(own);
    return pdf;
}

static void each_is_valid(void **state)
{
    (void)state;
    char out[16384];
    mf_seal_check check;
    mf_bytes pdf = three();
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    assert_int_equal(check.n, 3);
    assert_string_equal(check.seal[1].capacity, "certified firm");
    assert_int_equal(check.unsealed_tail, 0);
    assert_true(check.seal[2].covers_whole);
    assert_false(check.seal[0].covers_whole);
    kit_write(dir, "three.pdf", pdf.data, pdf.len);
    kit_run(dir, "pdfsig three.pdf | grep -c 'Signature is Valid'", out, sizeof out);
    assert_string_equal(out, "3\n");
    kit_run(dir, "pdfsig three.pdf | grep -c 'Total document signed'", out, sizeof out);
    assert_string_equal(out, "1\n");
    kit_run(dir, "qpdf --check three.pdf", out, sizeof out);
    assert_non_null(strstr(out, "No syntax or stream encoding errors found"));
    mf_bytes_free(&pdf);
}

static void p256_of_others_too(void **state)
{
    (void)state;
    mf_seal_check check;
    mf_key *key = foreign_key("Invented Owner", "ec -pkeyopt ec_paramgen_curve:prime256v1");
    mf_bytes pdf = kit_seal(kit_paper(1), key);
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    mf_bytes_free(&pdf);
    mf_key_free(key);
}

/* Signatures by keys that no key file may hold here, as another program makes them.
 * NIST SP 800-131A: RSA from 2048 bits, EC from 224. */
static mf_seal_state signed_with(EVP_PKEY *pkey)
{
    static const unsigned char words[] = "these words were signed";
    const mf_cms_spans spans = {words, words + 6, 6, sizeof words - 7};
    mf_seal_report report = {0};
    mf_bytes cms = {0};
    mf_err err = {0};
    X509 *cert = X509_new();
    mf_key key = {.pkey = pkey, .cert = cert, .common_name = "Invented"};
    assert_non_null(pkey);
    X509_set_version(cert, X509_VERSION_3);
    ASN1_INTEGER_set(X509_get_serialNumber(cert), 7);
    X509_set_pubkey(cert, pkey);
    X509_gmtime_adj(X509_getm_notBefore(cert), 0);
    X509_gmtime_adj(X509_getm_notAfter(cert), 1000);
    assert_true(X509_sign(cert, pkey, EVP_sha256()) > 0);
    assert_int_equal(mf_cms_sign(&cms, &key, &spans, &err), MF_OK);
    assert_int_equal(mf_cms_verify(&report, cms.data, cms.len, &spans, true, &err), MF_OK);
    mf_bytes_free(&cms);
    X509_free(cert);
    EVP_PKEY_free(pkey);
    return report.state;
}

static void weak_keys(void **state)
{
    (void)state;
    assert_int_equal(signed_with(EVP_RSA_gen(1024U)), MF_SEAL_UNREADABLE);
    assert_int_equal(signed_with(EVP_EC_gen("secp160r1")), MF_SEAL_UNREADABLE);
    assert_int_equal(signed_with(EVP_RSA_gen(2048U)), MF_SEAL_GOOD);
    assert_int_equal(signed_with(EVP_EC_gen("P-224")), MF_SEAL_GOOD);
}

/* What the seal drew itself is on the page: the name, also with its accent, is read
 * by pdftotext after pdftocairo has drawn the page with its seals. */
static void later_seals_are_seen(void **state)
{
    (void)state;
    char out[4096];
    mf_bytes pdf = three();
    kit_write(dir, "seen.pdf", pdf.data, pdf.len);
    kit_run(dir, "pdftocairo -pdf seen.pdf flat.pdf && pdftotext flat.pdf -", out, sizeof out);
    assert_non_null(strstr(out, "Invented Renovation \xc3\x89"
                                "xito"));
    assert_non_null(strstr(out, "certified firm"));
    assert_non_null(strstr(out, "2026-01-01 00:00 UTC"));
    mf_bytes_free(&pdf);
}

/* 2,000 positions spread over all bytes, one changed at a time: each is noticed. */
static void every_change_is_noticed(void **state)
{
    (void)state;
    mf_bytes pdf = three();
    mf_seal_check check;
    for (size_t i = 0; i < 2000; i++) {
        size_t at = i * (pdf.len - 1) / 1999;
        pdf.data[at] ^= 1;
        if (kit_verify(&check, pdf) == MF_OK)
            fail_msg("a change of byte %zu of %zu was not noticed", at, pdf.len);
        pdf.data[at] ^= 1;
    }
    assert_int_equal(kit_verify(&check, pdf), MF_OK);
    mf_bytes_free(&pdf);
}

#define DAY INT64_C(86400)

/* The times are the signers' own and prove nothing; that they do not fit is told. */
static void times_that_do_not_fit(void **state)
{
    static const struct {
        int64_t after_now[2];
        bool out_of_days[2], backdated;
    } cases[] = {{{60, 120}, {false, false}, false},
                 {{7200, 60}, {false, false}, false}, /* clocks an hour or two apart */
                 {{2 * DAY, 60}, {false, false}, true},
                 {{-DAY, 60}, {true, false}, false}, /* a key of 400 days, made just now */
                 {{399 * DAY, 401 * DAY}, {false, true}, false}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        mf_key *key = kit_key();
        mf_bytes pdf = kit_paper(1);
        mf_seal_check check;
        for (int n = 0; n < 2; n++) {
            mf_bytes sealed = {0};
            mf_seal_ask ask = kit_ask(key);
            ask.signed_at = (int64_t)time(NULL) + cases[i].after_now[n];
            assert_int_equal(mf_seal_sign(&sealed, pdf.data, pdf.len, &ask, NULL), MF_OK);
            mf_bytes_free(&pdf);
            pdf = sealed;
        }
        assert_int_equal(kit_verify(&check, pdf), MF_OK);
        for (int n = 0; n < 2; n++)
            assert_int_equal(check.seal[n].out_of_days, cases[i].out_of_days[n]);
        assert_false(check.seal[0].backdated);
        assert_int_equal(check.seal[1].backdated, cases[i].backdated);
        mf_bytes_free(&pdf);
        mf_key_free(key);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_is_valid),
        cmocka_unit_test(p256_of_others_too),
        cmocka_unit_test(weak_keys),
        cmocka_unit_test(later_seals_are_seen),
        cmocka_unit_test(every_change_is_noticed),
        cmocka_unit_test(times_that_do_not_fit),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
