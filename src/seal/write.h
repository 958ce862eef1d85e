/* write.h - an incremental update of a PDF: new versions of objects after the old
 * bytes, with their cross-reference table and trailer. Nothing of the old bytes
 * changes. Source: ISO 32000-1, 7.5.6. */
#ifndef MF_SEAL_WRITE_H
#define MF_SEAL_WRITE_H

#include "base/mem.h"
#include "seal/pdfxref.h"

enum { MF_WRITE_OBJECTS = 6 };

/* One object of the update and where it was written. */
typedef struct mf_placed {
    int64_t num, gen;
    size_t offset;
} mf_placed;

typedef struct mf_writer {
    mf_buf *out;
    mf_pdf *pdf;
    mf_placed obj[MF_WRITE_OBJECTS];
    int n;
} mf_writer;

/* The old bytes, ended by a line break. */
void mf_write_old(mf_writer *w);
void mf_write_begin(mf_writer *w, int64_t num, int64_t gen);
void mf_write_end(mf_writer *w);
/* Copies the entries of a dictionary, but for the keys that are written anew. */
void mf_write_entries(mf_writer *w, mf_tok dict, const char *skip, const char *skip_too);
/* The old elements of an array and one reference more. */
void mf_write_grown(mf_writer *w, mf_tok array, int64_t num);
/* Hundredths of a point. */
void mf_write_number(mf_buf *out, float number);
/* The table and the trailer; size: the first object number that nothing uses. */
void mf_write_tail(mf_writer *w, int64_t size);

/* MF_INPUT: what of the paper cannot be followed. */
mf_status mf_write_not_followed(mf_err *err, const char *what);
/* An absent or a null entry is no array; anything else that is none is refused. */
bool mf_write_array_or_none(mf_pdf *pdf, mf_tok val);

#endif
