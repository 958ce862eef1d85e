/* Where an area that is cleared by samples was sampled: 40 CFR 745.227(e)(8)(v), in accordance
 * with which 745.90(c)(1) has the samples collected. */
#include "core/audit_rows.h"

#include "core/area_openings.h"
#include "core/area_rooms.h"
#include "core/dust_rooms.h"
#include "core/spelling.h"
#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"

const char *mf_if_cleared_inside(const mf_asked *asked, const mf_subject *subject)
{
    if (!mf_on_clearance(asked->job, subject->area->id))
        return "no-clearance";
    return subject->area->side == MF_SIDE_INTERIOR ? NULL : "area-outside";
}

/* In place of the verification only what contract or law requires is sampled (745.85(c)(1)), and
 * what lies in a room of another area is no sample of this one. */
static bool counts(const mf_job *job, const mf_dust_sample *it, const mf_area *area, bool required)
{
    return it->blank != MF_YES && mf_same(it->area, area->id) &&
           (it->required == MF_YES || !required) && mf_sampled_elsewhere(job, it) == NULL;
}

/* Anywhere in the area (NULL), or in one room of it. */
static bool sampled(const mf_sampling *of, const char *room, mf_dust_surface surface)
{
    for (size_t i = 0; i < of->job->n_dust_sample; i++) {
        const mf_dust_sample *it = &of->job->dust_sample[i];
        if (it->surface == surface && !mf_sampled_outside(it) &&
            counts(of->job, it, of->area, of->required) &&
            (room == NULL || mf_sample_in_room(of->job, it, of->area, room)))
            return true;
    }
    return false;
}

/* The next room of the area that is the room, in whichever way it is written; "kitch" and "kitchen"
 * are one. A room of NULL is the area as a whole, which comes once. */
static bool next_spelling(const mf_sampling *of, const char *room, size_t *at, const char **spelled)
{
    *spelled = NULL;
    if (room == NULL)
        return (*at)++ == 0;
    while ((*spelled = mf_next_room(of->job, of->area, at)) != NULL)
        if (mf_same_room_words(*spelled, room))
            return true;
    return false;
}

/* Whether it was sampled, or has no window with such a part. */
static bool done(const mf_sampling *of, const char *room, mf_dust_surface surface,
                 mf_component_type part)
{
    const char *spelled;
    int64_t parts = 0;
    for (size_t at = 0; next_spelling(of, room, &at, &spelled);) {
        if (sampled(of, spelled, surface))
            return true;
        parts +=
            surface == MF_DUST_FLOOR ? 1 : mf_room_window_parts(of->job, of->area, spelled, part);
    }
    return parts == 0;
}

static const char *not_sampled(const mf_sampling *of, const char *room)
{
    bool sill = done(of, room, MF_DUST_SILL, MF_COMP_INTERIOR_SILL);
    bool trough = done(of, room, MF_DUST_TROUGH, MF_COMP_TROUGH);
    if (!done(of, room, MF_DUST_FLOOR, MF_COMP_OTHER))
        return "floor-not-sampled";
    if (sill)
        return trough ? NULL : "trough-not-sampled";
    return trough ? "sill-not-sampled" : "window-not-sampled";
}

/* Whether the room came before in another spelling. */
static bool came_before(const mf_sampling *of, const char *room)
{
    const char *first;
    size_t at = 0;
    return next_spelling(of, room, &at, &first) && first != room;
}

/* "Each of no less than four rooms", or all where they are fewer. */
static bool lacks_rooms(const mf_sampling *of, mf_finding *out)
{
    const char *room, *first = NULL;
    int64_t shown = 0, n = 0;
    size_t at = 0;
    const mf_limit *row = mf_limit_for(of->job, MF_LIMIT_SAMPLE_ROOMS, of->on);
    while ((room = mf_next_room(of->job, of->area, &at)) != NULL) {
        if (came_before(of, room))
            continue;
        bool lacks = not_sampled(of, room) != NULL;
        first = lacks && first == NULL ? room : first;
        shown += !lacks;
        n++;
        if (mf_limit_holds(row, shown))
            return false;
    }
    if (n < 2 || first == NULL)
        return false;
    mf_say(out, MF_LACKING, "room-not-sampled");
    out->subject = first;
    mf_say_limit(out, of->job, MF_LIMIT_SAMPLE_ROOMS, of->on);
    mf_say_numbers(out, MF_UNIT_COUNT, shown, row == NULL || row->value > n ? n : row->value);
    return true;
}

bool mf_lacks_samples(const mf_sampling *of, mf_finding *out)
{
    const char *why = not_sampled(of, NULL);
    if (why != NULL)
        mf_say(out, MF_LACKING, why);
    return why != NULL || lacks_rooms(of, out);
}

/* "One dust sample ... from the floor outside the containment area": (v)(A). Where an emergency
 * left the containment out (745.82(b)) there is no outside of it: (v)(B). */
static bool floor_outside(const mf_job *job, const mf_area *area)
{
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        if (it->surface == MF_DUST_FLOOR && mf_sampled_outside(it) && counts(job, it, area, true))
            return true;
    }
    return mf_emergency_waives(job, MF_WAIVE_CONTAINMENT, mf_worked_last(job, area->id)) != NULL;
}

/* Of each room floor, and where it has a window a sill and a trough, as far as they are there:
 * 745.227(e)(8)(v), as restored by 90 FR 30211, in accordance with which 745.90(c)(1) has the
 * samples collected. What was neither wiped nor sampled nothing shows to be clean (745.85(b)-(c)).
 */
void mf_show_dust_places(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_sampling all = {asked->job, subject->area, true, asked->last};
    mf_say(out, MF_MET, "places-sampled");
    if (!mf_lacks_samples(&all, out) && !floor_outside(asked->job, subject->area))
        mf_say(out, MF_LACKING, "outside-floor-not-sampled");
}

const char *mf_if_inside_sampled(const mf_asked *asked, const mf_subject *subject)
{
    const mf_area *area = mf_job_area(asked->job, subject->sample->area);
    if (mf_sampled_outside(subject->sample))
        return "sample-outside";
    if (area == NULL || area->side == MF_SIDE_EXTERIOR)
        return "area-outside";
    /* Also where a later one stands for it: of which area it was nobody knows until it is
     * corrected. */
    bool elsewhere = mf_sampled_elsewhere(asked->job, subject->sample) != NULL;
    return elsewhere && subject->sample->blank != MF_YES ? NULL : mf_if_in_force(asked, subject);
}

/* Of an area of several rooms a sample that names none of them counts for none: dust-places. Where
 * there is but one, its place may be told in other words. */
bool mf_says_where(const mf_asked *asked, const mf_dust_sample *it, mf_verdict lacking,
                   mf_finding *out)
{
    const mf_area *area = mf_job_area(asked->job, it->area);
    const char *other = mf_sampled_elsewhere(asked->job, it);
    bool unnamed = area != NULL && mf_is_one_room(asked->job, area) &&
                   !mf_names_own_room(asked->job, it, area);
    if (other == NULL && !unnamed)
        return false;
    mf_say(out, other != NULL ? lacking : MF_WARNING,
           other != NULL ? "sample-of-another-area" : "sample-names-no-room");
    out->told = other != NULL ? other : mf_or_empty(area->id);
    return true;
}

void mf_show_dust_in_area(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_dust_sample *it = subject->sample;
    mf_say(out, MF_MET, "sample-in-area");
    mf_say_days(out, it->on, MF_DAY_NONE);
    mf_says_where(asked, it, mf_dust_fault(asked, subject), out);
}

/* Whether the samples of the area show all that is asked of them, and were taken before. */
bool mf_samples_clear(const mf_asked *asked, const mf_area *area, mf_day on, int32_t at_minute)
{
    size_t n_rows;
    const mf_audit_row *rows = mf_audit_rows(&n_rows);
    const mf_subject place = {.area = area, .id = area->id};
    mf_finding found = {0};
    mf_show_dust_places(asked, &place, &found);
    for (size_t i = 0; found.verdict != MF_LACKING && i < asked->job->n_dust_sample; i++) {
        const mf_dust_sample *it = &asked->job->dust_sample[i];
        const mf_subject subject = {.sample = it};
        if (!mf_same(it->area, area->id) || mf_if_in_force(asked, &subject) != NULL)
            continue;
        if (!mf_surely_before(it->on, it->at_minute, on, at_minute))
            return false;
        for (size_t k = 0; k < n_rows && found.verdict != MF_LACKING; k++)
            if (rows[k].each == MF_EACH_DUST_SAMPLE && rows[k].holds == MF_HOLDS_COVERED &&
                rows[k].applies(asked, &subject) == NULL)
                rows[k].shown(asked, &subject, &found);
    }
    return found.verdict != MF_LACKING;
}
