/* plan_shape.h - the strokes of a plan. */
#ifndef MF_PAPER_PLAN_SHAPE_H
#define MF_PAPER_PLAN_SHAPE_H

#include "paper/rec.h"

#include <mistfold/plan.h>

/* A plan on a page: one foot is scale points; at is where x and y are 0. */
typedef struct mf_plan_view {
    mf_rec *rec;
    const mf_area *area;
    mf_plan plan;
    float scale;
    float wall; /* outside: feet of wall that is drawn above the ground */
    mf_point at;
} mf_plan_view;

void mf_shape_floor(const mf_plan_view *view, const mf_plan_item *item);
void mf_shape_outline(const mf_plan_view *view, const mf_box *box, unsigned on, unsigned off);
void mf_shape_hatch(const mf_plan_view *view, const mf_box *box);
/* A box without height: a line along the wall. */
void mf_shape_run(const mf_plan_view *view, const mf_box *box, unsigned on, unsigned off);
void mf_shape_opening(const mf_plan_view *view, const mf_plan_item *item);
mf_point mf_shape_middle(const mf_plan_view *view, const mf_plan_item *item);
/* Flap, duct, sign, barrier: a small shape around its middle. */
void mf_shape_sign(const mf_plan_view *view, mf_plan_part part, mf_point middle);
void mf_shape_dimensions(const mf_plan_view *view);
void mf_shape_scale(const mf_plan_view *view, mf_point at);
/* The same strokes, small, for the legend. */
void mf_shape_sample(mf_haru *haru, mf_plan_part part, mf_point at);

#endif
