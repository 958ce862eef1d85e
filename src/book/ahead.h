/* ahead.h - that this device's chain went on to an entry which its book does not have (segment.h).
 */
#ifndef MF_BOOK_AHEAD_H
#define MF_BOOK_AHEAD_H

#include "book/room.h"

/* Of a chain that was gone on with twice. */
#define MF_AHEAD_WAY_OUT                                                                           \
    "log nothing more in the book whose history the others do not have; at a device that has the " \
    "other: mistfold book copy FILE --device NEW, and log anew in FILE what is missing there"

/* MF_INPUT when the open group goes on with our chain though it went on otherwise before, as what
 * its device signed says. */
mf_status mf_ahead_check(mf_book *book, mf_err *err);

#endif
