/* sigfind.h - finding every signature of a PDF, in two ways.
 *
 * Through the form fields of the newest revision, as a reader does; and by
 * looking for /ByteRange in all bytes, because a later update may have taken a
 * signature out of the fields, and because fields in a damaged file or one with
 * compressed objects cannot be followed. */
#ifndef MF_SEAL_SIGFIND_H
#define MF_SEAL_SIGFIND_H

#include "seal/pdfxref.h"

#include <mistfold/seal.h>

typedef struct mf_sig_found {
    mf_tok dict;    /* the signature dictionary; MF_TOK_BAD when it is broken off */
    bool in_fields; /* a reader shows it */
} mf_sig_found;

typedef struct mf_sig_list {
    mf_sig_found sig[MF_SEAL_MAX];
    int n;
    bool too_many;
    bool fields_known; /* the fields could be followed */
} mf_sig_list;

/* Through the fields only. Sets fields_known. */
void mf_sig_find_fields(mf_sig_list *list, mf_pdf *pdf);
/* By looking through all bytes; adds what the list does not have yet. */
void mf_sig_find_bytes(mf_sig_list *list, mf_pdf_src *src);
/* In the order they were made: each update lies behind the one before. */
void mf_sig_sort(mf_sig_list *list);

#endif
