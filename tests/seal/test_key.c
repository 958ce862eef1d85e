/* Keys of signers, held against what OpenSSL itself reads of the file. */
#include "seal/seal_kit.h"

#include <openssl/evp.h>
#include <openssl/pkcs12.h>
#include <openssl/x509v3.h>

typedef struct made {
    mf_bytes p12;
    mf_key *key;
    char dir[32];
} made;

static const mf_key_holder holder = {"Ottoline Fernbrake", "Fernbrake Invented Renovation",
                                     "certified renovator", 400};

static int setup(void **state)
{
    made *m = calloc(1, sizeof *m);
    assert_non_null(m);
    strncpy(m->dir, "/tmp/mf-key-XXXXXX", sizeof m->dir - 1);
    assert_non_null(mkdtemp(m->dir));
    assert_int_equal(mf_key_make(&m->p12, &holder, KIT_PASSPHRASE, NULL), MF_OK);
    assert_int_equal(mf_key_open(&m->key, m->p12.data, m->p12.len, KIT_PASSPHRASE, NULL), MF_OK);
    *state = m;
    return 0;
}

static int teardown(void **state)
{
    made *m = *state;
    char out[64];
    kit_run(m->dir, "rm -f key.p12", out, sizeof out);
    rmdir(m->dir);
    mf_bytes_free(&m->p12);
    mf_key_free(m->key);
    free(m);
    return 0;
}

static void says_who(void **state)
{
    made *m = *state;
    char hex[MF_FINGERPRINT_HEX];
    assert_string_equal(mf_key_common_name(m->key), "Ottoline Fernbrake");
    assert_string_equal(mf_key_capacity(m->key), "certified renovator");
    mf_key_fingerprint(m->key, hex);
    assert_int_equal(strlen(hex), 64);
    assert_int_equal(strspn(hex, "0123456789abcdef"), 64);
}

/* What the openssl program says of the same file, as another reader of it. */
static void openssl_agrees(void **state)
{
    made *m = *state;
    char out[8192], hex[MF_FINGERPRINT_HEX];
    kit_write(m->dir, "key.p12", m->p12.data, m->p12.len);
    assert_int_equal(kit_run(m->dir,
                             "openssl pkcs12 -in key.p12 -passin 'pass:" KIT_PASSPHRASE
                             "' -nokeys -clcerts | openssl x509 -noout -text",
                             out, sizeof out),
                     0);
    assert_non_null(strstr(out, "Version: 3"));
    assert_non_null(strstr(out, "NIST CURVE: P-256"));
    assert_non_null(strstr(out, "Digital Signature, Non Repudiation"));
    assert_non_null(strstr(out, "CA:FALSE"));
    assert_non_null(strstr(out, "title = certified renovator"));
    assert_non_null(strstr(out, "O = Fernbrake Invented Renovation"));
    assert_int_equal(kit_run(m->dir,
                             "openssl pkcs12 -in key.p12 -passin 'pass:" KIT_PASSPHRASE
                             "' -nokeys -clcerts | openssl x509 -noout -fingerprint -sha256"
                             " | cut -d= -f2 | tr -d ':\\n' | tr A-F a-f",
                             out, sizeof out),
                     0);
    mf_key_fingerprint(m->key, hex);
    assert_string_equal(out, hex);
    kit_run(m->dir, "openssl pkcs12 -in key.p12 -passin 'pass:" KIT_PASSPHRASE "' -noout -info",
            out, sizeof out);
    assert_non_null(strstr(out, "AES-256-CBC"));
    assert_non_null(strstr(out, "Iteration 600000"));
}

static void wrong_passphrase(void **state)
{
    made *m = *state;
    mf_key *key = m->key;
    mf_err err = {0};
    assert_int_equal(mf_key_open(&key, m->p12.data, m->p12.len, "blue ladder", &err), MF_INPUT);
    assert_null(key);
    assert_string_equal(err.what, "wrong passphrase");
    assert_int_equal(mf_key_open(&key, m->p12.data, m->p12.len, "", &err), MF_INPUT);
    assert_string_equal(err.what, "wrong passphrase");
    assert_int_equal(mf_key_open(&key, m->p12.data, m->p12.len, NULL, &err), MF_USAGE);
}

static void no_p12(void **state)
{
    made *m = *state;
    mf_key *key = NULL;
    mf_err err = {0};
    const unsigned char junk[] = "this was never a key";
    assert_int_equal(mf_key_open(&key, junk, sizeof junk, "x", &err), MF_INPUT);
    assert_non_null(strstr(err.what, "no PKCS #12 file"));
    assert_int_equal(mf_key_open(&key, junk, 0, "x", NULL), MF_INPUT);
    assert_int_equal(mf_key_open(&key, NULL, 0, "x", NULL), MF_INPUT);
    /* cut short, and with something behind it */
    for (size_t len = 1; len < m->p12.len; len += 37) {
        memset(&err, 0, sizeof err);
        assert_int_equal(mf_key_open(&key, m->p12.data, len, KIT_PASSPHRASE, &err), MF_INPUT);
        assert_non_null(strstr(err.what, "no PKCS #12 file"));
    }
    mf_bytes longer = kit_append(kit_copy(m->p12), "x");
    assert_int_equal(mf_key_open(&key, longer.data, longer.len, KIT_PASSPHRASE, &err), MF_INPUT);
    mf_bytes_free(&longer);
}

/* A PKCS #12 file with little work in it, of this key and this certificate. */
static mf_bytes quick_p12(EVP_PKEY *pkey, X509 *cert, int mac_rounds)
{
    PKCS12 *p12 = PKCS12_create("x", "quick", pkey, cert, NULL, 0, 0, 1000, 1000, 0);
    assert_non_null(p12);
    if (mac_rounds != 1000)
        PKCS12_set_mac(p12, "x", -1, NULL, 8, 1, EVP_sha256());
    unsigned char *der = NULL;
    int len = i2d_PKCS12(p12, &der);
    assert_true(len > 0);
    mf_bytes out = kit_copy((mf_bytes){der, (size_t)len});
    OPENSSL_free(der);
    PKCS12_free(p12);
    return out;
}

static X509 *quick_cert(EVP_PKEY *pkey)
{
    X509 *cert = X509_new();
    X509_set_pubkey(cert, pkey);
    X509_gmtime_adj(X509_getm_notBefore(cert), 0);
    X509_gmtime_adj(X509_getm_notAfter(cert), 1000);
    assert_true(X509_sign(cert, pkey, EVP_sha256()) > 0);
    return cert;
}

static void no_private_key(void **state)
{
    (void)state;
    mf_key *key = NULL;
    mf_err err = {0};
    EVP_PKEY *pkey = EVP_EC_gen("P-256");
    X509 *cert = quick_cert(pkey);
    mf_bytes p12 = quick_p12(NULL, cert, 1000);
    assert_int_equal(mf_key_open(&key, p12.data, p12.len, "x", &err), MF_INPUT);
    assert_string_equal(err.what, "it holds no private key");
    mf_bytes_free(&p12);
    X509_free(cert);
    EVP_PKEY_free(pkey);
}

static void weak_key(void **state)
{
    (void)state;
    mf_key *key = NULL;
    mf_err err = {0};
    EVP_PKEY *pkey = EVP_RSA_gen(1024U);
    X509 *cert = quick_cert(pkey);
    mf_bytes p12 = quick_p12(pkey, cert, 1000);
    assert_int_equal(mf_key_open(&key, p12.data, p12.len, "x", &err), MF_INPUT);
    assert_non_null(strstr(err.what, "kind of key"));
    mf_bytes_free(&p12);
    X509_free(cert);
    EVP_PKEY_free(pkey);
}

/* Every byte changed in turn: refused or opened, never a crash, and what opens is
 * the same key. One round in the integrity check keeps this quick. */
static void damaged(void **state)
{
    (void)state;
    EVP_PKEY *pkey = EVP_EC_gen("P-256");
    X509 *cert = quick_cert(pkey);
    mf_bytes p12 = quick_p12(pkey, cert, 1);
    mf_key *whole = NULL, *key = NULL;
    char want[MF_FINGERPRINT_HEX], got[MF_FINGERPRINT_HEX];
    assert_int_equal(mf_key_open(&whole, p12.data, p12.len, "x", NULL), MF_OK);
    mf_key_fingerprint(whole, want);
    for (size_t i = 0; i < p12.len; i++) {
        unsigned char kept = p12.data[i];
        p12.data[i] ^= (unsigned char)(1 + i % 255);
        if (mf_key_open(&key, p12.data, p12.len, "x", NULL) == MF_OK) {
            mf_key_fingerprint(key, got);
            assert_string_equal(got, want);
        }
        mf_key_free(key);
        p12.data[i] = kept;
    }
    mf_key_free(whole);
    mf_bytes_free(&p12);
    X509_free(cert);
    EVP_PKEY_free(pkey);
}

static void refuses(const mf_key_holder *who, const char *passphrase)
{
    mf_bytes out = {(unsigned char *)"x", 1};
    mf_err err = {0};
    assert_int_equal(mf_key_make(&out, who, passphrase, &err), MF_USAGE); /* before any work */
    assert_null(out.data);
    assert_true(err.what[0] != '\0' && err.mend[0] != '\0');
}

static void usage(void **state)
{
    (void)state;
    const char *too_long = "1234567890123456789012345678901234567890123456789012345678901234x";
    refuses(&holder, "");
    refuses(&holder, NULL);
    refuses(NULL, "x");
    refuses(&(mf_key_holder){"", "", "", 1}, "x");
    refuses(&(mf_key_holder){"A", "", "", 0}, "x");
    refuses(&(mf_key_holder){"A", "", "", 40000}, "x");
    refuses(&(mf_key_holder){"A", NULL, "", 1}, "x");
    refuses(&(mf_key_holder){too_long, "", "", 1}, "x");
    refuses(&(mf_key_holder){"A\nB", "", "", 1}, "x");
    refuses(&(mf_key_holder){"A\xff", "", "", 1}, "x");
    mf_key_free(NULL);
}

/* A name of 64 three-byte letters, no firm, no title, the longest validity. */
static void edges(void **state)
{
    (void)state;
    char name[64 * 3 + 1] = "";
    for (size_t i = 0; i < 64; i++)
        memcpy(name + 3 * i, "\xe1\xba\xa5", 3);
    name[sizeof name - 1] = '\0';
    mf_bytes p12 = {0};
    mf_key *key = NULL;
    mf_key_holder who = {name, "", "", 36500};
    assert_int_equal(mf_key_make_rounds(&p12, &who, "x", 1000, NULL), MF_OK);
    assert_int_equal(mf_key_open(&key, p12.data, p12.len, "x", NULL), MF_OK);
    assert_string_equal(mf_key_common_name(key), name);
    assert_string_equal(mf_key_capacity(key), "");
    mf_key_free(key);
    mf_bytes_free(&p12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(says_who),
        cmocka_unit_test(openssl_agrees),
        cmocka_unit_test(wrong_passphrase),
        cmocka_unit_test(no_p12),
        cmocka_unit_test(no_private_key),
        cmocka_unit_test(weak_key),
        cmocka_unit_test(damaged),
        cmocka_unit_test(usage),
        cmocka_unit_test(edges),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
