/* pdf_meta.h - what a paper says of itself to programs: XMP metadata (ISO 16684-1), an output
 * intent, a document id, PDF 1.7. The drawing library writes none of it. */
#ifndef MF_PAPER_PDF_META_H
#define MF_PAPER_PDF_META_H

#include "paper/tags.h"

#include <mistfold/err.h>

typedef struct mf_pdf_meta {
    const char *title;    /* UTF-8, as in the document's information */
    const char *language; /* "en"; "" = not said */
    const mf_tags *tags;  /* the structure of the contents */
    const long *page_no;  /* the object of each page */
} mf_pdf_meta;

/* Rewrites a PDF as the drawing library made it: one revision, a classic table, the catalog as
 * object 1. The id comes from a hash of the bytes and the metadata: the same paper has the same
 * one. MF_SYSTEM when the bytes are not such a PDF; pdf is then unchanged. */
mf_status mf_pdf_meta_add(mf_bytes *pdf, const mf_pdf_meta *meta, mf_err *err);

#endif
