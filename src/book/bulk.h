/* bulk.h - many entries of one kind, written as mf_put_entry would write them one by
 * one: the same lines, hashes and rows, by few statements. For new entries that
 * nothing in the book refers to yet; whoever adds has checked what they say. */
#ifndef MF_BOOK_BULK_H
#define MF_BOOK_BULK_H

#include "book/room.h"

#define MF_BULK_FIELDS 64

/* What a field says: its canonical JSON. A text has no escapes in it. */
typedef struct mf_value {
    const char *json; /* NULL = not given; not ended by a NUL */
    size_t len;
    int64_t number; /* of what is no text */
    bool is_number;
} mf_value;

typedef struct mf_bulk mf_bulk;

/* Inside the open group. *out is NULL, with MF_OK, when entries of this kind, or in
 * this book, must be written one by one. */
mf_status mf_bulk_open(mf_bulk **out, mf_book *book, const mf_kind *kind, const char *job,
                       const mf_now *now, mf_err *err);
void mf_bulk_free(mf_bulk *bulk);

/* Adds an entry with a value for each field of the kind, in their order; *seq is its
 * number in our chain. *taken is false, and nothing added, when it is too long. */
mf_status mf_bulk_add(mf_bulk *bulk, const mf_value *values, int64_t *seq, bool *taken,
                      mf_err *err);

/* Writes what was added and not yet written. */
mf_status mf_bulk_flush(mf_bulk *bulk, mf_err *err);

/* Somebody else has written to our chain, after a flush. */
void mf_bulk_moved(mf_bulk *bulk);

#endif
