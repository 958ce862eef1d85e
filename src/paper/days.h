/* days.h - the days a job is planned for, as every paper says them: what was planned is no
 * proof of what was worked, and is called so. */
#ifndef MF_PAPER_DAYS_H
#define MF_PAPER_DAYS_H

#include "paper/rec.h"

/* "2026-09-14 to 2026-09-16"; of one alone, from or until it; "not given" of none. */
const char *mf_planned_days(mf_rec *rec);

/* "Called off on 2026-09-10, before any work."; "" = it was not, or there is no job. */
const char *mf_off_words(mf_rec *rec);

/* Whether the work in an area was called off before any; and its sentence, "" = it was not. */
bool mf_area_is_off(const mf_rec *rec, const mf_area *area);
const char *mf_area_off_words(mf_rec *rec, const mf_area *area);
/* Sets that sentence in place of what is not asked there; false = the area is not off. */
bool mf_area_off_line(mf_rec *rec, const mf_area *area);

#endif
