#include "paper/plan_shape.h"

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

void mf_shape_run(const mf_plan_view *view, const mf_box *box, unsigned on, unsigned off)
{
    mf_point at = corner(view, box);
    mf_haru_dash(haru_of(view), on, off);
    mf_haru_line(haru_of(view), MF_INK_BLACK, 1.4F, at,
                 (mf_point){at.x + points(view, box->w), at.y});
    mf_haru_dash(haru_of(view), 0, 0);
}

/* Lines that fall to the left, cut at the edges of the box. They count from the corner of the
 * sheet of paper, so that those of boxes side by side go on in one another. */
static void hatch_lines(mf_haru *haru, mf_point at, mf_point size)
{
    const int first = (int)((at.x + at.y) / HATCH) + 1;
    const int last = (int)((at.x + size.x + at.y + size.y) / HATCH);
    for (int i = first; i <= last; i++) {
        const float d = (float)i * HATCH - at.x - at.y;
        mf_point from =
            d <= size.x ? (mf_point){at.x + d, at.y} : (mf_point){at.x + size.x, at.y + d - size.x};
        mf_point to =
            d <= size.y ? (mf_point){at.x, at.y + d} : (mf_point){at.x + d - size.y, at.y + size.y};
        mf_haru_line(haru, MF_INK_RULE, 0.5F, from, to);
    }
}

static size_t boxes_of(const mf_plan_view *view, mf_plan_part part, mf_box *out)
{
    size_t n = 0;
    for (size_t i = 0; i < view->plan.n && n < MF_PLAN_SHEETS; i++)
        if (view->plan.item[i].part == part)
            out[n++] = view->plan.item[i].box;
    return n;
}

static void hatch_piece(void *user, const mf_box *box)
{
    const mf_plan_view *view = user;
    hatch_lines(haru_of(view), corner(view, box), size_of(view, box));
}

static void edge(const mf_plan_view *view, const mf_box *side, float width)
{
    mf_point at = corner(view, side);
    mf_point size = size_of(view, side);
    mf_haru_line(haru_of(view), MF_INK_BLACK, width, at, (mf_point){at.x + size.x, at.y + size.y});
}

static void sheet_edge(void *user, const mf_box *side)
{
    edge(user, side, 0.6F);
}

static void band_edge(void *user, const mf_box *side)
{
    edge(user, side, 0.9F);
}

void mf_shape_hatch(const mf_plan_view *view)
{
    mf_box boxes[MF_PLAN_SHEETS];
    size_t n = boxes_of(view, MF_PLAN_SHEET, boxes);
    mf_plan_pieces(boxes, n, hatch_piece, (void *)(size_t)view);
    mf_plan_outline(boxes, n, sheet_edge, (void *)(size_t)view);
}

void mf_shape_band(const mf_plan_view *view)
{
    mf_box boxes[MF_PLAN_SHEETS];
    size_t n = boxes_of(view, MF_PLAN_BAND, boxes);
    mf_haru_dash(haru_of(view), 4, 2);
    mf_plan_outline(boxes, n, band_edge, (void *)(size_t)view);
    mf_haru_dash(haru_of(view), 0, 0);
}

/* ---- openings ------------------------------------------------------------------- */

/* In the wall seen from the front: at half the height of its story, as no sill was measured;
 * a door stands on the floor of its story. */
static mf_label_box in_front(const mf_plan_view *view, const mf_plan_item *item)
{
    const mf_opening *opening = mf_job_opening(view->rec->job, item->name);
    mf_point at = corner(view, &item->box);
    const float storey = view->wall / (float)view->storeys;
    const int64_t above = opening == NULL || opening->storey == MF_NUM_NONE ? 0
                          : opening->storey > view->storeys                 ? view->storeys - 1
                          : opening->storey < 1                             ? 0
                                                                            : opening->storey - 1;
    float high =
        opening == NULL || opening->height_in == MF_NUM_NONE ? 4 : (float)opening->height_in / 12;
    high = high > storey ? storey : high;
    bool door = opening != NULL && opening->kind == MF_OPENING_DOOR;
    float foot = (float)above * storey + (door ? 0 : (storey - high) / 2);
    float ground = view->at.y - points(view, view->plan.all.y);
    return (mf_label_box){at.x, ground - (foot + high) * view->scale, points(view, item->box.w),
                          high * view->scale};
}

static void opening_in_front(const mf_plan_view *view, const mf_plan_item *item)
{
    const mf_label_box at = in_front(view, item);
    mf_haru_rect(haru_of(view), MF_INK_WHITE, MF_INK_BLACK,
                 item->part == MF_PLAN_WORKED ? 2.0F : 0.7F, (mf_point){at.x, at.y},
                 (mf_point){at.w, at.h});
}

/* Outside above its opening; inside out from its wall. */
static void opening_label(const mf_plan_view *view, const mf_plan_item *item)
{
    mf_point at = mf_shape_middle(view, item), step = {0, -9};
    const float half = mf_page_width(&view->rec->page, MF_ST_SMALL_BOLD, item->name) / 2;
    if (view->plan.outside && view->wall > 0) {
        const mf_label_box front = in_front(view, item);
        const float eaves = view->at.y - points(view, view->plan.all.y) - view->wall * view->scale;
        at = (mf_point){front.x + front.w / 2, front.y - 6};
        if (at.y < eaves + 6) /* not on the line of the wall's top */
            at.y = eaves - 7;
    } else if (item->wall == MF_WALL_NORTH) {
        at.y -= 9;
    } else if (item->wall == MF_WALL_SOUTH) {
        at.y += 9;
        step.y = 9;
    } else {
        const float out = item->wall == MF_WALL_WEST ? -1 : 1;
        at.x += out * (8 + half);
        step = (mf_point){out * (2 * half + 4), 0};
    }
    mf_label(view->rec, view->labels, at, step, false, item->name);
}

void mf_shape_opening(const mf_plan_view *view, const mf_plan_item *item)
{
    bool worked = item->part == MF_PLAN_WORKED;
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

void mf_shape_sample(mf_haru *haru, mf_plan_part part, bool outside, mf_point at)
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
        if (outside) {
            mf_haru_rect(haru, MF_INK_WHITE, MF_INK_BLACK, part == MF_PLAN_WORKED ? 2.0F : 0.7F,
                         (mf_point){at.x + 8, at.y - 1}, (mf_point){7, 9});
            break;
        }
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
    const mf_point along = a.y == b.y ? (mf_point){8, 0} : (mf_point){0, 8};
    if (view->labels->draw)
        ticked(haru_of(view), a, b);
    mf_label(view->rec, view->labels, (mf_point){(a.x + b.x) / 2, (a.y + b.y) / 2}, along, true,
             mf_number_words(view->rec, ft_100, MF_UNIT_FT_100));
}

static int64_t depth_of(const mf_plan_view *view, const mf_plan_item *item)
{
    bool upright = view->plan.outside || item->box.h <= item->box.w;
    return upright ? item->box.h : item->box.w;
}

/* Whether an earlier sheet is as deep: one dimension tells of both. */
static bool told(const mf_plan_view *view, size_t at)
{
    for (size_t i = 0; i < at; i++)
        if (view->plan.item[i].part == MF_PLAN_SHEET &&
            depth_of(view, &view->plan.item[i]) == depth_of(view, &view->plan.item[at]))
            return true;
    return false;
}

/* How deep the sheets reach, each depth once. */
static void depths(const mf_plan_view *view)
{
    for (size_t i = 0; i < view->plan.n; i++) {
        const mf_plan_item *item = &view->plan.item[i];
        if (item->part != MF_PLAN_SHEET || told(view, i))
            continue;
        mf_point at = corner(view, &item->box);
        mf_point size = size_of(view, &item->box);
        bool upright = view->plan.outside || size.y <= size.x;
        mf_point from =
            upright ? (mf_point){at.x + size.x - 9, at.y} : (mf_point){at.x, at.y + size.y - 9};
        mf_point to =
            upright ? (mf_point){from.x, at.y + size.y} : (mf_point){at.x + size.x, from.y};
        if ((upright ? size.y : size.x) > 22)
            dimension(view, from, to, depth_of(view, item));
    }
}

void mf_shape_labels(const mf_plan_view *view)
{
    const mf_plan *plan = &view->plan;
    mf_labels *labels = view->labels;
    mf_point at = corner(view, &plan->floor);
    mf_point size = size_of(view, &plan->floor);
    for (size_t i = 0; i < plan->n; i++)
        if (plan->item[i].part == MF_PLAN_OPENING || plan->item[i].part == MF_PLAN_WORKED)
            opening_label(view, &plan->item[i]);
    float foot = at.y + points(view, plan->all.h + plan->all.y);
    if (labels->right > labels->left && labels->bottom > foot)
        foot = labels->bottom;
    depths(view);
    dimension(view, (mf_point){at.x, foot + 9}, (mf_point){at.x + size.x, foot + 9}, plan->floor.w);
    if (plan->outside) {
        if (view->wall > 0)
            dimension(view, (mf_point){at.x - 14, at.y - view->wall * view->scale},
                      (mf_point){at.x - 14, at.y}, view->area->width_ft_100);
        return;
    }
    float right = at.x + points(view, plan->all.w + plan->all.x);
    right = labels->right > right ? labels->right : right;
    dimension(view, (mf_point){right + 20, at.y}, (mf_point){right + 20, at.y + size.y},
              plan->floor.h);
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
        mf_page_put_right(page, MF_ST_SMALL_BOLD, (mf_point){mf_right(page), at.y},
                          mf_phrase(view->rec, "plan.north-up"));
}
