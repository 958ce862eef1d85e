#include "book/asked.h"

#include "base/fail.h"
#include "base/mem.h"
#include "book/db.h"
#include <mistfold/address.h>
#include <stdlib.h>
#include <string.h>

static mf_status add(mf_asked *asked, const char *job, mf_err *err)
{
    const char **grown = mf_grown(asked->id, asked->n, &asked->cap, sizeof *asked->id);
    const char *id = mf_arena_text(&asked->arena, job);
    asked->id = grown == NULL ? asked->id : grown;
    if (grown == NULL || id == NULL)
        return mf_fail_memory(err);
    asked->id[asked->n++] = id;
    return MF_OK;
}

/* Everybody at the address of the job; whose unit may be the same mf_may_be_one_place tells. */
static const char sql[] = "SELECT h.job, h.address, h.unit, m.address, m.unit"
                          "  FROM place AS m JOIN place AS h ON h.key = m.key"
                          "  WHERE m.job = ?1 AND h.job <> ?1 ORDER BY h.job";

static bool here(mf_stmt *stmt)
{
    return mf_may_be_one_place(mf_stmt_column(stmt, 1), mf_stmt_column(stmt, 2),
                               mf_stmt_column(stmt, 3), mf_stmt_column(stmt, 4));
}

static mf_status add_others(mf_asked *asked, mf_db *db, mf_err *err)
{
    mf_stmt stmt;
    mf_err cannot = {0};
    mf_status status = mf_stmt_get(&stmt, db, sql, &cannot);
    if (status != MF_OK && mf_db_lacks(db))
        return MF_OK; /* told by the check of the schema */
    if (status != MF_OK && err != NULL)
        *err = cannot;
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, asked->id[0]);
    while (mf_stmt_next(&stmt, &status, err)) {
        const char *job = mf_stmt_column(&stmt, 0);
        bool again = strcmp(asked->id[asked->n - 1], job) == 0; /* of a house said twice */
        if (job[0] != '\0' && here(&stmt) && !again)
            status = add(asked, job, err);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_asked_load(mf_asked *out, mf_book *book, const char *job, mf_err *err)
{
    *out = (mf_asked){.n = 0};
    mf_status status = add(out, job, err);
    return status == MF_OK && job[0] != '\0' ? add_others(out, &book->db, err) : status;
}

void mf_asked_free(mf_asked *asked)
{
    mf_arena_free(&asked->arena);
    free(asked->id);
    *asked = (mf_asked){.n = 0};
}

bool mf_asked_has(const mf_asked *asked, const char *job)
{
    size_t i = 0;
    while (i < asked->n && strcmp(asked->id[i], job) != 0)
        i++;
    return i < asked->n;
}

void mf_asked_sql(mf_buf *out, const mf_asked *asked)
{
    mf_buf_text(out, asked->firm_read != NULL ? " IN (" : " IN (''");
    for (size_t i = 0; i < asked->n; i++)
        mf_buf_printf(out, i == 0 && asked->firm_read != NULL ? "?%zu" : ", ?%zu", i + 1);
    mf_buf_text(out, ")");
}

void mf_asked_bind(mf_stmt *stmt, const mf_asked *asked)
{
    for (size_t i = 0; i < asked->n; i++)
        mf_stmt_text(stmt, (int)i + 1, asked->id[i]);
}

/* ---- what of the firm was read -------------------------------------------------------------- */

mf_status mf_firm_read_add(mf_firm_read *read, const char *device, int64_t seq, mf_err *err)
{
    struct mf_firm_entry *grown = mf_grown(read->at, read->n, &read->cap, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    read->at = grown;
    bool again = read->n > 0 && strcmp(grown[read->n - 1].device, device) == 0;
    const char *name = again ? grown[read->n - 1].device : mf_arena_text(&read->arena, device);
    if (name == NULL)
        return mf_fail_memory(err);
    read->at[read->n++] = (struct mf_firm_entry){name, seq};
    return MF_OK;
}

static int entry_order(const void *one, const void *other)
{
    const struct mf_firm_entry *a = one, *b = other;
    int order = strcmp(a->device, b->device);
    return order != 0 ? order : (a->seq > b->seq) - (a->seq < b->seq);
}

bool mf_firm_was_read(const mf_firm_read *read, const char *device, int64_t seq)
{
    const struct mf_firm_entry it = {device, seq};
    return read->n > 0 && bsearch(&it, read->at, read->n, sizeof it, entry_order) != NULL;
}

void mf_firm_read_free(mf_firm_read *read)
{
    mf_arena_free(&read->arena);
    free(read->at);
    *read = (mf_firm_read){.n = 0};
}
