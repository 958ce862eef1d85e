/* haru_nav.c - where things lead and what they are: bookmarks, links, language, structure. */
#include "paper/haru_own.h"

#include <stdio.h>

void mf_haru_bookmark(mf_haru *haru, const char *title)
{
    if (!mf_haru_goes_on(haru) || haru->page == NULL)
        return;
    HPDF_Encoder utf8 = HPDF_GetEncoder(haru->doc, "UTF-8");
    HPDF_Outline entry = HPDF_CreateOutline(haru->doc, NULL, title, utf8);
    HPDF_Destination there = HPDF_Page_CreateDestination(haru->page);
    if (entry != NULL && there != NULL)
        mf_haru_check(haru, HPDF_Outline_SetDestination(entry, there));
}

void mf_haru_link(mf_haru *haru, const mf_spot *from, int page, float y)
{
    if (!mf_haru_goes_on(haru) || from->page < 1 || (size_t)from->page > haru->n_pages ||
        page < 1 || (size_t)page > haru->n_pages)
        return;
    HPDF_Destination there = HPDF_Page_CreateDestination(haru->pages[page - 1]);
    const HPDF_Rect box = {from->at.x, haru->size.y - from->at.y - from->size.y,
                           from->at.x + from->size.x, haru->size.y - from->at.y};
    if (there == NULL)
        return;
    mf_haru_check(haru, HPDF_Destination_SetFitH(there, haru->size.y - y));
    HPDF_Annotation link = HPDF_Page_CreateLinkAnnot(haru->pages[from->page - 1], box, there);
    if (link != NULL)
        mf_haru_check(haru, HPDF_LinkAnnot_SetBorderStyle(link, 0, 0, 0));
}

void mf_haru_language(mf_haru *haru, const char *code)
{
    if (!mf_haru_goes_on(haru))
        return;
    haru->language = code;
    HPDF_String text = HPDF_String_New(haru->doc->mmgr, code, NULL);
    if (text != NULL)
        mf_haru_check(haru, HPDF_Dict_Add(haru->doc->catalog, "Lang", text));
    HPDF_Dict how = HPDF_Dict_New(haru->doc->mmgr);
    if (how == NULL)
        return;
    mf_haru_check(haru, HPDF_Dict_AddBoolean(how, "DisplayDocTitle", HPDF_TRUE));
    mf_haru_check(haru, HPDF_Dict_Add(haru->doc->catalog, "ViewerPreferences", how));
}

/* ---- structure ------------------------------------------------------------------------ */

/* The element that is open, or MF_NO_ELEMENT: also where more are open than are kept. */
static int innermost(const mf_haru *haru)
{
    const bool known = haru->n_open > 0 && haru->n_open <= MF_OPEN_MOST;
    return known ? haru->open[haru->n_open - 1] : MF_NO_ELEMENT;
}

static bool is_open(const mf_haru *haru, mf_tag least)
{
    const int elem = innermost(haru);
    return elem >= 0 && haru->tags.elem[elem].tag >= least;
}

/* Whether text may stand in the element that is open. */
static bool holds_text(const mf_haru *haru)
{
    return is_open(haru, MF_TAG_H1);
}

static bool is_drawn(const mf_haru *haru)
{
    return is_open(haru, MF_TAG_FIGURE);
}

static void lacks_memory(mf_haru *haru)
{
    mf_haru_check(haru, HPDF_FAILD_TO_ALLOC_MEM);
}

static void push(mf_haru *haru, int elem)
{
    if (haru->n_open < MF_OPEN_MOST)
        haru->open[haru->n_open] = elem;
    haru->n_open++;
}

int mf_haru_begin(mf_haru *haru, mf_tag tag, const char *text)
{
    const int parent = innermost(haru);
    const bool inside = holds_text(haru) && (tag < MF_TAG_MARK || is_drawn(haru));
    const bool own = !inside && !haru->edge; /* what nobody reads is no element */
    const int elem = own ? mf_tags_add(&haru->tags, tag, parent, text) : parent;
    if (own && elem < 0)
        lacks_memory(haru);
    push(haru, elem);
    return elem;
}

void mf_haru_again(mf_haru *haru, int elem)
{
    push(haru, elem);
}

void mf_haru_end(mf_haru *haru)
{
    if (haru->n_open > 0)
        haru->n_open--;
}

void mf_haru_span(mf_haru *haru, int elem, int columns)
{
    if (elem >= 0)
        haru->tags.elem[elem].span = columns;
}

void mf_haru_edge(mf_haru *haru, bool edge)
{
    haru->edge = edge;
}

static void write(mf_haru *haru, HPDF_Page page, const char *text)
{
    if (mf_haru_goes_on(haru) && page != NULL)
        mf_haru_check(haru, HPDF_Stream_WriteStr(((HPDF_PageAttr)page->attr)->stream, text));
}

void mf_haru_mark_end(mf_haru *haru)
{
    if (haru->mark_page != NULL)
        write(haru, haru->mark_page, "EMC\n");
    haru->mark_page = NULL;
}

static int page_index(const mf_haru *haru)
{
    for (size_t i = haru->n_pages; i > 0; i--)
        if (haru->pages[i - 1] == haru->page)
            return (int)i - 1;
    return 0;
}

static void mark(mf_haru *haru, int elem)
{
    char text[64] = "/Artifact BMC\n";
    if (haru->mark_page == haru->page && haru->mark == elem)
        return;
    mf_haru_mark_end(haru);
    if (elem >= 0) {
        int mcid = mf_tags_piece(&haru->tags, elem, page_index(haru));
        if (mcid < 0)
            lacks_memory(haru);
        snprintf(text, sizeof text, "/%s <</MCID %d>> BDC\n",
                 mf_tag_name(haru->tags.elem[elem].tag), mcid);
    }
    write(haru, haru->page, text);
    haru->mark_page = haru->page;
    haru->mark = elem;
}

void mf_haru_mark_text(mf_haru *haru)
{
    if (haru->edge || haru->n_open > MF_OPEN_MOST) {
        mark(haru, MF_NO_ELEMENT);
        return;
    }
    const bool own = !holds_text(haru);
    if (own)
        mf_haru_begin(haru, MF_TAG_P, NULL);
    mark(haru, innermost(haru));
    if (own)
        mf_haru_end(haru);
}

void mf_haru_mark_lines(mf_haru *haru)
{
    mark(haru, !haru->edge && is_drawn(haru) ? innermost(haru) : MF_NO_ELEMENT);
}
