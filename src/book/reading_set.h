/* reading_set.h - which readings a job has, by instrument and number: a reading counts once.
 * An export may have a million of them, so that little is kept of each; where two look
 * alike the journal decides. */
#ifndef MF_BOOK_READING_SET_H
#define MF_BOOK_READING_SET_H

#include "base/json.h"
#include "book/room.h"

typedef struct mf_reading_set mf_reading_set;

/* Of the readings that job has now. The caller frees *out. */
mf_status mf_reading_set_new(mf_reading_set **out, mf_book *book, const char *job, mf_err *err);
void mf_reading_set_free(mf_reading_set *set);

/* The entry that says now the number and instrument of body; found "" = there is none. */
mf_status mf_reading_set_find(mf_reading_set *set, const json_t *body, char found[MF_ENTRY_ID],
                              mf_err *err);
/* A reading with this body was written just now, as the last entry of the journal. */
mf_status mf_reading_set_add(mf_reading_set *set, const json_t *body, mf_err *err);

#endif
