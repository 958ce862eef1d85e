/* The only file that knows OpenSSL's CMS. */
#include "seal/cms.h"

#include "base/fail.h"
#include "seal/cert.h"
#include "seal/der.h"
#include "seal/ts.h"

#include <openssl/cms.h>
#include <openssl/crypto.h>
#include <openssl/err.h>
#include <openssl/ess.h>
#include <openssl/objects.h>
#include <openssl/pkcs7.h>
#include <stdlib.h>
#include <string.h>

#define SIGN_FLAGS (CMS_CADES | CMS_DETACHED | CMS_BINARY | CMS_NOSMIMECAP | CMS_PARTIAL)

bool mf_cms_hash(const EVP_MD *md, const mf_cms_spans *spans, unsigned char out[EVP_MAX_MD_SIZE],
                 unsigned *len)
{
    EVP_MD_CTX *context = EVP_MD_CTX_new();
    bool ok = context != NULL && EVP_DigestInit_ex(context, md, NULL) == 1 &&
              EVP_DigestUpdate(context, spans->first, spans->first_len) == 1 &&
              EVP_DigestUpdate(context, spans->second, spans->second_len) == 1 &&
              EVP_DigestFinal_ex(context, out, len) == 1;
    EVP_MD_CTX_free(context);
    return ok;
}

/* --- signing ------------------------------------------------------------------- */

/* The signed attributes as the signature covers them: a SET OF in DER order
 * (RFC 5652, 5.4). The caller frees *out with OPENSSL_free. 0 on failure. */
static int encode_attributes(unsigned char **out, const CMS_SignerInfo *signer)
{
    STACK_OF(X509_ATTRIBUTE) *set = sk_X509_ATTRIBUTE_new_null();
    int len = 0;
    bool ok = set != NULL;
    for (int i = 0; ok && i < CMS_signed_get_attr_count(signer); i++)
        ok = sk_X509_ATTRIBUTE_push(set, CMS_signed_get_attr(signer, i)) > 0;
    if (ok)
        len = ASN1_item_i2d((const ASN1_VALUE *)set, out, ASN1_ITEM_rptr(PKCS7_ATTR_SIGN));
    sk_X509_ATTRIBUTE_free(set);
    return len > 0 ? len : 0;
}

static bool sign_bytes(EVP_PKEY *pkey, const unsigned char *bytes, size_t len,
                       ASN1_OCTET_STRING *out)
{
    size_t size = 0;
    unsigned char *signature = NULL;
    EVP_MD_CTX *context = EVP_MD_CTX_new();
    bool ok = context != NULL && EVP_DigestSignInit(context, NULL, EVP_sha256(), NULL, pkey) == 1 &&
              EVP_DigestSign(context, NULL, &size, bytes, len) == 1 &&
              (signature = OPENSSL_malloc(size)) != NULL &&
              EVP_DigestSign(context, signature, &size, bytes, len) == 1 &&
              ASN1_OCTET_STRING_set(out, signature, (int)size) == 1;
    OPENSSL_free(signature);
    EVP_MD_CTX_free(context);
    return ok;
}

/* Signs the attributes by hand, because CMS_final and CMS_SignerInfo_sign always
 * add a signing-time attribute, which PAdES baseline forbids: the time stands in
 * the /M of the signature dictionary (ETSI EN 319 142-1, 6.3, Table 1). */
static bool sign_attributes(CMS_SignerInfo *signer, EVP_PKEY *pkey, const mf_cms_spans *spans)
{
    unsigned char digest[EVP_MAX_MD_SIZE], *attributes = NULL;
    unsigned digest_len = 0;
    if (!mf_cms_hash(EVP_sha256(), spans, digest, &digest_len) ||
        CMS_signed_add1_attr_by_NID(signer, NID_pkcs9_contentType, V_ASN1_OBJECT,
                                    OBJ_nid2obj(NID_pkcs7_data), -1) != 1 ||
        CMS_signed_add1_attr_by_NID(signer, NID_pkcs9_messageDigest, V_ASN1_OCTET_STRING, digest,
                                    (int)digest_len) != 1)
        return false;
    int len = encode_attributes(&attributes, signer);
    bool ok =
        len > 0 && sign_bytes(pkey, attributes, (size_t)len, CMS_SignerInfo_get0_signature(signer));
    OPENSSL_free(attributes);
    return ok;
}

static bool to_bytes(mf_bytes *out, CMS_ContentInfo *cms)
{
    int len = i2d_CMS_ContentInfo(cms, NULL);
    unsigned char *data = len > 0 ? malloc((size_t)len) : NULL, *end = data;
    if (data == NULL)
        return false;
    i2d_CMS_ContentInfo(cms, &end);
    *out = (mf_bytes){data, (size_t)len};
    return true;
}

static mf_status not_made(mf_err *err)
{
    return mf_fail(err, MF_SYSTEM, "the seal", "the signature could not be made",
                   "OpenSSL refused the key or memory ran out", "try again");
}

mf_status mf_cms_sign(mf_bytes *der, const mf_key *key, const mf_cms_spans *spans, mf_err *err)
{
    *der = (mf_bytes){0};
    CMS_SignerInfo *signer = NULL;
    CMS_ContentInfo *cms = CMS_sign(NULL, NULL, NULL, NULL, SIGN_FLAGS);
    if (cms != NULL)
        signer = CMS_add1_signer(cms, key->cert, key->pkey, EVP_sha256(), SIGN_FLAGS);
    bool ok = signer != NULL && CMS_set_detached(cms, 1) == 1 &&
              sign_attributes(signer, key->pkey, spans) && to_bytes(der, cms);
    CMS_ContentInfo_free(cms);
    ERR_clear_error();
    return ok ? MF_OK : not_made(err);
}

/* ---- its time stamp ------------------------------------------------------------------ */

/* The only signer, with the CMS to free; NULL when there is none. */
static CMS_SignerInfo *open_signer(CMS_ContentInfo **cms, const unsigned char *der, size_t len)
{
    const unsigned char *at = der;
    *cms = d2i_CMS_ContentInfo(NULL, &at, (long)len);
    STACK_OF(CMS_SignerInfo) *signers = *cms == NULL ? NULL : CMS_get0_SignerInfos(*cms);
    return signers == NULL || sk_CMS_SignerInfo_num(signers) != 1
               ? NULL
               : sk_CMS_SignerInfo_value(signers, 0);
}

/* The token over the signature's bytes, as an attribute that the signature does not cover
 * (RFC 3161, appendix A; ETSI EN 319 122-1, 5.3). */
static mf_status add_stamp(CMS_SignerInfo *signer, const mf_seal_ask *ask, mf_err *err)
{
    char sha256[MF_STAMP_HEX];
    mf_bytes token = {0};
    const ASN1_OCTET_STRING *value = CMS_SignerInfo_get0_signature(signer);
    mf_sha256_hex(ASN1_STRING_get0_data(value), (size_t)ASN1_STRING_length(value), sha256);
    mf_status status = ask->stamp(ask->stamp_user, sha256, &token, err);
    if (status == MF_OK &&
        CMS_unsigned_add1_attr_by_NID(signer, NID_id_smime_aa_timeStampToken, V_ASN1_SEQUENCE,
                                      token.data, (int)token.len) != 1)
        status = not_made(err);
    mf_bytes_free(&token);
    return status;
}

mf_status mf_cms_stamp(mf_bytes *der, const mf_seal_ask *ask, mf_err *err)
{
    CMS_ContentInfo *cms = NULL;
    mf_bytes grown = {0};
    if (ask->stamp == NULL)
        return MF_OK;
    CMS_SignerInfo *signer = open_signer(&cms, der->data, der->len);
    mf_status status = signer == NULL ? not_made(err) : add_stamp(signer, ask, err);
    if (status == MF_OK && !to_bytes(&grown, cms))
        status = not_made(err);
    if (status == MF_OK) {
        mf_bytes_free(der);
        *der = grown;
    }
    CMS_ContentInfo_free(cms);
    ERR_clear_error();
    return status;
}

mf_status mf_cms_judge_stamp(mf_stamp_report *out, const unsigned char *der, size_t len,
                             X509_STORE *roots, mf_err *err)
{
    CMS_ContentInfo *cms = NULL;
    mf_status status = MF_OK;
    CMS_SignerInfo *signer = open_signer(&cms, der, len);
    int at = signer == NULL
                 ? -1
                 : CMS_unsigned_get_attr_by_NID(signer, NID_id_smime_aa_timeStampToken, -1);
    if (at >= 0) {
        const ASN1_OCTET_STRING *value = CMS_SignerInfo_get0_signature(signer);
        const mf_cms_spans spans = {ASN1_STRING_get0_data(value), (const unsigned char *)"",
                                    (size_t)ASN1_STRING_length(value), 0};
        const mf_ts_of of = {.spans = &spans};
        const ASN1_STRING *token =
            X509_ATTRIBUTE_get0_data(CMS_unsigned_get_attr(signer, at), 0, V_ASN1_SEQUENCE, NULL);
        out->state = MF_STAMP_UNREADABLE;
        if (token != NULL)
            status = mf_ts_judge(out, ASN1_STRING_get0_data(token),
                                 (size_t)ASN1_STRING_length(token), &of, roots, err);
    }
    CMS_ContentInfo_free(cms);
    ERR_clear_error();
    return status;
}

/* --- verifying ------------------------------------------------------------------- */

static bool is_nid(const X509_ALGOR *algorithm, int nid)
{
    const ASN1_OBJECT *object = NULL;
    X509_ALGOR_get0(&object, NULL, NULL, algorithm);
    return OBJ_obj2nid(object) == nid;
}

/* No parameters, or NULL ones. */
static bool is_plain(const X509_ALGOR *algorithm)
{
    int kind = V_ASN1_UNDEF;
    X509_ALGOR_get0(NULL, &kind, NULL, algorithm);
    return kind == V_ASN1_UNDEF || kind == V_ASN1_NULL;
}

/* SHA-2 only: older digests can be forged. NULL for every other one. */
static const EVP_MD *digest_of(X509_ALGOR *algorithm)
{
    if (!is_plain(algorithm))
        return NULL;
    return is_nid(algorithm, NID_sha256)   ? EVP_sha256()
           : is_nid(algorithm, NID_sha384) ? EVP_sha384()
           : is_nid(algorithm, NID_sha512) ? EVP_sha512()
                                           : NULL;
}

/* The named signature algorithm must be the one that this digest and this key
 * make. OpenSSL goes by the key alone, so a changed name would pass unseen. */
static bool names_agree(const X509_ALGOR *signature, const EVP_MD *md, const EVP_PKEY *pkey)
{
    const ASN1_OBJECT *object = NULL;
    int digest = NID_undef, kind = NID_undef, key_kind = EVP_PKEY_get_base_id(pkey);
    X509_ALGOR_get0(&object, NULL, NULL, signature);
    int nid = OBJ_obj2nid(object);
    if (nid == NID_rsassaPss)
        return key_kind == EVP_PKEY_RSA || key_kind == EVP_PKEY_RSA_PSS;
    if (!is_plain(signature))
        return false;
    if (nid == NID_rsaEncryption)
        return key_kind == EVP_PKEY_RSA;
    return OBJ_find_sigid_algs(nid, &digest, &kind) == 1 && digest == EVP_MD_get_type(md) &&
           EVP_PKEY_type(kind) == key_kind;
}

/* Version numbers and the digest list, which OpenSSL skips over (RFC 5652, 5.1). */
static bool frame_is_right(const unsigned char *der, size_t len, const X509_ALGOR *digest)
{
    mf_der_cms frame;
    mf_der oid;
    const ASN1_OBJECT *object = NULL;
    if (!mf_der_is_sound(der, len) || !mf_der_look(der, len, &frame))
        return false;
    const unsigned char *at = frame.digest.content;
    X509_ALGOR_get0(&object, NULL, NULL, digest);
    if (!mf_der_next(&at, frame.digest.end, &oid) || oid.tag != V_ASN1_OBJECT ||
        (size_t)(oid.end - oid.content) != OBJ_length(object) ||
        memcmp(oid.content, OBJ_get0_data(object), OBJ_length(object)) != 0)
        return false;
    bool null_follows = frame.digest.end - at == 2 && at[0] == V_ASN1_NULL && at[1] == 0;
    return (at == frame.digest.end || null_follows) && frame.version == frame.signer_version &&
           (frame.version == 1 || frame.version == 3);
}

/* The signer names its certificate by issuer and serial number. OpenSSL finds it
 * whatever the case of the letters; here every byte counts. */
static bool names_cert(CMS_SignerInfo *signer, const X509 *cert)
{
    ASN1_OCTET_STRING *key_id = NULL;
    X509_NAME *issuer = NULL;
    const unsigned char *one = NULL, *other = NULL;
    size_t one_len = 0, other_len = 0;
    if (CMS_SignerInfo_get0_signer_id(signer, &key_id, &issuer, NULL) != 1)
        return false;
    return issuer == NULL ||
           (X509_NAME_get0_der(issuer, &one, &one_len) == 1 &&
            X509_NAME_get0_der(X509_get_issuer_name(cert), &other, &other_len) == 1 &&
            one_len == other_len && memcmp(one, other, one_len) == 0);
}

/* The only signer of a detached signature over plain data, with the certificate
 * found; NULL when it is anything else. */
static CMS_SignerInfo *only_signer(CMS_ContentInfo *cms, X509 **cert)
{
    if (OBJ_obj2nid(CMS_get0_type(cms)) != NID_pkcs7_signed || CMS_is_detached(cms) != 1 ||
        OBJ_obj2nid(CMS_get0_eContentType(cms)) != NID_pkcs7_data)
        return NULL;
    STACK_OF(CMS_SignerInfo) *signers = CMS_get0_SignerInfos(cms);
    if (sk_CMS_SignerInfo_num(signers) != 1 || CMS_set1_signers_certs(cms, NULL, 0) != 1)
        return NULL;
    CMS_SignerInfo *signer = sk_CMS_SignerInfo_value(signers, 0);
    CMS_SignerInfo_get0_algs(signer, NULL, cert, NULL, NULL);
    return *cert == NULL ? NULL : signer;
}

/* The value of an attribute that must be there exactly once, with one value. */
static const void *attribute(const CMS_SignerInfo *signer, int nid, int type)
{
    return CMS_signed_get0_data_by_OBJ(signer, OBJ_nid2obj(nid), -3, type);
}

/* The attribute that ties the certificate to the signature (RFC 5035): without
 * it another certificate with the same key could be put in its place. */
static bool names_a_cert(const CMS_SignerInfo *signer)
{
    return CMS_signed_get_attr_by_NID(signer, NID_id_smime_aa_signingCertificateV2, -1) >= 0;
}

static bool cert_is_meant(const CMS_SignerInfo *signer, X509 *cert)
{
    const ASN1_STRING *value =
        attribute(signer, NID_id_smime_aa_signingCertificateV2, V_ASN1_SEQUENCE);
    if (value == NULL)
        return false;
    const unsigned char *at = ASN1_STRING_get0_data(value);
    ESS_SIGNING_CERT_V2 *ids = d2i_ESS_SIGNING_CERT_V2(NULL, &at, ASN1_STRING_length(value));
    STACK_OF(X509) *chain = sk_X509_new_null();
    bool ok = ids != NULL && chain != NULL && sk_X509_push(chain, cert) > 0 &&
              OSSL_ESS_check_signing_certs(NULL, ids, chain, 1) == 1;
    sk_X509_free(chain);
    ESS_SIGNING_CERT_V2_free(ids);
    return ok;
}

static bool type_is_data(const CMS_SignerInfo *signer)
{
    const ASN1_OBJECT *type = attribute(signer, NID_pkcs9_contentType, V_ASN1_OBJECT);
    return OBJ_obj2nid(type) == NID_pkcs7_data;
}

static bool digest_matches(const CMS_SignerInfo *signer, const EVP_MD *md,
                           const mf_cms_spans *spans)
{
    unsigned char digest[EVP_MAX_MD_SIZE];
    unsigned len = 0;
    const ASN1_OCTET_STRING *signed_digest =
        attribute(signer, NID_pkcs9_messageDigest, V_ASN1_OCTET_STRING);
    return signed_digest != NULL && mf_cms_hash(md, spans, digest, &len) &&
           ASN1_STRING_length(signed_digest) == (int)len &&
           CRYPTO_memcmp(ASN1_STRING_get0_data(signed_digest), digest, len) == 0;
}

/* A time that is absent or cannot be compared says nothing. */
static bool is_out_of_days(const X509 *cert, int64_t at)
{
    int from = ASN1_TIME_cmp_time_t(X509_get0_notBefore(cert), (time_t)at);
    int until = ASN1_TIME_cmp_time_t(X509_get0_notAfter(cert), (time_t)at);
    return at > 0 && from >= -1 && until >= -1 && (from > 0 || until < 0);
}

static bool describe(mf_seal_report *out, X509 *cert)
{
    mf_cert_entry(cert, NID_commonName, out->common_name, sizeof out->common_name);
    mf_cert_entry(cert, NID_title, out->capacity, sizeof out->capacity);
    out->self_made = X509_self_signed(cert, 1) == 1;
    out->out_of_days = is_out_of_days(cert, out->signed_at);
    return mf_cert_fingerprint(cert, out->fingerprint);
}

/* Below this somebody with a few machines computes the key from the certificate and
 * signs with it (NIST SP 800-131A: 112 bits, RSA of 2048 and EC of 224). */
#define STRENGTH_LEAST 112

/* What the parts say together. The signature is checked over the attributes, and
 * one of the attributes is the digest of the spans. */
static mf_seal_state judge(CMS_SignerInfo *signer, X509 *cert, const unsigned char *der, size_t len,
                           const mf_cms_spans *spans, bool cades)
{
    X509_ALGOR *digest = NULL, *signature = NULL;
    EVP_PKEY *pkey = NULL;
    CMS_SignerInfo_get0_algs(signer, &pkey, NULL, &digest, &signature);
    const EVP_MD *md = digest_of(digest);
    if (md == NULL || pkey == NULL || EVP_PKEY_get_security_bits(pkey) < STRENGTH_LEAST ||
        !frame_is_right(der, len, digest) || !names_agree(signature, md, pkey) ||
        !type_is_data(signer) || !names_cert(signer, cert))
        return MF_SEAL_UNREADABLE;
    bool named = names_a_cert(signer);
    if (CMS_SignerInfo_verify(signer) != 1 || !digest_matches(signer, md, spans) ||
        (named && !cert_is_meant(signer, cert)))
        return MF_SEAL_ALTERED;
    return cades && !named ? MF_SEAL_NOT_ACCEPTED : MF_SEAL_GOOD;
}

mf_status mf_cms_verify(mf_seal_report *out, const unsigned char *der, size_t len,
                        const mf_cms_spans *spans, bool cades, mf_err *err)
{
    X509 *cert = NULL;
    mf_status status = MF_OK;
    const unsigned char *at = der;
    CMS_ContentInfo *cms = d2i_CMS_ContentInfo(NULL, &at, (long)len);
    CMS_SignerInfo *signer = cms != NULL && at == der + len ? only_signer(cms, &cert) : NULL;
    out->state = MF_SEAL_UNREADABLE;
    if (signer != NULL) {
        out->state = judge(signer, cert, der, len, spans, cades);
        if (!describe(out, cert))
            status = mf_fail_memory(err);
    }
    CMS_ContentInfo_free(cms);
    ERR_clear_error();
    return status;
}
