#include "journal/earlier.h"

#include "base/fail.h"
#include <mistfold/address.h>
#include <mistfold/emergency.h>
#include <mistfold/house.h>
#include <stdlib.h>
#include <string.h>

bool mf_earlier_bears(const char *kind)
{
    static const char *const kinds[] = {"house",      "component", "opening",  "emergency",
                                        "completion", "reading",   "kit_test", "chip",
                                        "practice",   "area"};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i], kind) == 0)
            return true;
    return false;
}

bool mf_earlier_wants(const mf_kind *kind)
{
    return mf_earlier_bears(kind->name);
}

static mf_status add(mf_earliers *out, const mf_earlier *of, mf_err *err)
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

static mf_status add_house(mf_earliers *out, const mf_job *job, const mf_house *house, mf_err *err)
{
    const mf_house *here = &out->to->job.house[0];
    bool one = mf_may_be_one_place(here->address, here->unit, house->address, house->unit);
    if (!one && !mf_may_be_one_building(here->address, house->address))
        return MF_OK;
    size_t n = mf_earlier_of_job(job, house, NULL, 0);
    mf_earlier *rows = calloc(n + 1, sizeof *rows);
    if (rows == NULL)
        return mf_fail_memory(err);
    mf_status status = MF_OK;
    mf_earlier_of_job(job, house, rows, n);
    for (size_t i = 0; status == MF_OK && i < n; i++)
        if (one || mf_earlier_of_no_unit(&out->to->job, job, &rows[i]))
            status = add(out, &rows[i], err);
    free(rows);
    return status;
}

/* A word that is not known here is for that job's own answers to tell. An emergency is none where
 * the job itself denies it, or the work began before it. */
mf_status mf_earlier_add(mf_earliers *out, mf_job_fold *fold, mf_err *err)
{
    mf_status status = mf_job_fold_finish_known(fold, err);
    if (fold->job.integrity == MF_INTEGRITY_BROKEN)
        out->to->job.integrity = MF_INTEGRITY_BROKEN;
    bool alone =
        status == MF_OK && mf_emergency_waives(&fold->job, MF_WAIVE_PAMPHLET, MF_DAY_NONE) != NULL;
    for (size_t i = 0; status == MF_OK && !alone && i < fold->job.n_house; i++)
        status = add_house(out, &fold->job, &fold->job.house[i], err);
    return status;
}

mf_status mf_earlier_end(mf_earliers *all, mf_status status, mf_err *err)
{
    mf_job_fold *fold = all->to;
    mf_earlier *kept = status == MF_OK ? mf_arena_alloc(&fold->arena, all->n * sizeof *kept) : NULL;
    if (status == MF_OK && kept == NULL)
        status = mf_fail_memory(err);
    for (size_t i = 0; status == MF_OK && kept != NULL && i < all->n; i++)
        kept[i] = all->at[i];
    fold->job.earlier = kept;
    fold->job.n_earlier = status == MF_OK ? all->n : 0;
    free(all->at);
    return status;
}
