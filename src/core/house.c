/* Whether the rule covers the job. What the house or the contract says is asked
 * before what the tests say, so that the answer rests on as little as it can:
 *
 *   1. explicitly not for compensation, by who lives there  745.82(a), 745.80
 *      (rent and wages are compensation, so the work of a landlord, or of a facility by its own
 *      staff, is covered)
 *   2. built in 1978 or later                              745.103, 745.83
 *   3. for the elderly or the disabled, or no bedroom, and explicitly no child
 *      under 6; never a child-occupied facility            745.103
 *   4. nothing painted is disturbed                        745.83 renovation
 *   5. minor repair and maintenance                        745.83
 *   6. every painted component disturbed is shown free     745.82(a)(1)-(3)
 *      4 and 6 only where all parts of what is replaced are listed or said to be absent;
 *      6 comes last, as it alone leaves records to keep and hand over, 745.86(b)(1), (c)(1)
 *
 *      Other buildings are under the rule only as facilities: by the visits of
 *      children that were logged, and as long as nobody says that these are all or that
 *      none come. A word that another entry of the job contradicts exempts nothing
 *      (house_says.c)
 *
 * An emergency is reported and stays covered: 745.82(b) relieves of single
 * duties only. */
#include <mistfold/house.h>

#include "core/contradict.h"
#include "core/facility.h"
#include "core/house_says.h"
#include "core/minor.h"
#include "core/opening_parts.h"
#include "core/reading_index.h"
#include "core/text.h"
#include "core/versions.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/emergency.h>
#include <mistfold/paint.h>
#include <mistfold/place.h>

/* ---- the house ---------------------------------------------------------------- */

static bool built_later(const mf_job *job, const mf_house *house)
{
    const mf_limit *year = mf_limit_for(job, MF_LIMIT_YEAR_BUILT, house->start);
    return house->year_built != MF_NUM_NONE && !mf_limit_holds(year, house->year_built);
}

bool mf_is_housing(const mf_house *house)
{
    return house->building == MF_BUILDING_DWELLING || house->building == MF_BUILDING_MULTI;
}

/* By what it is said to be, or by who visits. */
static bool is_facility(const mf_job *job, const mf_house *house)
{
    mf_facility_answer visits;
    if (house->building == MF_BUILDING_FACILITY)
        return true;
    mf_facility_judge(job, &visits);
    return visits.facility;
}

/* Before 2025-01-13 a child kept no zero-bedroom dwelling under the rule: of work that was all done
 * by then. */
static bool child_matters(const mf_job *job, const mf_house *house)
{
    mf_day on = mf_later(house->start, mf_worked_last(job, ""));
    const mf_limit *age = mf_limit_for(job, MF_LIMIT_ZERO_BEDROOM_CHILD, on);
    return age == NULL || age->value > 0;
}

/* "Any zero-bedroom dwelling" is a unit of its building: what is common to it, another unit and
 * an area of which that is not said are housing all the same (745.103). */
static bool inside_one_unit(const mf_job *job, const mf_house *house)
{
    if (house->building != MF_BUILDING_MULTI)
        return true;
    for (size_t i = 0; i < job->n_area; i++) {
        const mf_area *it = &job->area[i];
        if (it->common == MF_YES || !mf_given(it->unit) || !mf_same(it->unit, job->area[0].unit))
            return false;
    }
    return job->n_area > 0;
}

/* What only housing can be exempt by. */
static bool housing_exempt(const mf_job *job, const mf_house *house, mf_cover_why *why)
{
    bool no_child = house->child_under_6 == MF_NOT;
    mf_house_says against;
    if (mf_house_contradicted(job, &against))
        return false; /* presumed to be what the other entry says, until one is corrected */
    if (house->building == MF_BUILDING_OTHER) { /* no housing: who lives there exempts nothing */
        bool known = mf_visits_known(job);
        *why = known ? MF_COVER_NO_FACILITY : *why;
        return known;
    }
    bool studio = house->zero_bedroom == MF_YES && inside_one_unit(job, house) &&
                  !mf_bedroom_listed(job, &against);
    if (house->elder_or_disabled == MF_YES && no_child)
        *why = MF_COVER_ELDER_HOUSING;
    else if (studio && no_child)
        *why = MF_COVER_ZERO_BEDROOM;
    else if (studio && !child_matters(job, house))
        *why = MF_COVER_ZERO_BEDROOM_BEFORE;
    else
        return false;
    return true;
}

/* What is invoiced is paid for, whatever was said before; so is what others pay rent for, and what
 * somebody does for wages. */
static bool unpaid(const mf_job *job, const mf_house *house)
{
    mf_house_says paid;
    return house->for_compensation == MF_NOT && house->owner_occupied == MF_YES &&
           job->n_invoice == 0 && !mf_pay_presumed(job, &paid);
}

static bool house_exempt(const mf_job *job, const mf_house *house, mf_cover_why *why)
{
    if (unpaid(job, house))
        *why = MF_COVER_NOT_FOR_PAY;
    else if (built_later(job, house))
        *why = MF_COVER_BUILT_LATER;
    else
        return !is_facility(job, house) && housing_exempt(job, house, why);
    return true;
}

/* ---- the paint the work disturbs ------------------------------------------------- */

static size_t count_disturbed(const mf_job *job)
{
    size_t n = 0;
    for (size_t i = 0; i < job->n_component; i++)
        n += mf_component_disturbed(&job->component[i]);
    return n;
}

static void count_paint(const mf_job *job, mf_cover_answer *out)
{
    for (size_t i = 0; i < job->n_component; i++) {
        mf_paint_finding finding;
        if (!mf_paint_disturbed(job, &job->component[i]))
            continue;
        out->n_affected++;
        mf_paint_judge(job, &job->component[i], &finding);
        out->n_free += finding.verdict == MF_PAINT_FREE;
    }
}

/* An empty list exempts nothing: somebody must have said what is disturbed, of each
 * opening. Nor does one that lacks a part on which lead was found. */
static bool paint_exempt(const mf_job *job, const mf_cover_answer *answer, mf_cover_why *why)
{
    bool unpainted = answer->n_affected == 0 && count_disturbed(job) > 0;
    bool free = answer->n_affected > 0 && answer->n_free == answer->n_affected;
    if ((!unpainted && !free) || !mf_all_listed(job))
        return false;
    *why = unpainted ? MF_COVER_NOTHING_PAINTED : MF_COVER_ALL_FREE;
    return true;
}

static void judge(const mf_job *job, mf_cover_answer *out)
{
    *out = (mf_cover_answer){.cover = MF_COVER_YES,
                             .why = MF_COVER_YEAR_UNKNOWN,
                             .place = "",
                             .minor_sqft_100 = MF_NUM_NONE,
                             .minor_room = ""};
    count_paint(job, out);
    if (job->n_house == 0)
        return;
    const mf_house *house = &job->house[0];
    out->emergency = mf_emergency_claimed(job);
    bool minor = out->n_affected > 0 && !mf_room_disputed(job) && mf_minor(job, out);
    if (house->year_built != MF_NUM_NONE)
        out->why = MF_COVER_BUILT_BEFORE;
    if (mf_corrections_contradict(job))
        return; /* nothing of it exempts while two corrections contradict each other */
    bool exempt = house_exempt(job, house, &out->why);
    if (!exempt && minor)
        out->why = MF_COVER_MINOR;
    else if (exempt || paint_exempt(job, out, &out->why))
        out->place = "";
    else
        return;
    out->cover = MF_COVER_NO;
}

static void judge_version(const mf_job *job, mf_cover_answer *out)
{
    mf_reading_index index;
    mf_job with = *job;
    if (job->index == NULL && job->n_reading > 0) {
        mf_index_begin(&index, &with);
        with.index = &index;
    }
    judge(&with, out);
}

/* Covered where any version of the job is, and where there are more than can be judged. */
void mf_cover_judge(const mf_job *job, mf_cover_answer *out)
{
    mf_job versions[MF_VERSIONS];
    size_t n = mf_versions_of(job, versions);
    judge_version(&versions[0], out);
    for (size_t v = 1; v < n && v < MF_VERSIONS && out->cover != MF_COVER_YES; v++) {
        mf_cover_answer other;
        versions[v].index = NULL; /* of the first house */
        judge_version(&versions[v], &other);
        if (other.cover == MF_COVER_YES)
            *out = other;
    }
    if (n > MF_VERSIONS)
        out->cover = MF_COVER_YES;
}
