/* Whether a delivery's paper is of this house and unit, and signed by whom it is for. 40 CFR
 * 745.84(d)(1), (a)(1)(i), (a)(2)(i). */
#include "core/audit_rows.h"

#include "core/notice_paper.h"
#include "core/text.h"

/* A signed paper names a place and a person; what was mailed or posted is asked where a place is
 * said. */
const char *mf_if_paper(const mf_asked *asked, const mf_subject *subject)
{
    const mf_notice *notice = mf_serving_notice(asked, subject);
    bool placed = notice != NULL && mf_given(notice->unit);
    unsigned signed_ = 1u << MF_DELIVERY_ACKNOWLEDGED | 1u << MF_DELIVERY_SELF_CERTIFIED;
    return mf_if_served_by(asked, subject, placed ? ~0u : signed_);
}

void mf_show_paper_names(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    const mf_notice *notice = mf_serving_notice(asked, subject);
    const mf_party *party = notice == NULL ? NULL : mf_job_party(job, notice->party);
    mf_say(out, MF_MET, "paper-names-whole");
    if (party == NULL)
        return;
    mf_say_days(out, notice->on, MF_DAY_NONE);
    out->subject = mf_or_empty(party->id);
    out->evidence = mf_or_empty(notice->src.entry);
    const char *place_asks, *signer_asks;
    const char *elsewhere = mf_paper_elsewhere(job, party, notice, &place_asks);
    const char *signer = mf_paper_wrong_signer(job, party, notice, &signer_asks);
    mf_say_lack(out, elsewhere != NULL, elsewhere);
    mf_say_lack(out, signer != NULL, signer);
    const char *asks = place_asks != NULL ? place_asks : signer_asks;
    if (out->verdict == MF_MET && asks != NULL)
        mf_say(out, MF_WARNING, asks);
}
