/* journal.h - the chain of entries: canonical line, hash, append, read back. */
#ifndef MF_BOOK_JOURNAL_H
#define MF_BOOK_JOURNAL_H

#include "base/mem.h"
#include "book/room.h"

/* One row of the journal. The texts belong to whoever filled it. */
typedef struct mf_line {
    const char *device;
    int64_t seq;
    const char *at, *who, *kind, *job, *body, *prev, *hash;
} mf_line;

/* prev of a device's first entry. */
extern const char mf_zero_hash[MF_HASH_HEX];

/* The columns of a mf_line in their order, for SELECT. */
#define MF_LINE_COLUMNS "device, seq, logged_at, who, kind, job, body, prev, hash"

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

/* The canonical line in its parts, for whoever writes many that differ in body, prev
 * and seq: head, body, middle, prev in quotes, ,"seq":N, tail. */
void mf_line_add_head(mf_buf *out, const mf_line *line);
void mf_line_add_middle(mf_buf *out, const mf_line *line);
void mf_line_add_tail(mf_buf *out, const mf_line *line);

void mf_hash_copy(char out[MF_HASH_HEX], const char *hash);

/* seq and hash of our last entry; 0 and zeros before the first. */
mf_status mf_journal_last(mf_book *book, int64_t *seq, char hash[MF_HASH_HEX], mf_err *err);

/* Appends the canonical line (book.h); mf_line_hash gives its SHA-256. */
void mf_line_text(mf_buf *out, const mf_line *line);
mf_status mf_line_hash(const mf_line *line, char out[MF_HASH_HEX], mf_err *err);

/* "device/seq" in its parts. False when text is none. */
bool mf_entry_id_split(const char *text, char device[MF_DEVICE_MAX + 1], int64_t *seq);

/* Adds an entry with body (canonical JSON) to the end of our chain and writes its
 * id to id, inside the open group. */
mf_status mf_journal_append(mf_book *book, const char *kind, const char *job, const char *body,
                            const mf_now *now, char id[MF_ENTRY_ID], int64_t *seq, mf_err *err);

/* Adds an entry as it is, ours or another device's; the guards hold the chain. */
mf_status mf_journal_insert(mf_db *db, const mf_line *line, mf_err *err);

/* Reads back what the open group has written and hashes it anew, but for what was read
 * back before: a long import does so as it goes, while its pages are at hand. */
mf_status mf_journal_read_back(mf_book *book, mf_err *err);

/* A row of the journal that outlives its statement: out's texts are in arena.
 * *found is false when there is none. */
mf_status mf_journal_find(mf_line *out, mf_arena *arena, mf_db *db, const char *device, int64_t seq,
                          bool *found, mf_err *err);
/* The same by "device/seq"; a text that is none names no entry. */
mf_status mf_journal_entry(mf_line *out, mf_arena *arena, mf_db *db, const char *id, bool *found,
                           mf_err *err);

#endif
