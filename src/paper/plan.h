/* plan.h - the plan of a work area to scale, with its legend. */
#ifndef MF_PAPER_PLAN_H
#define MF_PAPER_PLAN_H

#include "paper/rec.h"

/* At the cursor, on a new page if it does not fit; most: points of height it may
 * take. Says so when the area has no measures. */
void mf_plan_draw(mf_rec *rec, const mf_area *area, float most);
/* What to load on the van for the area, as pairs. */
void mf_takeoff_draw(mf_rec *rec, const mf_area *area);

#endif
