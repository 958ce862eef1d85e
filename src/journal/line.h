/* line.h - one entry of the journal and its canonical line: the text whose SHA-256 is
 * its hash. */
#ifndef MF_JOURNAL_LINE_H
#define MF_JOURNAL_LINE_H

#include "base/mem.h"
#include <mistfold/book.h>

#define MF_DEVICE_MAX       16
#define MF_KIND_CORRECTION  "correction"
#define MF_KIND_WITNESS     "witness"
#define MF_KIND_LOCAL_LIMIT "local_limit"

/* One entry. The texts belong to whoever filled it. */
typedef struct mf_line {
    const char *device;
    int64_t seq;
    const char *at, *who, *kind, *job, *body, *prev, *hash;
} mf_line;

/* prev of a device's first entry. */
extern const char mf_zero_hash[MF_HASH_HEX];
void mf_hash_copy(char out[MF_HASH_HEX], const char *hash);

/* How SHA-256 is computed, as this room does not know: false when memory ran out. */
typedef struct mf_sha256 {
    bool (*hash)(void *data, const void *bytes, size_t len, char out[MF_HASH_HEX]);
    void *data;
} mf_sha256;

/* The SHA-256 of its canonical line, the RFC 8785 form of {"at","body","device","job","kind",
 * "prev","seq","who"}. text is room that is used again and again; zero-initialize to start. */
mf_status mf_line_hash(const mf_line *line, const mf_sha256 *by, mf_buf *text,
                       char out[MF_HASH_HEX], mf_err *err);

/* Appends that line. The text is what the hash is of, byte for byte. */
void mf_line_text(mf_buf *out, const mf_line *line);

/* Whether it may name a device: 1 to MF_DEVICE_MAX of a-z, 0-9 and -. */
bool mf_is_device(const char *name);

/* "device/seq" of an entry, and in its parts. False when text is none. */
void mf_line_id(const mf_line *line, char out[MF_ENTRY_ID]);
bool mf_entry_id_split(const char *text, char device[MF_DEVICE_MAX + 1], int64_t *seq);

/* Whether an entry was made after another: by (at, device, seq). */
bool mf_made_after(const char *at, const char *entry, const char *other_at, const char *other);

#endif
