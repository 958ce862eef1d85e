/* pdf_icc.h - the color space of the papers, for their output intent: the primaries and the
 * white of sRGB (IEC 61966-2-1) with a gamma of 2.2, as an ICC profile of version 2. */
#ifndef MF_PAPER_PDF_ICC_H
#define MF_PAPER_PDF_ICC_H

#include "base/mem.h"

/* Appends the profile, some 500 bytes. */
void mf_pdf_icc(mf_buf *out);

#endif
