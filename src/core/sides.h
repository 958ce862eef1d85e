/* sides.h - the sides of a house as people call them. */
#ifndef MF_CORE_SIDES_H
#define MF_CORE_SIDES_H

#include <stdbool.h>

/* Whether the side of an opening may be one of those that a place outside lies on. A place of which
 * no side is known, as "porch" or "all sides", may be on any. */
bool mf_may_be_one_side(const char *side, const char *place);

#endif
