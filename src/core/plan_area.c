/* Boxes on the ground: how much they cover together, and which make one. */
#include "core/plan.h"

enum { CUTS = 2 * MF_PLAN_SHEETS };

/* Puts a value into a sorted list unless it is there. */
static size_t insert(int64_t *list, size_t n, int64_t value)
{
    size_t at = 0;
    while (at < n && list[at] < value)
        at++;
    if (at < n && list[at] == value)
        return n;
    for (size_t i = n; i > at; i--)
        list[i] = list[i - 1];
    list[at] = value;
    return n + 1;
}

static bool holds(const mf_box *box, int64_t x, int64_t y)
{
    return x >= box->x && x < box->x + box->w && y >= box->y && y < box->y + box->h;
}

static bool any_holds(const mf_box *boxes, size_t n, int64_t x, int64_t y)
{
    for (size_t i = 0; i < n; i++)
        if (holds(&boxes[i], x, y))
            return true;
    return false;
}

/* Every edge cuts the ground into cells; a cell is covered whole or not at all. */
typedef struct cells {
    const mf_box *boxes;
    size_t n;
    int64_t xs[CUTS], ys[CUTS];
    size_t n_x, n_y;
} cells;

static void cut(cells *all, const mf_box *boxes, size_t n)
{
    all->boxes = boxes;
    all->n = n > MF_PLAN_SHEETS ? MF_PLAN_SHEETS : n;
    all->n_x = all->n_y = 0;
    for (size_t i = 0; i < all->n; i++) {
        all->n_x = insert(all->xs, all->n_x, boxes[i].x);
        all->n_x = insert(all->xs, all->n_x, boxes[i].x + boxes[i].w);
        all->n_y = insert(all->ys, all->n_y, boxes[i].y);
        all->n_y = insert(all->ys, all->n_y, boxes[i].y + boxes[i].h);
    }
}

/* Whether the cell in that column and row is covered; there is none before 0. */
static bool covered(const cells *all, size_t i, size_t k)
{
    return i < all->n_x && k < all->n_y && any_holds(all->boxes, all->n, all->xs[i], all->ys[k]);
}

static mf_box cell(const cells *all, size_t i, size_t k)
{
    return (mf_box){all->xs[i], all->ys[k], all->xs[i + 1] - all->xs[i],
                    all->ys[k + 1] - all->ys[k]};
}

void mf_plan_pieces(const mf_box *boxes, size_t n, mf_plan_box_fn *take, void *user)
{
    cells all;
    cut(&all, boxes, n);
    for (size_t i = 0; i + 1 < all.n_x; i++)
        for (size_t k = 0; k + 1 < all.n_y; k++) {
            mf_box one = cell(&all, i, k);
            if (covered(&all, i, k))
                take(user, &one);
        }
}

/* The sides of a covered cell that no covered cell lies behind. */
static void sides(const cells *all, size_t i, size_t k, mf_plan_box_fn *take, void *user)
{
    const mf_box at = cell(all, i, k);
    const struct {
        bool open;
        mf_box side;
    } four[] = {{i == 0 || !covered(all, i - 1, k), {at.x, at.y, 0, at.h}},
                {!covered(all, i + 1, k), {at.x + at.w, at.y, 0, at.h}},
                {k == 0 || !covered(all, i, k - 1), {at.x, at.y, at.w, 0}},
                {!covered(all, i, k + 1), {at.x, at.y + at.h, at.w, 0}}};
    for (size_t side = 0; side < 4; side++)
        if (four[side].open)
            take(user, &four[side].side);
}

void mf_plan_outline(const mf_box *boxes, size_t n, mf_plan_box_fn *take, void *user)
{
    cells all;
    cut(&all, boxes, n);
    for (size_t i = 0; i + 1 < all.n_x; i++)
        for (size_t k = 0; k + 1 < all.n_y; k++)
            if (covered(&all, i, k))
                sides(&all, i, k, take, user);
}

static void add_piece(void *user, const mf_box *box)
{
    *(int64_t *)user += box->w * box->h;
}

int64_t mf_plan_covered(const mf_box *boxes, size_t n)
{
    int64_t sum = 0;
    mf_plan_pieces(boxes, n, add_piece, &sum);
    return (sum + 99) / 100;
}

static int64_t low(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

static int64_t high(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

/* One box: they share a side's whole length and touch, or one lies in the other. */
static bool join(mf_box *a, const mf_box *b)
{
    int64_t x = low(a->x, b->x), right = high(a->x + a->w, b->x + b->w);
    int64_t y = low(a->y, b->y), bottom = high(a->y + a->h, b->y + b->h);
    bool beside = a->y == b->y && a->h == b->h && right - x <= a->w + b->w;
    bool above = a->x == b->x && a->w == b->w && bottom - y <= a->h + b->h;
    bool inside =
        (right - x == a->w && bottom - y == a->h) || (right - x == b->w && bottom - y == b->h);
    if (!beside && !above && !inside)
        return false;
    *a = (mf_box){x, y, right - x, bottom - y};
    return true;
}

/* Whether the box took one of the later ones in, which then is gone. */
static bool take_one(mf_box *boxes, size_t at, size_t *n)
{
    for (size_t i = at + 1; i < *n; i++) {
        if (!join(&boxes[at], &boxes[i]))
            continue;
        boxes[i] = boxes[--*n];
        return true;
    }
    return false;
}

size_t mf_plan_joined(mf_box *boxes, size_t n)
{
    for (size_t i = 0; i < n;)
        i = take_one(boxes, i, &n) ? 0 : i + 1;
    return n;
}
