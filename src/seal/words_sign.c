/* A key's signature of a line of words, which is no paper. */
#include "seal/cms.h"

#include <mistfold/seal.h>
#include <string.h>

static mf_cms_spans spans_of(const char *text)
{
    return (mf_cms_spans){(const unsigned char *)text, (const unsigned char *)"", strlen(text), 0};
}

mf_status mf_seal_words(mf_bytes *der, const mf_key *key, const char *text, mf_err *err)
{
    const mf_cms_spans spans = spans_of(text);
    return mf_cms_sign(der, key, &spans, err);
}

mf_status mf_seal_words_check(mf_seal_report *out, const unsigned char *der, size_t len,
                              const char *text, mf_err *err)
{
    const mf_cms_spans spans = spans_of(text);
    *out = (mf_seal_report){.state = MF_SEAL_UNREADABLE};
    return mf_cms_verify(out, der, len, &spans, true, err);
}
