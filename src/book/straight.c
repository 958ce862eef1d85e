/* straight.c - in a write-ahead log every page is written, read again and written to
 * its place. With SQLite's rollback journal a page that is new is written once, and of
 * a large import nearly all are new. Either is whole or nothing, also when the power
 * fails in the middle. What it costs: until the end no other program can read the book,
 * which is why it is for large imports alone. */
#include "book/straight.h"

/* EXTRA: that the journal is gone must be on the disk too, or a commit could be taken
 * back by a power failure just after it. An import comes back to few pages, the ends of
 * its tables and indexes: little memory that is used again is quicker than much that is
 * new. The checks of the table entry are for other programs; what they ask for, lengths
 * and a number over 0, holds for every entry whose hash and place in the chain come out
 * right, and each is read back for that before the commit (journal.c). */
static const char begin[] = "PRAGMA synchronous=EXTRA; PRAGMA cache_size=-2000;"
                            "PRAGMA ignore_check_constraints=ON";
static const char end[] = "PRAGMA synchronous=FULL; PRAGMA ignore_check_constraints=OFF";

bool mf_straight_begin(mf_db *db)
{
    if (sqlite3_get_autocommit(db->handle) == 0 ||
        mf_db_exec(db, "PRAGMA journal_mode=DELETE", NULL) != MF_OK)
        return false;
    db->roomy = true; /* or beginning the transaction would make it so */
    if (mf_db_exec(db, begin, NULL) == MF_OK)
        return true;
    mf_straight_end(db);
    return false;
}

/* Failing does no harm: whoever opens the book next goes back to the log (book.c). */
void mf_straight_end(mf_db *db)
{
    mf_db_exec(db, end, NULL);
    mf_db_plain(db);
    mf_db_exec(db, "PRAGMA journal_mode=WAL", NULL);
}
