/* group.c - groups of entries that are written whole or not at all. */
#include "base/fail.h"
#include "book/known.h"
#include "book/make.h"
#include "book/room.h"
#include "book/signed.h"
#include "book/tables.h"
#include "book/touched.h"

static mf_status still_ours(mf_book *book, mf_err *err)
{
    bool current = false;
    mf_status status = mf_tables_current(&book->db, book->derived, &current, err);
    if (status == MF_OK && !current)
        return mf_fail(err, MF_SYSTEM, book->db.name,
                       "another version of this program changed the book in the meantime", "",
                       "close this one and go on with the newer one");
    return status;
}

MF_API mf_status mf_book_begin(mf_book *book, mf_err *err)
{
    if (book->in_group)
        return mf_fail(err, MF_USAGE, book->db.name, "a group of entries is open already", "", "");
    if (book->read_only)
        return mf_make_read_only(book, err);
    mf_status status = mf_db_begin(&book->db, err);
    if (status != MF_OK)
        return status;
    status = still_ours(book, err);
    if (status == MF_OK)
        status = mf_db_int(&book->db, "SELECT max(rowid) FROM entry", &book->group_from, err);
    book->read_to = book->group_from;
    book->last_seq = 0;
    mf_known_stale(book);
    book->in_group = status == MF_OK;
    if (status != MF_OK)
        mf_db_rollback(&book->db);
    return status;
}

/* SQLite ends a transaction by itself when the disk is full or fails. What came
 * after would then be written alone. */
static mf_status still_open(mf_book *book, mf_err *err)
{
    if (!book->in_group)
        return mf_fail(err, MF_USAGE, book->db.name, "no group of entries is open", "", "");
    if (sqlite3_get_autocommit(book->db.handle) != 0)
        return mf_fail(err, MF_SYSTEM, book->db.name,
                       "the group of entries was undone by an earlier failure", "",
                       "mend that and write the whole group again");
    return MF_OK;
}

MF_API mf_status mf_book_commit(mf_book *book, mf_err *err)
{
    mf_status status = still_open(book, err);
    if (status == MF_OK)
        status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_sign_end(book, err);
    if (status == MF_OK)
        status = mf_db_commit(&book->db, err);
    if (status != MF_OK) {
        mf_book_rollback(book);
        return status;
    }
    book->last_seq = 0;
    mf_known_stale(book);
    mf_touched_forget(book);
    book->in_group = false;
    return MF_OK;
}

MF_API void mf_book_rollback(mf_book *book)
{
    mf_db_rollback(&book->db);
    book->last_seq = 0;
    mf_known_forget(book);
    mf_sign_forget(book);
    mf_touched_forget(book);
    book->in_group = false;
}

mf_status mf_part_begin(mf_part *out, mf_book *book, mf_err *err)
{
    *out = (mf_part){.own = !book->in_group, .read_to = book->read_to};
    mf_status status = out->own ? mf_book_begin(book, err) : still_open(book, err);
    if (status == MF_OK && !out->own)
        status = mf_db_exec(&book->db, "SAVEPOINT mf_part", err);
    out->open = status == MF_OK;
    return status;
}

mf_status mf_part_end(mf_part *part, mf_book *book, mf_status status, mf_err *err)
{
    if (!part->open)
        return status;
    part->open = false;
    if (part->own && status == MF_OK)
        return mf_book_commit(book, err);
    if (part->own)
        mf_book_rollback(book);
    else if (status == MF_OK)
        status = mf_db_exec(&book->db, "RELEASE mf_part", err);
    else {
        mf_db_exec(&book->db, "ROLLBACK TO mf_part; RELEASE mf_part", NULL);
        book->read_to = part->read_to;
        book->last_seq = 0;
        mf_known_forget(book);
        mf_sign_forget(book);
        mf_touched_again(book);
    }
    return status;
}

mf_status mf_snapshot_begin(bool *own, mf_book *book, mf_err *err)
{
    *own = sqlite3_get_autocommit(book->db.handle) != 0;
    return *own ? mf_db_begin_read(&book->db, err) : MF_OK;
}

void mf_snapshot_end(bool own, mf_book *book)
{
    if (own)
        mf_db_rollback(&book->db);
}
