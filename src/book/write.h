/* write.h - the one way into the journal. */
#ifndef MF_BOOK_WRITE_H
#define MF_BOOK_WRITE_H

#include "base/json.h"
#include "book/room.h"

/* Checks what the caller told about clock and hand: MF_USAGE when it is no UTC
 * time of the form, MF_INPUT when who is no text. */
mf_status mf_now_check(const mf_now *now, mf_err *err);

/* Appends an entry, inside the open part. */
mf_status mf_put_entry(mf_book *book, const char *kind, const char *job, const json_t *body,
                       const mf_now *now, char id[MF_ENTRY_ID], mf_err *err);

/* As mf_book_write inside the open part, which the caller takes back when it fails; *bad (may
 * be NULL) is the field at fault, if it is one. */
mf_status mf_write_row(mf_book *book, const mf_draft *draft, const char *job, const mf_now *now,
                       const char *where, char id[MF_ENTRY_ID], const mf_field **bad, mf_err *err);

/* body without its nulls: itself when it has none, else a copy, for the caller to decref.
 * NULL when memory ran out. */
json_t *mf_without_nulls(const json_t *body);

#endif
