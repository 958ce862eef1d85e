/* ts_chain.c - whether the certificate of an authority is one for time stamps, was valid
 * then, and leads to a root that is believed. */
#include "base/fail.h"
#include "seal/ts.h"

#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/x509_vfy.h>
#include <openssl/x509v3.h>
#include <string.h>

/* 112 bits, as for a seal (cms.c). */
#define AUTH_LEVEL 2

static X509_STORE *empty_store(void)
{
    X509_STORE *store = X509_STORE_new();
    if (store != NULL)
        X509_VERIFY_PARAM_set_auth_level(X509_STORE_get0_param(store), AUTH_LEVEL);
    return store;
}

X509_STORE *mf_ts_alone(X509 *cert, int64_t at)
{
    X509_STORE *store = empty_store();
    if (store == NULL || X509_STORE_add_cert(store, cert) != 1) {
        X509_STORE_free(store);
        return NULL;
    }
    X509_VERIFY_PARAM_set_time(X509_STORE_get0_param(store), (time_t)at);
    X509_VERIFY_PARAM_set_flags(X509_STORE_get0_param(store), X509_V_FLAG_PARTIAL_CHAIN);
    return store;
}

/* How many certificates went in; -1 when one did not. */
static int add_all(X509_STORE *store, BIO *pem)
{
    int n = 0;
    X509 *cert;
    while ((cert = PEM_read_bio_X509(pem, NULL, NULL, NULL)) != NULL) {
        int added = X509_STORE_add_cert(store, cert);
        X509_free(cert);
        if (added != 1)
            return -1;
        n++;
    }
    unsigned long why = ERR_peek_last_error();
    return ERR_GET_LIB(why) == ERR_LIB_PEM && ERR_GET_REASON(why) == PEM_R_NO_START_LINE ? n : -1;
}

mf_status mf_ts_roots(X509_STORE **out, const char *pem, mf_err *err)
{
    *out = NULL;
    if (pem == NULL)
        return MF_OK;
    BIO *bio = BIO_new_mem_buf(pem, (int)strlen(pem));
    *out = bio == NULL ? NULL : empty_store();
    int n = *out == NULL ? 0 : add_all(*out, bio);
    BIO_free(bio);
    if (*out == NULL)
        return mf_fail_memory(err);
    if (n > 0)
        return MF_OK;
    X509_STORE_free(*out);
    *out = NULL;
    return mf_fail(
        err, MF_INPUT, "the roots of authorities", "the roots hold no certificate that can be read",
        "PEM text: -----BEGIN CERTIFICATE-----", "give the file that the authority publishes");
}

static mf_stamp_state state_of(int error)
{
    switch (error) {
    case X509_V_OK:
        return MF_STAMP_PROVED;
    case X509_V_ERR_INVALID_PURPOSE:
    case X509_V_ERR_CERT_NOT_YET_VALID:
    case X509_V_ERR_CERT_HAS_EXPIRED:
    case X509_V_ERR_EE_KEY_TOO_SMALL:
        return MF_STAMP_UNFIT;
    default:
        return MF_STAMP_UNTRUSTED;
    }
}

mf_stamp_state mf_ts_cert(X509_STORE *store, X509 *cert, STACK_OF(X509) * beside, int64_t at)
{
    int error = X509_V_ERR_OUT_OF_MEM;
    X509_STORE_CTX *context = X509_STORE_CTX_new();
    if (context != NULL && X509_STORE_CTX_init(context, store, cert, beside) == 1 &&
        X509_STORE_CTX_set_purpose(context, X509_PURPOSE_TIMESTAMP_SIGN) == 1) {
        X509_STORE_CTX_set_time(context, 0, (time_t)at);
        error = X509_verify_cert(context) == 1 ? X509_V_OK : X509_STORE_CTX_get_error(context);
    }
    X509_STORE_CTX_free(context);
    return state_of(error);
}
