/* The plan of a work area: boxes from its dimensions. What was placed is where it
 * was measured; openings that were not are spread evenly along their wall. */
#include <mistfold/limit.h>
#include <mistfold/paint.h>
#include <mistfold/place.h>
#include <mistfold/plan.h>

#include "core/plan.h"
#include "core/reach.h"
#include "core/text.h"

enum { THICK = 30, SMALL = 100, WINDOW_IN = 36 }; /* drawn sizes, when none was given */

static mf_day start_of(const mf_job *job)
{
    return job->n_house == 0 ? MF_DAY_NONE : job->house[0].start;
}

static int64_t least(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

static int64_t most(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

static void add(mf_plan *plan, const mf_plan_item *item)
{
    if (plan->n < MF_PLAN_MAX)
        plan->item[plan->n++] = *item;
}

static bool along_x(mf_wall wall)
{
    return wall == MF_WALL_NORTH || wall == MF_WALL_SOUTH;
}

/* A part of a wall and the strip before it, hundredths of a foot. */
typedef struct stretch {
    int64_t from, to;    /* along the wall */
    int64_t near, depth; /* how far away the strip begins, and how deep it is */
} stretch;

static int64_t wall_length(const mf_plan *plan, mf_wall wall)
{
    return along_x(wall) ? plan->floor.w : plan->floor.h;
}

static mf_box by_wall(const mf_plan *plan, mf_wall wall, const stretch *part)
{
    const mf_box *room = &plan->floor;
    int64_t from = part->from, length = part->to - part->from;
    switch (wall) {
    case MF_WALL_NORTH:
        return (mf_box){from, part->near, length, part->depth};
    case MF_WALL_SOUTH:
        return (mf_box){from, room->h - part->near - part->depth, length, part->depth};
    case MF_WALL_WEST:
        return (mf_box){part->near, from, part->depth, length};
    case MF_WALL_EAST:
        break;
    }
    return (mf_box){room->w - part->near - part->depth, from, part->depth, length};
}

/* ---- where the openings are ------------------------------------------------ */

/* The wall an elevation names, by its first letter in English or Spanish. */
static mf_wall wall_named(const char *elevation)
{
    switch (*elevation) {
    case 's':
    case 'S':
        return MF_WALL_SOUTH;
    case 'e':
    case 'E':
        return MF_WALL_EAST;
    case 'w':
    case 'W':
    case 'o':
    case 'O':
        return MF_WALL_WEST;
    default:
        return MF_WALL_NORTH;
    }
}

static const mf_fixture *placed(const mf_job *job, const mf_area *area, const char *opening)
{
    const mf_fixture *last = NULL;
    for (size_t i = 0; i < job->n_fixture; i++) {
        const mf_fixture *fixture = &job->fixture[i];
        if (fixture->what == MF_FIXTURE_OPENING && mf_same(fixture->area, area->id) &&
            mf_same(fixture->opening, opening))
            last = fixture;
    }
    return last;
}

static int64_t width_of(const mf_opening *opening)
{
    int64_t inches = mf_reach_or(opening->width_in, WINDOW_IN);
    return (inches * 100 + 11) / 12;
}

static mf_wall wall_of(const mf_plan *plan, const mf_opening *opening, const mf_fixture *fixture)
{
    if (plan->outside)
        return MF_WALL_NORTH;
    return fixture != NULL ? fixture->wall : wall_named(opening->elevation);
}

/* Of a plan of one story, those of that story; who has none is on the lowest. */
static bool is_shown(const mf_job *job, const mf_area *area, const mf_plan *plan,
                     const mf_opening *opening)
{
    int64_t storeys[MF_PLAN_STOREYS];
    if (!mf_id_in_list(area->openings, opening->id))
        return false;
    if (plan->storey == MF_NUM_NONE || opening->storey == plan->storey)
        return true;
    return opening->storey == MF_NUM_NONE && mf_plan_storeys(job, area, storeys) > 0 &&
           storeys[0] == plan->storey;
}

/* Those of a wall that nobody placed: how many, and how wide together. */
static size_t unplaced(const mf_job *job, const mf_area *area, const mf_plan *plan, mf_wall wall,
                       int64_t *width)
{
    size_t n = 0;
    *width = 0;
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *opening = &job->opening[i];
        if (!is_shown(job, area, plan, opening) || placed(job, area, opening->id) != NULL ||
            wall_of(plan, opening, NULL) != wall)
            continue;
        *width += width_of(opening);
        n++;
    }
    return n;
}

static bool worked_on(const mf_job *job, const mf_area *area, const char *opening)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *part = &job->component[i];
        if (part->side == area->side && mf_same(part->opening, opening) &&
            mf_paint_disturbed(job, part))
            return true;
    }
    return !mf_opening_listed(job, opening);
}

static void add_opening(const mf_job *job, const mf_area *area, mf_plan *plan,
                        const mf_opening *opening, int64_t spread_at)
{
    const mf_fixture *fixture = placed(job, area, opening->id);
    mf_wall wall = wall_of(plan, opening, fixture);
    int64_t length = wall_length(plan, wall), width = least(width_of(opening), length);
    int64_t at = fixture == NULL ? spread_at : mf_reach(fixture->at_ft_100);
    at = most(0, least(at, length - width));
    const stretch in_wall = {at, at + width, -THICK, THICK};
    add(plan, &(mf_plan_item){worked_on(job, area, opening->id) ? MF_PLAN_WORKED : MF_PLAN_OPENING,
                              wall, by_wall(plan, wall, &in_wall), opening->id, fixture == NULL});
}

/* The openings of one wall, from its start. */
static void add_wall(const mf_job *job, const mf_area *area, mf_plan *plan, mf_wall wall)
{
    int64_t together = 0;
    size_t n = unplaced(job, area, plan, wall, &together);
    int64_t gap = most(0, (wall_length(plan, wall) - together) / ((int64_t)n + 1));
    int64_t at = gap;
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *opening = &job->opening[i];
        const mf_fixture *fixture = placed(job, area, opening->id);
        if (!is_shown(job, area, plan, opening) || wall_of(plan, opening, fixture) != wall)
            continue;
        add_opening(job, area, plan, opening, at);
        at += fixture == NULL ? width_of(opening) + gap : 0;
    }
}

/* ---- what else was placed ----------------------------------------------------- */

static mf_plan_part part_of(mf_fixture_what what)
{
    static const mf_plan_part parts[] = {MF_PLAN_OPENING, MF_PLAN_FLAP, MF_PLAN_DUCT, MF_PLAN_SIGN,
                                         MF_PLAN_BARRIER};
    return parts[what];
}

static void add_fixtures(const mf_job *job, const mf_area *area, mf_plan *plan)
{
    for (size_t i = 0; i < job->n_fixture; i++) {
        const mf_fixture *fixture = &job->fixture[i];
        if (!mf_same(fixture->area, area->id) || fixture->what == MF_FIXTURE_OPENING)
            continue;
        mf_wall wall = plan->outside ? MF_WALL_NORTH : fixture->wall;
        int64_t at = mf_reach(fixture->at_ft_100);
        int64_t size = mf_reach_or(fixture->length_ft_100, SMALL);
        int64_t near = mf_reach_or(fixture->from_wall_ft_100, 0);
        bool thin = fixture->what == MF_FIXTURE_BARRIER;
        const stretch place = {at, at + size, near, thin ? 0 : least(size, SMALL)};
        add(plan,
            &(mf_plan_item){part_of(fixture->what), wall, by_wall(plan, wall, &place), "", false});
    }
}

/* ---- sheeting and the band around it --------------------------------------------- */

/* A barrier that stands across the whole strip ends it. */
static int64_t depth_to_barrier(const mf_plan *plan, mf_wall wall, const stretch *strip)
{
    int64_t depth = strip->depth;
    for (size_t i = 0; i < plan->n; i++) {
        const mf_plan_item *item = &plan->item[i];
        if (item->part != MF_PLAN_BARRIER || item->wall != wall)
            continue;
        mf_box reach = by_wall(plan, wall, strip);
        int64_t from = along_x(wall) ? item->box.x : item->box.y;
        int64_t to = from + (along_x(wall) ? item->box.w : item->box.h);
        int64_t away = wall == MF_WALL_NORTH   ? item->box.y
                       : wall == MF_WALL_SOUTH ? plan->floor.h - item->box.y
                       : wall == MF_WALL_WEST  ? item->box.x
                                               : plan->floor.w - item->box.x;
        int64_t start = along_x(wall) ? reach.x : reach.y;
        int64_t end = start + (along_x(wall) ? reach.w : reach.h);
        if (from <= start && to >= end && away < depth)
            depth = away;
    }
    return depth;
}

static mf_box sheet_below(const mf_job *job, const mf_plan *plan, const mf_plan_item *opening)
{
    bool flat = along_x(opening->wall);
    int64_t reach = mf_reach_of(job, MF_LIMIT_FLOOR_SHEET);
    int64_t from = flat ? opening->box.x : opening->box.y;
    int64_t width = flat ? opening->box.w : opening->box.h;
    int64_t deep = flat ? plan->floor.h : plan->floor.w;
    stretch strip = {most(0, from - reach),
                     least(wall_length(plan, opening->wall), from + width + reach), 0,
                     least(deep, reach)};
    strip.depth = depth_to_barrier(plan, opening->wall, &strip);
    return by_wall(plan, opening->wall, &strip);
}

/* How far sheeting reaches beyond an opening that nobody measured is not known. */
static bool all_measured(const mf_job *job, const mf_plan *plan)
{
    for (size_t i = 0; i < plan->n; i++) {
        const mf_plan_item *item = &plan->item[i];
        bool opening = item->part == MF_PLAN_OPENING || item->part == MF_PLAN_WORKED;
        if (opening && mf_job_opening(job, item->name)->width_in == MF_NUM_NONE)
            return false;
    }
    return true;
}

static size_t indoor_sheets(const mf_job *job, const mf_plan *plan, mf_box *sheets)
{
    size_t n = 0;
    for (size_t i = 0; i < plan->n && n < MF_PLAN_SHEETS; i++)
        if (plan->item[i].part == MF_PLAN_OPENING || plan->item[i].part == MF_PLAN_WORKED)
            sheets[n++] = sheet_below(job, plan, &plan->item[i]);
    if (n == 0 || !all_measured(job, plan)) { /* the whole floor */
        sheets[0] = plan->floor;
        n = 1;
    }
    return n;
}

static size_t ground_sheet(const mf_job *job, const mf_area *area, const mf_plan *plan,
                           mf_box *sheets)
{
    int64_t reach = mf_reach_of(job, MF_LIMIT_GROUND_SHEET);
    int64_t depth = least(reach, mf_reach_or(area->line_ft_100, reach));
    stretch strip = {-reach, plan->floor.w + reach, 0, depth};
    strip.depth = depth_to_barrier(plan, MF_WALL_NORTH, &strip);
    sheets[0] = by_wall(plan, MF_WALL_NORTH, &strip);
    return 1;
}

/* The box grown on every side, inside kept within the room, outside on the ground. */
static mf_box band_around(const mf_job *job, const mf_plan *plan, const mf_box *sheet)
{
    int64_t margin = mf_reach_of(job, MF_LIMIT_CLEAN_MARGIN);
    int64_t left = sheet->x - margin, right = sheet->x + sheet->w + margin;
    int64_t top = most(0, sheet->y - margin), bottom = sheet->y + sheet->h + margin;
    if (!plan->outside) {
        left = most(0, left);
        right = least(plan->floor.w, right);
        bottom = least(plan->floor.h, bottom);
    }
    return (mf_box){left, top, right - left, bottom - top};
}

static void add_sheets(const mf_job *job, const mf_area *area, mf_plan *plan)
{
    mf_box sheets[MF_PLAN_SHEETS];
    size_t n =
        plan->outside ? ground_sheet(job, area, plan, sheets) : indoor_sheets(job, plan, sheets);
    plan->sheet_sqft_100 = mf_plan_covered(sheets, n);
    n = mf_plan_joined(sheets, n);
    for (size_t i = 0; i < n && !plan->outside; i++)
        add(plan, &(mf_plan_item){MF_PLAN_BAND, MF_WALL_NORTH, band_around(job, plan, &sheets[i]),
                                  "", false});
    for (size_t i = 0; i < n; i++)
        add(plan, &(mf_plan_item){MF_PLAN_SHEET, MF_WALL_NORTH, sheets[i], "", false});
}

/* ---- outside ------------------------------------------------------------------------ */

static void add_outside(const mf_job *job, const mf_area *area, mf_plan *plan)
{
    int64_t zone = mf_reach_of(job, MF_LIMIT_EXTERIOR_OPENINGS);
    int64_t line = mf_reach_or(area->line_ft_100, MF_NUM_NONE);
    const mf_limit *near = mf_limit_for(job, MF_LIMIT_PROPERTY_LINE, start_of(job));
    add(plan, &(mf_plan_item){
                  MF_PLAN_ZONE, MF_WALL_NORTH, {-zone, 0, plan->floor.w + 2 * zone, 0}, "", false});
    plan->barrier_due = line == MF_NUM_NONE || (near != NULL && mf_limit_holds(near, line));
    if (line == MF_NUM_NONE)
        return;
    add(plan,
        &(mf_plan_item){
            MF_PLAN_LINE, MF_WALL_NORTH, {-zone, line, plan->floor.w + 2 * zone, 0}, "", false});
}

/* ---- all together ------------------------------------------------------------------- */

static void bound(mf_plan *plan)
{
    int64_t left = plan->floor.x, right = left + plan->floor.w;
    int64_t top = plan->floor.y, bottom = top + plan->floor.h;
    for (size_t i = 0; i < plan->n; i++) {
        const mf_box *box = &plan->item[i].box;
        left = least(left, box->x);
        right = most(right, box->x + box->w);
        top = least(top, box->y);
        bottom = most(bottom, box->y + box->h);
    }
    plan->all = (mf_box){left, top, right - left, bottom - top};
}

/* The openings by walls; outside in front of one wall, each story in a row of its own. */
static void add_openings(const mf_job *job, const mf_area *area, mf_plan *plan)
{
    int64_t storeys[MF_PLAN_STOREYS];
    size_t n = plan->outside ? mf_plan_storeys(job, area, storeys) : 0;
    if (n == 0)
        for (int wall = MF_WALL_NORTH; wall <= MF_WALL_WEST; wall++)
            add_wall(job, area, plan, (mf_wall)wall);
    for (size_t i = 0; i < n; i++) {
        plan->storey = storeys[i];
        add_wall(job, area, plan, MF_WALL_NORTH);
    }
    if (n > 0)
        plan->storey = MF_NUM_NONE;
}

size_t mf_plan_storeys(const mf_job *job, const mf_area *area, int64_t out[MF_PLAN_STOREYS])
{
    size_t n = 0;
    for (size_t i = 0; i < job->n_opening; i++) {
        int64_t storey = job->opening[i].storey;
        size_t at = 0;
        if (storey == MF_NUM_NONE || !mf_id_in_list(area->openings, job->opening[i].id))
            continue;
        while (at < n && out[at] < storey)
            at++;
        if ((at < n && out[at] == storey) || n == MF_PLAN_STOREYS)
            continue;
        for (size_t k = n++; k > at; k--)
            out[k] = out[k - 1];
        out[at] = storey;
    }
    return n;
}

bool mf_plan_of(const mf_job *job, const mf_area *area, mf_plan *out)
{
    return mf_plan_of_storey(job, area, MF_NUM_NONE, out);
}

bool mf_plan_of_storey(const mf_job *job, const mf_area *area, int64_t storey, mf_plan *out)
{
    *out = (mf_plan){.outside = area->side == MF_SIDE_EXTERIOR, .storey = storey};
    if (area->length_ft_100 == MF_NUM_NONE || (!out->outside && area->width_ft_100 == MF_NUM_NONE))
        return false;
    out->floor = (mf_box){0, 0, mf_reach(area->length_ft_100),
                          out->outside ? 0 : mf_reach(area->width_ft_100)};
    out->wall_ft_100 = out->outside ? mf_reach_or(area->width_ft_100, 0) : 0;
    add(out, &(mf_plan_item){MF_PLAN_FLOOR, MF_WALL_NORTH, out->floor, "", false});
    add_fixtures(job, area, out);
    add_openings(job, area, out);
    add_sheets(job, area, out);
    if (out->outside)
        add_outside(job, area, out);
    bound(out);
    return true;
}
