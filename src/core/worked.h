/* worked.h - when paint was disturbed: the days, and the times as far as they were said, of the
 * practices that were logged as done. Of one day, work came before something else only when both
 * times are said and tell so. */
#ifndef MF_CORE_WORKED_H
#define MF_CORE_WORKED_H

#include <mistfold/job.h>

/* The last day of work in an area that is not after a day, or MF_DAY_NONE. */
mf_day mf_worked_by(const mf_job *job, const char *area, mf_day day);

/* The last day of work in an area, or MF_DAY_NONE. */
mf_day mf_worked_last(const mf_job *job, const char *area);

/* The first day of work in an area ("" = in any), or MF_DAY_NONE. */
mf_day mf_worked_first(const mf_job *job, const char *area);

/* Work in an area that was not surely over before a moment, or NULL. What surely went on later is
 * found before what nobody can put in order with it. */
const mf_practice *mf_worked_since(const mf_job *job, const char *area, mf_day on, int32_t at);

/* Whether the times do not tell which of the two came first, of work that mf_worked_since found:
 * it is later otherwise. */
bool mf_worked_unsaid(const mf_practice *work, mf_day on, int32_t at);

/* Whether there was work in an area that surely came after a moment. */
bool mf_worked_after(const mf_job *job, const char *area, mf_day on, int32_t at);

/* Work of the same day in an area that surely went on after a minute of it, or NULL. */
const mf_practice *mf_worked_later_that_day(const mf_job *job, const char *area, mf_day on,
                                            int32_t at);

/* Work in the area of a tick that says done of its waste, and which says it too early: what is kept
 * in "at the conclusion of each work day" while that day's work went on, 745.85(a)(4)(i)-(ii), or
 * what is carried away when there was no work yet, (iii). NULL where the times do not tell. */
const mf_practice *mf_waste_too_early(const mf_job *job, const mf_tick *tick);

/* Whether work in their area may have come between two events of the verification and is known to
 * lie after the first or before the second: of what may lie anywhere mf_worked_since tells. */
bool mf_worked_between(const mf_job *job, const mf_verification *from, const mf_verification *to);

/* The first minute of which it is said that paint was being disturbed, or MF_MINUTE_NONE. */
int32_t mf_work_first_said(const mf_practice *work);

/* The last one; one of both where one time is said. */
int32_t mf_work_last_said(const mf_practice *work);

/* Whether something was done before paint was first disturbed, in any area: no, unknown, or yes. */
mf_tri mf_before_work(const mf_job *job, mf_day on, int32_t at);

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
