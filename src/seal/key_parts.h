/* key_parts.h - taking key and certificate out of a PKCS #12 file, with a bound on
 * the work that the file may ask for.
 *
 * A passphrase is stretched by as many rounds as the file says, once for each part
 * that is locked; OpenSSL does what it is told, for hours. Here all of it together
 * has a bound. Source: RFC 7292, 4 and 5; RFC 8018, 5.2. */
#ifndef MF_SEAL_KEY_PARTS_H
#define MF_SEAL_KEY_PARTS_H

#include <openssl/pkcs12.h>
#include <stdbool.h>

/* Rounds over all parts and the check of the passphrase. */
#define MF_KEY_ROUNDS_MAX 5000000

/* Fills *pkey and *cert, which the caller frees: the first private key there is and
 * the certificate that belongs to it; either stays NULL when there is none. The
 * passphrase was checked. False when a part cannot be opened or asks for too much. */
bool mf_key_parts(PKCS12 *p12, const char *passphrase, EVP_PKEY **pkey, X509 **cert);

#endif
