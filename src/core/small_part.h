/* small_part.h - which components are of "a type of component with a small surface area", as window
 * sills, baseboards and trim are. 24 CFR 35.1350(d)(3). */
#ifndef MF_CORE_SMALL_PART_H
#define MF_CORE_SMALL_PART_H

#include <mistfold/job.h>

/* Presumed of whatever is not known to be large, whatever type it was logged as. */
bool mf_small_part(const mf_component *component);

/* Whether both are of one type, whose whole surface is theirs together: of "other" by the label. */
bool mf_same_part_type(const mf_component *a, const mf_component *b);

#endif
