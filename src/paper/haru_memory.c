#include "paper/haru_memory.h"

#include <stdint.h>
#include <stdlib.h>

/* More than the last call of a large record takes: saving it, with its photos. */
enum { RESERVE = 32 * 1024 * 1024, ALIGN = 16 };

/* Not a state that outlives a call: every call of the library is preceded by _use. */
static _Thread_local mf_haru_memory *in_use;

bool mf_haru_memory_begin(mf_haru_memory *memory)
{
    *memory = (mf_haru_memory){.reserve = malloc(RESERVE)};
    mf_haru_memory_use(memory);
    return memory->reserve != NULL;
}

void mf_haru_memory_end(mf_haru_memory *memory)
{
    free(memory->reserve);
    *memory = (mf_haru_memory){.reserve = NULL};
    in_use = NULL;
}

void mf_haru_memory_use(mf_haru_memory *memory)
{
    in_use = memory;
}

void *mf_haru_alloc(unsigned int size)
{
    void *at = malloc(size == 0 ? 1 : size);
    if (at != NULL || in_use == NULL)
        return at;
    in_use->low = true;
    size_t room = ((size_t)size + ALIGN - 1) / ALIGN * ALIGN;
    if (room > RESERVE - in_use->used)
        return NULL;
    at = in_use->reserve + in_use->used;
    in_use->used += room;
    return at;
}

void mf_haru_free(void *at)
{
    uintptr_t place = (uintptr_t)at, from = in_use == NULL ? 0 : (uintptr_t)in_use->reserve;
    if (from == 0 || place < from || place - from >= RESERVE)
        free(at);
}

void *mf_haru_own(size_t size)
{
    void *at = malloc(size == 0 ? 1 : size);
    if (at == NULL && in_use != NULL)
        in_use->low = true;
    return at;
}
