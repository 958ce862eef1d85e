#include "seal/sigfind.h"

#include "seal/sigrange.h"

#include <stdlib.h>
#include <string.h>

#define FIELD_DEPTH 16
#define DICT_DEPTH  32
/* How far before a /ByteRange its object may begin: a signature with a long
 * certificate chain in front of it still fits. */
#define LOOK_BACK  ((size_t)1 << 20)
#define TRIES_BACK 8

static bool list_has(const mf_sig_list *list, size_t at)
{
    for (int i = 0; i < list->n; i++) {
        if (at >= list->sig[i].dict.at && at < list->sig[i].dict.end)
            return true;
    }
    return false;
}

static void list_add(mf_sig_list *list, mf_tok dict, bool in_fields)
{
    if (list_has(list, dict.at))
        return;
    /* Where a broken one ends nobody knows: it must not hide a whole one behind it. */
    if (dict.kind != MF_TOK_DICT)
        dict.end = dict.at + 1;
    if (list->n == MF_SEAL_MAX)
        list->too_many = true;
    else
        list->sig[list->n++] = (mf_sig_found){dict, in_fields};
}

/* --- through the fields --------------------------------------------------------- */

/* type is inherited from the parent field unless this one has its own. */
static bool walk_fields(mf_sig_list *list, mf_pdf *pdf, mf_tok fields, bool is_sig, int depth)
{
    mf_tok field;
    if (fields.kind != MF_TOK_ARRAY || depth == FIELD_DEPTH)
        return false;
    for (size_t at = 0; mf_array_next(&pdf->src, fields, &at, &field);) {
        mf_tok dict = mf_pdf_resolve(pdf, field);
        if (dict.kind != MF_TOK_DICT)
            return false;
        mf_tok type = mf_pdf_get(pdf, dict, "FT");
        bool sig = type.kind == MF_TOK_END ? is_sig : mf_tok_is_name(&pdf->src, type, "Sig");
        mf_tok val = mf_pdf_get(pdf, dict, "V");
        /* a broken value counts too: it was a signature once */
        if (sig && val.kind != MF_TOK_END && !mf_tok_is_word(&pdf->src, val, "null"))
            list_add(list, val, true);
        mf_tok kids = mf_pdf_get(pdf, dict, "Kids");
        if (kids.kind != MF_TOK_END && !walk_fields(list, pdf, kids, sig, depth + 1))
            return false;
    }
    return true;
}

void mf_sig_find_fields(mf_sig_list *list, mf_pdf *pdf)
{
    mf_tok catalog = mf_pdf_object(pdf, pdf->root);
    mf_tok form = mf_pdf_get(pdf, catalog, "AcroForm");
    mf_tok fields = mf_pdf_get(pdf, form, "Fields");
    list->fields_known = fields.kind == MF_TOK_END || walk_fields(list, pdf, fields, false, 0);
}

/* --- through the bytes ------------------------------------------------------------ */

/* The innermost dictionary that is open when the key at key_at is read, with
 * reading begun at the object's value. MF_TOK_END when the key is not met. */
static mf_tok dict_around(mf_pdf_src *src, size_t value_at, size_t key_at)
{
    mf_tok open[DICT_DEPTH];
    int depth = 0;
    mf_tok tok = mf_tok_next(src, value_at);
    while (tok.at <= key_at && tok.kind != MF_TOK_BAD && tok.kind != MF_TOK_END) {
        if (tok.at == key_at)
            return depth > 0 ? open[depth - 1] : (mf_tok){.kind = MF_TOK_END};
        if (tok.kind == MF_TOK_DICT && depth == DICT_DEPTH)
            break;
        if (tok.kind == MF_TOK_DICT)
            open[depth++] = tok;
        else if (tok.kind == MF_TOK_DICT_END)
            depth--;
        if (depth <= 0)
            break;
        tok = mf_tok_next(src, tok.end);
    }
    return (mf_tok){.kind = MF_TOK_END};
}

/* The dictionary that a /ByteRange belongs to: goes back to the nearest "obj"
 * from which reading on arrives at the key as a key. */
static mf_tok find_owner(mf_pdf_src *src, size_t key_at)
{
    size_t stop = key_at > LOOK_BACK ? key_at - LOOK_BACK : 0;
    int tries = 0;
    for (size_t at = key_at; at > stop + 4 && tries < TRIES_BACK; at--) {
        if (src->fuel == 0)
            break;
        src->fuel--;
        if (memcmp(src->data + at - 3, "obj", 3) != 0 || !mf_pdf_is_space(src->data[at - 4]))
            continue;
        tries++;
        mf_tok dict = dict_around(src, at, key_at);
        if (dict.kind != MF_TOK_DICT)
            continue;
        mf_tok whole = mf_val_next(src, dict.at);
        return whole.kind == MF_TOK_DICT ? whole : (mf_tok){MF_TOK_BAD, dict.at, whole.end, 0, 0};
    }
    return (mf_tok){.kind = MF_TOK_END};
}

/* A signature that no field shows counts when its range fits this file: the
 * /ByteRange of a sealed paper that is merely attached fits that paper instead.
 * Where the fields are not known, everything counts. */
static void look_at(mf_sig_list *list, mf_pdf_src *src, size_t at)
{
    mf_sig_range range;
    mf_tok key = mf_tok_next(src, at);
    if (list_has(list, at) || !mf_tok_is_name(src, key, "ByteRange"))
        return;
    mf_tok dict = find_owner(src, at);
    if (dict.kind == MF_TOK_END)
        return;
    if (!list->fields_known || mf_sig_range_read(src, dict, &range))
        list_add(list, dict, false);
}

void mf_sig_find_bytes(mf_sig_list *list, mf_pdf_src *src)
{
    const char key[] = "/ByteRange";
    const size_t key_len = sizeof key - 1;
    size_t at = 0;
    while (src->len - at >= key_len) {
        const unsigned char *slash = memchr(src->data + at, '/', src->len - at - key_len + 1);
        if (slash == NULL)
            break;
        at = (size_t)(slash - src->data);
        if (memcmp(slash, key, key_len) == 0)
            look_at(list, src, at);
        at++;
    }
}

static int compare_places(const void *left, const void *right)
{
    const mf_sig_found *a = left, *b = right;
    return a->dict.at < b->dict.at ? -1 : a->dict.at > b->dict.at;
}

void mf_sig_sort(mf_sig_list *list)
{
    qsort(list->sig, (size_t)list->n, sizeof list->sig[0], compare_places);
}
