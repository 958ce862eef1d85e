#include "book/list.h"

#include "book/local.h"
#include <mistfold/place.h>
#include <string.h>

void mf_list_set(mf_job *job, size_t offset, const void *items, size_t count)
{
    unsigned char *at = (unsigned char *)job + offset;
    memcpy(at, &items, sizeof items);
    memcpy(at + sizeof items, &count, sizeof count);
}

/* A local limit says its number in words of its unit. */
static void fill_local(unsigned char *items, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        mf_local_limit row;
        memcpy(&row, items + i * sizeof row, sizeof row);
        mf_local_limit_fill(&row);
        memcpy(items + i * sizeof row, &row, sizeof row);
    }
}

void mf_list_put(mf_job *job, const mf_kind *kind, void *items, size_t count)
{
    if (strcmp(kind->name, MF_KIND_LOCAL_LIMIT) == 0)
        fill_local(items, count);
    mf_list_set(job, kind->list_offset, items, count);
}
