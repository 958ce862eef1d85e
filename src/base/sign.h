/* sign.h - short signatures of a device: Ed25519 (RFC 8032), keys and signatures in hex. */
#ifndef MF_BASE_SIGN_H
#define MF_BASE_SIGN_H

#include <mistfold/err.h>
#include <stdbool.h>
#include <stddef.h>

enum { MF_SIGN_KEY_HEX = 65, MF_SIGN_HEX = 129 };

/* A private key in memory. */
typedef struct mf_sign_key mf_sign_key;

/* Makes a key: the private one as PEM (PKCS #8, not encrypted), which the caller wipes and
 * frees (mf_sign_wipe), and the public one. False when OpenSSL could not, for want of memory. */
bool mf_sign_make(mf_bytes *pem, char key[MF_SIGN_KEY_HEX]);
void mf_sign_wipe(mf_bytes *pem);

/* Opens a private key; NULL when the text holds no Ed25519 key, or memory ran out. */
mf_sign_key *mf_sign_open(const mf_bytes *pem, char key[MF_SIGN_KEY_HEX]);
void mf_sign_close(mf_sign_key *key);

/* False when OpenSSL could not. */
bool mf_sign(const mf_sign_key *key, const char *text, char out[MF_SIGN_HEX]);

/* Whether the signature of the text is by that key; false for what is no key or no signature. */
bool mf_sign_holds(const char *key, const char *text, const char *signature);

#endif
