#include "seal/cert.h"

#include "seal/text.h"

void mf_cert_entry(const X509 *cert, int nid, char *out, size_t size)
{
    const X509_NAME *name = X509_get_subject_name(cert);
    int at = X509_NAME_get_index_by_NID(name, nid, -1);
    unsigned char *text = NULL;
    out[0] = '\0';
    if (at < 0)
        return;
    int len = ASN1_STRING_to_UTF8(&text, X509_NAME_ENTRY_get_data(X509_NAME_get_entry(name, at)));
    if (len >= 0)
        mf_text_tame(out, size, text, (size_t)len);
    OPENSSL_free(text);
}

bool mf_cert_fingerprint(const X509 *cert, char out[MF_FINGERPRINT_HEX])
{
    unsigned char *der = NULL;
    int len = i2d_X509(cert, &der);
    if (len > 0)
        mf_sha256_hex(der, (size_t)len, out);
    OPENSSL_free(der);
    return len > 0 && out[0] != '\0';
}
