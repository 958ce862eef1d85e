/* The plan of a work area to scale. Every part has its own stroke or shape, so
 * that a fax tells them apart: hatched = sheeting, dashed = band that is cleaned,
 * dotted = doors and windows kept shut, dash and dot = property line. */
#include "paper/plan.h"

#include "paper/plan_shape.h"
#include "paper/steps.h"

#include <mistfold/contain.h>
#include <mistfold/place.h>
#include <mistfold/plan.h>

#define LABELS 26.0F /* room for names and dimensions on every side */
#define LEGEND 13.0F

static float fit(const mf_plan_view *view, float wide, float high)
{
    static const float steps[] = {40, 32, 28, 24, 20, 18, 16, 14, 12,   10,   9,
                                  8,  7,  6,  5,  4,  3,  2,  1,  0.5F, 0.2F, 0.05F};
    const mf_box *all = &view->plan.all;
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        if ((float)all->w / 100 * steps[i] <= wide &&
            ((float)all->h / 100 + view->wall) * steps[i] <= high)
            return steps[i];
    return 0.01F;
}

/* ---- parts ------------------------------------------------------------------- */

static void draw_item(mf_plan_view *view, const mf_plan_item *item)
{
    switch (item->part) {
    case MF_PLAN_FLOOR:
        mf_shape_floor(view, item);
        break;
    case MF_PLAN_BAND: /* all of them together */
    case MF_PLAN_SHEET:
        break;
    case MF_PLAN_ZONE:
        mf_shape_run(view, &item->box, 1, 2);
        break;
    case MF_PLAN_LINE:
        mf_shape_run(view, &item->box, 9, 3);
        break;
    case MF_PLAN_OPENING:
    case MF_PLAN_WORKED:
        mf_shape_opening(view, item);
        break;
    case MF_PLAN_BARRIER:
    case MF_PLAN_FLAP:
    case MF_PLAN_DUCT:
    case MF_PLAN_SIGN:
        mf_shape_sign(view, item->part, mf_shape_middle(view, item));
        break;
    }
}

static void draw_parts(mf_plan_view *view)
{
    for (int part = MF_PLAN_FLOOR; part <= MF_PLAN_SIGN; part++) {
        if (part == MF_PLAN_BAND)
            mf_shape_band(view);
        if (part == MF_PLAN_SHEET)
            mf_shape_hatch(view);
        for (size_t i = 0; i < view->plan.n; i++)
            if ((int)view->plan.item[i].part == part)
                draw_item(view, &view->plan.item[i]);
    }
}

/* ---- legend --------------------------------------------------------------------- */

static bool has(const mf_plan *plan, mf_plan_part part)
{
    for (size_t i = 0; i < plan->n; i++)
        if (plan->item[i].part == part)
            return true;
    return false;
}

static bool any_assumed(const mf_plan *plan)
{
    for (size_t i = 0; i < plan->n; i++)
        if (plan->item[i].assumed)
            return true;
    return false;
}

/* What was measured for the step; MF_NUM_NONE when nothing was. */
static int64_t measured(const mf_rec *rec, const mf_area *area, const char *step)
{
    const mf_tick *tick = NULL;
    mf_step_judge(rec->job, area, mf_step_named(step), &tick);
    return tick == NULL || tick->state != MF_TICK_DONE ? MF_NUM_NONE : tick->measured_ft_100;
}

/* What is asked, and beside it what was measured. */
static const char *extent_words(mf_rec *rec, const mf_area *area, mf_limit_id id, const char *step)
{
    const mf_limit *limit = mf_limit_for(rec->job, id, rec->house.start);
    if (limit == NULL)
        return "";
    const char *asked = mf_number_words(rec, limit->value, limit->unit);
    if (*step == '\0')
        return asked;
    int64_t got = measured(rec, area, step);
    return got == MF_NUM_NONE ? mf_fill(rec, "plan.asked", asked, NULL, NULL)
                              : mf_fill(rec, "plan.asked-measured", asked,
                                        mf_number_words(rec, got, MF_UNIT_FT_100), NULL);
}

static const char *part_words(mf_rec *rec, const mf_plan_view *view, mf_plan_part part)
{
    static const char *const ids[] = {"floor", "band",    "sheet", "zone", "opening", "worked",
                                      "line",  "barrier", "flap",  "duct", "sign"};
    const char *words = mf_phrase(rec, mf_print(rec, "plan.%s", ids[part]));
    const bool outside = view->plan.outside;
    if (part == MF_PLAN_BAND)
        return mf_join(rec, words, ", ",
                       extent_words(rec, view->area, MF_LIMIT_CLEAN_MARGIN, "margin"));
    if (part == MF_PLAN_SHEET)
        return mf_join(rec, words, ", ",
                       extent_words(rec, view->area,
                                    outside ? MF_LIMIT_GROUND_SHEET : MF_LIMIT_FLOOR_SHEET,
                                    outside ? "ground-sheet" : "floor-sheet"));
    if (part == MF_PLAN_ZONE)
        return mf_join(rec, words, " ",
                       extent_words(rec, view->area, MF_LIMIT_EXTERIOR_OPENINGS, ""));
    return words;
}

static void legend(mf_rec *rec, const mf_plan_view *view)
{
    mf_page *page = &rec->page;
    float x = MF_LEFT;
    mf_page_need(page, 3 * LEGEND);
    for (int part = MF_PLAN_BAND; part <= MF_PLAN_SIGN; part++) {
        if (!has(&view->plan, (mf_plan_part)part))
            continue;
        const char *words = part_words(rec, view, (mf_plan_part)part);
        float width = mf_page_width(page, MF_ST_SMALL, words) + 42;
        if (x + width > mf_right(page)) {
            x = MF_LEFT;
            page->y += LEGEND;
        }
        mf_shape_sample(page->haru, (mf_plan_part)part, view->plan.outside,
                        (mf_point){x, page->y + 1});
        mf_page_put(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){x + 24, page->y}, words);
        x += width;
    }
    page->y += LEGEND + 1;
}

static const char *near_words(mf_rec *rec)
{
    mf_day day = rec->job->n_house == 0 ? MF_DAY_NONE : rec->job->house[0].start;
    const mf_limit *near = mf_limit_for(rec->job, MF_LIMIT_PROPERTY_LINE, day);
    return near == NULL ? "" : mf_number_words(rec, near->value, near->unit);
}

/* The rooms of the openings that are shown, each once. */
static const char *rooms_of(mf_rec *rec, const mf_plan_view *view, size_t *n)
{
    const char *seen = "", *all = "";
    *n = 0;
    for (size_t i = 0; i < view->plan.n; i++) {
        const mf_plan_item *item = &view->plan.item[i];
        const mf_opening *opening = mf_job_opening(rec->job, item->name);
        if (*item->name == '\0' || opening == NULL || *opening->room == '\0' ||
            mf_id_in_list(seen, opening->room))
            continue;
        seen = mf_join(rec, seen, ",", opening->room);
        all = mf_join(rec, all, ", ", opening->room);
        (*n)++;
    }
    return all;
}

static void notes(mf_rec *rec, const mf_plan_view *view)
{
    size_t rooms = 0;
    const char *names = rooms_of(rec, view, &rooms);
    if (rooms > 1 && !view->plan.outside)
        mf_page_text(&rec->page, MF_ST_SMALL, mf_fill(rec, "plan.rooms", names, NULL, NULL));
    if (any_assumed(&view->plan))
        mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "plan.assumed"));
    if (view->plan.outside)
        mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "plan.outside"));
    if (view->plan.barrier_due)
        mf_page_text(&rec->page, MF_ST_SMALL_BOLD,
                     mf_fill(rec, "plan.barrier-due", near_words(rec), NULL, NULL));
}

/* ---- the whole ---------------------------------------------------------------------- */

/* How many stories the wall outside has: as was said, or as its openings need. */
static int64_t storeys_of(const mf_rec *rec, const mf_area *area)
{
    int64_t list[MF_PLAN_STOREYS], most = area->storeys == MF_NUM_NONE ? 1 : area->storeys;
    size_t n = mf_plan_storeys(rec->job, area, list);
    if (n > 0 && list[n - 1] > most)
        most = list[n - 1];
    return most < 1 ? 1 : most > MF_PLAN_STOREYS ? MF_PLAN_STOREYS : most;
}

/* How far the labels reach beyond the drawing, above and below. */
static mf_point room_for_labels(mf_plan_view *view)
{
    const mf_box *all = &view->plan.all;
    mf_labels_start(&view->placed, false);
    view->labels = &view->placed;
    view->at = (mf_point){0, 0};
    mf_shape_labels(view);
    view->labels = NULL;
    float above = -view->wall * view->scale - view->placed.top;
    float below = view->placed.bottom - (float)all->h / 100 * view->scale;
    return (mf_point){above < LABELS ? LABELS : above + 4, below < LABELS ? LABELS : below + 4};
}

static void draw_view(mf_plan_view *view, float most)
{
    mf_rec *rec = view->rec;
    mf_page *page = &rec->page;
    view->wall = (float)view->plan.wall_ft_100 / 100;
    view->storeys = storeys_of(rec, view->area);
    view->scale = fit(view, mf_across(page) - 4 * LABELS, most - 2 * LABELS);
    const mf_point beside = room_for_labels(view);
    float wide = (float)view->plan.all.w / 100 * view->scale;
    float high = ((float)view->plan.all.h / 100 + view->wall) * view->scale;
    mf_page_need(page, high + beside.x + beside.y + 4 * LEGEND);
    mf_labels_start(&view->placed, true);
    view->labels = &view->placed;
    view->at = (mf_point){MF_LEFT + (mf_across(page) - wide) / 2,
                          page->y + beside.x + view->wall * view->scale};
    mf_haru_begin(page->haru, MF_TAG_FIGURE,
                  mf_fill(rec, "alt.plan", mf_area_words(rec, view->area),
                          mf_list_words(rec, view->area->openings), NULL));
    draw_parts(view);
    mf_shape_labels(view);
    mf_haru_end(page->haru);
    page->y += high + beside.x + beside.y;
    mf_shape_scale(view, (mf_point){MF_LEFT, page->y});
    page->y += LEGEND + 3;
    legend(rec, view);
    notes(rec, view);
}

/* Inside story by story; outside the wall with all of them. */
void mf_plan_draw(mf_rec *rec, const mf_area *area, float most)
{
    int64_t storeys[MF_PLAN_STOREYS];
    mf_plan_view view = {.rec = rec, .area = area};
    size_t n = area->side == MF_SIDE_INTERIOR ? mf_plan_storeys(rec->job, area, storeys) : 0;
    bool drawn = mf_plan_of(rec->job, area, &view.plan);
    size_t rooms = 0;
    if (drawn && area->side == MF_SIDE_INTERIOR)
        rooms_of(rec, &view, &rooms);
    mf_subhead(rec, rooms > 1 && n < 2 ? "plan.several-rooms" : "plan");
    if (!drawn) {
        mf_none(rec, "plan.none");
        return;
    }
    if (n < 2) {
        draw_view(&view, most);
        return;
    }
    mf_page_heading(&rec->page, MF_ST_SMALL, mf_phrase(rec, "plan.by-story"));
    for (size_t i = 0; i < n; i++) {
        mf_plan_of_storey(rec->job, area, storeys[i], &view.plan);
        mf_page_heading(
            &rec->page, MF_ST_BOLD,
            mf_fill(rec, "plan.story", mf_print(rec, "%lld", (long long)storeys[i]), NULL, NULL));
        draw_view(&view, most);
    }
}

static const char *count_words(mf_rec *rec, int64_t n)
{
    return mf_print(rec, "%lld", (long long)n);
}

void mf_takeoff_draw(mf_rec *rec, const mf_area *area)
{
    enum { MOST = 8 };
    const char *labels[MOST], *values[MOST];
    size_t n = 0;
    mf_takeoff need;
    mf_takeoff_of(rec->job, area, &need);
    const struct {
        const char *label, *value;
        bool shown;
    } rows[MOST] = {
        {"takeoff.sheet", mf_number_words(rec, need.sheet_sqft_100, MF_UNIT_SQFT_100), true},
        {"takeoff.cut", mf_number_words(rec, need.cut_sqft_100, MF_UNIT_SQFT_100), true},
        {"takeoff.tape", mf_number_words(rec, need.tape_ft_100, MF_UNIT_FT_100), true},
        {"takeoff.barrier", mf_number_words(rec, need.barrier_ft_100, MF_UNIT_FT_100),
         need.barrier_ft_100 > 0},
        {"takeoff.signs", count_words(rec, need.signs), true},
        {"takeoff.bags", count_words(rec, need.bags), true},
        {"takeoff.wet", count_words(rec, need.wet_cloths), area->side == MF_SIDE_INTERIOR},
        {"takeoff.dry", count_words(rec, need.dry_cloths), area->side == MF_SIDE_INTERIOR}};
    for (size_t i = 0; i < MOST; i++) {
        if (!rows[i].shown)
            continue;
        labels[n] = rows[i].label;
        values[n++] = rows[i].value;
    }
    mf_subhead(rec, "takeoff.title");
    mf_pairs(rec, labels, values, n);
    mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "takeoff.note"));
    if (need.sections_assumed)
        mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "takeoff.assumed"));
}
