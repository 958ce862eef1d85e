#include "book/feed.h"

#include "base/digest.h"
#include "base/fail.h"
#include <stdlib.h>
#include <string.h>

enum {
    PIECE = 64 * 1024,        /* read at a time */
    LONGEST_ROW = 1024 * 1024 /* no export has such a row: a quote is not closed */
};

/* Length up to the last line end outside quotes; 0 = none. A doubled quote turns
 * quoting off and on again. */
static size_t whole_rows(const char *text, size_t len)
{
    size_t whole = 0;
    bool quoted = false;
    for (size_t i = 0; i < len; i++) {
        if (text[i] == '"')
            quoted = !quoted;
        else if (text[i] == '\n' && !quoted)
            whole = i + 1;
    }
    return whole;
}

static mf_status read_piece(mf_feed *feed, mf_err *err)
{
    char *piece = malloc(PIECE);
    size_t got = 0;
    if (piece == NULL)
        return mf_fail_memory(err);
    mf_status status = feed->source->read(feed->source->data, piece, PIECE, &got, err);
    if (status == MF_OK && got > 0)
        mf_buf_add(&feed->text, piece, got);
    feed->ended = status == MF_OK && got == 0;
    free(piece);
    return status == MF_OK && feed->text.failed ? mf_fail_memory(err) : status;
}

static void drop_part(mf_feed *feed)
{
    if (feed->part == 0)
        return;
    feed->consumed += (int64_t)feed->part;
    feed->text.len -= feed->part;
    memmove(feed->text.data, feed->text.data + feed->part, feed->text.len);
    feed->part = 0;
}

mf_status mf_feed_next(mf_feed *feed, mf_err *err)
{
    mf_status status = MF_OK;
    drop_part(feed);
    while (status == MF_OK && feed->part == 0 && !feed->ended) {
        status = read_piece(feed, err);
        feed->part = whole_rows(feed->text.data, feed->text.len);
        if (feed->part == 0 && feed->text.len > LONGEST_ROW)
            feed->part = feed->text.len;
    }
    if (status == MF_OK && feed->ended)
        feed->part = feed->text.len;
    return status;
}

void mf_feed_free(mf_feed *feed)
{
    mf_buf_free(&feed->text);
}

static mf_status hash_pieces(const mf_import_source *source, mf_digest *digest, char *piece,
                             mf_err *err)
{
    size_t got = 1;
    mf_status status = MF_OK;
    while (status == MF_OK && got > 0) {
        status = source->read(source->data, piece, PIECE, &got, err);
        if (status == MF_OK && got > 0 && !mf_digest_add(digest, piece, got))
            status = mf_fail_memory(err);
    }
    return status;
}

mf_status mf_feed_hash(const mf_import_source *source, char out[MF_HASH_HEX], mf_err *err)
{
    char *piece = malloc(PIECE);
    mf_digest *digest = mf_digest_begin();
    mf_status status = piece == NULL || digest == NULL ? mf_fail_memory(err)
                                                       : hash_pieces(source, digest, piece, err);
    if (!mf_digest_end(digest, out) && status == MF_OK)
        status = mf_fail_memory(err);
    free(piece);
    return status == MF_OK ? source->rewind(source->data, err) : status;
}

static mf_status read_memory(void *data, char *to, size_t cap, size_t *got, mf_err *err)
{
    mf_memory_source *from = data;
    (void)err;
    *got = from->len - from->at < cap ? from->len - from->at : cap;
    if (*got > 0)
        memcpy(to, from->text + from->at, *got);
    from->at += *got;
    return MF_OK;
}

static mf_status rewind_memory(void *data, mf_err *err)
{
    mf_memory_source *from = data;
    (void)err;
    from->at = 0;
    return MF_OK;
}

mf_import_source mf_source_of_memory(mf_memory_source *memory)
{
    return (mf_import_source){read_memory, rewind_memory, memory, (int64_t)memory->len};
}
