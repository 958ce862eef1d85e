/* schema_text.h - what sqlite_schema says of a book that is as this program makes it,
 * taken from the SQL alone: it saves making one to compare with. */
#ifndef MF_BOOK_SCHEMA_TEXT_H
#define MF_BOOK_SCHEMA_TEXT_H

#include "book/db.h"

/* *same: sqlite_schema of db is to the byte as in a new book of the newest version. When
 * it is not, nothing is known but that a comparison one by one must tell. */
mf_status mf_schema_same(mf_db *db, bool *same, mf_err *err);

#endif
