#include "paper/tags.h"

#include <stdlib.h>
#include <utf8proc.h>

static const char *const names[MF_TAG_COUNT] = {[MF_TAG_DOCUMENT] = "Document",
                                                [MF_TAG_SECT] = "Sect",
                                                [MF_TAG_TABLE] = "Table",
                                                [MF_TAG_TR] = "TR",
                                                [MF_TAG_H1] = "H1",
                                                [MF_TAG_H2] = "H2",
                                                [MF_TAG_H3] = "H3",
                                                [MF_TAG_P] = "P",
                                                [MF_TAG_TH] = "TH",
                                                [MF_TAG_TD] = "TD",
                                                [MF_TAG_FIGURE] = "Figure",
                                                [MF_TAG_MARK] = "Span"};

const char *mf_tag_name(mf_tag tag)
{
    return names[tag];
}

static void *grown(void *old, size_t n, size_t *cap, size_t size)
{
    if (n < *cap)
        return old;
    const size_t wider = *cap == 0 ? 256 : *cap * 2;
    void *list = realloc(old, wider * size);
    if (list != NULL)
        *cap = wider;
    return list;
}

static bool add_kid(mf_tags *tags, mf_tag_kid kid)
{
    mf_tag_kid *list = grown(tags->kid, tags->n_kid, &tags->cap_kid, sizeof *list);
    if (list == NULL)
        return false;
    tags->kid = list;
    list[tags->n_kid++] = kid;
    return true;
}

static int add(mf_tags *tags, mf_tag_elem elem)
{
    mf_tag_elem *list = grown(tags->elem, tags->n, &tags->cap, sizeof *list);
    if (list == NULL)
        return -1;
    tags->elem = list;
    list[tags->n] = elem;
    return (int)tags->n++;
}

int mf_tags_add(mf_tags *tags, mf_tag tag, int parent, const char *text)
{
    if (tags->n == 0 && add(tags, (mf_tag_elem){MF_TAG_DOCUMENT, -1, NULL, 1}) < 0)
        return -1;
    const int of = parent < 0 ? 0 : parent;
    const int elem = add(tags, (mf_tag_elem){tag, of, text, 1});
    return elem >= 0 && add_kid(tags, (mf_tag_kid){of, elem, -1, -1}) ? elem : -1;
}

static bool has_page(mf_tags *tags, int page)
{
    while (tags->n_pages <= (size_t)page) {
        int *list = realloc(tags->on_page, (tags->n_pages + 1) * sizeof *list);
        if (list == NULL)
            return false;
        tags->on_page = list;
        list[tags->n_pages++] = 0;
    }
    return true;
}

int mf_tags_piece(mf_tags *tags, int elem, int page)
{
    if (!has_page(tags, page) || !add_kid(tags, (mf_tag_kid){elem, -1, page, tags->on_page[page]}))
        return -1;
    return tags->on_page[page]++;
}

void mf_tags_free(mf_tags *tags)
{
    free(tags->elem);
    free(tags->kid);
    free(tags->on_page);
    *tags = (mf_tags){0};
}

/* ---- the tree as objects ------------------------------------------------------------------ */

enum { ROOT, MAP, FIRST_ELEM };

size_t mf_tags_objects(const mf_tags *tags)
{
    return tags->n == 0 ? 0 : FIRST_ELEM + tags->n;
}

/* A text string of ISO 32000-1, 7.9.2.2: UTF-16, the high byte first, in hexadecimal. */
static void put_text(mf_buf *out, const char *text)
{
    const utf8proc_uint8_t *at = (const utf8proc_uint8_t *)text;
    utf8proc_int32_t code = 0;
    mf_buf_text(out, "<FEFF");
    for (utf8proc_ssize_t used; *at != 0; at += used) {
        used = utf8proc_iterate(at, -1, &code);
        if (used < 1)
            break;
        if (code <= 0xFFFF) /* a paper has no others: haru.h */
            mf_buf_printf(out, "%04X", (unsigned)code);
    }
    mf_buf_text(out, ">");
}

/* The children of each element together, in the order read: kid[from[i]] to kid[from[i + 1]]. */
typedef struct family {
    const mf_tag_kid **kid;
    size_t *from;
} family;

static bool gather(family *out, const mf_tags *tags)
{
    out->kid = malloc((tags->n_kid + 1) * sizeof(const mf_tag_kid *));
    out->from = calloc(tags->n + 2, sizeof *out->from);
    if (out->kid == NULL || out->from == NULL)
        return false;
    for (size_t i = 0; i < tags->n_kid; i++)
        out->from[tags->kid[i].of + 2]++;
    for (size_t i = 2; i < tags->n + 2; i++)
        out->from[i] += out->from[i - 1];
    for (size_t i = 0; i < tags->n_kid; i++)
        out->kid[out->from[tags->kid[i].of + 1]++] = &tags->kid[i];
    return true;
}

/* One child: an element, a piece of the element's own page, or of another one. */
static void put_kid(mf_buf *out, const mf_tag_kid *kid, size_t first, int page, const long *page_no)
{
    if (kid->elem >= 0)
        mf_buf_printf(out, " %zu 0 R", first + FIRST_ELEM + (size_t)kid->elem);
    else if (kid->page == page)
        mf_buf_printf(out, " %d", kid->mcid);
    else
        mf_buf_printf(out, " <</Type/MCR/Pg %ld 0 R/MCID %d>>", page_no[kid->page], kid->mcid);
}

static void put_elem(mf_buf *out, const mf_tags *tags, const family *kids, size_t at, size_t first,
                     const long *page_no)
{
    const mf_tag_elem *elem = &tags->elem[at];
    int page = -1;
    for (size_t i = kids->from[at]; i < kids->from[at + 1] && page < 0; i++)
        page = kids->kid[i]->page;
    mf_buf_printf(out, "<</S/%s/P %zu 0 R", names[elem->tag],
                  elem->parent < 0 ? first + ROOT : first + FIRST_ELEM + (size_t)elem->parent);
    if (page >= 0)
        mf_buf_printf(out, "/Pg %ld 0 R", page_no[page]);
    if (elem->text != NULL) {
        mf_buf_text(out, elem->tag == MF_TAG_MARK ? "/ActualText" : "/Alt");
        put_text(out, elem->text);
    }
    if (elem->tag == MF_TAG_TH)
        mf_buf_printf(out, "/A<</O/Table/Scope/Column/ColSpan %d>>", elem->span);
    const size_t n = kids->from[at + 1] - kids->from[at]; /* one alone needs no array */
    if (n > 0)
        mf_buf_text(out, n > 1 ? "/K[" : "/K");
    for (size_t i = kids->from[at]; i < kids->from[at + 1]; i++)
        put_kid(out, kids->kid[i], first, page, page_no);
    if (n > 1)
        mf_buf_text(out, "]");
    mf_buf_text(out, ">>");
}

/* From the pieces of each page, in their order, to their elements: 14.7.4.4. */
static bool put_map(mf_buf *out, const mf_tags *tags, size_t first)
{
    size_t n = 0;
    for (size_t page = 0; page < tags->n_pages; page++)
        n += (size_t)tags->on_page[page];
    size_t *begin = calloc(tags->n_pages + 1, sizeof *begin);
    int *of = calloc(n + 1, sizeof *of);
    if (begin != NULL && of != NULL) {
        for (size_t page = 0; page < tags->n_pages; page++)
            begin[page + 1] = begin[page] + (size_t)tags->on_page[page];
        for (size_t i = 0; i < tags->n_kid; i++)
            if (tags->kid[i].page >= 0)
                of[begin[tags->kid[i].page] + (size_t)tags->kid[i].mcid] = tags->kid[i].of;
        mf_buf_text(out, "<</Nums[");
        for (size_t page = 0; page < tags->n_pages; page++) {
            mf_buf_printf(out, "\n%zu[", page);
            for (size_t i = begin[page]; i < begin[page + 1]; i++)
                mf_buf_printf(out, " %zu 0 R", first + FIRST_ELEM + (size_t)of[i]);
            mf_buf_text(out, "]");
        }
        mf_buf_text(out, "]>>");
    }
    const bool good = begin != NULL && of != NULL;
    free(begin);
    free(of);
    return good;
}

static void begin_object(mf_buf *out, size_t number, size_t *where)
{
    *where = out->len;
    mf_buf_printf(out, "%zu 0 obj\n", number);
}

bool mf_tags_write(mf_buf *out, const mf_tags *tags, const long *page_no, size_t first,
                   size_t *where)
{
    family kids = {NULL, NULL};
    bool good = tags->n == 0 || gather(&kids, tags);
    if (tags->n > 0 && good) {
        begin_object(out, first + ROOT, &where[ROOT]);
        mf_buf_printf(out,
                      "<</Type/StructTreeRoot/K %zu 0 R/ParentTree %zu 0 R/ParentTreeNextKey "
                      "%zu>>\nendobj\n",
                      first + FIRST_ELEM, first + MAP, tags->n_pages);
        begin_object(out, first + MAP, &where[MAP]);
        good = put_map(out, tags, first);
        mf_buf_text(out, "\nendobj\n");
        for (size_t i = 0; i < tags->n; i++) {
            begin_object(out, first + FIRST_ELEM + i, &where[FIRST_ELEM + i]);
            put_elem(out, tags, &kids, i, first, page_no);
            mf_buf_text(out, "\nendobj\n");
        }
    }
    free(kids.kid);
    free(kids.from);
    return good && !out->failed;
}
