/* mark.h - the shapes that stand beside a word.
 *
 * Drawn as paths, since the fonts have no ticked boxes. Every state has its own
 * shape, told apart without color on a fax; none stands without its word. */
#ifndef MF_PAPER_MARK_H
#define MF_PAPER_MARK_H

#include "paper/haru.h"

typedef enum mf_mark {
    MF_MARK_NONE,
    MF_MARK_TICK,  /* box with a tick: met, done, yes */
    MF_MARK_CROSS, /* black box with a white cross: lacking, no */
    MF_MARK_OPEN,  /* empty box: not done yet */
    MF_MARK_DASH,  /* box with a bar: not needed, not due */
    MF_MARK_WARN,  /* triangle: should be known */
    MF_MARK_FULL,  /* black disc: lead, positive */
    MF_MARK_HALF,  /* half disc: presumed, inconclusive */
    MF_MARK_RING,  /* ring: free, negative */
    MF_MARK_BAR,   /* bar: not painted, nothing there */
    MF_MARK_COUNT
} mf_mark;

/* Draws the mark in a square of that size whose top left corner is at. */
void mf_mark_draw(mf_haru *haru, mf_mark mark, mf_point at, float size);

#endif
