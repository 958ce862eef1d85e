/* ahead.c - a book that was put back to an earlier state lacks what its device logged since. Who
 * logs the next entry all the same gives the device a second history (a fork), which no other book
 * takes. So what is seen elsewhere of our own chain is noted in the book, until it came in. */
#include "book/ahead.h"

#include "base/fail.h"
#include "base/hex.h"
#include "book/journal.h"
#include "book/schema.h"
#include "journal/fork.h"
#include <inttypes.h>
#include <mistfold/segment.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME_LEN = 40, VALUE_LEN = 120 };

/* What a merge of a book said without a hash, a merge takes back as well as a sync. */
#define BY_MERGE " merge"

/* By the name of the device: in a copy for another one it says nothing. */
static void name_of(char out[NAME_LEN], const mf_book *book)
{
    snprintf(out, NAME_LEN, "ahead %.16s", book->device);
}

/* "SEQ HASH", - for a hash that nobody knows, after which BY_MERGE may stand. */
static mf_status noted(mf_segment_head *out, mf_book *book, mf_err *err)
{
    char name[NAME_LEN], value[VALUE_LEN] = "", *rest = NULL;
    name_of(name, book);
    *out = (mf_segment_head){.seq = 0};
    mf_status status = mf_meta_get(&book->db, name, value, sizeof value, err);
    if (status != MF_OK || value[0] == '\0')
        return status;
    out->seq = strtoll(value, &rest, 10);
    snprintf(out->device, sizeof out->device, "%s", book->device);
    if (*rest == ' ' && mf_hex_is(rest + 1, MF_HASH_HEX - 1))
        mf_hash_copy(out->hash, rest + 1);
    return MF_OK;
}

MF_API mf_status mf_book_ahead(mf_book *book, mf_segment_head *it, mf_err *err)
{
    char ours[MF_HASH_HEX];
    mf_status status = noted(it, book, err);
    ours[0] = '\0';
    if (status == MF_OK && it->seq > 0)
        status = mf_journal_hash(&book->db, book->device, it->seq, ours, err);
    bool same = it->hash[0] == '\0' || strcmp(ours, it->hash) == 0;
    if (ours[0] != '\0' && same)
        it->seq = 0;
    return status;
}

static mf_status note(mf_book *book, int64_t seq, const char *hash, const char *by, mf_err *err)
{
    char name[NAME_LEN], value[VALUE_LEN];
    mf_segment_head before;
    bool known = hash[0] != '\0';
    mf_status status = book->read_only ? MF_OK : mf_book_ahead(book, &before, err);
    bool keeps = status != MF_OK || book->read_only ||
                 (before.seq > 0 && before.hash[0] != '\0' && (!known || before.seq >= seq));
    if (keeps)
        return status;
    name_of(name, book);
    snprintf(value, sizeof value, "%" PRId64 " %.64s%s", seq, known ? hash : "-", known ? "" : by);
    return mf_meta_set(&book->db, name, value, err);
}

MF_API mf_status mf_book_note_ahead(mf_book *book, int64_t seq, const char *hash, mf_err *err)
{
    return note(book, seq, hash, "", err);
}

mf_status mf_ahead_note_merge(mf_book *book, int64_t seq, const char *hash, mf_err *err)
{
    return note(book, seq, hash, BY_MERGE, err);
}

/* What was signed stays until it is here. */
static mf_status take_back(mf_book *book, const char *by, mf_err *err)
{
    char name[NAME_LEN], value[VALUE_LEN] = "";
    name_of(name, book);
    mf_status status =
        book->read_only ? MF_OK : mf_meta_get(&book->db, name, value, sizeof value, err);
    const char *said = strstr(value, " -");
    if (status != MF_OK || said == NULL || (by[0] != '\0' && strcmp(said + 2, by) != 0))
        return status;
    return mf_meta_unset(&book->db, name, err);
}

MF_API mf_status mf_book_not_ahead(mf_book *book, mf_err *err)
{
    return take_back(book, "", err);
}

mf_status mf_ahead_not_merge(mf_book *book, mf_err *err)
{
    return take_back(book, BY_MERGE, err);
}

/* Whether the entry of that number was there before a group that is open. */
static mf_status was_there(const mf_segment_head *it, mf_book *book, bool *there, mf_err *err)
{
    char id[MF_ENTRY_ID];
    int64_t row = 0;
    snprintf(id, sizeof id, "%.16s/%lld", it->device, (long long)it->seq);
    mf_status status = mf_journal_rowid(book, id, &row, err);
    *there = row > 0 && (!book->in_group || row <= book->group_from);
    return status;
}

static mf_status refuse(const mf_segment_head *it, mf_book *book, mf_err *err)
{
    bool forked = false;
    mf_status status = was_there(it, book, &forked, err);
    if (status != MF_OK)
        return status;
    if (forked)
        return mf_failf(err, MF_INPUT, book->db.name,
                        "this device has two histories, and other books take only the other one; "
                        "nothing was written",
                        MF_FORK_WAY_OUT,
                        "entry %s/%lld is another one than was logged on this device before",
                        it->device, (long long)it->seq);
    return mf_failf(err, MF_INPUT, book->db.name,
                    "the book was put back to an earlier state, and what is logged now would be a "
                    "second history that no other book takes; nothing was written",
                    "take it over first, and say why: --adopt \"the reason\" with \"sync\" or "
                    "\"book merge\"",
                    "entry %s/%lld was logged on this device and is not here", it->device,
                    (long long)it->seq);
}

MF_API mf_status mf_book_goes_on(mf_book *book, mf_err *err)
{
    mf_segment_head it;
    mf_status status = mf_book_ahead(book, &it, err);
    return status == MF_OK && it.seq > 0 && it.hash[0] != '\0' ? refuse(&it, book, err) : status;
}
