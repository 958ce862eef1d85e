#include "journal/earlier.h"

#include "base/fail.h"
#include <mistfold/address.h>
#include <stdlib.h>
#include <string.h>

bool mf_earlier_bears(const char *kind)
{
    static const char *const kinds[] = {"house",      "component", "opening",  "emergency",
                                        "completion", "reading",   "kit_test", "chip"};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i], kind) == 0)
            return true;
    return false;
}

bool mf_earlier_wants(const mf_kind *kind)
{
    return mf_earlier_bears(kind->name);
}

/* One that was tested for lead is taken to have paint, though it is logged as not
 * painted: what its tests say is judged with its own job. */
static bool may_have_paint(const mf_job *job, const mf_component *c)
{
    bool tested = c->painted != MF_NOT;
    for (size_t i = 0; i < job->n_reading; i++)
        tested = tested || strcmp(job->reading[i].component, c->id) == 0;
    for (size_t i = 0; i < job->n_kit_test; i++)
        tested = tested || strcmp(job->kit_test[i].component, c->id) == 0;
    for (size_t i = 0; i < job->n_chip; i++)
        tested = tested || strcmp(job->chip[i].component, c->id) == 0;
    return tested;
}

/* A component without a room is in that of its opening. */
static const char *room_of(const mf_job *job, const mf_component *c)
{
    for (size_t i = 0; c->room[0] == '\0' && i < job->n_opening; i++)
        if (c->opening[0] != '\0' && strcmp(job->opening[i].id, c->opening) == 0)
            return job->opening[i].room;
    return c->room;
}

static mf_day end_of(const mf_job *job, const mf_house *house)
{
    mf_day last = MF_DAY_NONE;
    for (size_t i = 0; i < job->n_completion; i++)
        last = job->completion[i].on > last ? job->completion[i].on : last;
    return last == MF_DAY_NONE ? house->end : last;
}

/* What is not said is read to the side of safety, as in core. */
static int64_t disturbed(const mf_component *c)
{
    bool whole = c->removed == MF_YES &&
                 (c->whole_sqft_100 == MF_NUM_NONE || c->disturbed_sqft_100 == MF_NUM_NONE ||
                  c->whole_sqft_100 > c->disturbed_sqft_100);
    return whole ? c->whole_sqft_100 : c->disturbed_sqft_100;
}

static mf_status add(mf_earliers *out, const mf_job *job, const mf_house *house,
                     const mf_component *c, mf_err *err)
{
    mf_arena *arena = &out->to->arena;
    mf_earlier *grown = mf_grown(out->at, out->n, &out->cap, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    out->at = grown;
    mf_earlier *it = &grown[out->n++];
    *it = (mf_earlier){.src = {mf_arena_text(arena, c->src.entry), mf_arena_text(arena, c->src.at),
                               mf_arena_text(arena, c->src.by),
                               mf_arena_text(arena, c->src.correction)},
                       .job = mf_arena_text(arena, job->id),
                       .room = mf_arena_text(arena, room_of(job, c)),
                       .side = c->side,
                       .on = house->start,
                       .until = end_of(job, house),
                       .disturbed_sqft_100 = disturbed(c)};
    bool whole = it->src.entry != NULL && it->src.at != NULL && it->src.by != NULL &&
                 it->src.correction != NULL && it->job != NULL && it->room != NULL;
    return whole ? MF_OK : mf_fail_memory(err);
}

static mf_status add_house(mf_earliers *out, const mf_job *job, const mf_house *house, mf_err *err)
{
    const mf_house *here = &out->to->job.house[0];
    mf_status status = MF_OK;
    if (!mf_may_be_one_place(here->address, here->unit, house->address, house->unit))
        return MF_OK;
    for (size_t i = 0; status == MF_OK && i < job->n_component; i++) {
        const mf_component *c = &job->component[i];
        if ((c->affected != MF_NOT || c->removed == MF_YES) && may_have_paint(job, c))
            status = add(out, job, house, c, err);
    }
    return status;
}

mf_status mf_earlier_add(mf_earliers *out, mf_job_fold *fold, mf_err *err)
{
    mf_err why = {0};
    mf_status status = mf_job_fold_finish(fold, &why);
    if (status != MF_OK && strcmp(why.name, MF_ERR_UNREAD) == 0)
        status = MF_OK; /* a word that is not known here is for that job's own answers to tell */
    else if (status != MF_OK && err != NULL)
        *err = why;
    if (fold->job.integrity == MF_INTEGRITY_BROKEN)
        out->to->job.integrity = MF_INTEGRITY_BROKEN;
    for (size_t i = 0; status == MF_OK && fold->job.n_emergency == 0 && i < fold->job.n_house; i++)
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
