/* Filling findings, and the facts that several predicates ask for. */
#include "core/audit_rows.h"

#include "core/begins.h"
#include "core/house_says.h"
#include "core/occupied_units.h"
#include "core/text.h"

mf_finding mf_finding_blank(void)
{
    return (mf_finding){.verdict = MF_NOT_DUE,
                        .why = "nothing-to-ask",
                        .subject = "",
                        .evidence = "",
                        .told = "",
                        .other = "",
                        .field = "",
                        .in_unit = "",
                        .d1 = MF_DAY_NONE,
                        .d2 = MF_DAY_NONE,
                        .n1 = MF_NUM_NONE,
                        .n2 = MF_NUM_NONE,
                        .unit = MF_UNIT_COUNT};
}

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

/* An adult occupant of each unit worked in (745.84(a)(2)), unless the owner lives in it
 * or nobody does. One of them is told: the row is asked once for all of a unit. */
static const char *occupant_not_owed(const mf_asked *asked, const mf_subject *subject)
{
    const mf_job *job = asked->job;
    if (!mf_is_housing(asked->house))
        return "party-not-due";
    if (subject->unit == NULL) /* an area that may lie in any unit, or somebody of none */
        return subject->party == NULL ? NULL : "party-of-no-unit";
    if (!mf_unit_worked(job, subject->unit))
        return "unit-not-worked";
    if (mf_owner_in(job, subject->unit))
        return "party-not-due";
    if (mf_vacant(job, subject->unit, mf_begins_in_unit(asked, subject->unit)))
        return "unit-vacant";
    bool first = subject->party == mf_first_occupant(job, subject->unit);
    return first ? NULL : "unit-asked-once";
}

/* Who must be told, by 745.84(a) (dwellings and units), (b) (common areas) and (c)
 * (child-occupied facilities). Who lives in or runs the place as its owner is
 * told once, as owner, where nothing else speaks against that word. A dwelling in which children
 * are looked after is both. */
const char *mf_not_owed(const mf_asked *asked, const mf_subject *subject)
{
    const mf_house *house = asked->house;
    mf_house_says other;
    bool owed = true;
    bool facility = !mf_is_housing(house) || asked->visits.facility;
    switch (subject->role) {
    case MF_ROLE_OWNER:
        break;
    case MF_ROLE_OCCUPANT:
        return occupant_not_owed(asked, subject);
    case MF_ROLE_FACILITY:
        owed =
            facility && (house->owner_occupied != MF_YES || mf_owner_doubted(asked->job, &other));
        break;
    case MF_ROLE_PARENTS:
        owed = facility;
        break;
    case MF_ROLE_UNITS:
        owed = mf_common_worked(asked->job);
        break;
    }
    return owed ? NULL : "party-not-due";
}

bool mf_stands_for(const mf_job *job, const mf_subject *subject, const mf_party *party)
{
    if (subject->role == MF_ROLE_OCCUPANT)
        return mf_lives_in(job, party, subject->unit);
    return subject->party != NULL && mf_same(subject->party->id, party->id);
}

/* Verification may be left out only where clearance sampling is required
 * (745.85(c)(1)): one sample that says so puts its work area on that way. Outside there is
 * nothing to clear by it: 745.227(e)(8) has samples of floors, sills and troughs inside. */
bool mf_on_clearance(const mf_job *job, const char *area)
{
    const mf_area *place = mf_job_area(job, area);
    if (place != NULL && place->side == MF_SIDE_EXTERIOR)
        return false;
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
