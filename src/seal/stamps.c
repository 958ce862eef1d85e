/* stamps.c - the time stamps of a paper against the roots of authorities that are believed. */
#include "base/fail.h"
#include "seal/cms.h"
#include "seal/der.h"
#include "seal/sigrange.h"
#include "seal/ts.h"

#include <stdio.h>
#include <stdlib.h>

static mf_status judge(mf_seal_report *seal, const mf_pdf_src *src, X509_STORE *roots, mf_err *err)
{
    const mf_sig_range range = {seal->gap_at, seal->gap_end, seal->covered_len};
    const mf_cms_spans spans = {src->data, src->data + range.gap_end, range.gap_at,
                                range.end - range.gap_end};
    const mf_ts_of of = {.spans = &spans};
    mf_status status = MF_OK;
    size_t len = (range.gap_end - range.gap_at - 2) / 2;
    unsigned char *der = malloc(len + 1);
    if (der == NULL)
        return mf_fail_memory(err);
    seal->stamp.state = MF_STAMP_UNREADABLE;
    if (mf_sig_contents(src, &range, der)) {
        len = mf_der_length(der, len);
        status = seal->is_stamp ? mf_ts_judge(&seal->stamp, der, len, &of, roots, err)
                                : mf_cms_judge_stamp(&seal->stamp, der, len, roots, err);
    }
    free(der);
    return status;
}

static bool has_stamp(const mf_seal_report *seal, size_t len)
{
    return seal->stamp.state != MF_STAMP_NONE && seal->gap_at + 2 <= seal->gap_end &&
           seal->gap_end <= seal->covered_len && seal->covered_len <= len;
}

mf_status mf_seal_stamps(mf_seal_check *check, const unsigned char *pdf, size_t len,
                         const char *roots, mf_err *err)
{
    char where[32];
    mf_status first = MF_OK;
    X509_STORE *store = NULL;
    const mf_pdf_src src = mf_pdf_src_of(pdf, len);
    mf_status status = mf_ts_roots(&store, roots, err); /* also where nothing is stamped */
    for (int i = 0; i < check->n && status == MF_OK; i++) {
        mf_seal_report *seal = &check->seal[i];
        if (!has_stamp(seal, len))
            continue;
        status = judge(seal, &src, store, err);
        if (status != MF_OK || first != MF_OK || seal->stamp.state == MF_STAMP_PROVED)
            continue;
        snprintf(where, sizeof where, "seal %d of %d", i + 1, check->n);
        first = mf_stamp_fault(seal->stamp.state, MF_NO, where,
                               "do not rely on its time; ask who stamped the paper", err);
    }
    X509_STORE_free(store);
    return status == MF_OK ? first : status;
}
