/* ts_ask.c - the query to an authority and its reply. Source: RFC 3161, 2.4. */
#include "base/fail.h"
#include "base/hex.h"
#include "seal/text.h"
#include "seal/ts.h"

#include <openssl/err.h>
#include <openssl/rand.h>
#include <openssl/ts.h>
#include <stdio.h>
#include <stdlib.h>

#define NONCE 8 /* bytes */

/* ---- the query ------------------------------------------------------------------------------ */

static mf_status query_failed(mf_err *err)
{
    return mf_fail(err, MF_SYSTEM, "the stamp", "the query could not be made",
                   "OpenSSL refused or memory ran out", "try again");
}

static bool set_imprint(TS_REQ *req, const char *sha256)
{
    long len = 0;
    unsigned char *digest = OPENSSL_hexstr2buf(sha256, &len);
    TS_MSG_IMPRINT *imprint = TS_MSG_IMPRINT_new();
    X509_ALGOR *algorithm = X509_ALGOR_new();
    bool good = digest != NULL && imprint != NULL && algorithm != NULL &&
                X509_ALGOR_set0(algorithm, OBJ_nid2obj(NID_sha256), V_ASN1_NULL, NULL) == 1 &&
                TS_MSG_IMPRINT_set_algo(imprint, algorithm) == 1 &&
                TS_MSG_IMPRINT_set_msg(imprint, digest, (int)len) == 1 &&
                TS_REQ_set_msg_imprint(req, imprint) == 1;
    X509_ALGOR_free(algorithm);
    TS_MSG_IMPRINT_free(imprint);
    OPENSSL_free(digest);
    return good;
}

static bool set_nonce(TS_REQ *req, const char *hex)
{
    BIGNUM *number = NULL;
    bool good = BN_hex2bn(&number, hex) > 0;
    ASN1_INTEGER *nonce = good ? BN_to_ASN1_INTEGER(number, NULL) : NULL;
    good = nonce != NULL && TS_REQ_set_nonce(req, nonce) == 1;
    ASN1_INTEGER_free(nonce);
    BN_free(number);
    return good;
}

mf_status mf_stamp_query_of(mf_bytes *out, const char *sha256, const char *nonce, mf_err *err)
{
    *out = (mf_bytes){0};
    if (!mf_hex_is(sha256, MF_STAMP_HEX - 1))
        return mf_fail(err, MF_USAGE, "the stamp", "what is to be stamped is no SHA-256",
                       "64 small hex digits", "give the digest");
    TS_REQ *req = TS_REQ_new();
    bool good = req != NULL && TS_REQ_set_version(req, 1) == 1 && set_imprint(req, sha256) &&
                set_nonce(req, nonce) && TS_REQ_set_cert_req(req, 1) == 1;
    int len = good ? i2d_TS_REQ(req, NULL) : 0;
    unsigned char *data = len > 0 ? malloc((size_t)len) : NULL, *end = data;
    if (data != NULL) {
        i2d_TS_REQ(req, &end);
        *out = (mf_bytes){data, (size_t)len};
    }
    TS_REQ_free(req);
    ERR_clear_error();
    return data == NULL ? query_failed(err) : MF_OK;
}

mf_status mf_stamp_query(mf_bytes *out, const char *sha256, mf_err *err)
{
    unsigned char random[NONCE];
    char nonce[2 * NONCE + 1];
    *out = (mf_bytes){0};
    if (RAND_bytes(random, NONCE) != 1)
        return query_failed(err);
    random[0] = (unsigned char)((random[0] & 0x7f) | 0x40); /* of full length, and no sign */
    mf_hex(random, NONCE, nonce);
    return mf_stamp_query_of(out, sha256, nonce, err);
}

static bool nonce_hex(char out[MF_STAMP_HEX], const ASN1_INTEGER *nonce)
{
    size_t len = nonce == NULL ? 0 : (size_t)ASN1_STRING_length(nonce);
    if (len == 0 || 2 * len >= MF_STAMP_HEX)
        return false;
    mf_hex(ASN1_STRING_get0_data(nonce), len, out);
    return true;
}

mf_status mf_stamp_query_nonce(char out[MF_STAMP_HEX], const unsigned char *query, size_t len,
                               mf_err *err)
{
    const unsigned char *at = query;
    TS_REQ *req = d2i_TS_REQ(NULL, &at, (long)len);
    bool good = req != NULL && nonce_hex(out, TS_REQ_get_nonce(req));
    TS_REQ_free(req);
    ERR_clear_error();
    return good ? MF_OK : query_failed(err);
}

/* ---- the reply ---------------------------------------------------------------------------------
 */

static mf_status no_reply(mf_err *err)
{
    return mf_fail(err, MF_INPUT, "the authority's reply", "it is not a time stamp, or cut short",
                   "a reply is as RFC 3161 has it", "ask again");
}

static mf_status read_reply(TS_RESP **out, const unsigned char *reply, size_t len, mf_err *err)
{
    const unsigned char *at = reply;
    *out = NULL;
    if (len > MF_STAMP_REPLY_MAX)
        return mf_fail(err, MF_INPUT, "the authority's reply", "it is too long for a time stamp",
                       "32 KiB are read", "is it the address of an authority?");
    *out = d2i_TS_RESP(NULL, &at, (long)len);
    if (*out != NULL && at == reply + len)
        return MF_OK;
    TS_RESP_free(*out);
    *out = NULL;
    return no_reply(err);
}

/* Why the authority gave none, in its own words. */
static mf_status refused(TS_RESP *resp, mf_err *err)
{
    char words[160] = "";
    const STACK_OF(ASN1_UTF8STRING) *text = TS_STATUS_INFO_get0_text(TS_RESP_get_status_info(resp));
    if (text != NULL && sk_ASN1_UTF8STRING_num(text) > 0) {
        const ASN1_UTF8STRING *first = sk_ASN1_UTF8STRING_value(text, 0);
        mf_text_tame(words, sizeof words, ASN1_STRING_get0_data(first),
                     (size_t)ASN1_STRING_length(first));
    }
    return mf_failf(err, MF_INPUT, "the authority's reply", "", "ask the authority, or another one",
                    "the authority gave no stamp%s%s", words[0] == '\0' ? "" : ": ", words);
}

mf_status mf_stamp_reply_peek(char sha256[MF_STAMP_HEX], char nonce[MF_STAMP_HEX],
                              const unsigned char *reply, size_t len, mf_err *err)
{
    TS_RESP *resp = NULL;
    mf_status status = read_reply(&resp, reply, len, err);
    if (status != MF_OK)
        return status;
    TS_TST_INFO *info = TS_RESP_get_tst_info(resp);
    if (info == NULL)
        status = refused(resp, err);
    else {
        ASN1_OCTET_STRING *imprint = TS_MSG_IMPRINT_get_msg(TS_TST_INFO_get_msg_imprint(info));
        sha256[0] = nonce[0] = '\0';
        if (ASN1_STRING_length(imprint) == (MF_STAMP_HEX - 1) / 2)
            mf_hex(ASN1_STRING_get0_data(imprint), (MF_STAMP_HEX - 1) / 2, sha256);
        nonce_hex(nonce, TS_TST_INFO_get_nonce(info));
    }
    TS_RESP_free(resp);
    ERR_clear_error();
    return status;
}

static mf_status say_mismatch(TS_RESP *resp, mf_err *err)
{
    unsigned long why = ERR_peek_last_error();
    int reason = ERR_GET_LIB(why) == ERR_LIB_TS ? ERR_GET_REASON(why) : 0;
    const char *where = "the authority's reply", *mend = "nothing was kept; ask again";
    if (reason == TS_R_NO_TIME_STAMP_TOKEN)
        return refused(resp, err);
    if (reason == TS_R_MESSAGE_IMPRINT_MISMATCH)
        return mf_fail(err, MF_INPUT, where, "it stamps something else than was asked",
                       "its SHA-256 is another one", mend);
    if (reason == TS_R_NONCE_MISMATCH || reason == TS_R_NONCE_NOT_RETURNED)
        return mf_fail(err, MF_INPUT, where, "it answers another query",
                       "its random number (nonce) is not the one that was sent", mend);
    return no_reply(err);
}

/* Granted, and the answer to this query. */
static mf_status check_answer(TS_RESP *resp, const mf_bytes *query, mf_err *err)
{
    const unsigned char *at = query->data;
    TS_REQ *req = d2i_TS_REQ(NULL, &at, (long)query->len);
    TS_VERIFY_CTX *context = req == NULL ? NULL : TS_REQ_to_TS_VERIFY_CTX(req, NULL);
    mf_status status = context == NULL ? mf_fail_memory(err) : MF_OK;
    if (status == MF_OK && TS_RESP_verify_response(context, resp) != 1)
        status = say_mismatch(resp, err);
    TS_VERIFY_CTX_free(context);
    TS_REQ_free(req);
    return status;
}

static mf_status take_token(mf_bytes *token, PKCS7 *p7, mf_err *err)
{
    int len = i2d_PKCS7(p7, NULL);
    unsigned char *data = len > 0 ? malloc((size_t)len) : NULL, *end = data;
    if (data == NULL)
        return mf_fail_memory(err);
    i2d_PKCS7(p7, &end);
    *token = (mf_bytes){data, (size_t)len};
    return MF_OK;
}

mf_status mf_stamp_reply(mf_bytes *token, mf_stamp_report *out, const mf_bytes *query,
                         const unsigned char *reply, size_t len, const char *roots, mf_err *err)
{
    TS_RESP *resp = NULL;
    X509_STORE *store = NULL;
    const mf_ts_of any = {0}; /* the query was compared before */
    *token = (mf_bytes){0};
    *out = (mf_stamp_report){0};
    ERR_clear_error();
    mf_status status = read_reply(&resp, reply, len, err);
    if (status == MF_OK)
        status = check_answer(resp, query, err);
    if (status == MF_OK)
        status = take_token(token, TS_RESP_get_token(resp), err);
    if (status == MF_OK)
        status = mf_ts_roots(&store, roots, err);
    if (status == MF_OK)
        status = mf_ts_judge(out, token->data, token->len, &any, store, err);
    if (status == MF_OK && !mf_stamp_holds(out->state))
        status = mf_stamp_fault(out->state, MF_INPUT, "the authority's reply",
                                "nothing was kept; ask again, or another authority", err);
    if (status != MF_OK)
        mf_bytes_free(token);
    X509_STORE_free(store);
    TS_RESP_free(resp);
    ERR_clear_error();
    return status;
}

/* ---- a token that was kept
 * ----------------------------------------------------------------------- */

mf_status mf_stamp_judge(mf_stamp_report *out, const unsigned char *token, size_t len,
                         const char *sha256, const char *roots, mf_err *err)
{
    const mf_ts_of of = {.sha256 = sha256};
    mf_bytes inside = {0};
    mf_err none = {0};
    TS_RESP *resp = NULL;
    X509_STORE *store = NULL;
    mf_status status = mf_ts_roots(&store, roots, err);
    if (status == MF_OK && read_reply(&resp, token, len, &none) == MF_OK &&
        TS_RESP_get_token(resp) != NULL)
        status = take_token(&inside, TS_RESP_get_token(resp), err);
    TS_RESP_free(resp);
    ERR_clear_error();
    if (status == MF_OK)
        status = inside.data == NULL ? mf_ts_judge(out, token, len, &of, store, err)
                                     : mf_ts_judge(out, inside.data, inside.len, &of, store, err);
    X509_STORE_free(store);
    mf_bytes_free(&inside);
    return status;
}
