/* write.h - the one way into the journal. */
#ifndef MF_BOOK_WRITE_H
#define MF_BOOK_WRITE_H

#include "base/json.h"
#include "book/room.h"

/* Appends an entry, inside the open part. */
mf_status mf_put_entry(mf_book *book, const char *kind, const char *job, const json_t *body,
                       const mf_now *now, char id[MF_ENTRY_ID], mf_err *err);

/* As mf_book_write inside the open part, which the caller takes back when it fails; *bad (may
 * be NULL) is the field at fault, if it is one. */
mf_status mf_write_row(mf_book *book, const mf_draft *draft, const char *job, const mf_now *now,
                       const char *where, char id[MF_ENTRY_ID], const mf_field **bad, mf_err *err);

#endif
