/* Whether a signed paper names the unit and the person it is for. 40 CFR 745.84(d)(1),
 * (a)(1)(i), (a)(2)(i). */
#include "core/audit_rows.h"

#include "core/address.h"
#include "core/occupied_units.h"
#include "core/text.h"

/* What the paper says behind the street of the job; NULL = it is of another street, or says
 * a unit alone. "12 Sample Lane" may stand for "12 Sample Lane, Exampleton". */
static const char *behind_street(const mf_job *job, const char *paper)
{
    const char *address = job->n_house == 0 ? "" : mf_or_empty(job->house[0].address);
    enum { STREET = 200 };
    char street[STREET];
    size_t len = strcspn(address, ",");
    if (!mf_has_words(address) || len >= STREET)
        return paper;
    memcpy(street, address, len);
    street[len] = '\0';
    const char *rest = mf_after(paper, street);
    return rest == NULL && mf_after(address, paper) != NULL ? "" : rest;
}

/* Whether the paper names the unit: alone, before the address or behind it. */
static bool names_unit(const mf_job *job, const char *paper, const char *unit)
{
    const char *behind = behind_street(job, paper), *rest = mf_after(paper, unit);
    if (behind != NULL)
        return mf_has_part(behind, unit);
    return rest != NULL && (!mf_has_words(rest) || behind_street(job, rest) != NULL);
}

/* Whether it names another unit of the job: one worked in, or where somebody lives. */
static bool names_other_unit(const mf_job *job, const char *paper, const char *own)
{
    const char *unit;
    for (size_t i = 0; i < mf_units_most(job); i++) {
        if (mf_unit_at(job, i, &unit) && mf_given(unit) && !mf_same_unit(unit, own) &&
            names_unit(job, paper, unit))
            return true;
    }
    for (size_t i = 0; i < job->n_party; i++) {
        unit = job->party[i].unit;
        if (mf_given(unit) && !mf_same_unit(unit, own) && names_unit(job, paper, unit))
            return true;
    }
    return false;
}

/* The unit of whom it was for: of an occupant the own one, else that of the job; "" = none. */
static const char *own_unit(const mf_job *job, const mf_party *party)
{
    const char *unit = party->role == MF_ROLE_OCCUPANT ? mf_or_empty(mf_unit_of(job, party)) : "";
    return mf_given(unit) || job->n_house == 0 ? unit : mf_or_empty(job->house[0].unit);
}

/* Somebody else on the list, by name or id, who does not live there as well. */
static bool signed_by_other(const mf_job *job, const mf_party *party, const char *signer)
{
    if (mf_same_but_case(signer, party->name) || mf_same_but_case(signer, party->id))
        return false;
    for (size_t i = 0; i < job->n_party; i++) {
        const mf_party *it = &job->party[i];
        bool alike = it->role == party->role && mf_same_unit(it->unit, party->unit);
        if (!alike && (mf_same_but_case(signer, it->name) || mf_same_but_case(signer, it->id)))
            return true;
    }
    for (size_t i = 0; i < job->n_person; i++) {
        if (mf_same_but_case(signer, job->person[i].name) ||
            mf_same_but_case(signer, job->person[i].id))
            return true;
    }
    return false;
}

const char *mf_if_signed_paper(const mf_asked *asked, const mf_subject *subject)
{
    return mf_if_served_by(asked, subject,
                           1u << MF_DELIVERY_ACKNOWLEDGED | 1u << MF_DELIVERY_SELF_CERTIFIED);
}

static void say_place(const mf_job *job, const mf_party *party, const char *paper, mf_finding *out)
{
    const char *own = own_unit(job, party);
    bool other = !names_unit(job, paper, own) && names_other_unit(job, paper, own);
    bool of_unit = party->role == MF_ROLE_OCCUPANT && mf_given(mf_unit_of(job, party));
    if (!mf_has_words(paper) || names_unit(job, paper, own))
        return;
    if (other && of_unit)
        mf_say(out, MF_LACKING, "paper-other-unit");
    else if (!other && behind_street(job, paper) == NULL)
        mf_say(out, MF_WARNING, "paper-other-place");
}

/* The firm signs its own certification: owner or occupant cannot (745.84(a)(1)(i), (a)(2)(i)). */
static bool signed_by_party(const mf_job *job, const char *signer)
{
    for (size_t i = 0; mf_given(signer) && i < job->n_party; i++)
        if (mf_same_but_case(signer, job->party[i].name) ||
            mf_same_but_case(signer, job->party[i].id))
            return true;
    return false;
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
    say_place(job, party, mf_or_empty(notice->unit), out);
    if (notice->method == MF_DELIVERY_SELF_CERTIFIED && signed_by_party(job, notice->signer))
        mf_say(out, MF_LACKING, "paper-certified-by-party");
    if (out->verdict == MF_MET && notice->method == MF_DELIVERY_ACKNOWLEDGED &&
        mf_given(notice->signer) && signed_by_other(job, party, notice->signer))
        mf_say(out, MF_WARNING, "paper-other-signer");
}
