/* pdfbox.h - a rectangle of a PDF. Source: ISO 32000-1, 7.9.5. */
#ifndef MF_SEAL_PDFBOX_H
#define MF_SEAL_PDFBOX_H

#include "seal/pdftok.h"

#include <mistfold/seal.h>

/* Reads an array of four numbers that stand in it as such, two corners in any order; page
 * is left as it is. False when it is something else. */
bool mf_pdf_box(mf_pdf_src *src, mf_tok array, mf_seal_place *out);

#endif
