/* Seals a paper: a signature field is added behind it and its bytes are signed. */
#include "base/digest.h"
#include "base/fail.h"
#include "seal/cms.h"
#include "seal/sigfind.h"
#include "seal/update.h"

static mf_status check_pdf(mf_pdf *pdf, const mf_sig_list *earlier, mf_err *err)
{
    if (mf_dict_get(&pdf->src, pdf->trailer, "Encrypt").kind != MF_TOK_END)
        return mf_fail(err, MF_INPUT, "the PDF", "the paper is encrypted",
                       "a seal is added to open papers only", "take the PDF as mistfold wrote it");
    if (!earlier->fields_known)
        return mf_fail(err, MF_INPUT, "the PDF", "its form fields cannot be read",
                       "the seal becomes one of them", "take the PDF as mistfold wrote it");
    if (earlier->n == MF_SEAL_MAX)
        return mf_failf(err, MF_INPUT, "the PDF", "a paper takes at most so many",
                        "seal a new paper", "it has %d seals already", earlier->n);
    return MF_OK;
}

/* In place of a signature. */
static mf_status stamp_spans(mf_bytes *token, const mf_seal_ask *ask, const mf_cms_spans *spans,
                             mf_err *err)
{
    char sha256[MF_DIGEST_HEX] = "";
    mf_digest *digest = mf_digest_begin();
    bool added = digest != NULL && mf_digest_add(digest, spans->first, spans->first_len) &&
                 mf_digest_add(digest, spans->second, spans->second_len);
    bool ended = digest != NULL && mf_digest_end(digest, added ? sha256 : NULL);
    return added && ended ? ask->stamp(ask->stamp_user, sha256, token, err) : mf_fail_memory(err);
}

/* Signs what the update covers and puts the signature into its gap. */
static mf_status sign_update(mf_update *update, const mf_seal_ask *ask, mf_err *err)
{
    const unsigned char *file = (const unsigned char *)update->file.data;
    const mf_sig_range *range = &update->range;
    mf_cms_spans spans = {file, file + range->gap_end, range->gap_at, range->end - range->gap_end};
    mf_bytes cms = {0};
    mf_status status = ask->key == NULL ? stamp_spans(&cms, ask, &spans, err)
                                        : mf_cms_sign(&cms, ask->key, &spans, err);
    if (status == MF_OK && ask->key != NULL)
        status = mf_cms_stamp(&cms, ask, err);
    if (status == MF_OK)
        status = mf_update_fill(update, &cms, err);
    mf_bytes_free(&cms);
    return status;
}

/* What was damaged before may hide the new seal, or be more than a check looks through:
 * such a paper is not handed out as sealed. */
static mf_status check_own(const mf_buf *file, bool stamped, mf_err *err)
{
    mf_seal_check check = {0};
    mf_err own = {0}; /* what is wrong with an earlier seal is not the question */
    mf_status status = mf_seal_verify(&check, (const unsigned char *)file->data, file->len, &own);
    if (status == MF_SYSTEM && err != NULL)
        *err = own;
    if (status == MF_SYSTEM)
        return status;
    const mf_seal_report *own_seal = check.n > 0 ? &check.seal[check.n - 1] : NULL;
    if (own_seal != NULL && own_seal->state == MF_SEAL_GOOD &&
        own_seal->stamp.state == (stamped ? MF_STAMP_UNVERIFIED : MF_STAMP_NONE))
        return MF_OK;
    return mf_fail(err, MF_INPUT, "the PDF", "its new seal could not be checked afterwards",
                   "the paper is damaged, or too tangled to check",
                   "take the PDF as mistfold wrote it");
}

static mf_status append(mf_bytes *out, const unsigned char *pdf, size_t len, const mf_seal_ask *ask,
                        mf_err *err)
{
    mf_pdf in = {0};
    mf_update update = {0};
    mf_sig_list earlier = {0};
    mf_status status = mf_pdf_open(&in, pdf, len, err);
    if (status != MF_OK)
        goto done;
    mf_sig_find_fields(&earlier, &in);
    status = check_pdf(&in, &earlier, err);
    if (status != MF_OK)
        goto done;
    status = mf_update_build(&update, &in, ask, earlier.n, err);
    if (status == MF_OK)
        status = sign_update(&update, ask, err);
    if (status == MF_OK)
        status = check_own(&update.file, ask->stamp != NULL, err);
    if (status == MF_OK)
        mf_buf_take(&update.file, out);
done:
    mf_buf_free(&update.file);
    mf_pdf_close(&in);
    return status;
}

mf_status mf_seal_sign(mf_bytes *out, const unsigned char *pdf, size_t len, const mf_seal_ask *ask,
                       mf_err *err)
{
    *out = (mf_bytes){0};
    if (ask == NULL || ask->key == NULL)
        return mf_fail(err, MF_USAGE, "the seal", "there is no key", "a seal is made with a key",
                       "open a key first");
    return append(out, pdf, len, ask, err);
}

mf_status mf_seal_stamp(mf_bytes *out, const unsigned char *pdf, size_t len,
                        mf_seal_stamp_fn *stamp, void *user, mf_err *err)
{
    const mf_seal_ask ask = {.stamp = stamp, .stamp_user = user};
    *out = (mf_bytes){0};
    return append(out, pdf, len, &ask, err);
}
