/* merge.h - the parts of mf_book_merge, which mf_book_import_entries goes through, too: what
 * comes from elsewhere comes in by one way. */
#ifndef MF_BOOK_MERGE_H
#define MF_BOOK_MERGE_H

#include "book/check.h"

/* Entries of a device that are adopted. */
typedef struct mf_contrary {
    char device[MF_DEVICE_MAX + 1];
    int64_t from, to;
} mf_contrary;

typedef struct mf_merge {
    mf_book *book;
    const char *name;    /* of what is taken over, for messages */
    const char *altered; /* why it is refused that its hashes are wrong */
    const char *again;   /* and what to do */
    mf_db other;
    int64_t version; /* schema of the other */
    bool part;       /* it holds parts of chains, which go on where ours end */
    int64_t total;
    mf_checker checker; /* of the other's journal */
    mf_book_report found;
    const mf_watch *watch;
    mf_merge_report *out;
    /* Takes over the bytes of attachments; NULL: they are in other. */
    mf_status (*contents)(struct mf_merge *m, mf_err *err);
    void *data;             /* for it */
    const mf_adopt *adopt;  /* NULL: nothing is adopted */
    char head[MF_HASH_HEX]; /* of our book before */
    mf_contrary *contrary;  /* what is adopted, a range a device */
    size_t n_contrary, cap_contrary;
    bool failed; /* memory ran out where nothing could be said */
} mf_merge;

/* All of it from m->other, which is open, in one group; *m with book, name, altered, again,
 * watch, out and adopt set. */
mf_status mf_merge_open(mf_merge *m, mf_err *err);

/* Whether an entry is here. MF_INPUT when another one is under its name: their_head tells
 * how far the device went on there. */
mf_status mf_merge_here(mf_merge *m, const mf_line *line, const char *their_head, bool *here,
                        mf_err *err);
/* Adds an entry that is not here. */
mf_status mf_merge_add(mf_merge *m, const mf_line *line, mf_err *err);
/* "truck/7 (3f2a..)", the last entry of its device in a book; "" = there is none. */
enum { MF_MERGE_HEAD = 80 };
mf_status mf_merge_head(mf_db *db, const char *device, char out[MF_MERGE_HEAD], mf_err *err);
/* Whether what came in can stand beside what was here, once all entries are there: its seals,
 * its corrections, the signatures of its chains, and the heads that were noted from outside. */
mf_status mf_merge_stands(mf_merge *m, mf_err *err);

/* merge_signed.c: what came in against the keys of devices and the heads that were noted.
 * MF_INPUT when they contradict it, but for what somebody adopts. */
/* Another key for a device that signs already. */
mf_status mf_merge_key(mf_merge *m, const mf_line *line, mf_err *err);
/* Takes over the other book's signatures; then each chain that names a key must be signed. */
mf_status mf_merge_signed(mf_merge *m, mf_err *err);
mf_status mf_merge_witnesses(mf_merge *m, mf_err *err);

/* The corrections that came in, once all entries are there. */
mf_status mf_merge_corrections(mf_merge *m, mf_err *err);

/* Takes over the bytes of one attachment, which must give their SHA-256. */
mf_status mf_merge_content(mf_merge *m, const char *sha256, const void *bytes, size_t len,
                           mf_err *err);
/* Takes over the bytes of attachments, after the entries. */
mf_status mf_merge_contents(mf_merge *m, mf_err *err);
/* That each entry which came in has its bytes, and all bytes behind that row an entry. */
mf_status mf_merge_contents_whole(mf_merge *m, int64_t behind, mf_err *err);

/* Whether what is said about adopting can be logged. */
mf_status mf_merge_may(const mf_adopt *adopt, mf_err *err);
/* Entries under our own name: refused, or counted when somebody says why. */
mf_status mf_merge_own(mf_merge *m, const mf_line *line, mf_err *err);
/* Whether somebody says why that entry is taken over; then it is remembered as adopted. */
bool mf_merge_adopts(mf_merge *m, const char *device, int64_t seq);
/* Logs why they were taken over, if there were any: an entry a device. */
mf_status mf_merge_adopted(mf_merge *m, mf_err *err);

/* Counts and tells what the two books say differently. */
mf_status mf_merge_tell(mf_merge *m, mf_err *err);
/* Whether an entry came in with this merge. */
mf_status mf_merge_is_new(mf_merge *m, const char *entry, bool *new_here, mf_err *err);

#endif
