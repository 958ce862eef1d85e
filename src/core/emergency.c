/* What an emergency excuses. 40 CFR 745.82(b). */
#include <mistfold/emergency.h>
#include <mistfold/place.h>

#include "core/spelling.h"
#include "core/text.h"
#include "core/worked.h"

static const char *const names[MF_WAIVER_COUNT] = {"pamphlet", "signs",    "containment",
                                                   "waste",    "training", "certification"};

const char *mf_waiver_name(mf_waiver waiver)
{
    return (unsigned)waiver < MF_WAIVER_COUNT ? names[waiver] : "";
}

mf_waiver mf_waiver_named(const char *name, size_t len)
{
    for (int i = 0; i < MF_WAIVER_COUNT; i++) {
        if (strlen(names[i]) == len && strncmp(names[i], name, len) == 0)
            return (mf_waiver)i;
    }
    return MF_WAIVER_COUNT;
}

/* A child's elevated blood lead level excuses from the information duties alone. */
static bool may_waive(const mf_emergency *emergency, mf_waiver waiver)
{
    if (waiver == MF_WAIVE_PAMPHLET)
        return true;
    return waiver < MF_WAIVER_COUNT && emergency->cause == MF_CAUSE_SUDDEN_EVENT;
}

/* "Not planned but result from" the event (745.82(b)): work that had begun before it did not, as
 * planned where no day of work is logged. */
static bool began_before(const mf_job *job, mf_day event)
{
    mf_day worked = mf_worked_first(job, "");
    mf_day began = worked != MF_DAY_NONE || job->n_house == 0 ? worked : job->house[0].start;
    return event != MF_DAY_NONE && began != MF_DAY_NONE && began < event;
}

/* Where two devices logged the job, and one of them says that it is none. */
static bool denied(const mf_job *job)
{
    for (size_t i = 0; i < job->n_house; i++)
        if (job->house[i].emergency == MF_NOT)
            return true;
    return false;
}

mf_emergency_fault mf_emergency_void(const mf_job *job, const mf_emergency *emergency)
{
    const mf_limit *level = mf_limit_for(job, MF_LIMIT_BLOOD_LEAD, emergency->on);
    bool low = emergency->cause == MF_CAUSE_BLOOD_LEAD && level != NULL &&
               emergency->blood_lead_100 != MF_NUM_NONE &&
               !mf_limit_holds(level, emergency->blood_lead_100);
    if (denied(job))
        return MF_EMERGENCY_DENIED;
    if (low)
        return MF_EMERGENCY_NOT_ELEVATED;
    if (began_before(job, emergency->on))
        return MF_EMERGENCY_LATE;
    bool waives = mf_given(emergency->waived);
    return waives && mf_says_nothing(emergency->reason) ? MF_EMERGENCY_NO_REASON
                                                        : MF_EMERGENCY_STANDS;
}

/* The last day on which the entry excuses more than the information. "To the extent necessary to
 * respond to the emergency" (745.82(b)): no number of days is in the text. Where nobody says for
 * how long, it is presumed to be over once people could have been told by mail as of any
 * renovation: what comes later could be planned. */
static mf_day last_of(const mf_job *job, const mf_emergency *emergency)
{
    const mf_limit *days = mf_limit_for(job, MF_LIMIT_EMERGENCY_DAYS, emergency->on);
    if (emergency->until != MF_DAY_NONE || emergency->on == MF_DAY_NONE || days == NULL)
        return emergency->until;
    return emergency->on + (mf_day)days->value;
}

/* "The information distribution requirements in 745.84 do not apply to emergency renovations"
 * (745.82(b)): of these alone nobody has to say that they were left out, nor why. */
static bool waives(const mf_job *job, const mf_emergency *it, mf_waiver waiver, mf_day day)
{
    mf_emergency_fault fault = mf_emergency_void(job, it);
    if (waiver == MF_WAIVE_PAMPHLET)
        return mf_given(it->nature) &&
               (fault == MF_EMERGENCY_STANDS || fault == MF_EMERGENCY_NO_REASON);
    return fault == MF_EMERGENCY_STANDS && may_waive(it, waiver) &&
           (day == MF_DAY_NONE || day <= last_of(job, it)) &&
           mf_id_in_list(it->waived, mf_waiver_name(waiver));
}

/* Two devices may have logged an emergency each: what one of them does not waive is not. */
const mf_emergency *mf_emergency_waives(const mf_job *job, mf_waiver waiver, mf_day day)
{
    for (size_t i = 0; i < job->n_emergency; i++)
        if (!waives(job, &job->emergency[i], waiver, day))
            return NULL;
    return job->n_emergency == 0 ? NULL : &job->emergency[job->n_emergency - 1];
}

bool mf_emergency_claimed(const mf_job *job)
{
    return job->n_emergency > 0 || (job->n_house > 0 && job->house[0].emergency == MF_YES);
}

bool mf_emergency_excess(const mf_emergency *emergency, const char **name, size_t *len)
{
    for (const char *at = mf_or_empty(emergency->waived); *at != '\0';) {
        *name = at;
        *len = strcspn(at, ",");
        if (!may_waive(emergency, mf_waiver_named(at, *len)))
            return true;
        at += *len + (at[*len] == ',');
    }
    return false;
}
