/* ahead.h - that this device's chain went on to an entry which its book does not have (segment.h).
 */
#ifndef MF_BOOK_AHEAD_H
#define MF_BOOK_AHEAD_H

#include "book/room.h"

/* As mf_book_note_ahead, by a merge of a book: without a hash mf_ahead_not_merge takes it back. */
mf_status mf_ahead_note_merge(mf_book *book, int64_t seq, const char *hash, mf_err *err);
mf_status mf_ahead_not_merge(mf_book *book, mf_err *err);

#endif
