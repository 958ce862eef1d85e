#include "seal/ts.h"

#include "base/fail.h"
#include "base/hex.h"
#include "seal/cert.h"
#include "seal/der.h"

#include <openssl/err.h>
#include <openssl/pkcs7.h>
#include <openssl/ts.h>
#include <stdio.h>
#include <string.h>

const char *mf_stamp_state_name(mf_stamp_state state)
{
    static const char *const names[MF_STAMP_STATES] = {"none",  "proved", "unverified", "untrusted",
                                                       "wrong", "unfit",  "unreadable"};
    return (unsigned)state < MF_STAMP_STATES ? names[state] : "";
}

bool mf_stamp_holds(mf_stamp_state state)
{
    return state == MF_STAMP_PROVED || state == MF_STAMP_UNVERIFIED;
}

mf_status mf_stamp_fault(mf_stamp_state state, mf_status status, const char *where,
                         const char *mend, mf_err *err)
{
    switch (state) {
    case MF_STAMP_UNTRUSTED:
        return mf_fail(err, status, where, "its time stamp is by no authority that you trust",
                       "the certificate leads to none of the given roots",
                       "do not rely on its time; or give the roots that the authority publishes");
    case MF_STAMP_UNFIT:
        return mf_fail(
            err, status, where,
            "its time stamp is by a certificate that is not for time stamps, or was not valid then",
            "it must be for time stamps alone, extendedKeyUsage timeStamping", mend);
    case MF_STAMP_WRONG:
        return mf_fail(err, status, where, "its time stamp is of something else, or was altered",
                       "anybody can put it there or change it: no key is needed", mend);
    default:
        return mf_fail(err, status, where, "its time stamp cannot be read",
                       "it is damaged, or no time stamp", mend);
    }
}

/* ---- what the token says ------------------------------------------------------------------ */

/* Seconds since 1970; false when it is no time, or before then. */
static bool seconds_of(const ASN1_TIME *time, int64_t *out)
{
    int days = 0, seconds = 0;
    ASN1_TIME *zero = ASN1_TIME_set(NULL, 0);
    bool good = zero != NULL && ASN1_TIME_diff(&days, &seconds, zero, time) == 1;
    ASN1_TIME_free(zero);
    *out = (int64_t)days * 86400 + seconds;
    return good && *out > 0;
}

static int64_t number_of(const ASN1_INTEGER *number)
{
    int64_t out = 0;
    return number != NULL && ASN1_INTEGER_get_int64(&out, number) == 1 && out > 0 ? out : 0;
}

/* What the accuracy adds, in whole seconds: upwards (RFC 3161, 2.4.2). */
static int64_t slack_of(TS_TST_INFO *info, const ASN1_GENERALIZEDTIME *time)
{
    const int64_t most = 86400;
    TS_ACCURACY *accuracy = TS_TST_INFO_get_accuracy(info);
    bool fraction =
        memchr(ASN1_STRING_get0_data(time), '.', (size_t)ASN1_STRING_length(time)) != NULL;
    int64_t whole = 0, parts = 0;
    if (accuracy != NULL) {
        whole = number_of(TS_ACCURACY_get_seconds(accuracy));
        parts = number_of(TS_ACCURACY_get_millis(accuracy)) +
                number_of(TS_ACCURACY_get_micros(accuracy));
    }
    whole += (fraction ? 1 : 0) + (parts > 0 ? 1 : 0);
    return whole < most ? whole : most;
}

static void hex_of(char *out, size_t size, const unsigned char *bytes, size_t len)
{
    mf_hex(bytes, 2 * len < size ? len : (size - 1) / 2, out);
}

static void serial_of(mf_stamp_report *out, const ASN1_INTEGER *serial)
{
    hex_of(out->serial, sizeof out->serial, ASN1_STRING_get0_data(serial),
           (size_t)ASN1_STRING_length(serial));
}

/* SHA-2 only, as for a seal; NULL for every other one. */
static const EVP_MD *digest_of(const X509_ALGOR *algorithm)
{
    const ASN1_OBJECT *object = NULL;
    X509_ALGOR_get0(&object, NULL, NULL, algorithm);
    switch (OBJ_obj2nid(object)) {
    case NID_sha256:
        return EVP_sha256();
    case NID_sha384:
        return EVP_sha384();
    case NID_sha512:
        return EVP_sha512();
    default:
        return NULL;
    }
}

static bool describe(mf_stamp_report *out, TS_TST_INFO *info, X509 *cert)
{
    const ASN1_GENERALIZEDTIME *time = TS_TST_INFO_get_time(info);
    ASN1_OCTET_STRING *imprint = TS_MSG_IMPRINT_get_msg(TS_TST_INFO_get_msg_imprint(info));
    if (time == NULL || !seconds_of(time, &out->at))
        return false;
    out->before = out->at + slack_of(info, time);
    serial_of(out, TS_TST_INFO_get_serial(info));
    OBJ_obj2txt(out->policy, sizeof out->policy, TS_TST_INFO_get_policy_id(info), 1);
    hex_of(out->imprint, sizeof out->imprint, ASN1_STRING_get0_data(imprint),
           (size_t)ASN1_STRING_length(imprint));
    mf_cert_entry(cert, NID_commonName, out->authority, sizeof out->authority);
    if (out->authority[0] == '\0')
        mf_cert_entry(cert, NID_organizationName, out->authority, sizeof out->authority);
    return mf_cert_fingerprint(cert, out->fingerprint);
}

/* ---- judging ------------------------------------------------------------------------------- */

/* A token taken apart; all of it belongs to it. */
typedef struct token {
    PKCS7 *p7;
    TS_TST_INFO *info;
    STACK_OF(X509) * signer; /* one */
    const EVP_MD *md;        /* of what was stamped */
} token;

static void token_free(token *t)
{
    sk_X509_free(t->signer);
    TS_TST_INFO_free(t->info);
    PKCS7_free(t->p7);
}

/* By one signer, whose certificate is in it, with SHA-2 throughout. */
static bool token_read(token *t, const unsigned char *bytes, size_t len)
{
    const unsigned char *at = bytes;
    *t = (token){.p7 = d2i_PKCS7(NULL, &at, (long)len)};
    if (t->p7 == NULL || at != bytes + len || !PKCS7_type_is_signed(t->p7) ||
        PKCS7_get_detached(t->p7))
        return false;
    t->info = PKCS7_to_TS_TST_INFO(t->p7);
    STACK_OF(PKCS7_SIGNER_INFO) *signers = PKCS7_get_signer_info(t->p7);
    if (t->info == NULL || sk_PKCS7_SIGNER_INFO_num(signers) != 1)
        return false;
    t->md = digest_of(TS_MSG_IMPRINT_get_algo(TS_TST_INFO_get_msg_imprint(t->info)));
    t->signer = PKCS7_get0_signers(t->p7, NULL, 0);
    return t->md != NULL && digest_of(sk_PKCS7_SIGNER_INFO_value(signers, 0)->digest_alg) != NULL &&
           sk_X509_num(t->signer) == 1;
}

/* The bytes it has to be of; its own where that is not said. False when there was no memory. */
static bool imprint_of(const token *t, const mf_ts_of *of, unsigned char **out, long *len)
{
    ASN1_OCTET_STRING *own = TS_MSG_IMPRINT_get_msg(TS_TST_INFO_get_msg_imprint(t->info));
    unsigned char digest[EVP_MAX_MD_SIZE];
    unsigned n = 0;
    if (of->spans != NULL) {
        if (!mf_cms_hash(t->md, of->spans, digest, &n))
            return false;
        *out = OPENSSL_memdup(digest, n);
        *len = n;
    } else if (of->sha256 != NULL) {
        *out = OPENSSL_hexstr2buf(of->sha256, len);
    } else {
        *out = OPENSSL_memdup(ASN1_STRING_get0_data(own), (size_t)ASN1_STRING_length(own));
        *len = ASN1_STRING_length(own);
    }
    return *out != NULL;
}

/* Whether the signature, the form and the imprint are right; the store goes to the context. */
static bool holds(const token *t, const mf_ts_of *of, X509_STORE *store, bool *memory)
{
    unsigned char *imprint = NULL;
    long len = 0;
    TS_VERIFY_CTX *context = TS_VERIFY_CTX_new();
    *memory = context != NULL && imprint_of(t, of, &imprint, &len);
    if (!*memory) {
        TS_VERIFY_CTX_free(context);
        X509_STORE_free(store);
        return false;
    }
    TS_VERIFY_CTX_set_flags(context, TS_VFY_SIGNATURE | TS_VFY_VERSION | TS_VFY_IMPRINT);
    TS_VERIFY_CTX_set_store(context, store);
    TS_VERIFY_CTX_set_imprint(context, imprint, len);
    bool good = TS_RESP_verify_token(context, t->p7) == 1;
    TS_VERIFY_CTX_free(context);
    return good && (of->sha256 == NULL || EVP_MD_get_type(t->md) == NID_sha256);
}

/* All but who vouches for the certificate. */
static mf_status judge_itself(mf_stamp_report *out, const token *t, const mf_ts_of *of, mf_err *err)
{
    bool memory = true;
    X509 *cert = sk_X509_value(t->signer, 0);
    if (of->sha256 != NULL && !mf_hex_is(of->sha256, MF_STAMP_HEX - 1)) {
        out->state = MF_STAMP_WRONG;
        return MF_OK;
    }
    X509_STORE *alone = mf_ts_alone(cert, out->at);
    if (alone == NULL)
        return mf_fail_memory(err);
    if (mf_ts_cert(alone, cert, NULL, out->at) != MF_STAMP_PROVED) {
        X509_STORE_free(alone);
        out->state = MF_STAMP_UNFIT;
        return MF_OK;
    }
    out->state = holds(t, of, alone, &memory) ? MF_STAMP_UNVERIFIED : MF_STAMP_WRONG;
    return memory ? MF_OK : mf_fail_memory(err);
}

mf_status mf_ts_judge(mf_stamp_report *out, const unsigned char *bytes, size_t len,
                      const mf_ts_of *of, X509_STORE *roots, mf_err *err)
{
    token t = {0};
    mf_status status = MF_OK;
    memset(out, 0, sizeof *out); /* also between the members: reports are compared */
    out->state = MF_STAMP_UNREADABLE;
    if (mf_der_length(bytes, len) == len && token_read(&t, bytes, len) &&
        describe(out, t.info, sk_X509_value(t.signer, 0)))
        status = judge_itself(out, &t, of, err);
    if (status == MF_OK && roots != NULL && out->state == MF_STAMP_UNVERIFIED)
        out->state = mf_ts_cert(roots, sk_X509_value(t.signer, 0), t.p7->d.sign->cert, out->at);
    token_free(&t);
    ERR_clear_error();
    return status;
}
