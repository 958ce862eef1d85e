/* journal.h - the chain of entries in a book: append, read back, look up. */
#ifndef MF_BOOK_JOURNAL_H
#define MF_BOOK_JOURNAL_H

#include "base/mem.h"
#include "book/room.h"
#include "journal/line.h"

/* The columns of a mf_line in their order, for SELECT. */
#define MF_LINE_COLUMNS "device, seq, logged_at, who, kind, job, body, prev, hash"
enum { MF_LINE_N_COLUMNS = 9 };
/* The SELECT of all that a mf_line needs and the rowid behind it. */
#define MF_LINE_SELECT "SELECT " MF_LINE_COLUMNS ", rowid FROM entry"

/* d (device): every device that made entries, and a NULL; it begins a query. Steps from
 * device to device by the index, without reading the entries between. */
#define MF_WITH_DEVICES                                                                            \
    "WITH RECURSIVE d (device) AS ("                                                               \
    "  SELECT min(device) FROM entry"                                                              \
    "  UNION ALL SELECT (SELECT min(device) FROM entry WHERE device > d.device) FROM d"            \
    "  WHERE d.device IS NOT NULL)"

/* The row a statement that selects MF_LINE_COLUMNS stands on; its texts live as
 * long as the row does. */
mf_line mf_line_of_row(mf_stmt *stmt);

/* How a book computes SHA-256, for whoever reads lines (line.h): as long as the book is open. */
mf_status mf_book_sha256(mf_book *book, mf_sha256 *out, mf_err *err);
/* The hash that an entry should have. */
mf_status mf_entry_hash(mf_book *book, const mf_line *line, char out[MF_HASH_HEX], mf_err *err);

/* Adds an entry with body (canonical JSON) to the end of our chain and writes its
 * id to id, inside the open group. */
mf_status mf_journal_append(mf_book *book, const char *kind, const char *job, const char *body,
                            const mf_now *now, char id[MF_ENTRY_ID], int64_t *seq, mf_err *err);

/* Adds an entry as it is, ours or another device's; the guards hold the chain. */
mf_status mf_journal_insert(mf_book *book, const mf_line *line, mf_err *err);

/* Reads back what the open group has written, but for what was read back before, hashes it
 * anew and counts it (held.h). A long import does so as it goes, while its pages are at
 * hand. */
mf_status mf_journal_read_back(mf_book *book, mf_err *err);

/* A row of the journal that outlives its statement: out's texts are in arena.
 * *found is false when there is none. */
mf_status mf_journal_find(mf_line *out, mf_arena *arena, mf_db *db, const char *device, int64_t seq,
                          bool *found, mf_err *err);
/* The same by "device/seq"; a text that is none names no entry. */
mf_status mf_journal_entry(mf_line *out, mf_arena *arena, mf_db *db, const char *id, bool *found,
                           mf_err *err);

/* The last entry of a device; seq 0 and zeros as its hash when it has made none. */
typedef struct mf_journal_end {
    int64_t seq, rowid;
    char hash[MF_HASH_HEX];
} mf_journal_end;
mf_status mf_journal_last(mf_journal_end *out, mf_db *db, const char *device, mf_err *err);

/* The hash of an entry; "" when there is none. */
mf_status mf_journal_hash(mf_db *db, const char *device, int64_t seq, char out[MF_HASH_HEX],
                          mf_err *err);

/* The rowid of the entry of that id, by the index alone; 0 = there is none. */
mf_status mf_journal_rowid(mf_book *book, const char *id, int64_t *rowid, mf_err *err);

#endif
