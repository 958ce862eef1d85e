#include "seal/pdfxref.h"

#include "base/fail.h"
#include "base/mem.h"

#include <stdlib.h>
#include <string.h>

#define SECTIONS_MAX   1024    /* revisions of one file */
#define OBJECT_NUM_MAX 8388607 /* ISO 32000-1, Annex C */
#define ENTRY_LEAST    10      /* an entry takes at least so many bytes: "0 0 n" and some */
#define HOPS_MAX       8       /* a reference to a reference to... */
#define TAIL           2048    /* startxref stands in the last so many bytes */

static mf_status not_classic(mf_err *err)
{
    return mf_fail(err, MF_INPUT, "the PDF", "its cross-reference table cannot be read",
                   "a paper is sealed through a classic table (\"xref\"), and this one is "
                   "damaged, cut short or of the compressed kind",
                   "take the PDF as mistfold wrote it");
}

bool mf_pdf_is(const unsigned char *data, size_t len)
{
    return data != NULL && len >= 8 && memcmp(data, "%PDF-", 5) == 0;
}

/* --- the entries ------------------------------------------------------------ */

static bool add_entry(mf_pdf *pdf, mf_xref_entry entry)
{
    mf_xref_entry *grown = mf_grown(pdf->entry, pdf->n, &pdf->cap, sizeof *grown);
    if (grown == NULL)
        return false;
    pdf->entry = grown;
    entry.order = pdf->n;
    grown[pdf->n++] = entry;
    return true;
}

static int compare_entries(const void *left, const void *right)
{
    const mf_xref_entry *a = left, *b = right;
    if (a->num != b->num)
        return a->num < b->num ? -1 : 1;
    return a->order < b->order ? -1 : a->order > b->order;
}

static const mf_xref_entry *find_entry(const mf_pdf *pdf, int64_t num)
{
    size_t low = 0, high = pdf->n;
    while (low < high) {
        size_t mid = low + (high - low) / 2;
        if (pdf->entry[mid].num < num)
            low = mid + 1;
        else
            high = mid;
    }
    return low < pdf->n && pdf->entry[low].num == num ? &pdf->entry[low] : NULL;
}

const mf_xref_entry *mf_pdf_entry(const mf_pdf *pdf, int64_t num)
{
    const mf_xref_entry *entry = find_entry(pdf, num);
    return entry != NULL && entry->used ? entry : NULL;
}

/* One section that names an object twice: readers disagree about which counts. */
static bool names_one_twice(const mf_pdf *pdf)
{
    for (size_t i = 1; i < pdf->n; i++)
        if (pdf->entry[i].num == pdf->entry[i - 1].num &&
            pdf->entry[i].section == pdf->entry[i - 1].section)
            return true;
    return false;
}

/* --- one section ------------------------------------------------------------ */

/* One line "0000000016 00000 n". */
static mf_status read_entry(mf_pdf *pdf, int64_t num, size_t *at, mf_err *err)
{
    mf_tok offset = mf_tok_next(&pdf->src, *at);
    mf_tok gen = mf_tok_next(&pdf->src, offset.end);
    mf_tok word = mf_tok_next(&pdf->src, gen.end);
    bool used = mf_tok_is_word(&pdf->src, word, "n");
    if (offset.kind != MF_TOK_INT || gen.kind != MF_TOK_INT || offset.number < 0 ||
        gen.number < 0 || gen.number > 65535 || (!used && !mf_tok_is_word(&pdf->src, word, "f")))
        return not_classic(err);
    /* Many sections laid over the same bytes would otherwise grow without bound. */
    if (pdf->n > pdf->src.len / ENTRY_LEAST)
        return not_classic(err);
    mf_xref_entry entry = {.num = num, .gen = gen.number, .used = used, .section = pdf->sections};
    if (used && (uint64_t)offset.number >= pdf->src.len)
        entry.used = false;
    else
        entry.offset = (size_t)offset.number;
    *at = word.end;
    return add_entry(pdf, entry) ? MF_OK : mf_fail_memory(err);
}

/* The lines "0 6" and their entries, up to the word trailer. */
static mf_status read_subsections(mf_pdf *pdf, size_t *at, mf_err *err)
{
    for (;;) {
        mf_tok first = mf_tok_next(&pdf->src, *at);
        *at = first.end;
        if (mf_tok_is_word(&pdf->src, first, "trailer"))
            return MF_OK;
        mf_tok count = mf_tok_next(&pdf->src, first.end);
        if (first.kind != MF_TOK_INT || count.kind != MF_TOK_INT || first.number < 0 ||
            count.number < 0 || first.number > OBJECT_NUM_MAX ||
            count.number > OBJECT_NUM_MAX - first.number)
            return not_classic(err);
        *at = count.end;
        for (int64_t i = 0; i < count.number; i++) {
            mf_status status = read_entry(pdf, first.number + i, at, err);
            if (status != MF_OK)
                return status;
        }
    }
}

static mf_status read_section(mf_pdf *pdf, size_t at, mf_tok *trailer, mf_err *err)
{
    mf_tok word = mf_tok_next(&pdf->src, at);
    if (word.at != at || !mf_tok_is_word(&pdf->src, word, "xref"))
        return not_classic(err);
    at = word.end;
    mf_status status = read_subsections(pdf, &at, err);
    if (status != MF_OK)
        return status;
    pdf->sections++;
    *trailer = mf_val_next(&pdf->src, at);
    /* A second table of the compressed kind, which other readers follow. */
    bool hybrid = mf_dict_get(&pdf->src, *trailer, "XRefStm").kind != MF_TOK_END;
    return trailer->kind == MF_TOK_DICT && !hybrid ? MF_OK : not_classic(err);
}

/* --- the chain of sections ---------------------------------------------------- */

static bool seen_before(const size_t *seen, size_t n, size_t at)
{
    for (size_t i = 0; i < n; i++) {
        if (seen[i] == at)
            return true;
    }
    return false;
}

static mf_status read_chain(mf_pdf *pdf, mf_err *err)
{
    size_t seen[SECTIONS_MAX] = {0};
    size_t at = pdf->startxref;
    for (size_t n = 0; n < SECTIONS_MAX; n++) {
        mf_tok trailer = {0};
        if (seen_before(seen, n, at))
            return not_classic(err);
        seen[n] = at;
        mf_status status = read_section(pdf, at, &trailer, err);
        if (status != MF_OK)
            return status;
        if (n == 0)
            pdf->trailer = trailer;
        mf_tok prev = mf_dict_get(&pdf->src, trailer, "Prev");
        if (prev.kind == MF_TOK_END)
            return MF_OK;
        if (prev.kind != MF_TOK_INT || prev.number < 0 || (uint64_t)prev.number >= pdf->src.len)
            return not_classic(err);
        at = (size_t)prev.number;
    }
    return not_classic(err);
}

static mf_status find_startxref(mf_pdf *pdf, mf_err *err)
{
    const char word[] = "startxref";
    const size_t word_len = sizeof word - 1;
    size_t len = pdf->src.len, stop = len > TAIL ? len - TAIL : 0;
    for (size_t at = len > word_len ? len - word_len : 0; at > stop; at--) {
        if (memcmp(pdf->src.data + at, word, word_len) != 0)
            continue;
        mf_tok where = mf_tok_next(&pdf->src, at + word_len);
        if (where.kind != MF_TOK_INT || where.number < 0 || (uint64_t)where.number >= len)
            break;
        pdf->startxref = (size_t)where.number;
        return MF_OK;
    }
    return not_classic(err);
}

/* Root and Size of the newest trailer. Size says too little in some files and
 * anything at all in hostile ones, so the entries have a say. */
static mf_status read_trailer(mf_pdf *pdf, mf_err *err)
{
    mf_tok size = mf_dict_get(&pdf->src, pdf->trailer, "Size");
    pdf->root = mf_dict_get(&pdf->src, pdf->trailer, "Root");
    if (pdf->root.kind != MF_TOK_REF || size.kind != MF_TOK_INT || size.number < 1 ||
        size.number > OBJECT_NUM_MAX)
        return not_classic(err);
    int64_t highest = pdf->entry[pdf->n - 1].num;
    pdf->next_num = highest >= size.number ? highest + 1 : size.number;
    return mf_pdf_object(pdf, pdf->root).kind == MF_TOK_DICT ? MF_OK : not_classic(err);
}

mf_status mf_pdf_open(mf_pdf *out, const unsigned char *data, size_t len, mf_err *err)
{
    *out = (mf_pdf){.src = mf_pdf_src_of(data, len)};
    if (!mf_pdf_is(data, len))
        return mf_fail(err, MF_INPUT, "the PDF", "this is not a PDF", "a PDF begins with \"%PDF-\"",
                       "give the file that mistfold wrote");
    if (len > MF_PDF_MAX)
        return mf_fail(err, MF_INPUT, "the PDF", "the file is too large", "at most 1 GiB is read",
                       "");
    mf_status status = find_startxref(out, err);
    if (status == MF_OK)
        status = read_chain(out, err);
    if (status == MF_OK && out->n == 0)
        status = not_classic(err);
    if (status == MF_OK) {
        qsort(out->entry, out->n, sizeof *out->entry, compare_entries);
        status = names_one_twice(out) ? not_classic(err) : read_trailer(out, err);
    }
    return status;
}

void mf_pdf_close(mf_pdf *pdf)
{
    free(pdf->entry);
    pdf->entry = NULL;
    pdf->n = pdf->cap = 0;
}

/* --- objects -------------------------------------------------------------------- */

mf_tok mf_pdf_object(mf_pdf *pdf, mf_tok ref)
{
    const mf_tok none = {.kind = MF_TOK_BAD};
    const mf_xref_entry *entry = ref.kind == MF_TOK_REF ? find_entry(pdf, ref.number) : NULL;
    if (entry == NULL || !entry->used || entry->gen != ref.gen)
        return none;
    mf_tok num = mf_tok_next(&pdf->src, entry->offset);
    mf_tok gen = mf_tok_next(&pdf->src, num.end);
    mf_tok obj = mf_tok_next(&pdf->src, gen.end);
    if (num.kind != MF_TOK_INT || num.number != ref.number || gen.kind != MF_TOK_INT ||
        gen.number != ref.gen || !mf_tok_is_word(&pdf->src, obj, "obj"))
        return none;
    return mf_val_next(&pdf->src, obj.end);
}

mf_tok mf_pdf_resolve(mf_pdf *pdf, mf_tok val)
{
    for (int hop = 0; val.kind == MF_TOK_REF; hop++) {
        if (hop == HOPS_MAX)
            return (mf_tok){.kind = MF_TOK_BAD};
        val = mf_pdf_object(pdf, val);
    }
    return val;
}

mf_tok mf_pdf_get(mf_pdf *pdf, mf_tok dict, const char *key)
{
    return mf_pdf_resolve(pdf, mf_dict_get(&pdf->src, dict, key));
}
