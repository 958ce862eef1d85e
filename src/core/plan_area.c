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
int64_t mf_plan_covered(const mf_box *boxes, size_t n)
{
    int64_t xs[CUTS], ys[CUTS], sum = 0;
    size_t n_x = 0, n_y = 0;
    n = n > MF_PLAN_SHEETS ? MF_PLAN_SHEETS : n;
    for (size_t i = 0; i < n; i++) {
        n_x = insert(xs, n_x, boxes[i].x);
        n_x = insert(xs, n_x, boxes[i].x + boxes[i].w);
        n_y = insert(ys, n_y, boxes[i].y);
        n_y = insert(ys, n_y, boxes[i].y + boxes[i].h);
    }
    for (size_t i = 0; i + 1 < n_x; i++)
        for (size_t k = 0; k + 1 < n_y; k++)
            if (any_holds(boxes, n, xs[i], ys[k]))
                sum += (xs[i + 1] - xs[i]) * (ys[k + 1] - ys[k]);
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
