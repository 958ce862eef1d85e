/* mistfold/device.h - each device signs its chain.
 *
 * The private key (Ed25519, RFC 8032) is a file beside the book, BOOK.DEVICE.key, readable by
 * its owner alone; it is never in the book, and goes into no copy, backup or merge. The public
 * key is an entry of the device's own chain, of kind device_key. Whoever writes then signs the
 * head of that chain, once for each group of entries:
 *
 *   "mistfold chain\n" device "\n" seq "\n" hash "\n"
 *
 * The hash covers every entry before. meta keeps the newest signature of each key under
 * "signed DEVICE KEY", as "seq hash signature"; older ones would only serve who wants to cut
 * the chain off there.
 */
#ifndef MISTFOLD_DEVICE_H
#define MISTFOLD_DEVICE_H

#include <mistfold/book.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Makes a key for the device of the book, in a new file beside it (mode 0600), and logs it;
 * the chain is signed from then on. reason: "" for the first, needed when the chain names one
 * already, which was lost: a file that stands there all the same is kept as BOOK.DEVICE.key.old.
 * Fails MF_INPUT when the file exists and no reason is given, or that name is taken, too. */
MF_API mf_status mf_book_key_make(mf_book *book, const char *reason, const mf_now *now,
                                  char id[MF_ENTRY_ID], mf_err *err);

/* The same for the book at path that mf_book_copy wrote: it stays one plain file. now->who NULL
 * = the device itself. */
MF_API mf_status mf_book_copy_key(const char *path, const mf_now *now, mf_err *err);

/* Every device in the order of names, with the key that its chain names last: entry and key
 * are "" of one that does not sign. Whether the signatures hold is for mf_book_check. */
typedef bool mf_device_fn(const char *device, const char *entry, const char *key, void *data);
MF_API mf_status mf_book_devices(mf_book *book, mf_device_fn *fn, void *data, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
