/* room.h - what an open book is. */
#ifndef MF_BOOK_ROOM_H
#define MF_BOOK_ROOM_H

#include "base/digest.h"
#include "base/sign.h"
#include "book/db.h"
#include "journal/line.h"
#include <mistfold/book.h>

struct mf_book {
    mf_db db;
    char device[MF_DEVICE_MAX + 1]; /* whose chain we continue */
    char derived[24];               /* hash of the SQL of our derived tables */
    bool read_only; /* its file cannot be written, and db is a copy in memory (aside.c) */
    bool in_group;
    int64_t last_seq; /* of our last entry, in a group that wrote one; 0 = ask the journal */
    char last_hash[MF_HASH_HEX];
    int64_t group_from;         /* last rowid of the journal before the group */
    int64_t read_to;            /* last rowid of it that was read back (journal.h) */
    struct mf_known *known;     /* what drafts are checked against (known.h) */
    struct mf_touched *touched; /* jobs whose index is behind (touched.h) */
    size_t n_touched, cap_touched;
    char named[MF_SIGN_KEY_HEX]; /* the key that our chain names last, "" = none, */
    int64_t named_row, named_to; /* by which row, as far as it was looked for; 0 = not yet */
    mf_sign_key *signer;         /* of the device, once it was needed; its public half */
    char signer_key[MF_SIGN_KEY_HEX];
    mf_digest *digest; /* of the entries, and room for the text of one */
    mf_buf text;
};

/* A part that is written whole or not at all, inside the caller's group or, when
 * there is none, in a group of its own. End keeps it when status is MF_OK, else
 * takes it back; it returns the status to hand on. */
typedef struct mf_part {
    bool own, open;
    int64_t read_to; /* of the book before the part */
} mf_part;
mf_status mf_part_begin(mf_part *out, mf_book *book, mf_err *err);
mf_status mf_part_end(mf_part *part, mf_book *book, mf_status status, mf_err *err);

/* One snapshot for several queries: begins unless one is already open. */
mf_status mf_snapshot_begin(bool *own, mf_book *book, mf_err *err);
void mf_snapshot_end(bool own, mf_book *book);

/* read.c: calls fn for each row of a statement that gives job, address and start in the
 * order of job, until it says false. MF_SYSTEM when the order is another. */
mf_status mf_each_job(mf_book *book, mf_stmt *stmt, mf_job_fn *fn, void *data, mf_err *err);

#endif
