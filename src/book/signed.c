/* signed.c - the signatures of the chains against the journal.
 *
 * A chain that names keys is parted by them: from the entry that names one to the entry before
 * the next, or to the end. Of each part the last entry must be signed by its key, which covers
 * all before it. So entries that were made anew, added or cut off without the key are found. */
#include "book/signed.h"

#include "base/fail.h"
#include "base/sign.h"
#include <inttypes.h>
#include <mistfold/device.h>
#include <mistfold/segment.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME_MAX_LEN = 160, VALUE_MAX = 256 };

/* ---- one signature, as meta keeps it --------------------------------------------------------- */

typedef struct signature {
    int64_t seq;
    char hash[MF_HASH_HEX], by[MF_SIGN_HEX];
} signature;

static void name_of(char out[NAME_MAX_LEN], const char *device, const char *key)
{
    snprintf(out, NAME_MAX_LEN, "signed %.16s %.64s", device, key);
}

static void text_of(char out[NAME_MAX_LEN], const char *device, int64_t seq, const char *hash)
{
    snprintf(out, NAME_MAX_LEN, "mistfold chain\n%.16s\n%" PRId64 "\n%.64s\n", device, seq, hash);
}

static bool split(signature *out, const char *value)
{
    char *rest = NULL;
    *out = (signature){.seq = strtoll(value, &rest, 10)};
    size_t len = rest == value || *rest != ' ' ? 0 : strlen(rest);
    if (len != MF_HASH_HEX + MF_SIGN_HEX || rest[MF_HASH_HEX] != ' ')
        return false;
    snprintf(out->hash, sizeof out->hash, "%.64s", rest + 1);
    snprintf(out->by, sizeof out->by, "%.128s", rest + 1 + MF_HASH_HEX);
    return out->seq > 0;
}

/* ---- signing -----------------------------------------------------------------------------------
 */

mf_status mf_last_key(mf_db *db, const char *device, char key[MF_SIGN_KEY_HEX], mf_err *err)
{
    return mf_db_text(db,
                      "SELECT body ->> '$.key' FROM entry WHERE job = '' AND kind = 'device_key'"
                      " AND device = ?1 AND body ->> '$.device' = ?1 ORDER BY seq DESC LIMIT 1",
                      &device, 1, key, MF_SIGN_KEY_HEX, err);
}

/* The end of our chain, when it stands behind the beginning of the group; seq 0 = it does not. */
static mf_status our_end(mf_book *book, signature *out, mf_err *err)
{
    mf_journal_end end;
    *out = (signature){.seq = 0};
    mf_status status = mf_journal_last(&end, &book->db, book->device, err);
    if (end.rowid > book->group_from) {
        out->seq = end.seq;
        mf_hash_copy(out->hash, end.hash);
    }
    return status;
}

static mf_status put(mf_db *db, const char *name, const signature *it, mf_err *err)
{
    char value[VALUE_MAX];
    snprintf(value, sizeof value, "%" PRId64 " %s %s", it->seq, it->hash, it->by);
    return mf_meta_set(db, name, value, err);
}

/* The key that our chain names: only what came in since is looked through. */
static mf_status our_key(mf_book *book, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status =
        mf_stmt_get(&stmt, &book->db,
                    "SELECT body ->> '$.key', rowid FROM entry WHERE"
                    " job = '' AND rowid > ?2 AND kind = 'device_key' AND device = ?1"
                    " AND body ->> '$.device' = ?1 ORDER BY rowid DESC LIMIT 1",
                    err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, book->device);
    mf_stmt_int(&stmt, 2, book->named_to);
    status = mf_stmt_step(&stmt, &row, err);
    if (row) {
        snprintf(book->named, sizeof book->named, "%s", mf_stmt_column(&stmt, 0));
        book->named_row = mf_stmt_number(&stmt, 1);
    }
    mf_stmt_done(&stmt);
    return status == MF_OK
               ? mf_db_int(&book->db, "SELECT max(rowid) FROM entry", &book->named_to, err)
               : status;
}

void mf_sign_forget(mf_book *book)
{
    book->named[0] = '\0';
    book->named_row = book->named_to = 0;
}

/* The number of our last entry before the open group; 0 = there was none. */
static mf_status before_group(mf_book *book, int64_t *seq, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status = mf_stmt_get(&stmt, &book->db,
                                   "SELECT seq FROM entry WHERE device = ?1 AND rowid <= ?2"
                                   " ORDER BY seq DESC LIMIT 1",
                                   err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, book->device);
    mf_stmt_int(&stmt, 2, book->group_from);
    status = mf_stmt_step(&stmt, &row, err);
    *seq = row ? mf_stmt_number(&stmt, 0) : 0;
    mf_stmt_done(&stmt);
    return status;
}

/* Whether our chain is signed by that key up to that number; further, when what this device
 * signed came back into a book that was put back. */
static mf_status signed_to(mf_book *book, const char *key, int64_t seq, bool *good, mf_err *err)
{
    char name[NAME_MAX_LEN], value[VALUE_MAX], hash[MF_HASH_HEX] = "", text[NAME_MAX_LEN];
    signature last = {.seq = 0};
    name_of(name, book->device, key);
    mf_status status = mf_meta_get(&book->db, name, value, sizeof value, err);
    *good = status == MF_OK && split(&last, value) && last.seq >= seq;
    if (*good)
        status = mf_journal_hash(&book->db, book->device, last.seq, hash, err);
    text_of(text, book->device, last.seq, hash);
    *good = *good && status == MF_OK && strcmp(last.hash, hash) == 0 &&
            mf_sign_holds(key, text, last.by);
    return status;
}

/* What was signed before must stand, or a chain that somebody made anew would be signed with
 * the next entry. */
static mf_status still_signed(mf_book *book, const char *key, mf_err *err)
{
    int64_t seq = 0;
    bool good = false;
    if (book->named_row > book->group_from) /* it signs for the first time */
        return MF_OK;
    mf_status status = before_group(book, &seq, err);
    if (status == MF_OK)
        status = signed_to(book, key, seq, &good, err);
    if (status != MF_OK || good)
        return status;
    return mf_failf(err, MF_SYSTEM, book->db.name, "the book was altered outside this program",
                    "keep this file as it is and go on with the last good copy; nothing was "
                    "written",
                    "the chain of %s does not end as this device signed it", book->device);
}

mf_status mf_sign_end(mf_book *book, mf_err *err)
{
    char name[NAME_MAX_LEN], text[NAME_MAX_LEN];
    const char *key = book->named;
    signature end;
    mf_status status = our_end(book, &end, err);
    if (status == MF_OK && end.seq > 0)
        status = mf_book_goes_on(book, err);
    if (status == MF_OK && end.seq > 0)
        status = our_key(book, err);
    if (status != MF_OK || end.seq == 0 || key[0] == '\0')
        return status;
    status = mf_device_key_open(book, key, err);
    if (status == MF_OK)
        status = still_signed(book, key, err);
    if (status != MF_OK)
        return status;
    name_of(name, book->device, key);
    text_of(text, book->device, end.seq, end.hash);
    return mf_sign(book->signer, text, end.by) ? put(&book->db, name, &end, err)
                                               : mf_fail_memory(err);
}

/* ---- checking ----------------------------------------------------------------------------------
 */

/* A part of a chain: from the entry that names the key. */
typedef struct part {
    char device[MF_DEVICE_MAX + 1], key[MF_SIGN_KEY_HEX];
    int64_t from, to;
} part;

typedef struct parts {
    part *at;
    size_t n, cap;
} parts;

/* To the entry before the next key, or to the end of the chain. */
static const char parts_sql[] = "SELECT device, seq, body ->> '$.key',"
                                " ifnull(lead(seq) OVER (PARTITION BY device ORDER BY seq) - 1,"
                                "  (SELECT max(seq) FROM entry AS n WHERE n.device = e.device))"
                                " FROM entry AS e WHERE job = '' AND kind = 'device_key'"
                                "  AND body ->> '$.device' = device ORDER BY device, seq";

static mf_status read_parts(parts *out, mf_db *db, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, db, parts_sql, err);
    while (mf_stmt_next(&stmt, &status, err)) {
        part *at = mf_grown(out->at, out->n, &out->cap, sizeof *at);
        if (at == NULL) {
            status = mf_fail_memory(err);
            break;
        }
        out->at = at;
        part *it = &at[out->n++];
        *it = (part){.from = mf_stmt_number(&stmt, 1), .to = mf_stmt_number(&stmt, 3)};
        snprintf(it->device, sizeof it->device, "%s", mf_stmt_column(&stmt, 0));
        snprintf(it->key, sizeof it->key, "%s", mf_stmt_column(&stmt, 2));
    }
    mf_stmt_done(&stmt);
    return status;
}

static void judge(mf_checker *c, const part *p, const signature *it, const char *hash)
{
    char where[MF_ENTRY_WHERE], text[NAME_MAX_LEN];
    const long long seq = it->seq, from = p->from, to = p->to;
    snprintf(where, sizeof where, "chain of %s", p->device);
    text_of(text, p->device, it->seq, it->hash);
    if (!mf_sign_holds(p->key, text, it->by))
        mf_fault(c, true, where, "its signature is not by the key that entry %s/%lld names",
                 p->device, from);
    else if (seq > to)
        mf_fault(c, true, where,
                 "its device signed it up to entry %s/%lld, and it ends with %s/%lld: it was cut "
                 "off",
                 p->device, seq, p->device, to);
    else if (strcmp(it->hash, hash) != 0)
        mf_fault(c, true, where,
                 "entry %s/%lld is not what its device signed: the chain was made anew", p->device,
                 seq);
    else if (seq < to)
        mf_fault(c, true, where,
                 "entries from %s/%lld on are not signed by the key of their device", p->device,
                 seq + 1);
}

static mf_status check_part(mf_checker *c, const part *p, mf_err *err)
{
    char name[NAME_MAX_LEN], value[VALUE_MAX], hash[MF_HASH_HEX], where[MF_ENTRY_WHERE];
    signature it;
    name_of(name, p->device, p->key);
    mf_status status = mf_meta_get(&c->book->db, name, value, sizeof value, err);
    if (status != MF_OK)
        return status;
    if (!split(&it, value)) {
        snprintf(where, sizeof where, "chain of %s", p->device);
        mf_fault(c, true, where,
                 "entry %s/%lld names the key of its device, and no signature by it is here: the "
                 "signature was taken off, or the key exchanged",
                 p->device, (long long)p->from);
        return MF_OK;
    }
    status = mf_journal_hash(&c->book->db, p->device, it.seq, hash, err);
    if (status == MF_OK)
        judge(c, p, &it, hash);
    return status;
}

/* One that no entry names: whoever made the chain anew left the entry with the key out. */
static mf_status check_strays(mf_checker *c, const parts *all, mf_err *err)
{
    char name[NAME_MAX_LEN];
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, &c->book->db,
                    "SELECT key FROM meta WHERE key >= 'signed ' AND key < 'signed!'", err);
    while (mf_stmt_next(&stmt, &status, err)) {
        bool named = false;
        for (size_t i = 0; i < all->n && !named; i++) {
            name_of(name, all->at[i].device, all->at[i].key);
            named = strcmp(name, mf_stmt_column(&stmt, 0)) == 0;
        }
        if (!named)
            mf_fault(c, true, "chain",
                     "it is %.40s..., a key that no entry names: the chain was made anew",
                     mf_stmt_column(&stmt, 0));
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_check_signed(mf_checker *c, mf_err *err)
{
    parts all = {0};
    mf_status status = read_parts(&all, &c->book->db, err);
    for (size_t i = 0; i < all.n && status == MF_OK; i++)
        status = check_part(c, &all.at[i], err);
    if (status == MF_OK)
        status = check_strays(c, &all, err);
    free(all.at);
    return status;
}

/* ---- merging -----------------------------------------------------------------------------------
 */

mf_status mf_signed_merge(mf_book *book, mf_db *other, mf_err *err)
{
    char ours[VALUE_MAX];
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, other,
                    "SELECT key, value FROM meta WHERE key >= 'signed ' AND key < 'signed!'", err);
    while (mf_stmt_next(&stmt, &status, err)) {
        signature theirs, mine;
        if (!split(&theirs, mf_stmt_column(&stmt, 1)) ||
            strlen(mf_stmt_column(&stmt, 0)) >= NAME_MAX_LEN)
            continue;
        status = mf_meta_get(&book->db, mf_stmt_column(&stmt, 0), ours, sizeof ours, err);
        if (status == MF_OK && (!split(&mine, ours) || mine.seq < theirs.seq))
            status = put(&book->db, mf_stmt_column(&stmt, 0), &theirs, err);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_signed_ahead(mf_book *book, mf_db *other, int64_t *seq, char hash[MF_HASH_HEX],
                          mf_err *err)
{
    char name[NAME_MAX_LEN], value[VALUE_MAX], text[NAME_MAX_LEN], ours[MF_HASH_HEX] = "";
    char key[MF_SIGN_KEY_HEX];
    signature last;
    *seq = 0;
    mf_status status = mf_last_key(&book->db, book->device, key, err);
    name_of(name, book->device, key);
    if (status == MF_OK)
        status = mf_meta_get(other, name, value, sizeof value, err);
    if (status != MF_OK || key[0] == '\0' || !split(&last, value))
        return status;
    status = mf_journal_hash(&book->db, book->device, last.seq, ours, err);
    text_of(text, book->device, last.seq, last.hash);
    if (status != MF_OK || strcmp(ours, last.hash) == 0 || !mf_sign_holds(key, text, last.by))
        return status;
    *seq = last.seq;
    mf_hash_copy(hash, last.hash);
    return MF_OK;
}

mf_status mf_own_is_signed(mf_book *book, bool *good, mf_err *err)
{
    char key[MF_SIGN_KEY_HEX];
    mf_journal_end end = {.seq = 0};
    *good = true;
    mf_status status = mf_last_key(&book->db, book->device, key, err);
    if (status == MF_OK && key[0] != '\0')
        status = mf_journal_last(&end, &book->db, book->device, err);
    return end.seq > 0 && status == MF_OK ? signed_to(book, key, end.seq, good, err) : status;
}

MF_API mf_status mf_book_devices(mf_book *book, mf_device_fn *fn, void *data, mf_err *err)
{
    mf_stmt stmt;
    bool more = true;
    mf_status status = mf_stmt_get(
        &stmt, &book->db,
        MF_WITH_DEVICES " SELECT d.device, ifnull(d.device || '/' || max(k.seq), ''),"
                        " ifnull(k.body ->> '$.key', '') FROM d LEFT JOIN entry AS k ON k.job = ''"
                        " AND k.kind = 'device_key' AND k.device = d.device"
                        " AND k.body ->> '$.device' = d.device"
                        " WHERE d.device IS NOT NULL GROUP BY d.device ORDER BY d.device",
        err);
    while (more && mf_stmt_next(&stmt, &status, err))
        more =
            fn(mf_stmt_column(&stmt, 0), mf_stmt_column(&stmt, 1), mf_stmt_column(&stmt, 2), data);
    mf_stmt_done(&stmt);
    return status;
}
