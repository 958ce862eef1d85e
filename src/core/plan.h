/* plan.h - boxes along walls, shared by the files of the plan. */
#ifndef MF_CORE_PLAN_H
#define MF_CORE_PLAN_H

#include <mistfold/plan.h>

/* A part of a wall and the strip before it, hundredths of a foot. */
typedef struct mf_stretch {
    int64_t from, to;    /* along the wall */
    int64_t near, depth; /* how far away the strip begins, and how deep it is */
} mf_stretch;

mf_box mf_plan_by_wall(const mf_plan *plan, mf_wall wall, const mf_stretch *part);

/* Joins boxes that make one box together; returns how many are left. */
size_t mf_plan_joined(mf_box *boxes, size_t n);

#endif
