/* The waste at the end of the renovation: what the cleaning gathered is waste as well.
 * 40 CFR 745.85(a)(4)(ii). */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"

/* On a day after all work in the area whatever is put away is of the cleaning: all of that was
 * surely taken up only later on the day. */
static bool before_taking_up(const mf_job *job, const mf_tick *stored)
{
    mf_day worked = mf_worked_last(job, stored->area);
    if (worked == MF_DAY_NONE || worked >= stored->on)
        return false;
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && it->on == stored->on && mf_same(it->area, stored->area) &&
            mf_id_in_list(MF_TAKES_UP, it->step) &&
            !mf_surely_before(stored->on, stored->at_minute, it->on, it->at_minute))
            return false;
    }
    return true;
}

/* "At the conclusion of each work day and at the conclusion of the renovation": debris and sheeting
 * of the cleaning come after the waste of the last day that somebody spoke of. Of a day of work the
 * line says its end, so by days; waste-daily itself is asked for by its step. */
void mf_show_waste_at_end(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_tick *cleaned = mf_done_last(asked->job, subject->id, MF_TAKES_UP);
    const mf_tick *stored = mf_done_last(asked->job, subject->id, "waste-daily");
    bool both = cleaned != NULL && stored != NULL;
    bool earlier = both && stored->on < cleaned->on;
    bool too_early = both && stored->on == cleaned->on && before_taking_up(asked->job, stored);
    mf_say(out, earlier || too_early ? MF_LACKING : MF_MET,
           earlier     ? "waste-end-unsaid"
           : too_early ? "waste-end-early"
                       : "waste-end-said");
    mf_say_days(out, stored == NULL ? MF_DAY_NONE : stored->on,
                cleaned == NULL ? MF_DAY_NONE : cleaned->on);
    out->evidence = stored == NULL ? "" : mf_or_empty(stored->src.entry);
    out->other = cleaned == NULL ? "" : mf_or_empty(cleaned->src.entry);
}

const char *mf_if_waste_at_end(const mf_asked *asked, const mf_subject *subject)
{
    if (mf_done_last(asked->job, subject->id, MF_TAKES_UP) == NULL)
        return "cleaning-not-ticked";
    return mf_done_last(asked->job, subject->id, "waste-daily") == NULL ? "waste-asked-by-step"
                                                                        : NULL;
}
