/* since.h - whether an update of a paper did no more than add a seal.
 *
 * A later seal covers whatever its maker did to the paper before sealing: words put
 * over others, a hidden page shown, an object that the first seal left dangling filled
 * in. All of it is under a good seal, of another key, and a reader shows it as sealed.
 * So the two revisions are laid side by side. Of what was there an update for a seal
 * changes the list of form fields and the annotations of a page, to which it adds
 * seals. Signing programs that do more, which is rare, are told as a change.
 * Source: ISO 32000-1, 7.5.6, 12.7 and 12.8. */
#ifndef MF_SEAL_SINCE_H
#define MF_SEAL_SINCE_H

#include "seal/pdfxref.h"

/* True when the revision that is newer shows all that older shows, and seals besides.
 * Both are of one file: older reads its first bytes. */
bool mf_since_only_seals(mf_pdf *older, mf_pdf *newer);

#endif
