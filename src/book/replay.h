/* replay.h - the heads that a book had, one after the other. */
#ifndef MF_BOOK_REPLAY_H
#define MF_BOOK_REPLAY_H

#include "book/room.h"

/* A head that is looked for, and the row of the journal with which the book first had it;
 * 0 = it never did, in the order in which its entries came in. */
typedef struct mf_wanted {
    char head[MF_HASH_HEX];
    int64_t had, of; /* of: the caller's */
} mf_wanted;

/* Sorts the heads and looks for all of them in one go through the journal. */
mf_status mf_replay(mf_db *db, mf_wanted *list, size_t n, mf_err *err);

/* The head over entries that are named in text, "office/413 truck/20", each with the hash
 * that it has in the book. *found is how they stand: MF_OK, MF_NO when one is not here (its
 * name is in missing), MF_INPUT when the text is no such list. */
mf_status mf_chains_head(mf_db *db, const char *text, char out[MF_HASH_HEX], mf_status *found,
                         char missing[MF_ENTRY_ID], mf_err *err);

#endif
