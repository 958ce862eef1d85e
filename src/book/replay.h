/* replay.h - the ends of chains, and the heads over them (mistfold/heads.h). */
#ifndef MF_BOOK_REPLAY_H
#define MF_BOOK_REPLAY_H

#include "base/mem.h"
#include "book/room.h"
#include <mistfold/heads.h>
#include <mistfold/record.h>

/* Heads that are held against the book in one go. Zero-initialize to start. */
typedef struct mf_heads_seen {
    mf_head_seen *at;
    size_t n, cap;
    mf_arena arena; /* of its texts */
} mf_heads_seen;

/* Adds one, with copies of the texts. */
mf_status mf_heads_seen_add(mf_heads_seen *heads, const mf_head_seen *seen, mf_err *err);
void mf_heads_seen_free(mf_heads_seen *heads);

/* "office/415 HASH" of mf_head_seen.heads; the hash may lack. */
typedef struct mf_piece {
    char id[MF_ENTRY_ID], device[MF_DEVICE_MAX + 1], hash[MF_HASH_HEX];
    int64_t seq;
} mf_piece;
/* Takes the next one off the text; false when what comes is no entry. */
bool mf_piece_next(mf_piece *piece, const char **text);

/* "office/415 HASH, truck/20 HASH" of chains, in the arena; NULL when memory ran out. */
const char *mf_links_text(mf_arena *arena, const mf_link *chains, size_t n);

#endif
