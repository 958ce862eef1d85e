#include "book/db_words.h"

#include "base/fail.h"
#include <errno.h>
#include <sqlite3.h>

typedef struct words {
    int code; /* primary result code */
    mf_status status;
    const char *what, *why, *mend;
} words;

static const words table[] = {
    {SQLITE_BUSY, MF_SYSTEM, "the book is in use by another program",
     "only one can write at a time; it was waited for", "let the other one finish, then try again"},
    {SQLITE_LOCKED, MF_SYSTEM, "the book is in use by another part of this program",
     "only one can write at a time", "let it finish, then try again"},
    {SQLITE_FULL, MF_SYSTEM, "the disk is full: nothing was written", "",
     "free some space, then do it again"},
    {SQLITE_READONLY, MF_SYSTEM, "the book cannot be written",
     "the file or its folder is read-only",
     "give yourself the right to write to the file and to its folder, or copy the book to another "
     "folder"},
    {SQLITE_CANTOPEN, MF_SYSTEM, "the book cannot be opened",
     "the system does not let this user open the file or make files beside it",
     "give yourself the right to write to the file and to its folder, or copy the book to another "
     "folder"},
    {SQLITE_PERM, MF_SYSTEM, "the book cannot be opened", "access is not allowed", "ask its owner"},
    {SQLITE_NOTADB, MF_INPUT, "this file is not a book", "it is not an SQLite file",
     "name a book, or make a new one under another name"},
    {SQLITE_CORRUPT, MF_SYSTEM, "the book is damaged", "its file is not as SQLite wrote it",
     "keep this file as it is and go on with the last good copy"},
    {SQLITE_IOERR, MF_SYSTEM, "the book cannot be read or written", "the disk reports an error",
     "check the disk and its cable; copy the book to another disk"},
    {SQLITE_TOOBIG, MF_INPUT, "a value is too long for a book", "32 MiB is the most",
     "keep this file as it is and go on with the last good copy"},
};

static int primary(int code, int number)
{
    int low = code & 0xFF;
    if (low == SQLITE_IOERR && (number == ENOSPC || number == EDQUOT || number == EFBIG))
        return SQLITE_FULL;
    return low;
}

mf_status mf_db_words(mf_err *err, const char *book, int code, int number, const char *message)
{
    int low = primary(code, number);
    if (low == SQLITE_NOMEM)
        return mf_fail_memory(err);
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
        if (table[i].code == low)
            return mf_fail(err, table[i].status, book, table[i].what, table[i].why, table[i].mend);
    return mf_failf(err, MF_SYSTEM, book, "",
                    "check the book, then rebuild its tables from the journal",
                    "the book could not be used: %s", message);
}
