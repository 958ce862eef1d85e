/* worked.h - the days on which paint was disturbed: those of the practices that were
 * logged as done. They have no time of day, so what happened on such a day itself is
 * never taken to lie before or after the work. */
#ifndef MF_CORE_WORKED_H
#define MF_CORE_WORKED_H

#include <mistfold/job.h>

/* The last day of work in an area that is not after a day, or MF_DAY_NONE. */
mf_day mf_worked_by(const mf_job *job, const char *area, mf_day day);

/* The last day of work in an area, or MF_DAY_NONE. */
mf_day mf_worked_last(const mf_job *job, const char *area);

/* The first day of work in an area ("" = in any), or MF_DAY_NONE. */
mf_day mf_worked_first(const mf_job *job, const char *area);

/* Whether the event is a visual inspection, whatever it found. */
bool mf_is_look(const mf_verification *event);

/* Whether the tick says that a step of the cleaning was done. */
bool mf_is_cleaning(const mf_tick *tick);

/* The last tick that says done, of any of the steps (ids with commas) in an area, or NULL. */
const mf_tick *mf_done_last(const mf_job *job, const char *area, const char *steps);

/* What takes up debris and sheeting, 745.85(a)(5)(i): waste as well. */
#define MF_TAKES_UP "chips,sheeting,divider"

/* Whether the tick is of a step that the firm asks beyond the rule, which is no task of it. */
bool mf_is_own_step(const mf_job *job, const mf_tick *tick);

/* The last day of work, cleaning, verification or sampling, or MF_DAY_NONE: before it nobody
 * can say that all of it was done. */
mf_day mf_shown_last(const mf_job *job);

/* The day on which the work was said to be completed, or MF_DAY_NONE. */
mf_day mf_completed_on(const mf_job *job);

/* The day of the final invoice, or MF_DAY_NONE. */
mf_day mf_invoiced_on(const mf_job *job);

#endif
