/* cert.h - a key with its certificate, and what that says about its holder. */
#ifndef MF_SEAL_CERT_H
#define MF_SEAL_CERT_H

#include <mistfold/seal.h>
#include <openssl/evp.h>
#include <openssl/x509.h>
#include <stdbool.h>

struct mf_key {
    EVP_PKEY *pkey;
    X509 *cert;
    char common_name[264]; /* 64 characters of at most 4 bytes */
    char capacity[264];
    char fingerprint[MF_FINGERPRINT_HEX];
};

/* mf_key_make with so many rounds of PBKDF2. Tests of other things than the file's
 * safety take few: under valgrind the real number lasts half a minute. */
mf_status mf_key_make_rounds(mf_bytes *out, const mf_key_holder *holder, const char *passphrase,
                             int rounds, mf_err *err);

/* The first entry of this kind in the subject, tamed; "" when there is none. */
void mf_cert_entry(const X509 *cert, int nid, char *out, size_t size);

/* False when memory ran out. */
bool mf_cert_fingerprint(const X509 *cert, char out[MF_FINGERPRINT_HEX]);

#endif
