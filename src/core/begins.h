/* begins.h - when the work begins that somebody must be told of before: in a unit, in common areas,
 * or anywhere. 40 CFR 745.84(a), (b): "before beginning renovation activities in any residential
 * dwelling unit", "in common areas". */
#ifndef MF_CORE_BEGINS_H
#define MF_CORE_BEGINS_H

#include "core/audit_rows.h"

/* Of work in a unit (NULL = in areas of which nobody said where they lie): the first day that is
 * logged there. As long as there is none, the day asked about or the planned start, whichever is
 * later; where another area is asked about, its own planned day. Of a dwelling the job's. */
mf_day mf_begins_in_unit(const mf_asked *asked, const char *unit);

/* The same of work in common areas. */
mf_day mf_begins_in_common(const mf_asked *asked);

/* Of the work that whoever has the role is told of; not of the owner, who is told of all of it. */
mf_day mf_begins_for(const mf_asked *asked, mf_role role, const char *unit);

#endif
