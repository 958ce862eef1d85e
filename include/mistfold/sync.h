/* mistfold/sync.h - many devices meet at one place: each hands out its chain there as segments
 * (mistfold/segment.h), and takes over what the others handed out.
 *
 * A store keeps whole texts under names, DEVICE/FILE: DEVICE is who wrote it, which is the only
 * one that ever does. FILE is
 *   CHAIN.FROM-TO.SHA256.entries   a segment
 *   SHA256.bytes                   the bytes of an attachment
 * with the SHA-256 of the file itself, so that a torn or altered one shows by its name. Nothing
 * is believed of a store: it may deliver late, twice, out of order, or lie.
 *
 * A store may also keep the entries themselves (PostgreSQL does), and then says how far it has
 * each chain: what lies before that is not listed again.
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

/* Who is told what stands in a store. */
typedef struct mf_store_listener {
    mf_store_fn *item;
    /* A store that keeps entries says first how far it has each chain, and is answered through
     * which entry segments need not be listed; -1 = to stop. One that does not never calls it. */
    int64_t (*chain)(const char *device, int64_t seq, const char *hash, void *data);
    bool all; /* everything is to be listed, attachments, too */
    void *data;
} mf_store_listener;

typedef struct mf_store {
    mf_status (*list)(void *data, const mf_store_listener *to, mf_err *err);
    /* MF_INPUT when there is no such text; the caller frees *out. */
    mf_status (*read)(void *data, const char *name, mf_bytes *out, mf_err *err);
    /* Whole or not at all, kept when it returns. MF_NO when the store refuses this one: err says
     * why, and others may be written. */
    mf_status (*write)(void *data, const char *name, const void *bytes, size_t len, mf_err *err);
    /* Takes away a text of one's own that is torn; NULL = there is no such thing. */
    mf_status (*drop)(void *data, const char *name, mf_err *err);
    /* Takes away what this device left half written in it; may be NULL. */
    void (*sweep)(void *data, const char *device);
    /* Tells which of these attachments stand there, by their names; NULL = all were listed. */
    mf_status (*contents)(void *data, const char (*sha256)[MF_HASH_HEX], size_t n, mf_store_fn *fn,
                          void *to, mf_err *err);
    /* Whether this device may hand out that chain; NULL = any. */
    mf_status (*may_write)(void *data, const char *device, bool *may, mf_err *err);
    void (*close)(void *data);
    void *data;
    char name[160]; /* for messages */
} mf_store;

/* A folder, on whatever disk. MF_INPUT when it is none. */
MF_API mf_status mf_store_folder(mf_store *out, const char *path, mf_err *err);
/* A database of PostgreSQL, postgresql://..., that was prepared with mf_store_sql, as the device
 * of that name. Off this computer's own socket only by TLS with the server's certificate checked;
 * a password by libpq's usual files, never in the address. MF_INPUT when it is none, the login is
 * another device's or the address says too much, MF_SYSTEM when it cannot be reached. */
MF_API mf_status mf_store_postgresql(mf_store *out, const char *address, const char *device,
                                     mf_err *err);
/* What an administrator runs once in such a database; it lives as long as the program. */
MF_API const char *mf_store_sql(void);
/* Compares a database with what that makes: structure, triggers, policies, grants. Calls fn with
 * each line that differs, missing or too much; it returns false to stop. Any login can ask. Fails
 * as mf_store_postgresql. */
typedef bool mf_store_odd_fn(const char *line, bool missing, void *data);
MF_API mf_status mf_store_postgresql_check(const char *address, mf_store_odd_fn *fn, void *data,
                                           mf_err *err);
/* Accepts one of zeros. */
MF_API void mf_store_close(mf_store *store);

/* ---- meeting there ----------------------------------------------------------------------- */

typedef enum mf_sync_state {
    MF_SYNC_HERE,      /* the book has it */
    MF_SYNC_CAME,      /* it came in now; what says so when a clock is wrong */
    MF_SYNC_SENT,      /* it was written now */
    MF_SYNC_WAITS,     /* for what has not arrived: what says for which */
    MF_SYNC_NEW,       /* of a device that is new here or does not sign, which nobody vouched for or
                          accepted */
    MF_SYNC_FORKED,    /* two histories of one device: what names both */
    MF_SYNC_REFUSED,   /* by a check of a merge */
    MF_SYNC_DAMAGED,   /* it is not what its name says */
    MF_SYNC_NEEDLESS,  /* damaged, and all of it is here or beside it */
    MF_SYNC_GONE,      /* it stood there at an earlier time */
    MF_SYNC_STRANGE,   /* no file of ours */
    MF_SYNC_UNFINISHED /* this device wrote it, it is not whole, and a sync would write it anew */
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
    MF_SYNC_TRY,  /* everything is checked and nothing written, here or there */
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
    bool refill; /* the store may be empty though it was not before; all attachments are compared */
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

/* MF_OK: everything is here and there. MF_NO: something waits, is new, was gone, is unfinished or
 * came by a wrong clock, or contradicts what is here. MF_INPUT:
 * something was forked, refused or damaged. */
MF_API mf_status mf_sync_answer(const mf_sync_report *report);

#ifdef __cplusplus
}
#endif
#endif
