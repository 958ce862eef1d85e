/* Whether assisted housing was said to be that. 24 CFR 35.115, 35.1345: what is logged for it alone
 * tells that somebody takes the house to be assisted, and then part 35 must be answered as well. */
#include "core/audit_rows.h"

#include "core/text.h"

/* What only 24 CFR part 35 asks for: where the occupants stay, and its sign. */
static const mf_src *logged_for_it(const mf_job *job)
{
    if (job->n_occupancy > 0)
        return &job->occupancy[0].src;
    for (size_t i = 0; i < job->n_tick; i++)
        if (mf_same(job->tick[i].step, "signs-assisted") && job->tick[i].state == MF_TICK_DONE)
            return &job->tick[i].src;
    return NULL;
}

const char *mf_if_assisted_doubted(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    return logged_for_it(asked->job) == NULL ? "fact-not-asked" : NULL;
}

void mf_show_assisted_said(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool said = asked->house->assisted != MF_UNKNOWN;
    (void)subject;
    mf_say(out, said ? MF_MET : MF_LACKING, said ? "assisted-said" : "assisted-not-stated");
    out->evidence = mf_or_empty(logged_for_it(asked->job)->entry);
}
