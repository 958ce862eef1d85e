/* What a job adds to the others of its house. 40 CFR 745.83, minor repair and maintenance: jobs in
 * the same room within 30 days are one job. So a window that another of them replaces, or what is
 * not listed of it, counts here as well. */
#include "core/called_off.h"
#include "core/contradict.h"
#include "core/minor.h"
#include "core/unlisted_work.h"

#include "core/opening_parts.h"
#include "core/reach.h"
#include "core/spelling.h"
#include "core/text.h"
#include <mistfold/paint.h>
#include <mistfold/stage.h>

typedef struct rows {
    mf_earlier *out;
    size_t cap, n;
    mf_earlier of_all; /* what is the same in all of them */
} rows;

static void add(rows *to, const mf_src *src, mf_side side, const char *room, int64_t disturbed)
{
    if (to->n < to->cap) {
        to->out[to->n] = to->of_all;
        to->out[to->n].src = *src;
        to->out[to->n].side = side;
        to->out[to->n].room = mf_or_empty(room);
        to->out[to->n].disturbed_sqft_100 = disturbed;
    }
    to->n++;
}

/* Of whatever size it is no minor work: inside in that room, "" = in every one, and outside. */
static void add_never(rows *to, const mf_src *src, const char *room)
{
    add(to, src, MF_SIDE_INTERIOR, room, MF_NUM_NONE);
    add(to, src, MF_SIDE_EXTERIOR, "", MF_NUM_NONE);
}

/* ---- what has a size ------------------------------------------------------------------ */

/* One that was tested for lead is taken to have paint, though it is logged as not
 * painted: what its tests say is judged with its own job. */
static bool may_have_paint(const mf_job *job, const mf_component *c)
{
    bool tested = c->painted != MF_NOT;
    for (size_t i = 0; i < job->n_reading; i++)
        tested = tested || mf_same(job->reading[i].component, c->id);
    for (size_t i = 0; i < job->n_kit_test; i++)
        tested = tested || mf_same(job->kit_test[i].component, c->id);
    for (size_t i = 0; i < job->n_chip; i++)
        tested = tested || mf_same(job->chip[i].component, c->id);
    return tested;
}

/* What of a window may come off is of no size that makes it minor. */
static int64_t part_area(const mf_job *job, const mf_component *it)
{
    bool window = mf_removal_unsaid(job, it) && mf_of_window(job, it);
    return window ? MF_NUM_NONE : mf_minor_area(job, it);
}

static void add_parts(rows *to, const mf_job *job)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        if ((it->affected != MF_NOT || it->removed == MF_YES) && may_have_paint(job, it))
            add(to, &it->src, it->side, mf_room_of(job, it), part_area(job, it));
    }
}

/* ---- what is never minor ---------------------------------------------------------------- */

static void add_openings(rows *to, const mf_job *job, const mf_house *house)
{
    size_t before = to->n;
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        if (it->kind == MF_OPENING_WINDOW && mf_opening_replaced(job, it))
            add_never(to, &it->src, it->room);
    }
    if (to->n == before && mf_window_replaced(job))
        add_never(to, &house->src, ""); /* which one is not listed */
}

/* What was worked dry in a place beyond what its parts say. */
static void add_dry(rows *to, const mf_job *job, const mf_area *area)
{
    int64_t listed = 0, dry = mf_worked_dry(job, area->side, mf_or_empty(area->place));
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        bool here = it->side == area->side && (area->side == MF_SIDE_EXTERIOR ||
                                               mf_same_room(mf_room_of(job, it), area->place));
        if (here && mf_paint_disturbed(job, it) && mf_disturbed_area(job, it) > 0)
            listed = mf_add_area(listed, mf_disturbed_area(job, it));
    }
    if (dry > listed)
        add(to, &area->src, area->side, area->place, dry - listed);
}

static void add_methods(rows *to, const mf_job *job)
{
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        const mf_area *area = mf_job_area(job, it->area);
        bool inside = area != NULL && area->side == MF_SIDE_INTERIOR;
        if (mf_method_never_minor(it->method))
            add_never(to, &it->src, inside ? area->place : "");
    }
}

static bool common_there(const mf_job *job, const char *room)
{
    for (size_t i = 0; i < job->n_area; i++) {
        const mf_area *it = &job->area[i];
        if (it->side == MF_SIDE_INTERIOR && it->common == MF_YES && mf_given(it->place) &&
            mf_may_count_as_one_room(it->place, room))
            return true;
    }
    return false;
}

bool mf_earlier_of_no_unit(const mf_job *job, const mf_job *other, const mf_earlier *row)
{
    return row->side == MF_SIDE_EXTERIOR ||
           (mf_given(row->room) && common_there(job, row->room) && common_there(other, row->room));
}

size_t mf_earlier_of_job(const mf_job *job, const mf_house *house, mf_earlier *out, size_t cap)
{
    rows to = {.out = out, .cap = cap};
    if (mf_called_off(job, INT32_MAX))
        return 0; /* nothing is disturbed in it, and nothing was: work that is logged says otherwise
                   */
    to.of_all.job = job->id;
    mf_days_of_job(job, house, &to.of_all.on, &to.of_all.until);
    add_parts(&to, job);
    add_openings(&to, job, house);
    add_methods(&to, job);
    for (size_t i = 0; i < job->n_area; i++)
        add_dry(&to, job, &job->area[i]);
    for (size_t i = 0; i < job->n_correction; i++)
        if (mf_correction_contradicted(job, &job->correction[i]))
            add_never(&to, &job->correction[i].src, ""); /* nobody knows what it disturbs */
    bool listed = job->n_component > 0 && mf_all_listed(job);
    if (!listed || mf_house_does(house, MF_WORK_DEMOLITION))
        add_never(&to, &house->src, "");
    return to.n;
}
