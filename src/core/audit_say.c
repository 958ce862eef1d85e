/* Filling findings, and the facts that several predicates ask for. */
#include "core/audit_rows.h"

#include "core/text.h"

void mf_say(mf_finding *out, mf_verdict verdict, const char *why)
{
    out->verdict = verdict;
    out->why = why;
    out->n_also = 0;
}

void mf_say_lack(mf_finding *out, bool lacks, const char *why)
{
    if (!lacks)
        return;
    if (out->verdict != MF_LACKING)
        mf_say(out, MF_LACKING, why);
    else if (out->n_also < MF_ALSO)
        out->also[out->n_also++] = why;
}

void mf_say_days(mf_finding *out, mf_day d1, mf_day d2)
{
    out->d1 = d1;
    out->d2 = d2;
}

void mf_say_numbers(mf_finding *out, mf_unit unit, int64_t n1, int64_t n2)
{
    out->unit = unit;
    out->n1 = n1;
    out->n2 = n2;
}

void mf_say_limit(mf_finding *out, const mf_job *job, mf_limit_id id, mf_day day)
{
    const mf_limit *federal = mf_limit_on(id, day);
    out->limit = mf_limit_for(job, id, day);
    out->beside = out->limit == federal ? NULL : federal;
}

const char *mf_if_always(const mf_asked *asked, const mf_subject *subject)
{
    (void)asked;
    (void)subject;
    return NULL;
}

const char *mf_if_completed(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    return asked->completed == MF_DAY_NONE ? "not-completed" : NULL;
}

/* Who must be told, by 745.84(a) (dwellings), (b) (common areas) and (c)
 * (child-occupied facilities). Who lives in or runs the place as its owner is
 * told once, as owner. A dwelling in which children are looked after is both. */
bool mf_party_due(const mf_asked *asked, mf_role role)
{
    const mf_house *house = asked->house;
    bool owner_there = house->owner_occupied == MF_YES;
    bool facility = house->building == MF_BUILDING_FACILITY ||
                    house->building == MF_BUILDING_OTHER || asked->visits.facility;
    bool one_unit = house->building == MF_BUILDING_DWELLING ||
                    (house->building == MF_BUILDING_MULTI && mf_given(house->unit));
    switch (role) {
    case MF_ROLE_OWNER:
        return true;
    case MF_ROLE_OCCUPANT:
        return one_unit && !owner_there;
    case MF_ROLE_FACILITY:
        return facility && !owner_there;
    case MF_ROLE_PARENTS:
        return facility;
    case MF_ROLE_UNITS:
        return house->building == MF_BUILDING_MULTI;
    }
    return true;
}

/* Verification may be left out only where clearance sampling is required
 * (745.85(c)(1)): one sample that says so puts its work area on that way. */
bool mf_on_clearance(const mf_job *job, const char *area)
{
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *sample = &job->dust_sample[i];
        if (sample->required == MF_YES && sample->blank != MF_YES && mf_same(sample->area, area))
            return true;
    }
    return false;
}

/* The earliest assignment, of the duty or of any. */
static const mf_assignment *earliest(const mf_job *job, const char *person, bool renovator)
{
    const mf_assignment *first = NULL;
    for (size_t i = 0; i < job->n_assignment; i++) {
        const mf_assignment *it = &job->assignment[i];
        if (mf_same(it->person, person) && (!renovator || it->duty == MF_DUTY_RENOVATOR) &&
            (first == NULL || it->on < first->on))
            first = it;
    }
    return first;
}

const mf_assignment *mf_assigned(const mf_job *job, const char *person)
{
    return earliest(job, person, false);
}

const mf_assignment *mf_assigned_renovator(const mf_job *job, const char *person)
{
    return earliest(job, person, true);
}
