#include "seal/key_parts.h"

#include <openssl/asn1t.h>
#include <openssl/x509.h>

enum { DEPTH = 8 }; /* of safes within safes; other programs write one */

typedef struct walk {
    const char *passphrase;
    int64_t rounds; /* that may still be asked for */
    EVP_PKEY *pkey;
    STACK_OF(X509) * certs;
} walk;

/* ---- what opening costs --------------------------------------------------------------- */

static bool spend(walk *w, const ASN1_INTEGER *rounds)
{
    int64_t number = 0;
    if (rounds == NULL || ASN1_INTEGER_get_int64(&number, rounds) != 1 || number < 1 ||
        number > w->rounds)
        return false;
    w->rounds -= number;
    return true;
}

/* PBKDF2 alone: what else PBES2 may name (scrypt) is not used in these files. */
static bool spend_new(walk *w, const X509_ALGOR *how)
{
    bool good = false;
    PBE2PARAM *outer = ASN1_TYPE_unpack_sequence(ASN1_ITEM_rptr(PBE2PARAM), how->parameter);
    if (outer != NULL && OBJ_obj2nid(outer->keyfunc->algorithm) == NID_id_pbkdf2) {
        PBKDF2PARAM *inner =
            ASN1_TYPE_unpack_sequence(ASN1_ITEM_rptr(PBKDF2PARAM), outer->keyfunc->parameter);
        good = inner != NULL && spend(w, inner->iter);
        PBKDF2PARAM_free(inner);
    }
    PBE2PARAM_free(outer);
    return good;
}

static bool spend_on(walk *w, const X509_ALGOR *how)
{
    if (how == NULL || how->parameter == NULL)
        return false;
    if (OBJ_obj2nid(how->algorithm) == NID_pbes2)
        return spend_new(w, how);
    PBEPARAM *old = ASN1_TYPE_unpack_sequence(ASN1_ITEM_rptr(PBEPARAM), how->parameter);
    bool good = old != NULL && spend(w, old->iter);
    PBEPARAM_free(old);
    return good;
}

/* ---- what is in it ------------------------------------------------------------------------ */

static bool take_key(walk *w, const PKCS8_PRIV_KEY_INFO *info)
{
    if (w->pkey == NULL && info != NULL)
        w->pkey = EVP_PKCS82PKEY(info);
    return w->pkey != NULL;
}

static bool take_locked_key(walk *w, const PKCS12_SAFEBAG *bag)
{
    const X509_ALGOR *how = NULL;
    if (w->pkey != NULL)
        return true; /* the first counts */
    X509_SIG_get0(PKCS12_SAFEBAG_get0_pkcs8(bag), &how, NULL);
    if (!spend_on(w, how))
        return false;
    PKCS8_PRIV_KEY_INFO *info = PKCS12_decrypt_skey(bag, w->passphrase, -1);
    bool good = take_key(w, info);
    PKCS8_PRIV_KEY_INFO_free(info);
    return good;
}

static bool take_cert(walk *w, const PKCS12_SAFEBAG *bag)
{
    if (PKCS12_SAFEBAG_get_bag_nid(bag) != NID_x509Certificate)
        return true; /* nothing that signs here */
    X509 *cert = PKCS12_SAFEBAG_get1_cert(bag);
    if (cert != NULL && sk_X509_push(w->certs, cert) > 0)
        return true;
    X509_free(cert);
    return false;
}

/* NOLINTNEXTLINE(misc-no-recursion): at most DEPTH deep */
static bool take_bags(walk *w, const STACK_OF(PKCS12_SAFEBAG) * bags, int depth)
{
    bool good = bags != NULL && depth < DEPTH;
    for (int i = 0; good && i < sk_PKCS12_SAFEBAG_num(bags); i++) {
        const PKCS12_SAFEBAG *bag = sk_PKCS12_SAFEBAG_value(bags, i);
        switch (PKCS12_SAFEBAG_get_nid(bag)) {
        case NID_keyBag:
            good = take_key(w, PKCS12_SAFEBAG_get0_p8inf(bag));
            break;
        case NID_pkcs8ShroudedKeyBag:
            good = take_locked_key(w, bag);
            break;
        case NID_certBag:
            good = take_cert(w, bag);
            break;
        case NID_safeContentsBag:
            good = take_bags(w, PKCS12_SAFEBAG_get0_safes(bag), depth + 1);
            break;
        default: /* lists of withdrawn certificates, secrets: not ours */
            break;
        }
    }
    return good;
}

static bool take_safe(walk *w, PKCS7 *safe)
{
    STACK_OF(PKCS12_SAFEBAG) *bags = NULL;
    if (PKCS7_type_is_data(safe))
        bags = PKCS12_unpack_p7data(safe);
    else if (!PKCS7_type_is_encrypted(safe))
        return true; /* locked to a public key: not by a passphrase */
    else if (safe->d.encrypted != NULL && safe->d.encrypted->enc_data != NULL &&
             spend_on(w, safe->d.encrypted->enc_data->algorithm))
        bags = PKCS12_unpack_p7encdata(safe, w->passphrase, -1);
    bool good = take_bags(w, bags, 0);
    sk_PKCS12_SAFEBAG_pop_free(bags, PKCS12_SAFEBAG_free);
    return good;
}

/* The one that belongs to the key. */
static X509 *matching(const walk *w)
{
    for (int i = 0; w->pkey != NULL && i < sk_X509_num(w->certs); i++) {
        X509 *cert = sk_X509_value(w->certs, i);
        if (X509_check_private_key(cert, w->pkey) == 1 && X509_up_ref(cert) == 1)
            return cert;
    }
    return NULL;
}

bool mf_key_parts(PKCS12 *p12, const char *passphrase, EVP_PKEY **pkey, X509 **cert)
{
    const ASN1_INTEGER *rounds = NULL;
    walk w = {passphrase, MF_KEY_ROUNDS_MAX, NULL, sk_X509_new_null()};
    STACK_OF(PKCS7) *safes = PKCS12_unpack_authsafes(p12);
    PKCS12_get0_mac(NULL, NULL, NULL, &rounds, p12);
    bool good = w.certs != NULL && safes != NULL && (rounds == NULL || spend(&w, rounds));
    for (int i = 0; good && i < sk_PKCS7_num(safes); i++)
        good = take_safe(&w, sk_PKCS7_value(safes, i));
    *cert = good ? matching(&w) : NULL;
    *pkey = w.pkey;
    sk_PKCS7_pop_free(safes, PKCS7_free);
    sk_X509_pop_free(w.certs, X509_free);
    return good;
}
