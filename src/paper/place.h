/* place.h - where things were drawn, and what leads to them. */
#ifndef MF_PAPER_PLACE_H
#define MF_PAPER_PLACE_H

#include "paper/page.h"

/* Adds the cursor's place; name must live as long as the page's arena. */
void mf_place_add(mf_page *page, mf_anchors *list, const char *name);
/* Makes the links; what leads nowhere is left out. */
void mf_place_links(mf_page *page);

#endif
