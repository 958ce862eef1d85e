/* appearance.h - what the widget of a seal draws. Source: ISO 32000-1, 8.10 and 12.5.5. */
#ifndef MF_SEAL_APPEARANCE_H
#define MF_SEAL_APPEARANCE_H

#include "seal/pdfxref.h"

/* Whether what it draws stays in its rectangle in every reader. Readers cut it at its
 * /BBox, when it has one, and fit that into the rectangle: into none at all they do not
 * agree how, so with an empty rectangle the drawing must be empty, too. */
bool mf_appearance_stays(mf_pdf *pdf, mf_tok widget, bool empty);

#endif
