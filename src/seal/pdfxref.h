/* pdfxref.h - finding the objects of a PDF that has a classic cross-reference
 * table, newest revision first. Reads only; trusts no offset and no count.
 * Source: ISO 32000-1, 7.5. */
#ifndef MF_SEAL_PDFXREF_H
#define MF_SEAL_PDFXREF_H

#include "seal/pdftok.h"

#include <mistfold/err.h>

/* Larger files are refused: a paper is some pages. */
#define MF_PDF_MAX ((size_t)1 << 30)

typedef struct mf_xref_entry {
    int64_t num, gen;
    size_t offset;
    size_t order; /* 0 is the newest: the first of a number counts */
    int section;  /* of the table, 0 is the newest */
    bool used;
} mf_xref_entry;

typedef struct mf_pdf {
    mf_pdf_src src;
    mf_xref_entry *entry; /* sorted by number, newest first */
    size_t n, cap;
    int sections;     /* read so far */
    size_t startxref; /* where the newest cross-reference section begins */
    mf_tok trailer;   /* the newest trailer's dictionary */
    mf_tok root;      /* the reference to the catalog */
    int64_t next_num; /* the first object number that nothing uses */
} mf_pdf;

/* True when the bytes say that they are a PDF. */
bool mf_pdf_is(const unsigned char *data, size_t len);

/* Fails MF_INPUT when the bytes are no PDF or its objects cannot be found,
 * MF_SYSTEM when memory ran out. data must outlive *out. Close it always. */
mf_status mf_pdf_open(mf_pdf *out, const unsigned char *data, size_t len, mf_err *err);
void mf_pdf_close(mf_pdf *pdf);

/* Where the newest object of that number is; NULL when none is in use. */
const mf_xref_entry *mf_pdf_entry(const mf_pdf *pdf, int64_t num);
/* The value of an object; MF_TOK_BAD when there is none. */
mf_tok mf_pdf_object(mf_pdf *pdf, mf_tok ref);
/* The value itself, or what the reference leads to. */
mf_tok mf_pdf_resolve(mf_pdf *pdf, mf_tok val);
/* mf_dict_get and mf_pdf_resolve in one. */
mf_tok mf_pdf_get(mf_pdf *pdf, mf_tok dict, const char *key);

#endif
