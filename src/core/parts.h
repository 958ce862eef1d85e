/* parts.h - looking for the parts of openings. */
#ifndef MF_CORE_PARTS_H
#define MF_CORE_PARTS_H

#include <mistfold/job.h>

enum { MF_EITHER_SIDE = -1 };

/* The first part of the opening on that side from that place on, round once; n_component =
 * there is none. Parts are mostly listed opening by opening: looked for from the last find
 * on, all of them are found in one walk. */
size_t mf_part_from(const mf_job *job, const char *opening, int side, size_t from);

#endif
