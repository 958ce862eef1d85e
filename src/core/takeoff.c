/* Take-off of materials: what to load on the van for one work area.
 *
 * Inside, each opening needs a strip of sheeting as wide as the opening and the
 * extent on both its sides, and as deep as the extent; a room never needs more
 * than its floor. Outside, one strip runs along the wall, the extent beyond both
 * ends and as deep as the extent, or to the property line. Everything is rounded
 * up to the next hundredth. */
#include <mistfold/clean.h>
#include <mistfold/contain.h>
#include <mistfold/place.h>

#include "core/reach.h"
#include "core/text.h"

/* What a van carries and how it is used: common practice, not the rule. */
enum {
    ROLL_FT_100 = 1000,   /* a roll of sheeting lies 10 ft wide */
    OVERLAP_FT_100 = 100, /* two runs overlap by 1 ft */
    BAG_SQFT_100 = 20000, /* a heavy bag takes 200 sq ft of folded sheeting */
    WET_PASSES = 2
};

/* A strip on the ground, hundredths of a foot. */
typedef struct strip {
    int64_t length, depth;
} strip;

static int64_t at_most(int64_t value, int64_t most)
{
    return value > most ? most : value;
}

static void add_strip(mf_takeoff *out, strip piece)
{
    int64_t joints = piece.depth <= 0 ? 0 : (piece.depth - 1) / ROLL_FT_100;
    int64_t sheet = (piece.length * piece.depth + 99) / 100;
    int64_t cut = sheet + (joints * OVERLAP_FT_100 * piece.length + 99) / 100;
    out->sheet_sqft_100 = mf_add_area(out->sheet_sqft_100, sheet);
    out->cut_sqft_100 = mf_add_area(out->cut_sqft_100, cut);
    out->tape_ft_100 += 2 * (piece.length + piece.depth);
}

static strip floor_of(const mf_area *area)
{
    int64_t length = mf_reach_or(area->length_ft_100, 0),
            width = mf_reach_or(area->width_ft_100, 0);
    return length >= width ? (strip){length, width} : (strip){width, length};
}

/* The strip below one opening; *known is cleared when nobody measured it. */
static strip below(const mf_job *job, const mf_opening *opening, strip room, bool *known)
{
    int64_t reach = mf_reach_of(job, MF_LIMIT_FLOOR_SHEET);
    if (opening->width_in == MF_NUM_NONE) {
        *known = false;
        return room;
    }
    int64_t width = (mf_reach(opening->width_in) * 100 + 11) / 12;
    return (strip){at_most(width + 2 * reach, room.length), at_most(reach, room.depth)};
}

static void inside(const mf_job *job, const mf_area *area, mf_takeoff *out)
{
    strip room = floor_of(area);
    mf_takeoff strips = {0}, whole = {0};
    bool known = true;
    size_t n = 0;
    add_strip(&whole, room);
    for (size_t i = 0; i < job->n_opening; i++) {
        if (!mf_id_in_list(area->openings, job->opening[i].id))
            continue;
        add_strip(&strips, below(job, &job->opening[i], room, &known));
        n++;
    }
    bool by_strip = n > 0 && known && strips.sheet_sqft_100 < whole.sheet_sqft_100;
    *out = by_strip ? strips : whole;
}

static void outside(const mf_job *job, const mf_area *area, mf_takeoff *out)
{
    int64_t reach = mf_reach_of(job, MF_LIMIT_GROUND_SHEET);
    int64_t depth = at_most(reach, mf_reach_or(area->line_ft_100, reach));
    add_strip(out, (strip){mf_reach_or(area->length_ft_100, 0) + 2 * reach, depth});
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

static int64_t sections(const mf_job *job, const mf_area *area)
{
    int64_t n = 0;
    if (area->side != MF_SIDE_INTERIOR)
        return 0; /* outside nothing is wiped: 745.85(b)(2) */
    for (size_t i = 0; i < job->n_surface; i++) {
        const mf_surface *surface = &job->surface[i];
        if (mf_same(surface->area, area->id))
            n += mf_sections_of(job, surface);
    }
    return n;
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
    if (area->side == MF_SIDE_INTERIOR)
        inside(job, area, out);
    else
        outside(job, area, out);
    out->signs = entrances(job, area);
    out->sections = sections(job, area);
    int64_t bags = out->cut_sqft_100 / BAG_SQFT_100 + (out->cut_sqft_100 % BAG_SQFT_100 > 0);
    out->bags = bags + openings_of(job, area);
    out->wet_cloths = WET_PASSES * out->sections;
    out->dry_cloths = out->sections;
}
