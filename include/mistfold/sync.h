/* mistfold/sync.h - many devices meet at one place: each hands out its chain there as segments
 * (mistfold/segment.h), and takes over what the others handed out.
 *
 * A store keeps whole texts under names, DEVICE/FILE: DEVICE is who wrote it, which is the only
 * one that ever does. FILE is
 *   CHAIN.FROM-TO.SHA256.entries   a segment
 *   SHA256.bytes                   the bytes of an attachment
 * with the SHA-256 of the file itself, so that a torn or altered one shows by its name. Nothing
 * is believed of a store: it may deliver late, twice, out of order, or lie.
 */
#ifndef MISTFOLD_SYNC_H
#define MISTFOLD_SYNC_H

#include <mistfold/segment.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- a store --------------------------------------------------------------------------- */

typedef struct mf_store_item {
    const char *name;    /* DEVICE/FILE; another form = something that is none of ours */
    int64_t size, stamp; /* bytes; a number that changes with the text, as a time does */
} mf_store_item;
/* Return false to stop. */
typedef bool mf_store_fn(const mf_store_item *item, void *data);

typedef struct mf_store {
    mf_status (*list)(void *data, mf_store_fn *fn, void *to, mf_err *err);
    /* MF_INPUT when there is no such text; the caller frees *out. */
    mf_status (*read)(void *data, const char *name, mf_bytes *out, mf_err *err);
    /* Whole or not at all, kept when it returns. */
    mf_status (*write)(void *data, const char *name, const void *bytes, size_t len, mf_err *err);
    /* Takes away a text of one's own that is torn. */
    mf_status (*drop)(void *data, const char *name, mf_err *err);
    /* Takes away what this device left half written in it. */
    void (*sweep)(void *data, const char *device);
    void (*close)(void *data);
    void *data;
    char name[160]; /* for messages */
} mf_store;

/* A folder, on whatever disk. MF_INPUT when it is none. */
MF_API mf_status mf_store_folder(mf_store *out, const char *path, mf_err *err);
/* Accepts one of zeros. */
MF_API void mf_store_close(mf_store *store);

/* ---- meeting there ----------------------------------------------------------------------- */

typedef enum mf_sync_state {
    MF_SYNC_HERE,     /* the book has it */
    MF_SYNC_CAME,     /* it came in now; what says so when a clock is wrong */
    MF_SYNC_SENT,     /* it was written now */
    MF_SYNC_WAITS,    /* for what has not arrived: what says for which */
    MF_SYNC_NEW,      /* of a device that is new here or does not sign, which nobody vouched for or
                         accepted */
    MF_SYNC_FORKED,   /* two histories of one device: what names both */
    MF_SYNC_REFUSED,  /* by a check of a merge */
    MF_SYNC_DAMAGED,  /* it is not what its name says */
    MF_SYNC_NEEDLESS, /* damaged, and all of it is here or beside it */
    MF_SYNC_GONE,     /* it stood there at an earlier time */
    MF_SYNC_STRANGE   /* no file of ours */
} mf_sync_state;

typedef struct mf_sync_item {
    mf_sync_state state;
    char name[160];   /* in the store */
    char device[17];  /* "" = bytes of an attachment, or none of ours */
    int64_t from, to; /* of a segment */
    char what[320], why[320], mend[320];
} mf_sync_item;

/* A chain: how far it is in the book, and in whole segments of the store that the book agrees
 * with. 0 = nothing of it. */
typedef struct mf_sync_chain {
    char device[17];
    int64_t here, there;
} mf_sync_chain;

typedef struct mf_sync_report {
    mf_sync_item *items; /* but for those that were here before */
    size_t n_items;
    mf_sync_chain *chains;
    size_t n_chains;
    mf_merge_report merged; /* of all that came in */
    int64_t sent;           /* entries */
    int64_t contents_sent;
} mf_sync_report;

typedef enum mf_sync_way {
    MF_SYNC_DO,
    MF_SYNC_TRY,  /* everything is checked and nothing written, here or there, but for the note that
                     this device went on elsewhere (mf_book_note_ahead) */
    MF_SYNC_STATE /* the same, and every file is read anew */
} mf_sync_way;

typedef struct mf_sync_ask {
    mf_book *book;
    const mf_store *store;
    mf_sync_way way;
    const mf_now *now; /* who may be NULL when nothing is accepted or adopted */
    /* Names of devices, parted by commas, that may be new. Their heads are noted (heads.h), so
     * that every device which takes over this chain accepts them, too. "" = none. */
    const char *accept;
    bool refill; /* the store may be empty though it was not before */
    /* Why what contradicts a key, a noted head or this very device is taken over, as for
     * mf_book_merge; what is under this device's own name comes in all at once, or waits. NULL =
     * it is refused. */
    const mf_adopt *adopt;
    const mf_watch *watch;
    const char *seen; /* what an earlier call wrote to seen of this store; "" = nothing */
} mf_sync_ask;

/* Takes over from the store what fits, then writes there what it lacks of the book: also
 * other devices' chains, under the name of this device. What is torn, altered or contradicts the
 * book is named and left, what waits is told; the rest comes in all the same, in the order in
 * which one builds on the other, each piece whole or not at all. So a call that was ended
 * anywhere is made again. MF_OK also when something was left: mf_sync_answer says so. seen is
 * what to keep for the next call (the caller frees it). MF_INPUT when the store cannot be
 * met, MF_SYSTEM when the book or the store fails; *out is the caller's to free all the same. */
MF_API mf_status mf_sync(const mf_sync_ask *ask, mf_sync_report *out, mf_bytes *seen, mf_err *err);
MF_API void mf_sync_report_free(mf_sync_report *report);

/* MF_OK: everything is here and there. MF_NO: something waits, is new, was gone or came by a
 * wrong clock, or contradicts what is here. MF_INPUT:
 * something was forked, refused or damaged. */
MF_API mf_status mf_sync_answer(const mf_sync_report *report);

#ifdef __cplusplus
}
#endif
#endif
