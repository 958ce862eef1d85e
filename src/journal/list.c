#include "journal/list.h"

#include "base/fail.h"
#include "journal/line.h"
#include <mistfold/paint.h>
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

mf_status mf_list_order_readings(mf_job *job, mf_arena *arena, mf_err *err)
{
    void *room = mf_arena_alloc(arena, mf_readings_room(job));
    if (room == NULL)
        return mf_fail_memory(err);
    mf_readings_order(job, room);
    return MF_OK;
}
