/* der.h - the few places of a CMS signature that OpenSSL lets nobody look at.
 *
 * OpenSSL skips over version numbers and the list of digests, and no signature
 * covers them, so they are read here: every byte that can change unseen is one
 * too many. Source: RFC 5652, 5.1 and 5.3; X.690 for the lengths. */
#ifndef MF_SEAL_DER_H
#define MF_SEAL_DER_H

#include <stdbool.h>
#include <stddef.h>

/* One element: its tag byte and its content. */
typedef struct mf_der {
    unsigned char tag;
    const unsigned char *content, *end;
} mf_der;

typedef struct mf_der_cms {
    int version, signer_version;
    mf_der digest; /* the content of the only entry of digestAlgorithms */
} mf_der_cms;

/* Reads the element at *at, which must end at or before stop, and steps over it.
 * Lengths in their shortest form, as DER demands, or left open and closed by an
 * end mark: PDF asks for DER, but a whole family of signers (NSS) does that. */
bool mf_der_next(const unsigned char **at, const unsigned char *stop, mf_der *out);

/* The length of the one element that bytes begin with, 0 when it is none. */
size_t mf_der_length(const unsigned char *bytes, size_t len);

/* True when it is built soundly all the way down: of the universal types SEQUENCE and
 * SET, and no others, are built of elements. OpenSSL takes a SET either way and
 * then checks the signature over the right one. */
bool mf_der_is_sound(const unsigned char *bytes, size_t len);

/* Looks into a CMS SignedData with one signer, whose certificates and attributes must be
 * built of elements. */
bool mf_der_look(const unsigned char *cms, size_t len, mf_der_cms *out);

#endif
