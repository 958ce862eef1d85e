/* signed.h - the signatures of the chains (mistfold/device.h). */
#ifndef MF_BOOK_SIGNED_H
#define MF_BOOK_SIGNED_H

#include "book/check.h"
#include "book/schema.h"

/* Signs the end of our chain when the open group added to it and the chain names a key.
 * MF_INPUT when the key is not beside the book: nothing may be written then. */
mf_status mf_sign_end(mf_book *book, mf_err *err);

/* After what was written was taken back. */
void mf_sign_forget(mf_book *book);

/* device_key.c: has book->signer be the private key of that public one. */
mf_status mf_device_key_open(mf_book *book, const char *key, mf_err *err);

/* Counts a fault for each chain that names a key and is not signed by it, and for each
 * signature that no entry names. */
mf_status mf_check_signed(mf_checker *c, mf_err *err);

/* Takes over the signatures of another book that reach further than ours. */
mf_status mf_signed_merge(mf_book *book, mf_db *other, mf_err *err);

/* How far our own chain went, and is not here, as the signature of our key in another book says;
 * *seq 0 = no further, or none. */
mf_status mf_signed_ahead(mf_book *book, mf_db *other, int64_t *seq, char hash[MF_HASH_HEX],
                          mf_err *err);

/* Whether our chain, when it names a key, is signed to its end. */
mf_status mf_own_is_signed(mf_book *book, bool *good, mf_err *err);

/* The key that the chain of a device names last; "" = none. */
mf_status mf_last_key(mf_db *db, const char *device, char key[MF_SIGN_KEY_HEX], mf_err *err);

#endif
