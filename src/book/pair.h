/* pair.h - walking what two databases say of their objects, side by side. */
#ifndef MF_BOOK_PAIR_H
#define MF_BOOK_PAIR_H

#include "book/db.h"

typedef struct mf_pair {
    mf_stmt left, right;
    bool has_left, has_right; /* which side has a row with the key now stood on */
    bool more_left, more_right;
} mf_pair;

/* The same query on both sides: type, name, sql and what else the caller wants of
 * sqlite_schema, sorted by type and name (BINARY). */
mf_status mf_pair_begin(mf_pair *out, mf_db *left, mf_db *right, const char *sql, mf_err *err);
/* Goes to the next key; *row is false after the last. */
mf_status mf_pair_next(mf_pair *pair, bool *row, mf_err *err);
void mf_pair_end(mf_pair *pair);

/* Whether the sql is the same on both sides, in type and bytes. */
bool mf_pair_same(mf_pair *pair);

#endif
