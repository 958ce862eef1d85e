/* short.h - contain.c: sheeting that does not reach as far as is asked for. */
#ifndef MF_CORE_SHORT_H
#define MF_CORE_SHORT_H

#include <mistfold/contain.h>

/* Whether the extent that a tick gives of a sheet is less than the limit of a day, and it does not
 * end at the property line: without a barrier it falls short. What nobody measured is not said to.
 */
bool mf_sheet_short(const mf_job *job, const mf_area *area, const mf_step *step,
                    const mf_tick *tick, mf_day day);

/* How a sheet stood that falls short by itself and ended at a barrier that was up. */
mf_step_state mf_sheet_to_barrier(const mf_job *job, const mf_tick *sheet, const mf_tick *barrier);

#endif
