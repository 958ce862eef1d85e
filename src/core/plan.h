/* plan.h - boxes that make one, shared by the plan and its take-off. */
#ifndef MF_CORE_PLAN_H
#define MF_CORE_PLAN_H

#include <mistfold/plan.h>

/* Joins boxes that make one box together; returns how many are left. */
size_t mf_plan_joined(mf_box *boxes, size_t n);

#endif
