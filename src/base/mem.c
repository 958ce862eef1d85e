#include "base/mem.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define BLOCK_SIZE ((size_t)16384)

struct mf_arena_block {
    struct mf_arena_block *next;
    size_t used, size;
    max_align_t data[];
};

static mf_arena_block *new_block(mf_arena *arena, size_t need)
{
    size_t size = need > BLOCK_SIZE ? need : BLOCK_SIZE;
    mf_arena_block *block = malloc(sizeof *block + size);
    if (block == NULL)
        return NULL;
    block->next = arena->top;
    block->used = 0;
    block->size = size;
    arena->top = block;
    return block;
}

void *mf_arena_alloc(mf_arena *arena, size_t size)
{
    const size_t unit = sizeof(max_align_t);
    if (size > SIZE_MAX / 2)
        return NULL;
    size_t need = (size + unit - 1) / unit * unit;
    mf_arena_block *block = arena->top;
    if (block == NULL || block->size - block->used < need)
        block = new_block(arena, need);
    if (block == NULL)
        return NULL;
    void *at = (unsigned char *)block->data + block->used;
    block->used += need;
    return memset(at, 0, size);
}

char *mf_arena_piece(mf_arena *arena, const char *text, size_t len)
{
    char *copy = len == SIZE_MAX ? NULL : mf_arena_alloc(arena, len + 1);
    return copy == NULL || len == 0 ? copy : memcpy(copy, text, len);
}

char *mf_arena_text(mf_arena *arena, const char *text)
{
    return mf_arena_piece(arena, text, strlen(text));
}

void mf_arena_free(mf_arena *arena)
{
    while (arena->top != NULL) {
        mf_arena_block *next = arena->top->next;
        free(arena->top);
        arena->top = next;
    }
}

static bool buf_reserve(mf_buf *buf, size_t extra)
{
    if (buf->failed)
        return false;
    if (buf->cap - buf->len > extra)
        return true;
    size_t cap = buf->cap == 0 ? 256 : buf->cap;
    while (cap - buf->len <= extra && cap < SIZE_MAX / 2)
        cap *= 2;
    char *data = cap - buf->len > extra ? realloc(buf->data, cap) : NULL;
    if (data == NULL) {
        buf->failed = true;
        return false;
    }
    buf->data = data;
    buf->cap = cap;
    return true;
}

void mf_buf_add(mf_buf *buf, const void *bytes, size_t len)
{
    if (len == 0 || !buf_reserve(buf, len))
        return;
    memcpy(buf->data + buf->len, bytes, len);
    buf->len += len;
    buf->data[buf->len] = '\0';
}

void mf_buf_text(mf_buf *buf, const char *text)
{
    mf_buf_add(buf, text, strlen(text));
}

void mf_buf_number(mf_buf *buf, int64_t number)
{
    char digits[24];
    size_t at = sizeof digits;
    uint64_t rest = number < 0 ? 0 - (uint64_t)number : (uint64_t)number;
    do {
        digits[--at] = (char)('0' + rest % 10);
        rest /= 10;
    } while (rest > 0);
    if (number < 0)
        digits[--at] = '-';
    mf_buf_add(buf, digits + at, sizeof digits - at);
}

void mf_buf_vprintf(mf_buf *buf, const char *format, va_list args)
{
    va_list again;
    va_copy(again, args);
    int len = vsnprintf(NULL, 0, format, args);
    if (len > 0 && buf_reserve(buf, (size_t)len)) {
        vsnprintf(buf->data + buf->len, (size_t)len + 1, format, again);
        buf->len += (size_t)len;
    }
    va_end(again);
}

void mf_buf_printf(mf_buf *buf, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    mf_buf_vprintf(buf, format, args);
    va_end(args);
}

const char *mf_buf_str(const mf_buf *buf)
{
    return buf->data == NULL ? "" : buf->data;
}

void mf_buf_clear(mf_buf *buf)
{
    buf->len = 0;
    if (buf->data != NULL)
        buf->data[0] = '\0';
}

void mf_buf_free(mf_buf *buf)
{
    free(buf->data);
    *buf = (mf_buf){0};
}

void mf_buf_take(mf_buf *buf, mf_bytes *out)
{
    out->data = (unsigned char *)buf->data;
    out->len = buf->len;
    *buf = (mf_buf){0};
}

void mf_bytes_free(mf_bytes *bytes)
{
    if (bytes == NULL)
        return;
    free(bytes->data);
    *bytes = (mf_bytes){0};
}

void *mf_grown(void *list, size_t n, size_t *cap, size_t size)
{
    if (n < *cap)
        return list;
    size_t wider = *cap == 0 ? 16 : *cap * 2;
    void *grown = realloc(list, wider * size);
    if (grown != NULL)
        *cap = wider;
    return grown;
}
