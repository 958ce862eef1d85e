/* sigfield.h - the form field and the widget of a signature.
 * Source: ISO 32000-1, 12.5.6.19 and 12.7.3. */
#ifndef MF_SEAL_SIGFIELD_H
#define MF_SEAL_SIGFIELD_H

#include "seal/pdfxref.h"

#include <mistfold/seal.h>

/* What a field has of its own, or else of its parent. */
mf_tok mf_field_get(mf_pdf *pdf, mf_tok field, const char *key);

/* Whether its signature covers all bytes of this revision but its own: the last one. */
bool mf_field_is_last(mf_pdf *pdf, mf_tok field);

/* The rectangle in which the last signature of a revision is drawn; page 0 when on none
 * or when nothing is drawn. False when that cannot be told: it is on several
 * pages, it keeps its size when the page is made smaller on the screen, or is written
 * as readers may not agree about. *bound: what is drawn stays in the rectangle. */
bool mf_field_place(mf_seal_place *out, bool *bound, mf_pdf *pdf);

#endif
