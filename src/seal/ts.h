/* ts.h - the cryptographic half of a time stamp: the token of RFC 3161. */
#ifndef MF_SEAL_TS_H
#define MF_SEAL_TS_H

#include "seal/cms.h"

#include <mistfold/stamp.h>

#include <openssl/x509.h>

/* What a token has to be of: the bytes, hashed as the token says, or a SHA-256 in hex; with
 * neither, of whatever it says. */
typedef struct mf_ts_of {
    const mf_cms_spans *spans;
    const char *sha256;
} mf_ts_of;

/* Fills the report with the state of a token, as of the time in it. roots: of mf_ts_roots.
 * Fails as mf_stamp_judge. */
mf_status mf_ts_judge(mf_stamp_report *out, const unsigned char *token, size_t len,
                      const mf_ts_of *of, X509_STORE *roots, mf_err *err);

/* ts_chain.c: the certificates. A store with the roots of PEM text, NULL where that is NULL.
 * MF_INPUT when there are none in it. The caller frees *out. */
mf_status mf_ts_roots(X509_STORE **out, const char *pem, mf_err *err);
/* A store that believes the one certificate, to judge all but who vouches for it; NULL when
 * memory ran out. */
X509_STORE *mf_ts_alone(X509 *cert, int64_t at);
/* MF_STAMP_PROVED, UNTRUSTED or UNFIT: the certificate in that store, at that time. */
mf_stamp_state mf_ts_cert(X509_STORE *store, X509 *cert, STACK_OF(X509) * beside, int64_t at);

#endif
