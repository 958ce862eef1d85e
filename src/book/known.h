/* known.h - what a draft is checked against: the entries of its job and of the firm, folded
 * and kept up to date from one draft to the next; which ids there are, and which was meant. */
#ifndef MF_BOOK_KNOWN_H
#define MF_BOOK_KNOWN_H

#include "base/mem.h"
#include "book/room.h"
#include "journal/fold.h"

/* The items of job ("" = of the firm), but for its readings: there may be very many, and no
 * draft is checked against one. *out lives until the next call for another job, and until
 * a group ends. */
mf_status mf_known_fold(const mf_job_fold **out, mf_book *book, const char *job, mf_err *err);

/* An entry was added to the journal, under rowid. */
mf_status mf_known_learn(mf_book *book, const mf_line *line, int64_t rowid, mf_err *err);
/* A group begins or ends: another program may have written, or will. */
void mf_known_stale(mf_book *book);
/* Entries were taken back. */
void mf_known_forget(mf_book *book);

/* The text in the member of a field of type TEXT, ID or IDS. */
const char *mf_known_text(const void *item, const mf_field *field);

/* Whether a thing of kind with this id is in job (or the firm). */
mf_status mf_known(mf_book *book, const mf_kind *kind, const char *job, const char *id, bool *known,
                   mf_err *err);

/* What there is where an id is unknown. */
typedef struct mf_known_ids {
    char nearest[48]; /* the one that was meant; "" = none is like it */
    int apart;        /* how many letters it is off */
    size_t count;
    mf_buf list; /* the first ones, the caller frees it */
} mf_known_ids;
mf_status mf_known_ids_of(mf_known_ids *out, mf_book *book, const mf_kind *kind, const char *job,
                          const char *id, mf_err *err);
/* The mend they make: the nearest one, else the first ones. */
void mf_known_ids_mend(mf_buf *out, const mf_known_ids *ids, const mf_kind *kind);

/* Appends such a mend for an unknown id. */
mf_status mf_known_mend(mf_buf *out, mf_book *book, const mf_kind *kind, const char *job,
                        const char *id, mf_err *err);

#endif
