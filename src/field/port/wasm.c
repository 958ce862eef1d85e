/* wasm.c - the calls that a browser makes: a request is written into room that was asked for,
 * the reply is read where it lies. One page, one job. */
#include "field/field.h"

#include <stdlib.h>

#define MF_EXPORT(name) __attribute__((export_name(#name))) name

static mf_field_page *page;

void *MF_EXPORT(field_room)(size_t size);
void MF_EXPORT(field_give)(void *room);
const char *MF_EXPORT(field_ask)(const char *request, const void *bytes, size_t len);
const char *MF_EXPORT(field_file)(void);
size_t MF_EXPORT(field_file_len)(void);
size_t MF_EXPORT(field_deep)(size_t kilobytes);

void *field_room(size_t size)
{
    return malloc(size);
}

void field_give(void *room)
{
    free(room);
}

const char *field_ask(const char *request, const void *bytes, size_t len)
{
    if (page == NULL)
        page = mf_field_new();
    return page == NULL ? "{\"error\":{\"text\":\"out of memory\"}}"
                        : mf_field_ask(page, request, bytes, len);
}

const char *field_file(void)
{
    size_t len;
    return page == NULL ? "" : mf_field_file(page, &len);
}

size_t field_file_len(void)
{
    size_t len = 0;
    if (page != NULL)
        mf_field_file(page, &len);
    return len;
}

/* A frame that the one above it is seen by, so that none is left out. */
static size_t __attribute__((noinline)) deeper(size_t left, volatile char *above)
{
    volatile char room[1024];
    room[0] = (char)left;
    room[1023] = above[0];
    size_t n = left == 0 ? 0 : deeper(left - 1, room) + 1;
    return n + (size_t)(room[0] != (char)left);
}

/* Goes down the stack so far, for the test that more than there is ends in a trap and not in
 * data that is overwritten. */
size_t field_deep(size_t kilobytes)
{
    volatile char top[1] = {0};
    return deeper(kilobytes, top);
}
