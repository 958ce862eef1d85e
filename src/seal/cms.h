/* cms.h - the cryptographic half of a seal: a detached CAdES signature. */
#ifndef MF_SEAL_CMS_H
#define MF_SEAL_CMS_H

#include <mistfold/seal.h>

#include <openssl/evp.h>

/* The two runs of bytes on both sides of the gap. */
typedef struct mf_cms_spans {
    const unsigned char *first, *second;
    size_t first_len, second_len;
} mf_cms_spans;

/* The digest of both as if they were one. False when OpenSSL or memory failed. */
bool mf_cms_hash(const EVP_MD *md, const mf_cms_spans *spans, unsigned char out[EVP_MAX_MD_SIZE],
                 unsigned *len);

/* Signs the spans; *der is the CMS signature, which the caller frees. Fails
 * MF_SYSTEM when OpenSSL or memory fails. */
mf_status mf_cms_sign(mf_bytes *der, const mf_key *key, const mf_cms_spans *spans, mf_err *err);

/* Adds the time stamp of the signature that is asked for, if any. Fails as the stamp does,
 * and MF_SYSTEM. */
mf_status mf_cms_stamp(mf_bytes *der, const mf_seal_ask *ask, mf_err *err);

/* Checks a signature over the spans. Fills state (good, altered, unreadable or not
 * accepted), the names, the fingerprint and self_made, as far as they could be read.
 * With cades the signing-certificate-v2 attribute must be there; without it must only
 * be right when it is. Certificates beside the signer's are not looked at: nothing
 * here follows from them. Fails MF_SYSTEM when memory ran out. */
mf_status mf_cms_verify(mf_seal_report *out, const unsigned char *der, size_t len,
                        const mf_cms_spans *spans, bool cades, mf_err *err);

/* Judges the first time stamp of a signature as it stands, whoever made that; none leaves
 * *out as it is. roots as in ts.h, failures as in stamp.h. */
mf_status mf_cms_judge_stamp(mf_stamp_report *out, const unsigned char *der, size_t len,
                             X509_STORE *roots, mf_err *err);

#endif
