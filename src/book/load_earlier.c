/* load_earlier.c - 40 CFR 745.83 counts jobs of the same room within 30 days as
 * one, emergencies excepted. Here all other jobs at what may be the same address and unit are
 * looked up; which of them are near enough in time core decides. */
#include "book/load_earlier.h"

#include "base/fail.h"
#include "base/mem.h"
#include "book/index.h"
#include "book/job_lines.h"
#include <mistfold/address.h>
#include <mistfold/house.h>
#include <stdlib.h>
#include <string.h>

/* ---- the parts of other jobs ------------------------------------------------------- */

static bool bears(const mf_kind *kind)
{
    return mf_settled_bears(kind->name);
}

typedef struct earliers {
    mf_job_fold *to; /* of the job that is loaded */
    mf_earlier *at;  /* outlives the other jobs */
    size_t n, cap;
} earliers;

static mf_status add(earliers *out, const mf_earlier *of, mf_err *err)
{
    mf_arena *arena = &out->to->arena;
    mf_earlier *grown = mf_grown(out->at, out->n, &out->cap, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    out->at = grown;
    mf_earlier *it = &grown[out->n++];
    *it = *of;
    it->src = (mf_src){mf_arena_text(arena, of->src.entry), mf_arena_text(arena, of->src.at),
                       mf_arena_text(arena, of->src.by), mf_arena_text(arena, of->src.correction)};
    it->job = mf_arena_text(arena, of->job);
    it->room = mf_arena_text(arena, of->room);
    bool whole = it->src.entry != NULL && it->src.at != NULL && it->src.by != NULL &&
                 it->src.correction != NULL && it->job != NULL && it->room != NULL;
    return whole ? MF_OK : mf_fail_memory(err);
}

static mf_status add_house(earliers *out, const mf_job *job, const mf_house *house, mf_err *err)
{
    const mf_house *here = &out->to->job.house[0];
    if (!mf_may_be_one_place(here->address, here->unit, house->address, house->unit))
        return MF_OK;
    size_t n = mf_earlier_of_job(job, house, NULL, 0);
    mf_earlier *rows = calloc(n + 1, sizeof *rows);
    if (rows == NULL)
        return mf_fail_memory(err);
    mf_status status = MF_OK;
    mf_earlier_of_job(job, house, rows, n);
    for (size_t i = 0; status == MF_OK && i < n; i++)
        status = add(out, &rows[i], err);
    free(rows);
    return status;
}

/* A word of the other job that is not known here is for its own answers to tell. */
static mf_status add_job(earliers *out, mf_book *book, const char *id, mf_err *err)
{
    mf_job_fold *fold = NULL;
    mf_err why = {0};
    mf_status status = mf_job_fold_of(&fold, book, id, bears, MF_WITHOUT_FIRM, err);
    if (status != MF_OK)
        return status;
    status = mf_job_fold_finish(fold, &why);
    if (status != MF_OK && strcmp(why.name, MF_ERR_UNREAD) == 0)
        status = MF_OK;
    else if (status != MF_OK && err != NULL)
        *err = why;
    if (fold->job.integrity == MF_INTEGRITY_BROKEN)
        out->to->job.integrity = MF_INTEGRITY_BROKEN;
    for (size_t i = 0; status == MF_OK && fold->job.n_emergency == 0 && i < fold->job.n_house; i++)
        status = add_house(out, &fold->job, &fold->job.house[i], err);
    mf_job_fold_free(fold);
    return status;
}

static mf_status add_all(earliers *out, mf_book *book, const char *key, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    mf_status status = mf_stmt_get(
        &stmt, &book->db,
        "SELECT DISTINCT job FROM place WHERE key = ?1 AND job <> ?2 ORDER BY job", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, key);
    mf_stmt_text(&stmt, 2, out->to->job.id);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = add_job(out, book, mf_stmt_column(&stmt, 0), err);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_load_earlier(mf_book *book, mf_job_fold *fold, mf_err *err)
{
    mf_buf key = {0};
    earliers all = {.to = fold};
    if (fold->job.n_house == 0)
        return MF_OK;
    mf_place_key(&key, fold->job.house[0].address);
    mf_status status =
        key.failed ? mf_fail_memory(err) : add_all(&all, book, mf_buf_str(&key), err);
    mf_buf_free(&key);
    mf_earlier *kept = status == MF_OK ? mf_arena_alloc(&fold->arena, all.n * sizeof *kept) : NULL;
    if (status == MF_OK && kept == NULL)
        status = mf_fail_memory(err);
    for (size_t i = 0; status == MF_OK && kept != NULL && i < all.n; i++)
        kept[i] = all.at[i];
    fold->job.earlier = kept;
    fold->job.n_earlier = status == MF_OK ? all.n : 0;
    free(all.at);
    return status;
}
