/* A limit of the place that comes into force while work goes on: what the planned start decides,
 * such as whether the house is under the rule, was decided by the limits of before. On each day the
 * strictest in force governs, so work from that day on is asked for as a job of its own. */
#include "core/audit_rows.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/place.h>

/* Judged by the planned start alone; others go by the day of the step, sample, notice or tick. */
static bool by_start(mf_limit_id id)
{
    static const mf_limit_id ids[] = {
        MF_LIMIT_YEAR_BUILT,        MF_LIMIT_PAINT_LOADING,      MF_LIMIT_PAINT_WEIGHT,
        MF_LIMIT_PROPERTY_LINE,     MF_LIMIT_SECTION_UNDIVIDED,  MF_LIMIT_SECTION_PART,
        MF_LIMIT_CHILD_AGE,         MF_LIMIT_ZERO_BEDROOM_CHILD, MF_LIMIT_VISIT_DAYS,
        MF_LIMIT_VISIT_MINUTES,     MF_LIMIT_VISIT_WEEK,         MF_LIMIT_VISIT_YEAR,
        MF_LIMIT_ASSISTED_INTERIOR, MF_LIMIT_ASSISTED_EXTERIOR,  MF_LIMIT_ASSISTED_PART,
        MF_LIMIT_BLOOD_LEAD};
    for (size_t i = 0; i < sizeof ids / sizeof ids[0]; i++)
        if (ids[i] == id)
            return true;
    return false;
}

/* Small areas go by each day until the planned end: work that slips past it goes on unasked. */
static bool slipped(const mf_asked *asked, const mf_limit *row)
{
    bool minor = row->id == MF_LIMIT_MINOR_INTERIOR || row->id == MF_LIMIT_MINOR_EXTERIOR;
    mf_day end = asked->house->end;
    return minor && end != MF_DAY_NONE && row->from > end &&
           mf_worked_last(asked->job, "") == MF_DAY_NONE;
}

static bool stricter_then(const mf_asked *asked, const mf_limit *row)
{
    const mf_limit *first = mf_limit_for(asked->job, row->id, asked->house->start);
    const mf_limit *then = mf_limit_for(asked->job, row->id, row->from);
    return then != NULL &&
           (first == NULL || first->value != then->value || first->cmp != then->cmp);
}

/* The first such limit by the last day of work, or by the day asked about while there is none. */
static const mf_local_limit *change_of(const mf_asked *asked)
{
    mf_day worked = mf_worked_last(asked->job, "");
    mf_day last = worked == MF_DAY_NONE ? asked->today : worked;
    const mf_local_limit *first = NULL;
    for (size_t i = 0; i < asked->job->n_local_limit; i++) {
        const mf_local_limit *it = &asked->job->local_limit[i];
        if (it->row.from == MF_DAY_NONE || it->row.from <= asked->house->start ||
            it->row.from > last || !(by_start(it->row.id) || slipped(asked, &it->row)) ||
            !stricter_then(asked, &it->row))
            continue;
        if (first == NULL || it->row.from < first->row.from)
            first = it;
    }
    return first;
}

const char *mf_if_limits_change(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    return asked->house->start == MF_DAY_NONE || asked->job->n_local_limit == 0 ? "limits-same"
                                                                                : NULL;
}

void mf_show_limits_change(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_local_limit *it = change_of(asked);
    (void)subject;
    mf_say(out, MF_MET, "limits-of-start");
    mf_say_days(out, asked->house->start, MF_DAY_NONE);
    out->evidence = mf_or_empty(asked->house->src.entry);
    if (it == NULL)
        return;
    mf_say(out, MF_LACKING, "limits-changed");
    mf_say_days(out, it->row.from, asked->house->start);
    out->told = it->row.name;
    out->other = mf_or_empty(it->src.entry);
}
