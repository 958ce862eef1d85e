/* plan_label.h - words on a plan: none lies on another, none is cut. */
#ifndef MF_PAPER_PLAN_LABEL_H
#define MF_PAPER_PLAN_LABEL_H

#include "paper/rec.h"

enum { MF_LABELS_MAX = 96, MF_LABEL_TRIES = 24 };

typedef struct mf_label_box {
    float x, y, w, h;
} mf_label_box;

/* What is taken so far, and how far labels reach in all. */
typedef struct mf_labels {
    bool draw; /* false: only finds out how much room they need */
    size_t n;
    mf_label_box taken[MF_LABELS_MAX];
    float left, right, top, bottom; /* right < left: there is none */
} mf_labels;

void mf_labels_start(mf_labels *labels, bool draw);

/* A label around the middle; moved by steps away from there until it is free, with a thin
 * line back. swing: to both sides in turn. */
void mf_label(mf_rec *rec, mf_labels *labels, mf_point middle, mf_point step, bool swing,
              const char *text);

#endif
