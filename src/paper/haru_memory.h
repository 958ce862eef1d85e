/* haru_memory.h - memory for the PDF library, which goes on with what it did not get:
 * libharu 2.3.0 reads and writes at NULL when memory runs out in the middle of a call.
 * So each document keeps a reserve from its beginning. When the system has no more, the
 * call under way is served from it and the document counts as failed: no further call
 * is made. */
#ifndef MF_PAPER_HARU_MEMORY_H
#define MF_PAPER_HARU_MEMORY_H

#include <stdbool.h>
#include <stddef.h>

typedef struct mf_haru_memory {
    unsigned char *reserve;
    size_t used;
    bool low; /* the reserve was touched */
} mf_haru_memory;

/* False when there is no memory for the reserve. Pages of it that are never touched cost
 * the system nothing. */
bool mf_haru_memory_begin(mf_haru_memory *memory);
/* After the document is freed; accepts one that was never begun. */
void mf_haru_memory_end(mf_haru_memory *memory);
/* Whose the calls are that this thread makes from now on. */
void mf_haru_memory_use(mf_haru_memory *memory);

/* What the library calls: it hands over no document. */
void *mf_haru_alloc(unsigned int size);
void mf_haru_free(void *at);
/* For what it asks of the system itself, frees by free() and cannot do without: NULL
 * makes the document a failed one. */
void *mf_haru_own(size_t size);

#endif
