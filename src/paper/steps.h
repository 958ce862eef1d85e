/* steps.h - the list of steps of a work area as it was ticked. */
#ifndef MF_PAPER_STEPS_H
#define MF_PAPER_STEPS_H

#include "paper/rec.h"

#include <mistfold/contain.h>

/* "A1, interior, dining room". */
const char *mf_area_words(mf_rec *rec, const mf_area *area);
/* The steps the area needs, of the phases whose bits are set. */
void mf_steps_table(mf_rec *rec, const mf_area *area, unsigned phases);
/* "at least 6 ft", or "" when the step has no extent. day: of the limit. */
const char *mf_extent_words(mf_rec *rec, const mf_step *step, mf_day day);
/* Of a step whose words give a number: that of a stricter place of the job, or "". */
const char *mf_stricter_words(mf_rec *rec, const mf_step *step, mf_day day);

#endif
