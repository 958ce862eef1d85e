/* ahead.h - that this device's chain went on to an entry which its book does not have (segment.h).
 */
#ifndef MF_BOOK_AHEAD_H
#define MF_BOOK_AHEAD_H

#include "book/room.h"

/* MF_INPUT when the open group goes on with our chain though it went on otherwise before, as what
 * its device signed says. */
mf_status mf_ahead_check(mf_book *book, mf_err *err);

#endif
