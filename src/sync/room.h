/* room.h - one meeting at a store, while it goes on. */
#ifndef MF_SYNC_ROOM_H
#define MF_SYNC_ROOM_H

#include "base/mem.h"
#include <mistfold/sync.h>

enum { MF_SYNC_NAME = 160 };

/* A segment that stands in the store. */
typedef struct mf_sync_segment {
    mf_sync_item item;
    char sha256[MF_HASH_HEX]; /* of its text, by its name */
    int64_t size, stamp;
    bool mine;          /* this device wrote it */
    mf_bytes text;      /* as it was read, or empty: then it is read again when it comes in */
    mf_segment s;       /* of one that was not read only its end is known */
    bool settled;       /* nothing more is to be done with it */
    bool bytes_lacking; /* of attachments */
    bool behind;        /* it goes on from one that was refused */
    bool foreign;       /* of our chain, which is signed, by nobody whose key the book knows */
} mf_sync_segment;

/* Bytes of an attachment that stand in the store; several may have one SHA-256. */
typedef struct mf_sync_content {
    char name[MF_SYNC_NAME], sha256[MF_HASH_HEX];
    int64_t size, stamp;
    bool damaged, known; /* known: it was whole when it was read, an earlier time */
} mf_sync_content;

/* A chain as a store that keeps entries says it has it. */
typedef struct mf_sync_end {
    mf_segment_head is;
    bool agreed; /* the book has just that entry */
} mf_sync_end;

typedef struct mf_sync_run {
    const mf_sync_ask *ask;
    mf_sync_report *out;
    mf_buf accepted; /* heads of devices, a line each */
    mf_err why;      /* what a callback that returns no status ran into */
    mf_sync_segment *seg;
    size_t n_seg, cap_seg;
    size_t kept;          /* bytes of their texts */
    mf_sync_content *con; /* in the order of SHA-256 */
    size_t n_con, cap_con, cap_items, cap_chains;
    mf_sync_end *end; /* none of a store of texts alone */
    size_t n_end, cap_end;
} mf_sync_run;

/* A line of what is known of a store: a file of it, or the end of a chain. */
typedef struct mf_sync_memory {
    char name[MF_SYNC_NAME], hash[MF_HASH_HEX];
    int64_t size, stamp; /* of the end of a chain: its number, and 0 */
} mf_sync_memory;

/* found.c: what stands in the store, each file whole or named as damaged. */
mf_status mf_sync_find(mf_sync_run *r, mf_err *err);
/* What is known of it now, for the next time. */
mf_status mf_sync_remember(const mf_sync_run *r, mf_bytes *out, mf_err *err);
/* The bytes under that name, of which the SHA-256 was compared; *good false and MF_OK when they
 * are others. */
mf_status mf_sync_text(const mf_sync_run *r, const char *name, const char *sha256, mf_bytes *out,
                       bool *good, mf_err *err);
/* Whether whole bytes of that SHA-256 stand in the store. */
bool mf_sync_is_there(const mf_sync_run *r, const char *sha256);
/* Whether everything that stands there is looked at, what was seen before, too. */
bool mf_sync_reads_all(const mf_sync_run *r);
/* Says of a file or a chain that it was there. */
void mf_sync_say_gone(mf_sync_item *it);
/* What came of a call that called back: its own status, or r->why, which is told and forgotten. */
mf_status mf_sync_called(mf_sync_run *r, mf_status status, mf_err *err);
/* Notes something for the report; NULL = memory ran out. */
mf_sync_item *mf_sync_note(mf_sync_run *r, mf_sync_state state, const char *name);

/* ends.c: of a store that keeps entries: how far it says it has each chain. */
bool mf_sync_keeps_entries(const mf_sync_run *r);
/* The listener's chain; data is the run, whose why it fills. */
int64_t mf_sync_end_told(const char *device, int64_t seq, const char *hash, void *data);
const mf_sync_end *mf_sync_end_of(const mf_sync_run *r, const char *device);
/* Whether the book agrees with each by now. */
mf_status mf_sync_ends_agree(mf_sync_run *r, mf_err *err);
/* An end that was seen at an earlier time: whether the chain stands there yet, and tells when it
 * is shorter. False in *is_end when the line is of a file. */
mf_status mf_sync_end_recall(mf_sync_run *r, const mf_sync_memory *m, bool *is_end, bool *stands,
                             mf_err *err);
mf_status mf_sync_ends_remember(const mf_sync_run *r, mf_buf *out, mf_err *err);
/* Tells of a chain of which the store says that it has more than it handed out. */
mf_status mf_sync_ends_withheld(mf_sync_run *r, mf_err *err);
/* Which of these attachments such a store has, in there. */
mf_status mf_sync_contents_there(const mf_sync_run *r, const char (*sha256)[MF_HASH_HEX], size_t n,
                                 bool *there, mf_err *err);

/* pull.c: takes over what fits. */
mf_status mf_sync_take_over(mf_sync_run *r, mf_err *err);
/* The hash of an entry of the book; "" = there is none. */
mf_status mf_sync_hash(mf_book *book, const char *device, int64_t seq, char out[MF_HASH_HEX],
                       mf_err *err);

/* wait.c: why a segment cannot come in yet, in its item; state HERE = it can. */
mf_status mf_sync_wait(mf_sync_run *r, mf_sync_segment *it, mf_err *err);
/* Whether it is the device of the book. */
bool mf_sync_is_own(const mf_sync_run *r, const char *device);
/* Whether our chain is here, with these, as far as the store tells of it. Before that nothing is
 * adopted: why is logged behind our last entry, under the number of the next one there. */
mf_status mf_sync_own_whole(mf_sync_run *r, mf_sync_segment *const *set, size_t n, bool *whole,
                            mf_err *err);
/* Has a segment of ours wait for the rest of our chain. */
mf_status mf_sync_hold(mf_sync_run *r, mf_sync_segment *it, mf_err *err);
/* Of one that is foreign, and was refused: whose it may be. */
void mf_sync_say_foreign(mf_sync_item *it);
/* Notes in the book how far our chain went elsewhere, when that is not here; where nothing is left
 * over takes back what was noted by hearsay. */
mf_status mf_sync_note_ahead(mf_sync_run *r, mf_err *err);
/* The segments, or our own of them, that wait for nothing but each other, or for one that was
 * refused; with NULL = for none. *n of them, which the caller frees. */
mf_status mf_sync_circle(mf_sync_run *r, bool own, const mf_sync_segment *with,
                         mf_sync_segment ***out, size_t *n, mf_err *err);

/* accept.c: notes the heads of devices that were accepted. */
mf_status mf_sync_accept(mf_sync_run *r, mf_err *err);

/* push.c: whether the store has another history of a chain, or more of it. Of a chain that is not
 * ours only a store that keeps entries tells. */
bool mf_sync_is_contradicted(const mf_sync_run *r, const char *device);
/* Writes what the store lacks. */
mf_status mf_sync_hand_out(mf_sync_run *r, mf_err *err);

#endif
