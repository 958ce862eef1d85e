/* The waste at the end of the renovation: what the cleaning gathered is waste as well.
 * 40 CFR 745.85(a)(4)(ii). */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/worked.h"

/* "At the conclusion of each work day and at the conclusion of the renovation": debris and sheeting
 * of the cleaning come after the waste of the last day that somebody spoke of. Of one
 * day the line says its end, so by days; waste-daily itself is asked for by its step. */
void mf_show_waste_at_end(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_tick *cleaned = mf_done_last(asked->job, subject->id, MF_TAKES_UP);
    const mf_tick *stored = mf_done_last(asked->job, subject->id, "waste-daily");
    bool earlier = cleaned != NULL && stored != NULL && stored->on < cleaned->on;
    mf_say(out, earlier ? MF_LACKING : MF_MET, earlier ? "waste-end-unsaid" : "waste-end-said");
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
