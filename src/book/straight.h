/* straight.h - a large import goes straight into the file of the book. */
#ifndef MF_BOOK_STRAIGHT_H
#define MF_BOOK_STRAIGHT_H

#include "book/db.h"

/* Files of fewer bytes than this are not worth it: about 13,000 readings. */
enum { MF_STRAIGHT = 1024 * 1024 };

/* Leaves the write-ahead log until mf_straight_end. Outside a transaction. False, and
 * nothing changed, when another program has the book open. */
bool mf_straight_begin(mf_db *db);
void mf_straight_end(mf_db *db);

#endif
