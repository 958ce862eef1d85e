/* shape.h - whether a file that says it is a book is built like one. */
#ifndef MF_BOOK_SHAPE_H
#define MF_BOOK_SHAPE_H

#include "book/db.h"

/* The tables that are no derived ones must be, to the letter, those that this program
 * makes in a book of that schema: what stands in their place could answer anything, or
 * never end. Refuses (MF_INPUT) what is not, and any virtual
 * table but the index of words. Guards that are
 * lacking and what somebody added beside them do no harm: they are the check's to
 * tell. Reads the schema only. */
mf_status mf_shape_check(mf_db *db, int64_t version, mf_err *err);

/* The quick half of it: whether they are so by the text this program makes them with,
 * without making a book to compare with. What is not known that way is compared, so that
 * a step of the schema that changes a table costs time at every opening and nothing else. */
mf_status mf_shape_known(bool *known, mf_db *db, int64_t version, mf_err *err);

#endif
