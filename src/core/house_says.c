/* One word takes a house out of the rule: that it is no housing, that no child lives there, that
 * there is no bedroom, that nobody pays. Another entry of the same job that says the contrary is
 * believed instead, until one of them is corrected. 40 CFR 745.82(a), 745.83 (child-occupied
 * facility), 745.103. */
#include "core/house_says.h"

#include "core/address.h"
#include "core/area_rooms.h"
#include "core/occupied_units.h"
#include "core/text.h"
#include <mistfold/house.h>

static bool says(mf_house_says *out, const char *why, const mf_src *src)
{
    *out = (mf_house_says){why, mf_or_empty(src->entry)};
    return true;
}

/* ---- who is there ------------------------------------------------------------------------ */

static bool on_list(const mf_job *job, mf_role one, mf_role other, const char *why,
                    mf_house_says *out)
{
    for (size_t i = 0; i < job->n_party; i++)
        if (job->party[i].role == one || job->party[i].role == other)
            return says(out, why, &job->party[i].src);
    return false;
}

/* "A resident child's elevated blood lead level" (745.82(b)). */
static bool child_by_blood(const mf_job *job, mf_house_says *out)
{
    for (size_t i = 0; i < job->n_emergency; i++)
        if (job->emergency[i].cause == MF_CAUSE_BLOOD_LEAD)
            return says(out, "says-blood-lead", &job->emergency[i].src);
    return false;
}

/* Parents and a representative are told where children are looked after (745.84(c)). */
static bool facility_told(const mf_job *job, mf_house_says *out)
{
    return on_list(job, MF_ROLE_PARENTS, MF_ROLE_FACILITY, "says-facility", out);
}

/* Housing of the exempt kinds is exempt by that whichever of the two it is called. */
static bool lives_there(const mf_house *house)
{
    bool kind = house->elder_or_disabled == MF_YES || house->zero_bedroom == MF_YES;
    return house->child_under_6 == MF_YES || house->owner_occupied == MF_YES ||
           house->assisted == MF_YES || (kind && house->child_under_6 != MF_NOT);
}

static bool lived_in(const mf_job *job, mf_house_says *out)
{
    if (lives_there(&job->house[0]))
        return says(out, "says-lives", &job->house[0].src);
    if (job->n_occupancy > 0)
        return says(out, "says-lives", &job->occupancy[0].src);
    if (job->n_vacancy > 0)
        return says(out, "says-lives", &job->vacancy[0].src);
    return on_list(job, MF_ROLE_OCCUPANT, MF_ROLE_UNITS, "says-lives", out);
}

bool mf_house_contradicted(const mf_job *job, mf_house_says *out)
{
    *out = (mf_house_says){NULL, ""};
    if (job->n_house == 0)
        return false;
    bool other = job->house[0].building == MF_BUILDING_OTHER;
    return (other && lived_in(job, out)) || child_by_blood(job, out) || facility_told(job, out);
}

/* ---- is there a bedroom? ------------------------------------------------------------------ */

/* What people call one, in the languages of the papers. Common practice, no source. */
static bool is_bedroom(const char *room)
{
    static const char *const names[] = {"bedroom",      "bedrooms", "bed room", "bdrm",
                                        "bed rm",       "br",       "bedrm",    "recámara",
                                        "dormitorio",   "alcoba",   "nursery",  "cuarto de dormir",
                                        "sleeping room"};
    return mf_words_hold_one(room, names, sizeof names / sizeof names[0]);
}

/* "The living area is not separated from the sleeping area" (745.83): a bedroom is a room of its
 * own. */
bool mf_bedroom_listed(const mf_job *job, mf_house_says *out)
{
    *out = (mf_house_says){NULL, ""};
    for (size_t i = 0; i < job->n_area; i++)
        if (is_bedroom(job->area[i].place))
            return says(out, "says-bedroom", &job->area[i].src);
    for (size_t i = 0; i < job->n_opening; i++)
        if (is_bedroom(job->opening[i].room))
            return says(out, "says-bedroom", &job->opening[i].src);
    for (size_t i = 0; i < job->n_component; i++)
        if (is_bedroom(job->component[i].room))
            return says(out, "says-bedroom", &job->component[i].src);
    return false;
}

/* ---- who lives there -------------------------------------------------------------------- */

/* The street of an owner's address is another than that of the house. */
static bool owner_elsewhere(const mf_job *job, mf_house_says *out)
{
    for (size_t i = 0; i < job->n_party; i++) {
        const mf_party *it = &job->party[i];
        if (it->role == MF_ROLE_OWNER && mf_other_street(it->address, job->house[0].address))
            return says(out, "owner-elsewhere", &it->src);
    }
    return false;
}

/* "If the owner does not occupy the unit" (745.84(a)(2)). Of a facility, where the owner works and
 * does not live, the address says nothing. */
bool mf_owner_doubted(const mf_job *job, mf_house_says *out)
{
    *out = (mf_house_says){NULL, ""};
    if (job->n_house == 0)
        return false;
    const mf_house *house = &job->house[0];
    bool multi = house->building == MF_BUILDING_MULTI;
    if (house->owner_occupied != MF_YES || !mf_is_housing(house))
        return false;
    const mf_party *other = mf_first_occupant(job, multi ? house->unit : "");
    if (other != NULL && (!multi || mf_given(house->unit)))
        return says(out, "owner-beside-occupant", &other->src);
    return owner_elsewhere(job, out);
}

/* ---- who pays ------------------------------------------------------------------------------ */

/* Whether work is done outside the owner's own unit, or it is not known where. */
static bool beyond_own_unit(const mf_job *job, const mf_house *house)
{
    if (house->building != MF_BUILDING_MULTI)
        return false;
    for (size_t i = 0; i < job->n_area; i++) {
        const mf_area *it = &job->area[i];
        if (it->common == MF_YES || (mf_given(it->unit) && !mf_same(it->unit, house->unit)))
            return true;
    }
    return !mf_given(house->unit);
}

/* Own staff are paid for the work by their wages: of a household none are known. */
static bool has_staff(const mf_house *house)
{
    return !mf_is_housing(house) || house->children_visit == MF_YES;
}

bool mf_pay_presumed(const mf_job *job, mf_house_says *out)
{
    *out = (mf_house_says){NULL, ""};
    if (job->n_house == 0)
        return false;
    const mf_house *house = &job->house[0];
    if (has_staff(house))
        return says(out, "wages-are-pay", &house->src);
    if (beyond_own_unit(job, house))
        return says(out, "rent-of-others", &house->src);
    if (job->n_vacancy > 0)
        return says(out, "rent-of-others", &job->vacancy[0].src);
    if (on_list(job, MF_ROLE_OCCUPANT, MF_ROLE_UNITS, "rent-of-others", out))
        return true;
    return mf_owner_doubted(job, out);
}
