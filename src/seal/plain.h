/* plain.h - whether the bytes of an update hold what its cross-reference table names
 * and nothing besides.
 *
 * Readers disagree about an update that is not written as it should be. One that does
 * not find the table, because startxref is written oddly, looks through all bytes for
 * objects and takes the last of each number: then an object that no table names shows
 * instead of the sealed one. Another goes by the 20 bytes that a line of the table
 * has, or by the /Size of the trailer. So the update of a seal has to be plain.
 * Source: ISO 32000-1, 7.5.4 to 7.5.6 and 7.6.1. */
#ifndef MF_SEAL_PLAIN_H
#define MF_SEAL_PLAIN_H

#include "seal/pdfxref.h"

/* Both are of one file: older reads its first bytes. */
bool mf_plain_update(mf_pdf *older, mf_pdf *newer);

#endif
