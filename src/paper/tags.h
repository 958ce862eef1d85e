/* tags.h - the structure of a paper for whoever has it read aloud or taken apart: which text is
 * a heading, which a cell of which row. ISO 32000-1, 14.7 (structure), 14.8 (standard types).
 *
 * The drawing library knows nothing of it: haru.c marks the contents by numbers counted here,
 * and pdf_meta.c puts the tree written here behind the objects of the library. */
#ifndef MF_PAPER_TAGS_H
#define MF_PAPER_TAGS_H

#include "base/mem.h"

typedef enum mf_tag {
    MF_TAG_DOCUMENT, /* the root, which is there without being asked for */
    MF_TAG_SECT,     /* a part that is drawn later than it is read */
    MF_TAG_TABLE,
    MF_TAG_TR,
    MF_TAG_H1, /* from here on: what holds text itself */
    MF_TAG_H2,
    MF_TAG_H3,
    MF_TAG_P,
    MF_TAG_TH,
    MF_TAG_TD,
    MF_TAG_FIGURE,
    MF_TAG_MARK, /* a drawn sign that stands for a character */
    MF_TAG_COUNT
} mf_tag;

typedef struct mf_tag_elem {
    mf_tag tag;
    int parent;       /* -1 = of none */
    const char *text; /* the caller's: said in its place, or instead of the sign; NULL = none */
    int span;         /* TH: columns it is over */
} mf_tag_elem;

/* A child in the order read: another element, or a marked piece of a page. */
typedef struct mf_tag_kid {
    int of, elem, page, mcid; /* elem -1: a piece */
} mf_tag_kid;

typedef struct mf_tags {
    mf_tag_elem *elem;
    mf_tag_kid *kid;
    int *on_page; /* how many pieces each page has */
    size_t n, cap, n_kid, cap_kid, n_pages;
} mf_tags;

/* "TD" */
const char *mf_tag_name(mf_tag tag);
/* A new element, the last child of parent so far; -1 when memory ran out. Without any the
 * document is made first. */
int mf_tags_add(mf_tags *tags, mf_tag tag, int parent, const char *text);
/* The number of a new piece of the page, counted from 0, that belongs to the element; -1 when
 * memory ran out. */
int mf_tags_piece(mf_tags *tags, int elem, int page);
void mf_tags_free(mf_tags *tags);

/* How many objects the tree takes, and its root's and the map's from pages to elements first. */
size_t mf_tags_objects(const mf_tags *tags);
/* Writes them, numbered from first on; where[i] becomes where each begins. page_no: the
 * object of each page. False when memory ran out. */
bool mf_tags_write(mf_buf *out, const mf_tags *tags, const long *page_no, size_t first,
                   size_t *where);

#endif
