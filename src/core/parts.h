/* parts.h - looking for the parts of openings. */
#ifndef MF_CORE_PARTS_H
#define MF_CORE_PARTS_H

#include <mistfold/job.h>

enum { MF_EITHER_SIDE = -1 };

/* The first part of the opening on that side from that place on, round once; n_component =
 * there is none. Parts are mostly listed opening by opening: looked for from the last find
 * on, all of them are found in one walk. */
size_t mf_part_from(const mf_job *job, const char *opening, int side, size_t from);

/* Whether the list holds what the work disturbs, as far as the job says: each opening, the usual
 * parts of what is replaced, each part on which lead was found. Of what is on no list nobody
 * knows how much is disturbed, nor whether it is free. */
bool mf_all_listed(const mf_job *job);

#endif
