/* class.h - the class of a value that is a fraction: corrected readings. */
#ifndef MF_CORE_CLASS_H
#define MF_CORE_CLASS_H

#include <mistfold/limit.h>
#include <mistfold/paint.h>

/* The inconclusive range a reading is held against. */
typedef struct mf_range {
    int64_t low, high; /* the limit when no range is known */
    bool bounds_inside;
    bool known;
    bool bounds_said;
} mf_range;

mf_range mf_range_of_instrument(const mf_instrument *instrument, int64_t limit);
mf_range mf_range_of_row(const mf_profile_row *row, int64_t limit);

/* The class of num / den ug/cm2, den > 0, as the reading's display qualified it. */
mf_paint_class mf_class_of_value(const mf_range *range, const mf_limit *limit,
                                 mf_qualifier qualifier, int64_t num, int64_t den);

/* Whether a reading lies so far below zero that it is none of paint; and its class then, where it
 * would be negative: inconclusive. */
bool mf_reading_too_low(const mf_reading *reading);
mf_paint_class mf_class_unless_low(const mf_reading *reading, mf_paint_class found);

/* Whether the tolerance of an instrument lies about the value of its film: about another one its
 * checks show nothing. */
bool mf_tolerance_holds_film(const mf_instrument *instrument);

#endif
