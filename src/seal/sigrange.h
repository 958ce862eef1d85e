/* sigrange.h - which bytes a signature says it covers, and whether that is so.
 *
 * The only bytes a signature may leave out are its own: the one hex string of
 * its /Contents. Anything else in the gap could be changed unseen.
 * Source: ISO 32000-1, 12.8.1 and Table 252. */
#ifndef MF_SEAL_SIGRANGE_H
#define MF_SEAL_SIGRANGE_H

#include "seal/pdftok.h"

/* Covered are [0, gap_at) and [gap_end, end). The gap holds the hex digits and
 * their angle brackets. */
typedef struct mf_sig_range {
    size_t gap_at, gap_end, end;
} mf_sig_range;

/* False unless /ByteRange is four whole numbers [0 a b c], the gap between a and
 * b is exactly the /Contents of this very dictionary, and all lies in the file. */
bool mf_sig_range_read(mf_pdf_src *src, mf_tok dict, mf_sig_range *out);

/* True when a revision ends at end: "%%EOF" and at most one end of line. */
bool mf_sig_range_at_revision(const mf_pdf_src *src, size_t end);

/* The bytes that the hex digits of the gap spell, of which there are
 * (gap_end - gap_at - 2) / 2. False when one is no hex digit or when small and
 * capital letters are mixed: nobody writes that, and a changed case is a change. */
bool mf_sig_contents(const mf_pdf_src *src, const mf_sig_range *range, unsigned char *out);

#endif
