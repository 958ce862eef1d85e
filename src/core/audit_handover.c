/* Has everybody got the information about the work, in time? 40 CFR 745.86(c). */
#include "core/audit_rows.h"

#include "core/text.h"

const char *mf_if_handover_due(const mf_asked *asked, const mf_subject *subject)
{
    if (!mf_party_due(asked->house, subject->role))
        return "party-not-due";
    return asked->completed == MF_DAY_NONE ? "not-completed" : NULL;
}

static const mf_handover *first_to(const mf_job *job, const char *party)
{
    const mf_handover *first = NULL;
    for (size_t i = 0; i < job->n_handover; i++) {
        const mf_handover *it = &job->handover[i];
        if (mf_same(it->party, party) && (first == NULL || it->on < first->on))
            first = it;
    }
    return first;
}

void mf_show_handover(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_handover *it = first_to(asked->job, subject->id);
    mf_day due = asked->due.handover;
    mf_say_limit(out, asked->job, MF_LIMIT_HANDOVER_DAYS, asked->completed);
    mf_say_days(out, it == NULL ? MF_DAY_NONE : it->on, due);
    out->evidence = it == NULL ? "" : mf_or_empty(it->src.entry);
    if (it == NULL)
        mf_say(out, MF_LACKING, asked->today > due ? "handover-overdue" : "handover-due");
    else if (it->on > due)
        mf_say(out, MF_LACKING, "handover-late");
    else
        mf_say(out, MF_MET, "handover-given");
}
