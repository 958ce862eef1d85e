/* update.h - the incremental update that adds one signature to a PDF.
 *
 * Nothing of the old bytes changes; new versions of the catalog and of one page
 * are appended with the signature's field, its empty look and the signature
 * itself. Source: ISO 32000-1, 7.5.6, 12.7 and 12.8. */
#ifndef MF_SEAL_UPDATE_H
#define MF_SEAL_UPDATE_H

#include "base/mem.h"
#include "seal/pdfxref.h"
#include "seal/sigrange.h"

#include <mistfold/seal.h>

/* The new file, whole, with zeros for the signature. */
typedef struct mf_update {
    mf_buf file;
    mf_sig_range range; /* what the signature is to cover; its gap is the room for it */
} mf_update;

/* earlier is the number of signatures the paper has already. Fails MF_INPUT when
 * the paper's objects cannot be followed, MF_USAGE when the place or the date
 * cannot be, MF_SYSTEM when memory ran out. Free out->file always. */
mf_status mf_update_build(mf_update *out, mf_pdf *pdf, const mf_seal_ask *ask, int earlier,
                          mf_err *err);

/* Puts the signature where the zeros are. Fails MF_SYSTEM when it is too long. */
mf_status mf_update_fill(mf_update *update, const mf_bytes *cms, mf_err *err);

#endif
