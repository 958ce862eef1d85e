#include "paper/place.h"

#include <stdlib.h>
#include <string.h>

/* Room for one more of size bytes each; lists double, so that the arena holds at
 * most twice what is used. NULL = out of memory. */
static void *grown(mf_page *page, void *old, size_t n, size_t *cap, size_t size)
{
    if (n < *cap)
        return old;
    size_t wider = *cap == 0 ? 64 : *cap * 2;
    void *list = mf_arena_alloc(page->arena, wider * size);
    if (list == NULL) {
        mf_page_no_memory(page);
        return NULL;
    }
    if (n > 0)
        memcpy(list, old, n * size);
    *cap = wider;
    return list;
}

void mf_place_add(mf_page *page, mf_anchors *list, const char *name)
{
    mf_anchor *at = grown(page, list->at, list->n, &list->cap, sizeof *at);
    if (at == NULL)
        return;
    list->at = at;
    at[list->n++] = (mf_anchor){name, page->n_pages, page->y};
}

void mf_page_anchor(mf_page *page, const char *name)
{
    if (name != NULL && *name != '\0')
        mf_place_add(page, &page->anchors, name);
}

void mf_page_link(mf_page *page, mf_point at, mf_point size, const char *to)
{
    if (to == NULL || *to == '\0')
        return;
    mf_link *list = grown(page, page->links.at, page->links.n, &page->links.cap, sizeof *list);
    if (list == NULL)
        return;
    page->links.at = list;
    list[page->links.n++] = (mf_link){{page->n_pages, at, size}, to};
}

/* By name, then in the order drawn. */
static int compare(const void *left, const void *right)
{
    const mf_anchor *a = left;
    const mf_anchor *b = right;
    int order = strcmp(a->name, b->name);
    if (order != 0)
        return order;
    if (a->page != b->page)
        return a->page < b->page ? -1 : 1;
    return a->y < b->y ? -1 : a->y > b->y;
}

/* NULL when nothing of that name was drawn. */
static const mf_anchor *find_place(const mf_page *page, const char *name)
{
    size_t low = 0;
    size_t high = page->anchors.n;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(page->anchors.at[middle].name, name) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    bool found = low < page->anchors.n && strcmp(page->anchors.at[low].name, name) == 0;
    return found ? &page->anchors.at[low] : NULL;
}

void mf_place_links(mf_page *page)
{
    if (page->anchors.n > 0)
        qsort(page->anchors.at, page->anchors.n, sizeof *page->anchors.at, compare);
    for (size_t i = 0; i < page->links.n; i++) {
        const mf_link *link = &page->links.at[i];
        const mf_anchor *to = find_place(page, link->to);
        if (to != NULL)
            mf_haru_link(page->haru, &link->spot, to->page, to->y - 12);
    }
}
