/* plan_shape.h - the strokes of a plan. */
#ifndef MF_PAPER_PLAN_SHAPE_H
#define MF_PAPER_PLAN_SHAPE_H

#include "paper/plan_label.h"

#include <mistfold/plan.h>

/* A plan on a page: one foot is scale points; at is where x and y are 0. */
typedef struct mf_plan_view {
    mf_rec *rec;
    const mf_area *area;
    mf_plan plan;
    float scale;
    float wall;      /* outside: feet of wall that is drawn above the ground */
    int64_t storeys; /* outside: how many the wall has */
    mf_point at;
    mf_labels placed;  /* where numbers stand so far, */
    mf_labels *labels; /* or NULL while none are placed */
} mf_plan_view;

void mf_shape_floor(const mf_plan_view *view, const mf_plan_item *item);
/* Sheeting, and the band around it: what the boxes of the part cover together. */
void mf_shape_hatch(const mf_plan_view *view);
void mf_shape_band(const mf_plan_view *view);
/* A box without height: a line along the wall. */
void mf_shape_run(const mf_plan_view *view, const mf_box *box, unsigned on, unsigned off);
void mf_shape_opening(const mf_plan_view *view, const mf_plan_item *item);
/* The numbers of the openings, and the dimensions. */
void mf_shape_labels(const mf_plan_view *view);
mf_point mf_shape_middle(const mf_plan_view *view, const mf_plan_item *item);
/* Flap, duct, sign, barrier: a small shape around its middle. */
void mf_shape_sign(const mf_plan_view *view, mf_plan_part part, mf_point middle);
void mf_shape_scale(const mf_plan_view *view, mf_point at);
/* The same strokes, small, for the legend. */
void mf_shape_sample(mf_haru *haru, mf_plan_part part, bool outside, mf_point at);

#endif
