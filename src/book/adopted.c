/* adopted.c - entries of kind adoption, as they were logged. */
#include "book/adopted.h"

#include "base/fail.h"
#include "base/json.h"
#include "book/check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char adopted_sql[] =
    "SELECT e.device || '/' || e.seq, e.who, substr(e.logged_at, 1, 10), e.body ->> '$.reason',"
    " e.body ->> '$.first', e.body ->> '$.last' FROM entry AS e WHERE e.job = ''"
    " AND e.kind = 'adoption' AND NOT " MF_IS_WITHDRAWN " ORDER BY e.rowid";

static bool read_range(mf_adopted *out, const char *first, const char *last)
{
    char device[MF_DEVICE_MAX + 1];
    return mf_entry_id_split(first, out->device, &out->from) &&
           mf_entry_id_split(last, device, &out->to) && strcmp(device, out->device) == 0;
}

static mf_status add(mf_adopted_list *out, mf_stmt *stmt, mf_err *err)
{
    mf_adopted it = {.from = 0};
    if (!read_range(&it, mf_stmt_column(stmt, 4), mf_stmt_column(stmt, 5)))
        return MF_OK; /* somebody wrote it by hand */
    snprintf(it.entry, sizeof it.entry, "%s", mf_stmt_column(stmt, 0));
    snprintf(it.by, sizeof it.by, "%.*s", (int)strcspn(it.entry, "/"), it.entry);
    it.who = mf_arena_text(&out->arena, mf_stmt_column(stmt, 1));
    it.day = mf_arena_text(&out->arena, mf_stmt_column(stmt, 2));
    it.reason = mf_arena_text(&out->arena, mf_stmt_column(stmt, 3));
    mf_adopted *grown = mf_grown(out->at, out->n, &out->cap, sizeof *grown);
    if (grown == NULL || it.who == NULL || it.day == NULL || it.reason == NULL)
        return mf_fail_memory(err);
    out->at = grown;
    out->at[out->n++] = it;
    return MF_OK;
}

mf_status mf_adopted_read(mf_adopted_list *out, mf_book *book, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, &book->db, adopted_sql, err);
    while (mf_stmt_next(&stmt, &status, err))
        status = add(out, &stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

const mf_adopted *mf_adopted_of(const mf_adopted_list *list, const char *const by[2],
                                const char *device, int64_t seq)
{
    for (size_t i = 0; i < list->n; i++) {
        const mf_adopted *it = &list->at[i];
        bool may = strcmp(it->by, by[0]) == 0 || strcmp(it->by, by[1]) == 0;
        if (may && strcmp(it->device, device) == 0 && it->from <= seq && seq <= it->to)
            return it;
    }
    return NULL;
}

void mf_adopted_free(mf_adopted_list *list)
{
    free(list->at);
    mf_arena_free(&list->arena);
    *list = (mf_adopted_list){.n = 0};
}
