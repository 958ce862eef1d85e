#include "base/sign.h"

#include "base/hex.h"

#include <limits.h>
#include <openssl/crypto.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <stdlib.h>
#include <string.h>

enum { KEY_BYTES = 32, SIGN_BYTES = 64, PEM_MAX = 512 };

/* See base/digest.c. */
static bool usable(void)
{
    return OSSL_LIB_CTX_get0_global_default() != NULL;
}

static bool public_hex(const EVP_PKEY *key, char out[MF_SIGN_KEY_HEX])
{
    unsigned char raw[KEY_BYTES];
    size_t n = sizeof raw;
    if (EVP_PKEY_get_raw_public_key(key, raw, &n) != 1 || n != sizeof raw)
        return false;
    mf_hex(raw, n, out);
    return true;
}

/* ---- keys ------------------------------------------------------------------------------------ */

static bool to_pem(mf_bytes *pem, const EVP_PKEY *key)
{
    unsigned char text[PEM_MAX];
    BIO *bio = BIO_new(BIO_s_mem());
    bool good = bio != NULL && PEM_write_bio_PrivateKey(bio, key, NULL, NULL, 0, NULL, NULL) == 1;
    int len = good ? BIO_read(bio, text, sizeof text - 1) : 0;
    *pem = (mf_bytes){.data = len > 0 ? malloc((size_t)len + 1) : NULL};
    if (pem->data != NULL) {
        text[len] = '\0';
        memcpy(pem->data, text, (size_t)len + 1);
        pem->len = (size_t)len;
    }
    OPENSSL_cleanse(text, sizeof text);
    BIO_free(bio);
    return pem->data != NULL;
}

bool mf_sign_make(mf_bytes *pem, char key[MF_SIGN_KEY_HEX])
{
    *pem = (mf_bytes){0};
    EVP_PKEY *made = usable() ? EVP_PKEY_Q_keygen(NULL, NULL, "ED25519") : NULL;
    bool good = made != NULL && public_hex(made, key) && to_pem(pem, made);
    EVP_PKEY_free(made);
    return good;
}

void mf_sign_wipe(mf_bytes *pem)
{
    if (pem->data != NULL)
        OPENSSL_cleanse(pem->data, pem->len);
    mf_bytes_free(pem);
}

/* Nobody is asked for a passphrase. */
static int no_passphrase(char *out, int size, int writing, void *user)
{
    (void)out;
    (void)size;
    (void)writing;
    (void)user;
    return -1;
}

mf_sign_key *mf_sign_open(const mf_bytes *pem, char key[MF_SIGN_KEY_HEX])
{
    if (!usable() || pem->len > INT_MAX)
        return NULL;
    BIO *bio = BIO_new_mem_buf(pem->data, (int)pem->len);
    EVP_PKEY *read = bio == NULL ? NULL : PEM_read_bio_PrivateKey(bio, NULL, no_passphrase, NULL);
    BIO_free(bio);
    if (read != NULL && (EVP_PKEY_get_id(read) != EVP_PKEY_ED25519 || !public_hex(read, key))) {
        EVP_PKEY_free(read);
        read = NULL;
    }
    return (mf_sign_key *)read;
}

void mf_sign_close(mf_sign_key *key)
{
    EVP_PKEY_free((EVP_PKEY *)key);
}

/* ---- signatures --------------------------------------------------------------------------------
 */

bool mf_sign(const mf_sign_key *key, const char *text, char out[MF_SIGN_HEX])
{
    unsigned char raw[SIGN_BYTES];
    size_t n = sizeof raw;
    EVP_MD_CTX *context = EVP_MD_CTX_new();
    bool good = context != NULL &&
                EVP_DigestSignInit(context, NULL, NULL, NULL, (EVP_PKEY *)(uintptr_t)key) == 1 &&
                EVP_DigestSign(context, raw, &n, (const unsigned char *)text, strlen(text)) == 1 &&
                n == sizeof raw;
    if (good)
        mf_hex(raw, n, out);
    EVP_MD_CTX_free(context);
    return good;
}

bool mf_sign_holds(const char *key, const char *text, const char *signature)
{
    unsigned char raw_key[KEY_BYTES], raw[SIGN_BYTES];
    if (!usable() || !mf_hex_bytes(key, raw_key, sizeof raw_key) ||
        !mf_hex_bytes(signature, raw, sizeof raw))
        return false;
    EVP_PKEY *by = EVP_PKEY_new_raw_public_key(EVP_PKEY_ED25519, NULL, raw_key, sizeof raw_key);
    EVP_MD_CTX *context = EVP_MD_CTX_new();
    bool good =
        by != NULL && context != NULL && EVP_DigestVerifyInit(context, NULL, NULL, NULL, by) == 1 &&
        EVP_DigestVerify(context, raw, sizeof raw, (const unsigned char *)text, strlen(text)) == 1;
    EVP_MD_CTX_free(context);
    EVP_PKEY_free(by);
    return good;
}
