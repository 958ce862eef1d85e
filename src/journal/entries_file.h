/* entries_file.h - entries on their way from one place to another: a text of lines, each a
 * canonical JSON object (RFC 8785), each ended by a line feed.
 *
 *   {"at":"2026-09-14T18:02:11Z","entries":1,"head":"ab..","job":"J-1926"}   the first line
 *   {"hash":"9f..","line":{..}}               an entry: its hash and its canonical line
 *   {"attachment":"3c..","base64":".."}       bytes that an entry names, under their SHA-256
 *   {"heads":[{"device":"truck","hash":"9f..","seq":7}, ..]}                 the last line
 *
 * head is that of the book it was written from ("" = not known). The heads are the last entry
 * of each device in the file, by device. The writer puts bytes in front of the first entry that
 * names them, so that a file that was cut off is whole up to its last line end; a reader takes
 * them from anywhere. Entries of a device stand in the order of their numbers; some may be left
 * out, as those of other jobs are. */
#ifndef MF_JOURNAL_ENTRIES_FILE_H
#define MF_JOURNAL_ENTRIES_FILE_H

#include "base/json.h"
#include "journal/line.h"

/* A segment is such a file of one device's chain, of all jobs and the firm: job is "", and its
 * first line says besides what its writer knew and how the chain is signed:
 *   "needs":[{"device":"office","hash":"..","seq":9}, ..],"signed":["signed truck KEY 7 .."],
 *   "writer":["office","KEY","SIGNATURE"]
 * The writer, if its own chain is signed, signs what it knew and what it hands on, whosever
 * chain that is: "mistfold segment\n" SHA256 "\n" of a line "device seq hash" for each of needs
 * and all that stands behind the first line (writer [] = it does not). */
#define MF_ENTRIES_FORMAT   1
#define MF_ENTRIES_FILE_MAX ((size_t)256 * 1024 * 1024) /* bytes that are read */

/* ---- writing --------------------------------------------------------------------------- */

void mf_entries_put_first(mf_buf *out, const char *at, const char *head, const char *job);
/* The first line of a segment. */
typedef struct mf_entries_head mf_entries_head;
typedef struct mf_entries_first {
    const char *at, *head;
    const mf_entries_head *needs;
    size_t n_needs;
    const char *const *by; /* the texts of signed */
    size_t n_by;
    const char *writer[3]; /* NULL in front = it does not sign */
} mf_entries_first;
void mf_entries_put_segment(mf_buf *out, const mf_entries_first *first);
void mf_entries_put_line(mf_buf *out, const mf_line *line);
void mf_entries_put_content(mf_buf *out, const char *sha256, const void *bytes, size_t len);

/* The last entry of a device. */
struct mf_entries_head {
    char device[MF_DEVICE_MAX + 1];
    int64_t seq;
    char hash[MF_HASH_HEX];
};
/* Puts them in order by device. */
void mf_entries_heads_sort(mf_entries_head *heads, size_t n);
/* The last line; the heads are put in order. */
void mf_entries_put_last(mf_buf *out, mf_entries_head *heads, size_t n);

/* The last entries of the devices that were met, in the order in which they were. */
typedef struct mf_entries_heads {
    mf_entries_head *at;
    size_t n, cap;
} mf_entries_heads;
/* That of a device, NULL = it was not met. */
mf_entries_head *mf_entries_head_of(const mf_entries_heads *heads, const char *device);
/* Takes a line for the last of its device; false when memory ran out. */
bool mf_entries_head_note(mf_entries_heads *heads, const mf_line *line);

/* ---- reading ---------------------------------------------------------------------------- */

typedef enum mf_entries_part { MF_PART_END, MF_PART_LINE, MF_PART_CONTENT } mf_entries_part;

/* A text being read, which must live as long. */
typedef struct mf_entries_reader {
    const char *name; /* of the file, for messages */
    const mf_sha256 *by;
    const char *text;
    size_t len, at;
    int64_t n;          /* the number of the line that was read last */
    bool without_bytes; /* set by the caller: bytes are not decoded and not looked at */
    bool ended;         /* its last line was read */
    bool cut;           /* at the end: the last line is missing, or stands there in part */
    const char *made, *from, *job; /* of the first line: at, head and job */
    json_t *first;                 /* all of it */
    mf_entries_heads heads;
    /* What was read last, until the next call. */
    mf_line line;
    char hash[MF_HASH_HEX];
    char sha256[MF_HASH_HEX];
    mf_bytes bytes;
    mf_arena arena;
    json_t *tree;
    mf_buf body, canonical;
} mf_entries_reader;

/* Reads the first line. MF_INPUT when it is none. mf_entries_file_free accepts a reader that
 * failed, and one of zeros. */
mf_status mf_entries_file_begin(mf_entries_reader *r, const char *name, const char *text,
                                size_t len, const mf_sha256 *by, mf_err *err);
/* Reads the next part. Every entry is held against its hash, bytes against their SHA-256 unless
 * the reader goes without them, the heads against the entries in front of them. A file that
 * ends in the midst of a line, or without its heads, ends there: r->cut. MF_INPUT names the
 * line in err. */
mf_status mf_entries_file_next(mf_entries_reader *r, mf_entries_part *part, mf_err *err);
void mf_entries_file_free(mf_entries_reader *r);

#endif
