/* checked.h - what a paper says of the check of the cleaning: cloths, what a dust sample
 * held, and the level it was held against. */
#ifndef MF_PAPER_CHECKED_H
#define MF_PAPER_CHECKED_H

#include "paper/rec.h"

#include <mistfold/clean.h>
#include <mistfold/dust.h>

/* "Cloths used: 4 wet, 1 dry." */
const char *mf_cloths_words(mf_rec *rec, const mf_ver_area *area);
/* "<4.9 µg/sq ft", as reported or else from mass and area; or "not given". */
const char *mf_dust_amount_words(mf_rec *rec, const mf_dust_sample *sample);
/* "below 5 µg/sq ft": of a composite, the level divided by half of its wipes. */
const char *mf_dust_level_words(mf_rec *rec, const mf_dust_sample *sample, const mf_limit *level);

#endif
