#include "seal/since.h"

#include "seal/plain.h"
#include "seal/sigfield.h"

#include <string.h>

/* Of the field and of the widget that the seal adds, the object's number; 0 until one
 * was met. A second one is no seal. */
typedef struct revisions {
    mf_pdf *older, *newer;
    int64_t field, widget;
} revisions;

/* ---- sameness ------------------------------------------------------------------------- */

/* The same tokens, however they are spaced. */
static bool same_value(revisions *r, mf_tok a, mf_tok b)
{
    if (a.kind != b.kind)
        return false;
    if (a.kind == MF_TOK_END)
        return true;
    for (size_t at = a.at, bt = b.at; at < a.end || bt < b.end;) {
        mf_tok x = mf_tok_next(&r->older->src, at), y = mf_tok_next(&r->newer->src, bt);
        if (x.kind != y.kind || x.kind == MF_TOK_BAD || x.end - x.at != y.end - y.at ||
            memcmp(r->older->src.data + x.at, r->newer->src.data + y.at, x.end - x.at) != 0)
            return false;
        at = x.end;
        bt = y.end;
    }
    return true;
}

static bool is_key(mf_pdf_src *src, mf_tok key, const char *const *names)
{
    for (; *names != NULL; names++)
        if (mf_tok_is_name(src, key, *names))
            return true;
    return false;
}

/* Every entry of one dictionary but those named is in the other, and the same. */
static bool holds_entries(revisions *r, bool flipped, mf_tok from, mf_tok in,
                          const char *const *but)
{
    char name[128];
    mf_tok key, val;
    mf_pdf_src *src = flipped ? &r->newer->src : &r->older->src;
    mf_pdf_src *other = flipped ? &r->older->src : &r->newer->src;
    for (size_t at = 0; mf_dict_next(src, from, &at, &key, &val);) {
        size_t len = key.end - key.at;
        if (val.kind == MF_TOK_BAD || len < 1 || len > sizeof name)
            return false;
        if (is_key(src, key, but))
            continue;
        memcpy(name, src->data + key.at + 1, len - 1);
        name[len - 1] = '\0';
        mf_tok found = mf_dict_get(other, in, name);
        if (!(flipped ? same_value(r, found, val) : same_value(r, val, found)))
            return false;
    }
    return true;
}

static bool same_but(revisions *r, mf_tok a, mf_tok b, const char *const *but)
{
    return a.kind == MF_TOK_DICT && b.kind == MF_TOK_DICT && holds_entries(r, false, a, b, but) &&
           holds_entries(r, true, b, a, but);
}

/* ---- lists that may grow by the seal ----------------------------------------------------------
 */

static bool is_absent(mf_pdf *pdf, mf_tok val)
{
    return val.kind == MF_TOK_END || mf_tok_is_word(&pdf->src, val, "null");
}

static bool is_stream(mf_pdf *pdf, mf_tok val)
{
    return mf_tok_stream(&pdf->src, val).kind == MF_TOK_WORD;
}

/* No action, which could show other words. */
static bool is_still(mf_pdf *pdf, mf_tok dict)
{
    return mf_dict_get(&pdf->src, dict, "A").kind == MF_TOK_END &&
           mf_field_get(pdf, dict, "AA").kind == MF_TOK_END;
}

/* The field or the widget of the seal that the newer revision ends with. One that calls
 * itself a signature and holds none is a picture to lay over words. */
static bool is_seal(revisions *r, mf_tok ref)
{
    mf_pdf *pdf = r->newer;
    mf_tok dict = mf_pdf_object(pdf, ref);
    if (dict.kind != MF_TOK_DICT || is_stream(pdf, dict) || !is_still(pdf, dict) ||
        mf_pdf_entry(r->older, ref.number) != NULL)
        return false;
    mf_tok kind = mf_pdf_get(pdf, dict, "Type"), sub = mf_pdf_get(pdf, dict, "Subtype");
    return mf_tok_is_name(&pdf->src, mf_field_get(pdf, dict, "FT"), "Sig") &&
           (kind.kind == MF_TOK_END || mf_tok_is_name(&pdf->src, kind, "Annot")) &&
           (sub.kind == MF_TOK_END || mf_tok_is_name(&pdf->src, sub, "Widget")) &&
           mf_field_is_last(pdf, dict);
}

/* What was in the older list stands first in the newer; what follows is the seal. */
static bool grown_by_seal(revisions *r, mf_tok a, mf_tok b, int64_t *only)
{
    mf_tok x, y;
    size_t at = 0, bt = 0;
    bool none = is_absent(r->older, a);
    if ((!none && a.kind != MF_TOK_ARRAY) || (b.kind != MF_TOK_ARRAY && !is_absent(r->newer, b)))
        return false;
    while (!none && mf_array_next(&r->older->src, a, &at, &x))
        if (b.kind != MF_TOK_ARRAY || !mf_array_next(&r->newer->src, b, &bt, &y) ||
            !same_value(r, x, y))
            return false;
    while (b.kind == MF_TOK_ARRAY && mf_array_next(&r->newer->src, b, &bt, &y)) {
        if (!is_seal(r, y) || (*only != 0 && *only != y.number))
            return false;
        *only = y.number;
    }
    return true;
}

static bool same_form(revisions *r, mf_tok a, mf_tok b)
{
    static const char *const but[] = {"Fields", "SigFlags", NULL};
    static const char *const any[] = {"Fields", "SigFlags", "DA", "DR", NULL};
    if (is_absent(r->older, a)) { /* made for the seal */
        mf_tok key, val;
        for (size_t at = 0; mf_dict_next(&r->newer->src, b, &at, &key, &val);)
            if (!is_key(&r->newer->src, key, any))
                return false;
        return is_absent(r->newer, b) ||
               (b.kind == MF_TOK_DICT &&
                grown_by_seal(r, a, mf_pdf_get(r->newer, b, "Fields"), &r->field));
    }
    return same_but(r, a, b, but) && grown_by_seal(r, mf_pdf_get(r->older, a, "Fields"),
                                                   mf_pdf_get(r->newer, b, "Fields"), &r->field);
}

/* ---- one object ---------------------------------------------------------------------------- */

static bool same_catalog(revisions *r, mf_tok a, mf_tok b)
{
    static const char *const but[] = {"AcroForm", NULL};
    return same_but(r, a, b, but) &&
           same_form(r, mf_pdf_get(r->older, a, "AcroForm"), mf_pdf_get(r->newer, b, "AcroForm"));
}

static bool same_page(revisions *r, mf_tok a, mf_tok b)
{
    static const char *const but[] = {"Annots", NULL};
    return mf_tok_is_name(&r->older->src, mf_dict_get(&r->older->src, a, "Type"), "Page") &&
           same_but(r, a, b, but) &&
           grown_by_seal(r, mf_pdf_get(r->older, a, "Annots"), mf_pdf_get(r->newer, b, "Annots"),
                         &r->widget);
}

static bool is_number_of(mf_tok ref, int64_t num)
{
    return ref.kind == MF_TOK_REF && ref.number == num;
}

/* The list of annotations of a page of the older revision. */
static bool is_annotations(revisions *r, int64_t num)
{
    mf_pdf *pdf = r->older;
    for (size_t i = 0; i < pdf->n; i++) {
        mf_tok ref = {.kind = MF_TOK_REF, .number = pdf->entry[i].num, .gen = pdf->entry[i].gen};
        mf_tok page = mf_pdf_object(pdf, ref);
        if (mf_tok_is_name(&pdf->src, mf_dict_get(&pdf->src, page, "Type"), "Page") &&
            is_number_of(mf_dict_get(&pdf->src, page, "Annots"), num))
            return true;
    }
    return false;
}

/* Other lists hold what is shown: the pages, the contents of a page. */
static bool same_list(revisions *r, int64_t num, mf_tok a, mf_tok b)
{
    mf_tok catalog = mf_pdf_object(r->older, r->older->root);
    mf_tok form = mf_pdf_get(r->older, catalog, "AcroForm");
    if (is_number_of(mf_dict_get(&r->older->src, form, "Fields"), num))
        return grown_by_seal(r, a, b, &r->field);
    return is_annotations(r, num) && grown_by_seal(r, a, b, &r->widget);
}

/* An object that was written anew: allowed is what a seal needs. */
static bool may_differ(revisions *r, const mf_xref_entry *entry)
{
    mf_tok ref = {.kind = MF_TOK_REF, .number = entry->num, .gen = entry->gen};
    mf_tok a = mf_pdf_object(r->older, ref), b = mf_pdf_object(r->newer, ref);
    mf_tok catalog = mf_pdf_object(r->older, r->older->root);
    mf_tok form = mf_dict_get(&r->older->src, catalog, "AcroForm");
    if (is_stream(r->older, a) || is_stream(r->newer, b))
        return false;
    if (is_number_of(r->older->root, entry->num))
        return same_catalog(r, a, b);
    if (is_number_of(form, entry->num))
        return same_form(r, a, b);
    return a.kind == MF_TOK_ARRAY ? same_list(r, entry->num, a, b) : same_page(r, a, b);
}

/* ---- what was left dangling ---------------------------------------------------------------- */

/* A reference of the older revision to nothing must lead to nothing in the newer. */
static bool fills_none(revisions *r, mf_tok val)
{
    const mf_tok none = {0};
    mf_tok before[2] = {none, none};
    for (size_t at = val.at; at < val.end;) {
        mf_tok tok = mf_tok_next(&r->older->src, at);
        if (tok.kind == MF_TOK_BAD || tok.kind == MF_TOK_END)
            return tok.kind == MF_TOK_END;
        if (mf_tok_is_word(&r->older->src, tok, "R") && before[0].kind == MF_TOK_INT &&
            before[1].kind == MF_TOK_INT && mf_pdf_entry(r->older, before[0].number) == NULL &&
            mf_pdf_entry(r->newer, before[0].number) != NULL)
            return false;
        before[0] = before[1];
        before[1] = tok;
        at = tok.end;
    }
    return true;
}

static bool is_kept(revisions *r, const mf_xref_entry *entry)
{
    mf_tok ref = {.kind = MF_TOK_REF, .number = entry->num, .gen = entry->gen};
    const mf_xref_entry *now = mf_pdf_entry(r->newer, entry->num);
    if (now == NULL || now->gen != entry->gen)
        return false;
    if (now->offset != entry->offset && !may_differ(r, entry))
        return false;
    mf_tok val = mf_pdf_object(r->older, ref);
    return val.kind != MF_TOK_BAD && fills_none(r, val);
}

bool mf_since_only_seals(mf_pdf *older, mf_pdf *newer)
{
    revisions r = {older, newer, 0, 0};
    if (newer->root.number != older->root.number || newer->root.gen != older->root.gen ||
        !mf_plain_update(older, newer))
        return false;
    for (size_t i = 0; i < older->n; i++) {
        const mf_xref_entry *entry = &older->entry[i];
        bool newest = i == 0 || older->entry[i - 1].num != entry->num;
        if (newest && entry->used && !is_kept(&r, entry))
            return false;
    }
    return older->src.fuel > 0 && newer->src.fuel > 0;
}
