/* Sheeting that ended at a sealed barrier, once that was taken down as it should be: what stood
 * while paint was disturbed does not fall short afterwards. 40 CFR 745.85(a)(2)(i)(D), (ii)(C). */
#include "core/audit_rows.h"

#include "core/short.h"
#include "core/text.h"
#include "core/when.h"
#include <mistfold/contain.h>

/* The last tick that put the barrier up before it came down. */
static const mf_tick *put_up(const mf_job *job, const mf_tick *down)
{
    const mf_tick *last = NULL;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && mf_same(it->step, down->step) &&
            mf_same(it->area, down->area) &&
            !mf_surely_before(down->on, down->at_minute, it->on, it->at_minute) &&
            (last == NULL || !mf_surely_before(it->on, it->at_minute, last->on, last->at_minute)))
            last = it;
    }
    return last;
}

bool mf_barrier_served(const mf_asked *asked, const mf_area *area, const mf_tick *sheet,
                       const mf_tick *down)
{
    return down != NULL && mf_taken_down(asked, area, down) &&
           !mf_surely_before(down->on, down->at_minute, sheet->on, sheet->at_minute);
}

mf_step_state mf_step_stood(const mf_asked *asked, const mf_area *area, const mf_step *step,
                            mf_day by, const mf_tick **tick)
{
    const mf_tick *sheet = NULL, *down = NULL;
    mf_step_state state = mf_step_judge_by(asked->job, area, step, by, &sheet);
    if (tick != NULL)
        *tick = sheet;
    if (state != MF_STEP_SHORT || !mf_sheet_short(asked->job, area, step, sheet, sheet->on))
        return state;
    mf_step_judge_by(asked->job, area, mf_step_named("vertical-barrier"), by, &down);
    return mf_barrier_served(asked, area, sheet, down)
               ? mf_sheet_to_barrier(asked->job, sheet, put_up(asked->job, down))
               : state;
}
