/* mistfold/segment.h - parts of chains on their way from one book to another, without the book.
 *
 * A segment is a piece of one device's chain, from an entry to the end that the chain had when
 * it was written: a file of entries (docs/json.md) whose first line also says which entries of
 * other devices its writer knew, and how the chain is signed there. The bytes of attachments
 * are beside it, each once, under their SHA-256. What comes in passes every check of a merge.
 */
#ifndef MISTFOLD_SEGMENT_H
#define MISTFOLD_SEGMENT_H

#include <mistfold/book.h>
#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/* One entry by its place and its hash. */
typedef struct mf_segment_head {
    char device[17];
    int64_t seq;
    char hash[MF_HASH_HEX];
} mf_segment_head;

typedef struct mf_segment {
    char device[17];
    int64_t from, to;       /* numbers of its entries, all in between are in it */
    char prev[MF_HASH_HEX]; /* of the entry before from */
    char hash[MF_HASH_HEX]; /* of to */
    char latest[24];        /* the latest time at which one of them was logged, UTC */
    mf_segment_head *needs; /* the last entries that its writer knew of other devices */
    size_t n_needs;
    char (*contents)[MF_HASH_HEX]; /* SHA-256 of the bytes that its entries name */
    size_t n_contents;
    /* The device that wrote it, whosever chain it is of, and the key by which it signed the
     * entries in it and needs; "" = nobody did. Whether the key is that device's the book knows. */
    char writer[17], writer_key[MF_HASH_HEX];
} mf_segment;

/* The chain of a device from an entry to its end, which the caller frees. at is UTC. Fails
 * MF_INPUT when there is no such entry, MF_SYSTEM when one is not what was logged. */
MF_API mf_status mf_book_segment(mf_book *book, const char *device, int64_t from, const char *at,
                                 mf_bytes *out, mf_err *err);

/* Reads one and holds every line against its hash; the caller frees *out, also when it fails.
 * name goes into messages. MF_INPUT when it is none, was cut off or altered. */
MF_API mf_status mf_segment_read(const char *name, const void *bytes, size_t len, mf_segment *out,
                                 mf_err *err);
MF_API void mf_segment_free(mf_segment *segment);

/* The bytes of a segment, for taking it over. */
typedef struct mf_segment_text {
    const char *name;
    const void *bytes;
    size_t len;
} mf_segment_text;

typedef struct mf_segments_ask {
    const mf_segment_text *at;
    size_t n;
    /* The bytes under that SHA-256, which the callee frees. */
    mf_status (*content)(void *data, const char *sha256, mf_bytes *out, mf_err *err);
    void *data;
    const mf_adopt *adopt; /* as for mf_book_merge; may be NULL */
    const mf_watch *watch; /* may be NULL */
} mf_segments_ask;

/* Takes over what these segments have and the book has not, all of them or nothing, by the
 * checks of mf_book_merge, of which it is the same with another source; inside the open group,
 * if there is one. MF_INPUT as there. */
MF_API mf_status mf_book_merge_segments(mf_book *book, const mf_segments_ask *ask,
                                        mf_merge_report *out, mf_err *err);

/* The key that the chain of a device names last; "" = it does not sign, or is not here. */
MF_API mf_status mf_book_chain_key(mf_book *book, const char *device, char out[MF_HASH_HEX],
                                   mf_err *err);

/* Whether a head of that device was noted here, and stands (heads.h). */
MF_API mf_status mf_book_is_noted(mf_book *book, const char *device, bool *noted, mf_err *err);

/* Notes in the book that its own chain went on to an entry: with its hash when something says so
 * that this device signed; "" when the name of a file, a head or another device does. Then
 * nothing is logged any more (MF_INPUT) until the entry is here; without a hash that is only told.
 * What is noted with a hash, and further, stays. */
MF_API mf_status mf_book_note_ahead(mf_book *book, int64_t seq, const char *hash, mf_err *err);
/* Takes back what was noted without a hash: nothing says so any more. */
MF_API mf_status mf_book_not_ahead(mf_book *book, mf_err *err);
/* MF_INPUT when nothing can be logged, in the group that is open or now, as what this device signed
 * says that its chain went on to an entry which is not here, or is another one here. */
MF_API mf_status mf_book_goes_on(mf_book *book, mf_err *err);
/* What is noted and not here; seq 0 = nothing. */
MF_API mf_status mf_book_ahead(mf_book *book, mf_segment_head *out, mf_err *err);

/* Whether a device is among names parted by commas; NULL = no names. */
MF_API bool mf_device_is_listed(const char *list, const char *device);

/* The device whose chain the book continues; it lives as long as the book. */
MF_API const char *mf_book_device(const mf_book *book);

/* Calls fn with the SHA-256 of every attachment whose bytes are in the book, in order. */
typedef bool mf_content_fn(const char *sha256, void *data);
MF_API mf_status mf_book_contents(mf_book *book, mf_content_fn *fn, void *data, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
