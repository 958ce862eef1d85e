/* In which units of a building the work is, and who lives in them. 40 CFR 745.84(a)(2), (b). */
#include "core/audit_rows.h"

#include "core/begins.h"
#include "core/occupied_units.h"
#include "core/text.h"

const char *mf_if_multi_unit(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    return asked->house->building == MF_BUILDING_MULTI ? NULL : "not-multi-unit";
}

/* Also where the building is no such one, and an area is said to be of one. */
const char *mf_if_area_in_units(const mf_asked *asked, const mf_subject *subject)
{
    bool said = subject->area->common == MF_YES || mf_given(subject->area->unit);
    return said ? NULL : mf_if_multi_unit(asked, subject);
}

/* Whom work in an area is told to hangs on where the area lies. */
void mf_show_area_unit(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    static const struct {
        mf_verdict verdict;
        const char *why;
    } of[] = {
        [MF_WITHIN_UNIT] = {MF_MET, "area-in-unit"},
        [MF_WITHIN_COMMON] = {MF_MET, "area-common"},
        [MF_WITHIN_COMMON_PRESUMED] = {MF_WARNING, "area-common-presumed"},
        [MF_WITHIN_UNSAID] = {MF_LACKING, "area-unit-unsaid"},
        [MF_WITHIN_BOTH] = {MF_LACKING, "area-unit-and-common"},
    };
    mf_within within = mf_area_within(asked->job, subject->area);
    if (asked->house->building != MF_BUILDING_MULTI) {
        mf_say(out, MF_LACKING, "area-of-no-building");
        return;
    }
    mf_say(out, of[within].verdict, of[within].why);
    if (within == MF_WITHIN_UNIT)
        out->in_unit = mf_area_unit(asked->job, subject->area);
}

/* An occupant whose unit is not known speaks for none. */
void mf_show_occupant_unit(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)asked;
    bool known = subject->unit != NULL;
    mf_say(out, known ? MF_MET : MF_WARNING, known ? "occupant-of-unit" : "occupant-of-no-unit");
}

void mf_show_vacancy(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_vacancy *it = subject->vacancy;
    mf_day begins = mf_begins_in_unit(asked, subject->unit);
    mf_say_days(out, it->on, begins);
    if (subject->unit == NULL)
        mf_say(out, MF_WARNING, "vacancy-of-no-unit");
    else if (mf_first_occupant(asked->job, subject->unit) != NULL)
        mf_say(out, MF_WARNING, "vacancy-but-occupant");
    else if (it->on > begins)
        mf_say(out, MF_WARNING, "vacancy-late");
    else
        mf_say(out, MF_MET, "vacancy-counts");
}
