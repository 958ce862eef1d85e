/* pdfpage.h - the page tree. */
#ifndef MF_SEAL_PDFPAGE_H
#define MF_SEAL_PDFPAGE_H

#include "seal/pdfxref.h"

/* The reference to page n, counted from 1 in reading order. MF_TOK_END when the
 * paper has fewer pages, MF_TOK_BAD when the tree cannot be walked. */
mf_tok mf_pdf_page(mf_pdf *pdf, int n);

/* Called with the dictionary of each page in reading order until it says true: then the
 * answer is the reference to that page. Otherwise as above. */
typedef bool mf_page_wanted(void *user, mf_pdf *pdf, mf_tok page);
mf_tok mf_pdf_page_find(mf_pdf *pdf, mf_page_wanted *wanted, void *user);

#endif
