#include "seal/pdfpage.h"

#define TREE_DEPTH 48 /* also stops a tree that contains itself */

/* Walks a node and all below it. The /Count of a node would be quicker to find a page
 * by and cannot be trusted. */
static mf_tok walk(mf_pdf *pdf, mf_tok ref, mf_page_wanted *wanted, void *user, int depth)
{
    const mf_tok bad = {.kind = MF_TOK_BAD};
    mf_tok node = mf_pdf_object(pdf, ref);
    if (node.kind != MF_TOK_DICT || depth == TREE_DEPTH)
        return bad;
    mf_tok kids = mf_pdf_get(pdf, node, "Kids"), kid;
    if (kids.kind == MF_TOK_END)
        return wanted(user, pdf, node) ? ref : (mf_tok){.kind = MF_TOK_END};
    if (kids.kind != MF_TOK_ARRAY)
        return bad;
    for (size_t at = 0; mf_array_next(&pdf->src, kids, &at, &kid);) {
        mf_tok found = walk(pdf, kid, wanted, user, depth + 1);
        if (found.kind != MF_TOK_END)
            return found;
    }
    return (mf_tok){.kind = MF_TOK_END};
}

mf_tok mf_pdf_page_find(mf_pdf *pdf, mf_page_wanted *wanted, void *user)
{
    mf_tok pages = mf_dict_get(&pdf->src, mf_pdf_object(pdf, pdf->root), "Pages");
    return walk(pdf, pages, wanted, user, 0);
}

static bool counts_down(void *user, mf_pdf *pdf, mf_tok page)
{
    int *left = user;
    (void)pdf;
    (void)page;
    return --*left == 0;
}

mf_tok mf_pdf_page(mf_pdf *pdf, int n)
{
    return mf_pdf_page_find(pdf, counts_down, &n);
}
