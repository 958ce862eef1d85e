/* Keys of signers: a PKCS #12 file made, opened and described. */
#include "base/fail.h"
#include "seal/cert.h"
#include "seal/key_parts.h"
#include "seal/text.h"

#include <errno.h>
#include <openssl/asn1.h>
#include <openssl/crypto.h>
#include <openssl/err.h>
#include <openssl/pkcs12.h>
#include <openssl/rand.h>
#include <openssl/x509v3.h>
#include <stdlib.h>
#include <string.h>

/* PBKDF2-HMAC-SHA256 at the number of the OWASP Password Storage Cheat Sheet. */
#define ROUNDS      600000
#define P12_MAX     ((size_t)1 << 20)
#define NAME_CHARS  64 /* the upper bound of X.520 for name, firm and title */
#define DAYS_MAX    36500
#define SERIAL_SIZE 16 /* RFC 5280 allows 20, of a positive number */

static mf_status openssl_failed(mf_err *err, const char *what)
{
    ERR_clear_error();
    return mf_fail(err, MF_SYSTEM, "the key", what, "OpenSSL refused",
                   "try again; if it stays, the OpenSSL of this machine is broken");
}

/* --- making ------------------------------------------------------------------ */

static mf_status check_name(const char *what, const char *text, mf_err *err)
{
    int n = mf_text_count(text);
    if (n < 0)
        return mf_fail(err, MF_USAGE, what, "this text cannot stand in a certificate",
                       "it must be UTF-8 without control characters", "type it again");
    if (n > NAME_CHARS)
        return mf_failf(err, MF_USAGE, what, "a certificate takes at most 64 characters",
                        "shorten it", "%d characters are too many", n);
    return MF_OK;
}

static mf_status check_holder(const mf_key_holder *holder, const char *passphrase, mf_err *err)
{
    if (holder == NULL || holder->common_name == NULL || holder->common_name[0] == '\0')
        return mf_fail(err, MF_USAGE, "the key's holder", "the name is missing",
                       "a key is for somebody", "give the name of the person or the firm");
    if (holder->organization == NULL || holder->capacity == NULL)
        return mf_fail(err, MF_USAGE, "the key's holder", "organization or capacity is NULL", "",
                       "give \"\" where there is none");
    if (holder->valid_days < 1 || holder->valid_days > DAYS_MAX)
        return mf_failf(err, MF_USAGE, "the key's holder", "a key is valid for 1 to 36500 days",
                        "give the number of days", "%d days cannot be", holder->valid_days);
    if (passphrase == NULL || passphrase[0] == '\0')
        return mf_fail(err, MF_USAGE, "the key", "the passphrase is empty",
                       "whoever finds the file could sign with it", "give a passphrase");
    mf_status status = check_name("the key's holder", holder->common_name, err);
    if (status == MF_OK)
        status = check_name("the key's organization", holder->organization, err);
    return status == MF_OK ? check_name("the key's capacity", holder->capacity, err) : status;
}

static bool add_entry(X509_NAME *name, int nid, const char *text)
{
    return text[0] == '\0' ||
           X509_NAME_add_entry_by_NID(name, nid, MBSTRING_UTF8, (const unsigned char *)text, -1, -1,
                                      0) == 1;
}

static bool set_names(X509 *cert, const mf_key_holder *holder)
{
    X509_NAME *name = X509_get_subject_name(cert);
    return add_entry(name, NID_commonName, holder->common_name) &&
           add_entry(name, NID_organizationName, holder->organization) &&
           add_entry(name, NID_title, holder->capacity) && X509_set_issuer_name(cert, name) == 1;
}

static bool set_serial(X509 *cert)
{
    unsigned char bytes[SERIAL_SIZE];
    if (RAND_bytes(bytes, sizeof bytes) != 1)
        return false;
    bytes[0] = (unsigned char)((bytes[0] & 0x7f) | 0x40); /* positive, and of full length */
    BIGNUM *number = BN_bin2bn(bytes, sizeof bytes, NULL);
    bool ok = number != NULL && BN_to_ASN1_INTEGER(number, X509_get_serialNumber(cert)) != NULL;
    BN_free(number);
    return ok;
}

static bool add_extension(X509 *cert, int nid, const char *value)
{
    X509V3_CTX context;
    X509V3_set_ctx(&context, cert, cert, NULL, NULL, 0);
    X509_EXTENSION *extension = X509V3_EXT_conf_nid(NULL, &context, nid, value);
    bool ok = extension != NULL && X509_add_ext(cert, extension, -1) == 1;
    X509_EXTENSION_free(extension);
    return ok;
}

/* A certificate that the key signs itself. NULL when OpenSSL fails. */
static X509 *make_cert(EVP_PKEY *pkey, const mf_key_holder *holder)
{
    X509 *cert = X509_new();
    if (cert != NULL && X509_set_version(cert, X509_VERSION_3) == 1 && set_serial(cert) &&
        set_names(cert, holder) && X509_set_pubkey(cert, pkey) == 1 &&
        X509_gmtime_adj(X509_getm_notBefore(cert), 0) != NULL &&
        X509_time_adj_ex(X509_getm_notAfter(cert), holder->valid_days, 0, NULL) != NULL &&
        add_extension(cert, NID_basic_constraints, "critical,CA:FALSE") &&
        add_extension(cert, NID_key_usage, "critical,digitalSignature,nonRepudiation") &&
        add_extension(cert, NID_subject_key_identifier, "hash") &&
        X509_sign(cert, pkey, EVP_sha256()) > 0)
        return cert;
    X509_free(cert);
    return NULL;
}

static bool to_bytes(mf_bytes *out, const PKCS12 *p12)
{
    int len = i2d_PKCS12(p12, NULL);
    unsigned char *data = len > 0 ? malloc((size_t)len) : NULL, *end = data;
    if (data == NULL)
        return false;
    i2d_PKCS12(p12, &end);
    *out = (mf_bytes){data, (size_t)len};
    return true;
}

mf_status mf_key_make_rounds(mf_bytes *out, const mf_key_holder *holder, const char *passphrase,
                             int rounds, mf_err *err)
{
    *out = (mf_bytes){0};
    PKCS12 *p12 = NULL;
    X509 *cert = NULL;
    mf_status status = check_holder(holder, passphrase, err);
    if (status != MF_OK)
        return status;
    EVP_PKEY *pkey = EVP_EC_gen("P-256");
    if (pkey != NULL)
        cert = make_cert(pkey, holder);
    if (cert != NULL)
        p12 = PKCS12_create(passphrase, holder->common_name, pkey, cert, NULL, NID_aes_256_cbc,
                            NID_aes_256_cbc, rounds, rounds, 0);
    if (p12 == NULL)
        status = openssl_failed(err, "no key could be made");
    else if (!to_bytes(out, p12))
        status = mf_fail_memory(err);
    PKCS12_free(p12);
    X509_free(cert);
    EVP_PKEY_free(pkey); /* wipes the private number */
    return status;
}

mf_status mf_key_make(mf_bytes *p12, const mf_key_holder *holder, const char *passphrase,
                      mf_err *err)
{
    return mf_key_make_rounds(p12, holder, passphrase, ROUNDS, err);
}

/* --- opening ------------------------------------------------------------------- */

static mf_status no_p12(mf_err *err)
{
    ERR_clear_error();
    return mf_fail(err, MF_INPUT, "the key file", "this is no PKCS #12 file",
                   "keys are kept as PKCS #12 (.p12, .pfx) with a passphrase",
                   "give the key file, or make one");
}

/* Whether the file asks for more rounds than anybody needs. */
static bool is_endless(const PKCS12 *p12)
{
    const ASN1_INTEGER *rounds = NULL;
    int64_t number = 1;
    PKCS12_get0_mac(NULL, NULL, NULL, &rounds, p12);
    return rounds != NULL && (ASN1_INTEGER_get_int64(&number, rounds) != 1 || number < 1 ||
                              number > MF_KEY_ROUNDS_MAX);
}

static mf_status check_passphrase(PKCS12 *p12, const char *passphrase, mf_err *err)
{
    if (PKCS12_mac_present(p12) != 1 || is_endless(p12))
        return no_p12(err);
    if (PKCS12_verify_mac(p12, passphrase, -1) == 1)
        return MF_OK;
    ERR_clear_error();
    return mf_fail(err, MF_INPUT, "the key file", "wrong passphrase",
                   "the file does not open with it; a damaged file looks the same",
                   "type the passphrase again");
}

/* The kinds of key that sign with SHA-256 in CMS everywhere. */
static bool is_usable(const EVP_PKEY *pkey)
{
    int kind = EVP_PKEY_get_base_id(pkey), bits = EVP_PKEY_get_bits(pkey);
    return (kind == EVP_PKEY_EC && bits >= 256) || (kind == EVP_PKEY_RSA && bits >= 2048);
}

static mf_status take_out(mf_key *key, PKCS12 *p12, const char *passphrase, mf_err *err)
{
    bool opened = mf_key_parts(p12, passphrase, &key->pkey, &key->cert);
    ERR_clear_error(); /* trying which certificate belongs to the key leaves some */
    if (!opened) {
        return mf_fail(err, MF_INPUT, "the key file", "its contents cannot be opened",
                       "it is damaged, or locked in an old way that OpenSSL 3 no longer opens",
                       "export the key again with AES-256");
    }
    if (key->pkey == NULL)
        return mf_fail(err, MF_INPUT, "the key file", "it holds no private key",
                       "a certificate alone cannot sign", "export the key with its private part");
    if (key->cert == NULL)
        return mf_fail(err, MF_INPUT, "the key file", "it holds no certificate for its key",
                       "a seal carries the certificate", "export the key with its certificate");
    if (!is_usable(key->pkey))
        return mf_fail(err, MF_INPUT, "the key file", "its kind of key is not used for seals",
                       "seals take EC keys from 256 bits and RSA keys from 2048 bits",
                       "make a key with mistfold");
    mf_cert_entry(key->cert, NID_commonName, key->common_name, sizeof key->common_name);
    mf_cert_entry(key->cert, NID_title, key->capacity, sizeof key->capacity);
    return mf_cert_fingerprint(key->cert, key->fingerprint) ? MF_OK : mf_fail_memory(err);
}

mf_status mf_key_open(mf_key **out, const unsigned char *data, size_t len, const char *passphrase,
                      mf_err *err)
{
    *out = NULL;
    if (passphrase == NULL)
        return mf_fail(err, MF_USAGE, "the key file", "there is no passphrase", "",
                       "give the passphrase");
    if (data == NULL || len == 0 || len > P12_MAX)
        return no_p12(err);
    errno = 0;
    mf_key *key = calloc(1, sizeof *key);
    if (key == NULL)
        return mf_fail_memory(err);
    const unsigned char *at = data;
    PKCS12 *p12 = d2i_PKCS12(NULL, &at, (long)len);
    mf_status status = p12 != NULL && at == data + len ? MF_OK : no_p12(err);
    if (status == MF_OK)
        status = check_passphrase(p12, passphrase, err);
    if (status == MF_OK)
        status = take_out(key, p12, passphrase, err);
    if (status == MF_OK) {
        *out = key;
        key = NULL;
    } else if (errno == ENOMEM) { /* OpenSSL takes it for a damaged file */
        status = mf_fail_memory(err);
    }
    mf_key_free(key);
    PKCS12_free(p12);
    return status;
}

void mf_key_free(mf_key *key)
{
    if (key == NULL)
        return;
    EVP_PKEY_free(key->pkey); /* wipes the private number */
    X509_free(key->cert);
    OPENSSL_cleanse(key, sizeof *key);
    free(key);
}

void mf_key_fingerprint(const mf_key *key, char out[MF_FINGERPRINT_HEX])
{
    memcpy(out, key->fingerprint, MF_FINGERPRINT_HEX);
}

const char *mf_key_common_name(const mf_key *key)
{
    return key->common_name;
}

const char *mf_key_capacity(const mf_key *key)
{
    return key->capacity;
}
