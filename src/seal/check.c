/* Checks the seals of a paper: each signature, what it covers, who signed and when. */
#include "base/fail.h"
#include "seal/cms.h"
#include "seal/der.h"
#include "seal/sigfield.h"
#include "seal/sigfind.h"
#include "seal/sigrange.h"
#include "seal/since.h"
#include "seal/ts.h"
#include "seal/when.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* --- one seal ----------------------------------------------------------------------- */

static bool all_zero(const unsigned char *bytes, size_t len)
{
    for (size_t i = 0; i < len; i++) {
        if (bytes[i] != 0)
            return false;
    }
    return true;
}

/* What stands in /Contents: a detached CMS over the bytes, of either kind, or an authority's
 * token over them. Others are not judged. */
typedef enum content_kind { KIND_OTHER, KIND_CADES, KIND_PKCS7, KIND_STAMP } content_kind;

static content_kind kind_of(mf_pdf_src *src, mf_tok dict)
{
    mf_tok kind = mf_dict_get(src, dict, "SubFilter");
    if (mf_tok_is_name(src, kind, "ETSI.CAdES.detached"))
        return KIND_CADES;
    if (mf_tok_is_name(src, kind, "adbe.pkcs7.detached"))
        return KIND_PKCS7;
    return mf_tok_is_name(src, kind, "ETSI.RFC3161") ? KIND_STAMP : KIND_OTHER;
}

static mf_seal_state state_of_stamp(mf_stamp_state state)
{
    return state == MF_STAMP_UNTRUSTED || mf_stamp_holds(state) ? MF_SEAL_GOOD
           : state == MF_STAMP_WRONG                            ? MF_SEAL_ALTERED
           : state == MF_STAMP_UNFIT                            ? MF_SEAL_NOT_ACCEPTED
                                                                : MF_SEAL_UNREADABLE;
}

static mf_status judge_kind(mf_seal_report *out, content_kind kind, const unsigned char *der,
                            size_t len, const mf_cms_spans *spans, mf_err *err)
{
    const mf_ts_of of = {.spans = spans};
    if (kind == KIND_OTHER)
        return MF_OK;
    if (kind != KIND_STAMP) {
        mf_status status = mf_cms_verify(out, der, len, spans, kind == KIND_CADES, err);
        return status == MF_OK ? mf_cms_judge_stamp(&out->stamp, der, len, NULL, err) : status;
    }
    mf_status status = mf_ts_judge(&out->stamp, der, len, &of, NULL, err);
    out->is_stamp = true;
    out->state = state_of_stamp(out->stamp.state);
    memcpy(out->common_name, out->stamp.authority, sizeof out->common_name);
    memcpy(out->fingerprint, out->stamp.fingerprint, sizeof out->fingerprint);
    return status;
}

static int64_t read_time(mf_pdf_src *src, mf_tok dict)
{
    mf_tok date = mf_dict_get(src, dict, "M");
    if (date.kind != MF_TOK_STRING)
        return 0;
    return mf_when_read(src->data + date.at + 1, date.end - date.at - 2);
}

/* The gap holds hex digits, these one DER element, and after it only zeros: bytes
 * there are under no signature. */
static mf_status judge_contents(mf_seal_report *out, mf_pdf_src *src, mf_tok dict,
                                const mf_sig_range *range, mf_err *err)
{
    mf_status status = MF_OK;
    size_t len = (range->gap_end - range->gap_at - 2) / 2;
    mf_cms_spans spans = {src->data, src->data + range->gap_end, range->gap_at,
                          range->end - range->gap_end};
    unsigned char *cms = malloc(len + 1);
    if (cms == NULL)
        return mf_fail_memory(err);
    if (!mf_sig_contents(src, range, cms)) {
        out->state = MF_SEAL_BAD_RANGE;
    } else {
        size_t used = mf_der_length(cms, len);
        out->state = MF_SEAL_UNREADABLE;
        if (used > 0)
            status = judge_kind(out, kind_of(src, dict), cms, used, &spans, err);
        if (used > 0 && !all_zero(cms + used, len - used))
            out->state = MF_SEAL_BAD_RANGE;
    }
    free(cms);
    return status;
}

static mf_status judge(mf_seal_report *out, mf_pdf_src *src, const mf_sig_list *list, int i,
                       mf_err *err)
{
    mf_tok dict = list->sig[i].dict;
    mf_sig_range range;
    *out = (mf_seal_report){.state = MF_SEAL_BAD_RANGE};
    out->taken_off = list->fields_known && !list->sig[i].in_fields;
    out->signed_at = read_time(src, dict);
    if (!mf_sig_range_read(src, dict, &range) || !mf_sig_range_at_revision(src, range.end))
        return MF_OK;
    out->covered_len = range.end;
    out->gap_at = range.gap_at;
    out->gap_end = range.gap_end;
    out->covers_whole = range.end == src->len;
    return judge_contents(out, src, dict, &range, err);
}

/* --- the paper ------------------------------------------------------------------------- */

static mf_status no_seal(const mf_seal_check *check, mf_err *err)
{
    if (check->n > 0)
        return mf_fail(err, MF_NO, "the PDF", "the paper has a time stamp and no seal",
                       "a stamp says since when it is, nobody vouches for it",
                       "ask for the sealed paper");
    return mf_fail(err, MF_NO, "the PDF", "the paper has no seal",
                   "only a sealed paper can be checked", "ask for the sealed paper");
}

static mf_status tangled(mf_err *err)
{
    return mf_fail(err, MF_INPUT, "the PDF", "the file is too tangled to check",
                   "no paper has so many seals or so much in one another",
                   "ask for the paper as it was sealed");
}

/* Of a seal, or of an authority alone. */
static mf_status say_stamp(mf_stamp_state state, const char *where, mf_err *err)
{
    return mf_stamp_fault(state, MF_NO, where,
                          "do not rely on it; ask for the paper as it was sealed", err);
}

static bool is_right(mf_stamp_state state)
{
    return state == MF_STAMP_NONE || state == MF_STAMP_UNTRUSTED || mf_stamp_holds(state);
}

static mf_status say_state(const mf_seal_report *seal, const char *where, mf_err *err)
{
    const char *mend = "do not rely on it; ask for the paper as it was sealed";
    if (seal->state == MF_SEAL_ALTERED)
        return mf_fail(err, MF_NO, where, "the paper was altered after it was sealed",
                       "its bytes are not the ones that were signed", mend);
    if (seal->state == MF_SEAL_BAD_RANGE)
        return mf_fail(err, MF_NO, where, "the seal does not cover what it must",
                       "it has to cover every byte of the paper but its own", mend);
    if (seal->changed)
        return mf_fail(err, MF_NO, where, "the paper was changed before this seal was added",
                       "a further seal adds itself and nothing else",
                       "rely on the paper as it was under the seal before; ask who changed it");
    if (seal->state == MF_SEAL_NOT_ACCEPTED && seal->is_stamp)
        return say_stamp(seal->stamp.state, where, err);
    if (seal->state == MF_SEAL_NOT_ACCEPTED)
        return mf_fail(err, MF_NO, where, "the seal is not of a kind that this program accepts",
                       "its bytes are as they were signed, but it does not sign which certificate "
                       "is meant, as a CAdES signature must",
                       "ask for the paper with a seal that does");
    if (seal->state == MF_SEAL_UNREADABLE)
        return mf_fail(err, MF_NO, where, "the seal itself cannot be read",
                       "it is damaged or of a kind that is not known here", mend);
    return mf_fail(err, MF_NO, where, "the seal was taken off the paper later",
                   "its bytes are still there, but no reader shows it", mend);
}

/* The first thing that is wrong, in words; MF_OK when nothing is. */
static mf_status conclude(const mf_seal_check *check, mf_err *err)
{
    char where[32];
    bool any = false;
    for (int i = 0; i < check->n; i++)
        any = any || !check->seal[i].is_stamp;
    if (!any)
        return no_seal(check, err);
    for (int i = 0; i < check->n; i++) {
        const mf_seal_report *seal = &check->seal[i];
        snprintf(where, sizeof where, "seal %d of %d", i + 1, check->n);
        if (seal->state != MF_SEAL_GOOD || seal->taken_off || seal->changed)
            return say_state(seal, where, err);
        if (!is_right(seal->stamp.state))
            return say_stamp(seal->stamp.state, where, err);
    }
    if (check->unsealed_tail > 0)
        return mf_failf(err, MF_NO, "the PDF", "whoever added them needed no key",
                        "do not rely on them; ask for the paper as it was sealed",
                        "%zu bytes at the end are under no seal", check->unsealed_tail);
    return MF_OK;
}

/* --- between two seals ------------------------------------------------------------------ */

static mf_seal_place anywhere(int page)
{
    const float side = 14400; /* of the largest page, ISO 32000-1, Annex C */
    return (mf_seal_place){page, -side, -side, 2 * side, 2 * side};
}

/* The paper as this seal left it: where its look lies, and whether more was done to it
 * since the seal before (0 bytes: there is none). *fuel is for all seals of a paper
 * together: one with many, each over much, would otherwise keep the reader busy for
 * hours. */
static mf_status compare(mf_seal_report *seal, const mf_pdf_src *src, size_t before, size_t *fuel,
                         mf_err *err)
{
    mf_pdf older = {0}, newer = {0};
    mf_status status = before == 0 ? MF_OK : mf_pdf_open(&older, src->data, before, err);
    if (status == MF_OK)
        status = mf_pdf_open(&newer, src->data, seal->covered_len, err);
    older.src.fuel = before == 0 ? 0 : *fuel / 2;
    newer.src.fuel = *fuel - older.src.fuel;
    bool bound = true, clear = status == MF_OK && mf_field_place(&seal->look, &bound, &newer);
    if (before > 0)
        seal->changed = !clear || !mf_since_only_seals(&older, &newer);
    if (before > 0 && !bound)
        seal->look = anywhere(seal->look.page);
    *fuel = older.src.fuel + newer.src.fuel;
    mf_pdf_close(&older);
    mf_pdf_close(&newer);
    return status == MF_SYSTEM ? status : MF_OK;
}

/* Clocks differ, by hours where somebody forgot the time zone. */
#define CLOCKS_DIFFER 86400

/* A signer's time after an authority's: of the seal's own stamp, or of one put on later. */
static void tell_clocks(mf_seal_check *out, int stamped)
{
    const mf_stamp_report *stamp = &out->seal[stamped].stamp;
    for (int i = 0; i <= stamped && is_right(stamp->state) && stamp->before > 0; i++)
        if (i == stamped || out->seal[stamped].is_stamp)
            out->seal[i].clock_ahead =
                out->seal[i].clock_ahead || out->seal[i].signed_at > stamp->before + CLOCKS_DIFFER;
}

/* Each good seal: where it is drawn, and what was done since the good one before it. */
static mf_status compare_all(mf_seal_check *out, const mf_pdf_src *src, mf_err *err)
{
    int64_t last = 0;
    size_t before = 0, fuel = mf_pdf_src_of(src->data, src->len).fuel;
    mf_err why_not = {0};
    for (int i = 0; i < out->n; i++) {
        mf_seal_report *seal = &out->seal[i];
        if (seal->state != MF_SEAL_GOOD || seal->covered_len <= before)
            continue;
        mf_status status = compare(seal, src, before, &fuel, &why_not);
        if (status != MF_OK) {
            if (err != NULL)
                *err = why_not;
            return status;
        }
        before = seal->covered_len;
        tell_clocks(out, i);
        seal->backdated = seal->signed_at > 0 && seal->signed_at < last - CLOCKS_DIFFER;
        if (seal->signed_at > last)
            last = seal->signed_at;
    }
    return MF_OK;
}

static void find_all(mf_sig_list *list, mf_pdf *pdf, bool followed)
{
    if (followed)
        mf_sig_find_fields(list, pdf);
    mf_sig_find_bytes(list, &pdf->src);
    mf_sig_sort(list);
}

static mf_status judge_all(mf_seal_check *out, mf_pdf_src *src, const mf_sig_list *list,
                           mf_err *err)
{
    size_t sealed = 0;
    for (int i = 0; i < list->n; i++) {
        mf_status status = judge(&out->seal[i], src, list, i, err);
        if (status != MF_OK)
            return status;
        out->n = i + 1;
        if (out->seal[i].state == MF_SEAL_GOOD && out->seal[i].covered_len > sealed)
            sealed = out->seal[i].covered_len;
    }
    out->unsealed_tail = src->len - sealed;
    return MF_OK;
}

mf_status mf_seal_verify(mf_seal_check *out, const unsigned char *data, size_t len, mf_err *err)
{
    mf_pdf pdf = {0};
    mf_sig_list list = {0};
    mf_err why_not = {0};
    *out = (mf_seal_check){0};
    /* A paper whose objects cannot be followed, because it is damaged or of a newer
     * kind, is still searched for seals byte by byte. */
    mf_status status = mf_pdf_open(&pdf, data, len, &why_not);
    if (status == MF_SYSTEM || !mf_pdf_is(data, len) || len > MF_PDF_MAX) {
        if (err != NULL)
            *err = why_not;
        goto done;
    }
    find_all(&list, &pdf, status == MF_OK);
    if (list.too_many) {
        status = tangled(err);
        goto done;
    }
    status = judge_all(out, &pdf.src, &list, err);
    if (status == MF_OK)
        status = compare_all(out, &pdf.src, err);
    if (status == MF_OK)
        status = pdf.src.fuel == 0 ? tangled(err) : conclude(out, err);
done:
    mf_pdf_close(&pdf);
    return status;
}
