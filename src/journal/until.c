/* until.c - a job as it stood on a day. */
#include "journal/fold.h"
#include "journal/list.h"
#include <string.h>

/* What befell a thing after the day is not said of it. */
static void unsay_later(const mf_kind *kind, unsigned char *item, mf_day day)
{
    const mf_day none = MF_DAY_NONE;
    for (size_t i = 0; i < kind->n_fields; i++) {
        const mf_field *field = &kind->fields[i];
        mf_day own;
        if ((field->flags & MF_F_LATER) == 0)
            continue;
        memcpy(&own, item + field->offset, sizeof own);
        if (own > day)
            memcpy(item + field->offset, &none, sizeof none);
    }
}

static void list_until(mf_job *job, const mf_kind *kind, mf_day day)
{
    unsigned char *items; /* memory of the job's own fold */
    size_t count = 0, kept = 0;
    const unsigned char *list = (const unsigned char *)job + kind->list_offset;
    memcpy(&items, list, sizeof items);
    mf_kind_items(job, kind, &count);
    for (size_t i = 0; i < count; i++) {
        unsigned char *item = items + i * kind->size;
        if (mf_item_day(kind, item) > day)
            continue;
        unsay_later(kind, item, day);
        if (kept < i)
            memcpy(items + kept * kind->size, item, kind->size);
        kept++;
    }
    mf_list_set(job, kind->list_offset, items, kept);
}

mf_status mf_job_fold_until(mf_job_fold *fold, mf_day day, size_t *left_out, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    *left_out = mf_job_after(&fold->job, day);
    if (*left_out == 0)
        return MF_OK;
    for (size_t i = 0; i < count; i++)
        list_until(&fold->job, &kinds[i], day);
    return mf_list_order_readings(&fold->job, &fold->arena, err);
}
