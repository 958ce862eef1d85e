#include "paper/plan_shape.h"

#include <string.h>

#define HATCH  6.0F
#define SYMBOL 4.2F

static float points(const mf_plan_view *view, int64_t ft_100)
{
    return (float)ft_100 / 100 * view->scale;
}

static mf_point corner(const mf_plan_view *view, const mf_box *box)
{
    return (mf_point){view->at.x + points(view, box->x - view->plan.all.x),
                      view->at.y + points(view, box->y - view->plan.all.y)};
}

static mf_point size_of(const mf_plan_view *view, const mf_box *box)
{
    return (mf_point){points(view, box->w), points(view, box->h)};
}

static mf_haru *haru_of(const mf_plan_view *view)
{
    return view->rec->page.haru;
}

mf_point mf_shape_middle(const mf_plan_view *view, const mf_plan_item *item)
{
    mf_point at = corner(view, &item->box);
    mf_point size = size_of(view, &item->box);
    return (mf_point){at.x + size.x / 2, at.y + size.y / 2};
}

/* ---- surfaces ----------------------------------------------------------------- */

void mf_shape_floor(const mf_plan_view *view, const mf_plan_item *item)
{
    mf_point at = corner(view, &item->box);
    mf_point size = size_of(view, &item->box);
    if (view->plan.outside) { /* the wall, seen from the front, stands on the ground */
        size.y = view->wall * view->scale;
        at.y -= size.y;
        mf_haru_line(haru_of(view), MF_INK_BLACK, 2.0F, (mf_point){at.x, at.y + size.y},
                     (mf_point){at.x + size.x, at.y + size.y});
    }
    mf_haru_rect(haru_of(view), MF_INK_NONE, MF_INK_BLACK, 1.6F, at, size);
}

void mf_shape_outline(const mf_plan_view *view, const mf_box *box, unsigned on, unsigned off)
{
    mf_haru_dash(haru_of(view), on, off);
    mf_haru_rect(haru_of(view), MF_INK_NONE, MF_INK_BLACK, 0.9F, corner(view, box),
                 size_of(view, box));
    mf_haru_dash(haru_of(view), 0, 0);
}

void mf_shape_run(const mf_plan_view *view, const mf_box *box, unsigned on, unsigned off)
{
    mf_point at = corner(view, box);
    mf_haru_dash(haru_of(view), on, off);
    mf_haru_line(haru_of(view), MF_INK_BLACK, 1.4F, at,
                 (mf_point){at.x + points(view, box->w), at.y});
    mf_haru_dash(haru_of(view), 0, 0);
}

/* Lines that fall to the left, cut at the edges of the box. */
static void hatch_lines(mf_haru *haru, mf_point at, mf_point size)
{
    const int n = (int)((size.x + size.y) / HATCH);
    for (int i = 1; i <= n; i++) {
        const float d = (float)i * HATCH;
        mf_point from =
            d <= size.x ? (mf_point){at.x + d, at.y} : (mf_point){at.x + size.x, at.y + d - size.x};
        mf_point to =
            d <= size.y ? (mf_point){at.x, at.y + d} : (mf_point){at.x + d - size.y, at.y + size.y};
        mf_haru_line(haru, MF_INK_RULE, 0.5F, from, to);
    }
}

void mf_shape_hatch(const mf_plan_view *view, const mf_box *box)
{
    mf_point at = corner(view, box);
    mf_point size = size_of(view, box);
    hatch_lines(haru_of(view), at, size);
    mf_haru_rect(haru_of(view), MF_INK_NONE, MF_INK_BLACK, 0.6F, at, size);
}

/* ---- openings ------------------------------------------------------------------- */

/* On a white ground, so that hatching does not run through the words. */
static void label(const mf_plan_view *view, mf_point middle, const char *text)
{
    mf_page *page = &view->rec->page;
    float width = mf_page_width(page, MF_ST_SMALL_BOLD, text);
    mf_point at = {middle.x - width / 2, middle.y - 5};
    mf_haru_rect(page->haru, MF_INK_WHITE, MF_INK_NONE, 0, (mf_point){at.x - 1, at.y + 0.5F},
                 (mf_point){width + 2, 9});
    mf_page_put(page, MF_ST_SMALL_BOLD, MF_INK_BLACK, at, text);
}

/* In the wall seen from the front: at half its height, as no sill was measured. */
static void opening_in_front(const mf_plan_view *view, const mf_plan_item *item)
{
    const mf_opening *opening = mf_job_opening(view->rec->job, item->name);
    mf_point at = corner(view, &item->box);
    float high =
        opening == NULL || opening->height_in == MF_NUM_NONE ? 4 : (float)opening->height_in / 12;
    high = high > view->wall ? view->wall : high;
    mf_point size = {points(view, item->box.w), high * view->scale};
    bool door = opening != NULL && opening->kind == MF_OPENING_DOOR;
    at.y = view->at.y - points(view, view->plan.all.y) -
           (door ? high : (view->wall + high) / 2) * view->scale;
    mf_haru_rect(haru_of(view), MF_INK_NONE, MF_INK_BLACK,
                 item->part == MF_PLAN_WORKED ? 2.0F : 0.7F, at, size);
    label(view, (mf_point){at.x + size.x / 2, view->at.y - view->wall * view->scale - 7},
          item->name);
}

static mf_point beside(const mf_plan_item *item, mf_point middle, float width)
{
    switch (item->wall) {
    case MF_WALL_NORTH:
        return (mf_point){middle.x, middle.y - 9};
    case MF_WALL_SOUTH:
        return (mf_point){middle.x, middle.y + 9};
    case MF_WALL_WEST:
        return (mf_point){middle.x - 7 - width / 2, middle.y};
    case MF_WALL_EAST:
        break;
    }
    return (mf_point){middle.x + 7 + width / 2, middle.y};
}

void mf_shape_opening(const mf_plan_view *view, const mf_plan_item *item)
{
    bool worked = item->part == MF_PLAN_WORKED;
    mf_point middle = mf_shape_middle(view, item);
    if (view->plan.outside && view->wall > 0) {
        opening_in_front(view, item);
        return;
    }
    mf_point size = size_of(view, &item->box);
    mf_point at = corner(view, &item->box);
    if (size.x < 3) {
        at.x -= (3 - size.x) / 2;
        size.x = 3;
    }
    if (size.y < 3) {
        at.y -= (3 - size.y) / 2;
        size.y = 3;
    }
    mf_haru_rect(haru_of(view), worked ? MF_INK_BLACK : MF_INK_WHITE, MF_INK_BLACK, 0.8F, at, size);
    float width = mf_page_width(&view->rec->page, MF_ST_SMALL_BOLD, item->name);
    label(view, beside(item, middle, width), item->name);
}

/* ---- small shapes ------------------------------------------------------------------ */

static void symbol(mf_haru *haru, mf_plan_part part, mf_point c)
{
    const float s = SYMBOL;
    const mf_point flap[] = {{c.x - s, c.y + s}, {c.x, c.y - s}, {c.x + s, c.y + s}};
    const mf_point sign[] = {{c.x, c.y - s}, {c.x + s, c.y}, {c.x, c.y + s}, {c.x - s, c.y}};
    switch (part) {
    case MF_PLAN_FLAP: /* triangle */
        mf_haru_path(haru, MF_INK_WHITE, MF_INK_BLACK, 1.0F, flap, 3);
        break;
    case MF_PLAN_SIGN: /* diamond */
        mf_haru_path(haru, MF_INK_BLACK, MF_INK_BLACK, 1.0F, sign, 4);
        break;
    case MF_PLAN_DUCT: /* square with a cross */
        mf_haru_rect(haru, MF_INK_WHITE, MF_INK_BLACK, 1.0F, (mf_point){c.x - s, c.y - s},
                     (mf_point){2 * s, 2 * s});
        mf_haru_line(haru, MF_INK_BLACK, 0.8F, (mf_point){c.x - s, c.y - s},
                     (mf_point){c.x + s, c.y + s});
        mf_haru_line(haru, MF_INK_BLACK, 0.8F, (mf_point){c.x - s, c.y + s},
                     (mf_point){c.x + s, c.y - s});
        break;
    default:
        break;
    }
}

void mf_shape_sign(const mf_plan_view *view, mf_plan_part part, mf_point middle)
{
    if (part != MF_PLAN_BARRIER) {
        symbol(haru_of(view), part, middle);
        return;
    }
    for (size_t i = 0; i < view->plan.n; i++) { /* a heavy line over its whole length */
        const mf_plan_item *item = &view->plan.item[i];
        mf_point at = mf_shape_middle(view, item);
        if (item->part != part || at.x != middle.x || at.y != middle.y)
            continue;
        mf_point from = corner(view, &item->box);
        mf_point size = size_of(view, &item->box);
        mf_haru_line(haru_of(view), MF_INK_BLACK, 3.0F, from,
                     (mf_point){from.x + size.x, from.y + size.y});
    }
}

void mf_shape_sample(mf_haru *haru, mf_plan_part part, mf_point at)
{
    const mf_point size = {18, 8};
    const mf_point left = {at.x, at.y + 4};
    const mf_point right = {at.x + 18, at.y + 4};
    switch (part) {
    case MF_PLAN_SHEET:
        hatch_lines(haru, at, size);
        mf_haru_rect(haru, MF_INK_NONE, MF_INK_BLACK, 0.6F, at, size);
        break;
    case MF_PLAN_BAND:
        mf_haru_dash(haru, 4, 2);
        mf_haru_rect(haru, MF_INK_NONE, MF_INK_BLACK, 0.9F, at, size);
        break;
    case MF_PLAN_ZONE:
    case MF_PLAN_LINE:
        mf_haru_dash(haru, part == MF_PLAN_ZONE ? 1 : 9, part == MF_PLAN_ZONE ? 2 : 3);
        mf_haru_line(haru, MF_INK_BLACK, 1.4F, left, right);
        break;
    case MF_PLAN_OPENING:
    case MF_PLAN_WORKED:
        mf_haru_rect(haru, part == MF_PLAN_WORKED ? MF_INK_BLACK : MF_INK_WHITE, MF_INK_BLACK, 0.8F,
                     (mf_point){at.x, at.y + 2}, (mf_point){18, 4});
        break;
    case MF_PLAN_BARRIER:
        mf_haru_line(haru, MF_INK_BLACK, 3.0F, left, right);
        break;
    case MF_PLAN_FLAP:
    case MF_PLAN_DUCT:
    case MF_PLAN_SIGN:
        symbol(haru, part, (mf_point){at.x + 12, at.y + 4});
        break;
    case MF_PLAN_FLOOR:
        break;
    }
    mf_haru_dash(haru, 0, 0);
}

/* ---- dimensions ------------------------------------------------------------------------ */

static void ticked(mf_haru *haru, mf_point a, mf_point b)
{
    bool flat = a.y == b.y;
    const float dx = flat ? 0 : 2.5F;
    const float dy = flat ? 2.5F : 0;
    mf_haru_line(haru, MF_INK_BLACK, 0.6F, a, b);
    mf_haru_line(haru, MF_INK_BLACK, 0.6F, (mf_point){a.x - dx, a.y - dy},
                 (mf_point){a.x + dx, a.y + dy});
    mf_haru_line(haru, MF_INK_BLACK, 0.6F, (mf_point){b.x - dx, b.y - dy},
                 (mf_point){b.x + dx, b.y + dy});
}

static void dimension(const mf_plan_view *view, mf_point a, mf_point b, int64_t ft_100)
{
    ticked(haru_of(view), a, b);
    label(view, (mf_point){(a.x + b.x) / 2, (a.y + b.y) / 2},
          mf_number_words(view->rec, ft_100, MF_UNIT_FT_100));
}

/* How deep the first sheet and the band or the property line reach. */
static void depths(const mf_plan_view *view)
{
    for (size_t i = 0; i < view->plan.n; i++) {
        const mf_plan_item *item = &view->plan.item[i];
        mf_point at = corner(view, &item->box);
        mf_point size = size_of(view, &item->box);
        if (item->part != MF_PLAN_SHEET)
            continue;
        bool upright = view->plan.outside || size.y <= size.x;
        mf_point from =
            upright ? (mf_point){at.x + size.x - 9, at.y} : (mf_point){at.x, at.y + size.y - 9};
        mf_point to =
            upright ? (mf_point){from.x, at.y + size.y} : (mf_point){at.x + size.x, from.y};
        if ((upright ? size.y : size.x) > 22)
            dimension(view, from, to, upright ? item->box.h : item->box.w);
    }
}

void mf_shape_dimensions(const mf_plan_view *view)
{
    const mf_plan *plan = &view->plan;
    mf_point at = corner(view, &plan->floor);
    mf_point size = size_of(view, &plan->floor);
    const float below = at.y + points(view, plan->all.h + plan->all.y) + 19;
    depths(view);
    dimension(view, (mf_point){at.x, below}, (mf_point){at.x + size.x, below}, plan->floor.w);
    if (plan->outside) {
        if (view->wall > 0)
            dimension(view, (mf_point){at.x - 14, at.y - view->wall * view->scale},
                      (mf_point){at.x - 14, at.y}, view->area->width_ft_100);
        return;
    }
    float right = at.x + points(view, plan->all.w + plan->all.x) + 42;
    dimension(view, (mf_point){right, at.y}, (mf_point){right, at.y + size.y}, plan->floor.h);
}

/* A bar of 5 or 10 ft, its first half filled; a fax shows at once if it was shrunk. */
void mf_shape_scale(const mf_plan_view *view, mf_point at)
{
    mf_page *page = &view->rec->page;
    int64_t length = view->scale >= 12 ? 500 : view->scale >= 3 ? 1000 : 5000;
    float width = points(view, length);
    mf_haru_rect(page->haru, MF_INK_WHITE, MF_INK_BLACK, 0.7F, (mf_point){at.x, at.y + 3},
                 (mf_point){width, 4});
    mf_haru_rect(page->haru, MF_INK_BLACK, MF_INK_BLACK, 0.7F, (mf_point){at.x, at.y + 3},
                 (mf_point){width / 2, 4});
    mf_page_put(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){at.x + width + 5, at.y},
                mf_number_words(view->rec, length, MF_UNIT_FT_100));
    if (!view->plan.outside)
        mf_page_put_right(page, MF_ST_SMALL_BOLD, MF_INK_BLACK, (mf_point){mf_right(page), at.y},
                          mf_phrase(view->rec, "plan.north-up"));
}
