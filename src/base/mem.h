/* mem.h - memory for the rooms above core: an arena and a growing text buffer.
 *
 * Both remember that they ran out of memory, so that a caller checks once at
 * the end instead of at every append. */
#ifndef MF_BASE_MEM_H
#define MF_BASE_MEM_H

#include <mistfold/err.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>

/* An arena: many small allocations with one life. Zero-initialize to start. */
typedef struct mf_arena_block mf_arena_block;
typedef struct mf_arena {
    mf_arena_block *top;
} mf_arena;

/* size bytes set to zero, aligned for any type, or NULL when memory ran out. */
void *mf_arena_alloc(mf_arena *arena, size_t size);
/* A copy of text, or of len bytes of it, ended by a NUL; or NULL. */
char *mf_arena_piece(mf_arena *arena, const char *text, size_t len);
char *mf_arena_text(mf_arena *arena, const char *text);
void mf_arena_free(mf_arena *arena);

/* A growing buffer of bytes that always ends in a NUL not counted in len.
 * Zero-initialize to start; free data with mf_buf_free. */
typedef struct mf_buf {
    char *data;
    size_t len, cap;
    bool failed; /* memory ran out: what is in it is not whole */
} mf_buf;

void mf_buf_add(mf_buf *buf, const void *bytes, size_t len);
void mf_buf_text(mf_buf *buf, const char *text);
void mf_buf_number(mf_buf *buf, int64_t number);
void mf_buf_printf(mf_buf *buf, const char *format, ...) MF_PRINTF(2, 3);
void mf_buf_vprintf(mf_buf *buf, const char *format, va_list args);
/* The text so far; "" when nothing was added. Never NULL. */
const char *mf_buf_str(const mf_buf *buf);
void mf_buf_clear(mf_buf *buf);
void mf_buf_free(mf_buf *buf);
/* Moves the bytes out to *out (the caller frees them) and leaves buf empty. */
void mf_buf_take(mf_buf *buf, mf_bytes *out);

/* A list of n items of size bytes each with room for one more; *cap is how many it has
 * room for. NULL when memory ran out: then list is as it was. */
void *mf_grown(void *list, size_t n, size_t *cap, size_t size);

#endif
