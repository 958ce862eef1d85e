/* feed.h - a CSV text from a source in parts that end at the end of a row. */
#ifndef MF_BOOK_FEED_H
#define MF_BOOK_FEED_H

#include "base/mem.h"
#include <mistfold/book.h>

typedef struct mf_feed {
    const mf_import_source *source;
    mf_buf text;      /* read and not yet handed on */
    size_t part;      /* length of the part in front */
    bool ended;       /* the source is at its end */
    int64_t consumed; /* bytes handed on */
} mf_feed;

/* Reads until a part is whole; it is feed->text.data, feed->part bytes, until the
 * next call. A part of 0 bytes = the end. A row too long to hold is handed on as
 * it is, for the reader to refuse. */
mf_status mf_feed_next(mf_feed *feed, mf_err *err);
void mf_feed_free(mf_feed *feed);

/* The SHA-256 of the whole source, and back to its start. */
mf_status mf_feed_hash(const mf_import_source *source, char out[MF_HASH_HEX], mf_err *err);

/* A text in memory as a source. */
typedef struct mf_memory_source {
    const char *text;
    size_t len, at;
} mf_memory_source;
mf_import_source mf_source_of_memory(mf_memory_source *memory);

#endif
