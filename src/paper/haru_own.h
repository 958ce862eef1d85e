/* haru_own.h - what the files that see the PDF library share: haru.c draws, haru_nav.c says
 * where things lead and what they are. */
#ifndef MF_PAPER_HARU_OWN_H
#define MF_PAPER_HARU_OWN_H

#include "paper/glyf.h"
#include "paper/haru.h"
#include "paper/haru_memory.h"
#include "paper/tags.h"

#include <hpdf.h>

enum { MF_OPEN_MOST = 12, MF_NO_ELEMENT = -1 };

struct mf_haru {
    HPDF_Doc doc;
    mf_haru_memory memory;
    HPDF_Font font[MF_FACE_COUNT];
    HPDF_FontDef glyphs[MF_FACE_COUNT];
    mf_glyf outlines[MF_FACE_COUNT];
    uint16_t *known[MF_FACE_COUNT]; /* by code: width + KNOWN, and whether it is fit */
    mf_point size;                  /* of a page */
    HPDF_Page *pages;
    size_t n_pages;
    HPDF_Page page;
    HPDF_Page fill_page; /* where fill is the color that was set last */
    mf_ink fill;
    HPDF_STATUS code, detail; /* the library's first error */
    bool failed;
    mf_err err;           /* the caller's own first failure */
    const char *title;    /* the caller's */
    const char *language; /* the caller's; NULL = not said */
    mf_tags tags;
    int open[MF_OPEN_MOST]; /* the elements that are open, the innermost last */
    int n_open;
    bool edge;           /* what is drawn is of the sheet, not of the text */
    HPDF_Page mark_page; /* where a piece is open */
    int mark;            /* its element, or MF_NO_ELEMENT */
};

/* Every call's result passes here: some return a code without calling back. */
void mf_haru_check(mf_haru *haru, HPDF_STATUS code);
/* Before every call of the library: whether one is still to be made. */
bool mf_haru_goes_on(mf_haru *haru);
/* Before whatever is drawn: opens the piece of contents it belongs to. Text always belongs to
 * an element, lines only to a figure or a mark; the rest is of the sheet. */
void mf_haru_mark_text(mf_haru *haru);
void mf_haru_mark_lines(mf_haru *haru);
/* Ends the piece that is open; before the document is saved. */
void mf_haru_mark_end(mf_haru *haru);

#endif
