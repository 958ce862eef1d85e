#include "paper/plan_label.h"

#define HIGH 9.0F

void mf_labels_start(mf_labels *labels, bool draw)
{
    *labels = (mf_labels){.draw = draw, .left = 1, .right = 0};
}

/* Ground that no label may take. */
static void keep_off(mf_labels *labels, mf_label_box box)
{
    if (labels->n < MF_LABELS_MAX)
        labels->taken[labels->n++] = box;
}

static bool is_free(const mf_labels *labels, const mf_label_box *at)
{
    for (size_t i = 0; i < labels->n; i++) {
        const mf_label_box *other = &labels->taken[i];
        if (at->x < other->x + other->w && other->x < at->x + at->w &&
            at->y < other->y + other->h && other->y < at->y + at->h)
            return false;
    }
    return true;
}

static void reach(mf_labels *labels, const mf_label_box *at)
{
    bool first = labels->right < labels->left;
    labels->left = first || at->x < labels->left ? at->x : labels->left;
    labels->right = first || at->x + at->w > labels->right ? at->x + at->w : labels->right;
    labels->top = first || at->y < labels->top ? at->y : labels->top;
    labels->bottom = first || at->y + at->h > labels->bottom ? at->y + at->h : labels->bottom;
}

/* The first place that is free: 0, 1, 2 ... steps away, or 0, 1, -1, 2 ... */
static mf_label_box find(const mf_labels *labels, mf_point middle, mf_point step, bool swing,
                         float width)
{
    mf_label_box at = {0};
    for (int i = 0; i < MF_LABEL_TRIES; i++) {
        const int round = (i + 1) / 2;
        const float far = (float)(!swing ? i : i % 2 == 0 ? -round : round);
        at = (mf_label_box){middle.x + far * step.x - width / 2 - 1,
                            middle.y + far * step.y - HIGH / 2, width + 2, HIGH};
        if (is_free(labels, &at))
            break;
    }
    return at;
}

void mf_label(mf_rec *rec, mf_labels *labels, mf_point middle, mf_point step, bool swing,
              const char *text)
{
    mf_page *page = &rec->page;
    mf_label_box at =
        find(labels, middle, step, swing, mf_page_width(page, MF_ST_SMALL_BOLD, text));
    const mf_point here = {at.x + at.w / 2, at.y + at.h / 2};
    keep_off(labels, at);
    reach(labels, &at);
    if (!labels->draw)
        return;
    if (here.x != middle.x || here.y != middle.y)
        mf_haru_line(page->haru, MF_INK_RULE, 0.4F, middle, here);
    /* on a white ground, so that hatching does not run through the words */
    mf_haru_rect(page->haru, MF_INK_WHITE, MF_INK_NONE, 0, (mf_point){at.x, at.y},
                 (mf_point){at.w, at.h});
    mf_page_put(page, MF_ST_SMALL_BOLD, MF_INK_BLACK, (mf_point){at.x + 1, at.y - 0.5F}, text);
}
