/* Take-off of materials: what to load on the van for one work area.
 *
 * The sheeting is that of the plan (plan.h): what lies on the ground counts once, story by
 * story; what is cut for it are the strips that make it up, never more than the whole floor.
 * Everything is rounded up to the next hundredth. */
#include <mistfold/clean.h>
#include <mistfold/contain.h>
#include <mistfold/place.h>
#include <mistfold/plan.h>

#include "core/plan.h"
#include "core/reach.h"
#include "core/text.h"

/* What a van carries and how it is used: common practice, not the rule. */
enum {
    ROLL_FT_100 = 1000,   /* a roll of sheeting lies 10 ft wide */
    OVERLAP_FT_100 = 100, /* two runs overlap by 1 ft */
    BAG_SQFT_100 = 20000, /* a heavy bag takes 200 sq ft of folded sheeting */
    WET_PASSES = 2
};

/* What is cut for one strip of a roll's width: hundredths of a square foot. */
static int64_t cut_for(const mf_box *box)
{
    int64_t length = box->w > box->h ? box->w : box->h, depth = box->w > box->h ? box->h : box->w;
    int64_t joints = depth <= 0 ? 0 : (depth - 1) / ROLL_FT_100;
    return (length * depth + 99) / 100 + (joints * OVERLAP_FT_100 * length + 99) / 100;
}

static void add_edge(void *user, const mf_box *edge)
{
    *(int64_t *)user += edge->w + edge->h;
}

/* The sheeting of one story; outside, of the ground. */
static void add_plan(const mf_plan *plan, mf_takeoff *out)
{
    mf_box sheets[MF_PLAN_SHEETS];
    size_t n = 0;
    int64_t cut = 0, whole = cut_for(&plan->floor);
    for (size_t i = 0; i < plan->n && n < MF_PLAN_SHEETS; i++)
        if (plan->item[i].part == MF_PLAN_SHEET)
            sheets[n++] = plan->item[i].box;
    for (size_t i = 0; i < n; i++)
        cut = mf_add_area(cut, cut_for(&sheets[i]));
    if (!plan->outside && whole < cut)
        cut = whole;
    out->sheet_sqft_100 = mf_add_area(out->sheet_sqft_100, plan->sheet_sqft_100);
    out->cut_sqft_100 = mf_add_area(out->cut_sqft_100, cut);
    mf_plan_outline(sheets, n, add_edge, &out->tape_ft_100);
    if (plan->barrier_due && n > 0)
        out->barrier_ft_100 = sheets[0].w;
}

/* What was placed; else, outside, along the sheeting where the property line asks for it. */
static void count_barriers(const mf_job *job, const mf_area *area, mf_takeoff *out)
{
    int64_t placed = 0;
    for (size_t i = 0; i < job->n_fixture; i++)
        if (job->fixture[i].what == MF_FIXTURE_BARRIER && mf_same(job->fixture[i].area, area->id))
            placed = mf_add_area(placed, mf_reach_or(job->fixture[i].length_ft_100, 0));
    if (placed > 0)
        out->barrier_ft_100 = placed;
}

static size_t storeys_of(const mf_job *job, const mf_area *area, int64_t storeys[MF_PLAN_STOREYS])
{
    size_t n = area->side == MF_SIDE_INTERIOR ? mf_plan_storeys(job, area, storeys) : 0;
    if (n > 1)
        return n;
    storeys[0] = MF_NUM_NONE;
    return 1;
}

static void ground(const mf_job *job, const mf_area *area, mf_takeoff *out)
{
    int64_t storeys[MF_PLAN_STOREYS];
    size_t n = storeys_of(job, area, storeys);
    for (size_t i = 0; i < n; i++) {
        mf_plan plan;
        if (mf_plan_of_storey(job, area, storeys[i], &plan))
            add_plan(&plan, out);
    }
    count_barriers(job, area, out);
}

/* A door of the work area is an entrance; a room without one listed still has
 * the way the crew came in. */
static int64_t entrances(const mf_job *job, const mf_area *area)
{
    int64_t doors = 0;
    for (size_t i = 0; i < job->n_opening; i++) {
        if (job->opening[i].kind == MF_OPENING_DOOR &&
            mf_id_in_list(area->openings, job->opening[i].id))
            doors++;
    }
    return doors > 0 ? doors : 1;
}

/* No surface is listed yet: a sill for each window, and the floor, unless it is carpet
 * (745.85(b)(1)(ii)(B): uncarpeted floors). */
static int64_t sections_to_come(const mf_job *job, const mf_area *area)
{
    int64_t n = 0, storeys[MF_PLAN_STOREYS];
    for (size_t i = 0; i < job->n_opening; i++)
        n += job->opening[i].kind == MF_OPENING_WINDOW &&
             mf_id_in_list(area->openings, job->opening[i].id);
    if (area->carpet == MF_YES)
        return n;
    int64_t floor = mf_reach_or(area->length_ft_100, 0) * mf_reach_or(area->width_ft_100, 0) / 100;
    return n + (int64_t)storeys_of(job, area, storeys) * mf_sections_for(job, floor);
}

static void count_sections(const mf_job *job, const mf_area *area, mf_takeoff *out)
{
    size_t listed = 0;
    if (area->side != MF_SIDE_INTERIOR)
        return; /* outside nothing is wiped: 745.85(b)(2) */
    for (size_t i = 0; i < job->n_surface; i++) {
        const mf_surface *surface = &job->surface[i];
        if (!mf_same(surface->area, area->id))
            continue;
        out->sections += mf_sections_of(job, surface);
        listed++;
    }
    out->sections_assumed = listed == 0;
    if (listed == 0)
        out->sections = sections_to_come(job, area);
}

static int64_t openings_of(const mf_job *job, const mf_area *area)
{
    int64_t n = 0;
    for (size_t i = 0; i < job->n_opening; i++)
        n += mf_id_in_list(area->openings, job->opening[i].id);
    return n;
}

void mf_takeoff_of(const mf_job *job, const mf_area *area, mf_takeoff *out)
{
    *out = (mf_takeoff){0};
    ground(job, area, out);
    out->signs = entrances(job, area);
    count_sections(job, area, out);
    int64_t bags = out->cut_sqft_100 / BAG_SQFT_100 + (out->cut_sqft_100 % BAG_SQFT_100 > 0);
    out->bags = bags + openings_of(job, area);
    out->wet_cloths = WET_PASSES * out->sections;
    out->dry_cloths = out->sections;
}
