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
    case MF_PLAN_BAND:
        mf_shape_outline(view, &item->box, 4, 2);
        break;
    case MF_PLAN_SHEET:
        mf_shape_hatch(view, &item->box);
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
    for (int part = MF_PLAN_FLOOR; part <= MF_PLAN_SIGN; part++)
        for (size_t i = 0; i < view->plan.n; i++)
            if ((int)view->plan.item[i].part == part)
                draw_item(view, &view->plan.item[i]);
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

static const char *part_words(mf_rec *rec, mf_plan_part part, bool outside)
{
    static const char *const ids[] = {"floor", "band",    "sheet", "zone", "opening", "worked",
                                      "line",  "barrier", "flap",  "duct", "sign"};
    const char *words = mf_phrase(rec, mf_print(rec, "plan.%s", ids[part]));
    const int limits[] = {-1,
                          MF_LIMIT_CLEAN_MARGIN,
                          outside ? MF_LIMIT_GROUND_SHEET : MF_LIMIT_FLOOR_SHEET,
                          MF_LIMIT_EXTERIOR_OPENINGS,
                          -1,
                          -1,
                          -1,
                          -1,
                          -1,
                          -1,
                          -1};
    if (limits[part] < 0)
        return words;
    const mf_limit *limit = mf_limit_for(rec->job, (mf_limit_id)limits[part], rec->house.start);
    return limit == NULL
               ? words
               : mf_join(rec, words, ", ", mf_number_words(rec, limit->value, limit->unit));
}

static void legend(mf_rec *rec, const mf_plan_view *view)
{
    mf_page *page = &rec->page;
    float x = MF_LEFT;
    mf_page_need(page, 3 * LEGEND);
    for (int part = MF_PLAN_BAND; part <= MF_PLAN_SIGN; part++) {
        if (!has(&view->plan, (mf_plan_part)part))
            continue;
        const char *words = part_words(rec, (mf_plan_part)part, view->plan.outside);
        float width = mf_page_width(page, MF_ST_SMALL, words) + 42;
        if (x + width > mf_right(page)) {
            x = MF_LEFT;
            page->y += LEGEND;
        }
        mf_shape_sample(page->haru, (mf_plan_part)part, (mf_point){x, page->y + 1});
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

static void notes(mf_rec *rec, const mf_plan_view *view)
{
    if (any_assumed(&view->plan))
        mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "plan.assumed"));
    if (view->plan.outside)
        mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "plan.outside"));
    if (view->plan.barrier_due)
        mf_page_text(&rec->page, MF_ST_SMALL_BOLD,
                     mf_fill(rec, "plan.barrier-due", near_words(rec), NULL, NULL));
}

/* ---- the whole ---------------------------------------------------------------------- */

void mf_plan_draw(mf_rec *rec, const mf_area *area, float most)
{
    mf_page *page = &rec->page;
    mf_plan_view view = {.rec = rec, .area = area};
    mf_subhead(rec, "plan");
    if (!mf_plan_of(rec->job, area, &view.plan)) {
        mf_none(rec, "plan.none");
        return;
    }
    view.wall = (float)view.plan.wall_ft_100 / 100;
    view.scale = fit(&view, mf_across(page) - 4 * LABELS, most - 2 * LABELS);
    float wide = (float)view.plan.all.w / 100 * view.scale;
    float high = ((float)view.plan.all.h / 100 + view.wall) * view.scale;
    mf_page_need(page, high + 2 * LABELS + 4 * LEGEND);
    view.at = (mf_point){MF_LEFT + (mf_across(page) - wide) / 2,
                         page->y + LABELS + view.wall * view.scale};
    draw_parts(&view);
    mf_shape_dimensions(&view);
    page->y += high + 2 * LABELS;
    mf_shape_scale(&view, (mf_point){MF_LEFT, page->y});
    page->y += LEGEND + 3;
    legend(rec, &view);
    notes(rec, &view);
}

static const char *count_words(mf_rec *rec, int64_t n)
{
    return mf_print(rec, "%lld", (long long)n);
}

void mf_takeoff_draw(mf_rec *rec, const mf_area *area)
{
    static const char *const labels[] = {"takeoff.sheet", "takeoff.cut",  "takeoff.tape",
                                         "takeoff.signs", "takeoff.bags", "takeoff.wet",
                                         "takeoff.dry"};
    mf_takeoff need;
    mf_takeoff_of(rec->job, area, &need);
    const char *values[] = {mf_number_words(rec, need.sheet_sqft_100, MF_UNIT_SQFT_100),
                            mf_number_words(rec, need.cut_sqft_100, MF_UNIT_SQFT_100),
                            mf_number_words(rec, need.tape_ft_100, MF_UNIT_FT_100),
                            count_words(rec, need.signs),
                            count_words(rec, need.bags),
                            count_words(rec, need.wet_cloths),
                            count_words(rec, need.dry_cloths)};
    mf_subhead(rec, "takeoff.title");
    mf_pairs(rec, labels, values, area->side == MF_SIDE_INTERIOR ? 7 : 5);
    mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "takeoff.note"));
}
