/* The openings of a work area. What is only drawn on its plan is in it as well: a window that
 * the list leaves out has a sill all the same. */
#include "core/area_openings.h"

#include "core/kind_rows.h"
#include "core/minor.h"
#include "core/occupied_units.h"
#include "core/spelling.h"
#include "core/text.h"
#include <mistfold/address.h>
#include <mistfold/paint.h>

const mf_fixture *mf_drawn_in(const mf_job *job, const mf_area *area, mf_fixture_what what,
                              const char *opening)
{
    for (size_t i = 0; i < job->n_fixture; i++) {
        const mf_fixture *it = &job->fixture[i];
        if (it->what == what && mf_same(it->area, area->id) &&
            (opening == NULL || mf_same(it->opening, opening)))
            return it;
    }
    return NULL;
}

bool mf_area_has_opening(const mf_job *job, const mf_area *area, const mf_opening *opening)
{
    return mf_id_in_list(area->openings, opening->id) ||
           mf_drawn_in(job, area, MF_FIXTURE_OPENING, opening->id) != NULL;
}

static bool is_window_of(const mf_job *job, const mf_area *area, const mf_opening *opening)
{
    return opening->kind == MF_OPENING_WINDOW && mf_area_has_opening(job, area, opening);
}

int64_t mf_area_windows(const mf_job *job, const mf_area *area)
{
    int64_t n = 0;
    for (size_t i = 0; i < job->n_opening; i++)
        n += is_window_of(job, area, &job->opening[i]);
    return n;
}

static bool part_listed(const mf_job *job, const mf_opening *window, mf_component_type part)
{
    for (size_t i = 0; i < job->n_component; i++)
        if (job->component[i].type == part && mf_same(job->component[i].opening, window->id))
            return true;
    return false;
}

/* What is listed as a part is there, whatever is said to be absent. */
bool mf_opening_without(const mf_job *job, const mf_opening *window, mf_component_type part)
{
    return mf_id_in_list(window->absent, mf_choices_component[part]) &&
           !part_listed(job, window, part);
}

/* Whether it is known that two areas do not lie in one unit, nor both in what is common. */
bool mf_areas_apart(const mf_job *job, const mf_area *a, const mf_area *b)
{
    const char *unit = mf_area_unit(job, a), *other = mf_area_unit(job, b);
    if (a->common == MF_YES || b->common == MF_YES)
        return a->common == MF_NOT || b->common == MF_NOT;
    return mf_given(unit) && mf_given(other) && !mf_same_unit(unit, other);
}

/* By its words the place of another area, "bedroom 2" beside "bedroom". */
static bool place_of_another(const mf_job *job, const mf_area *area, const char *room)
{
    for (size_t i = 0; i < job->n_area; i++) {
        const mf_area *it = &job->area[i];
        if (it->side == area->side && !mf_same(it->id, area->id) &&
            mf_same_room_words(it->place, room) && !mf_areas_apart(job, area, it))
            return true;
    }
    return false;
}

/* A room of the job, so that a shorter name is another one: the bedroom beside "bedroom 2". */
static bool place_is_a_room(const mf_job *job, const char *place)
{
    for (size_t i = 0; i < job->n_opening; i++)
        if (mf_same_room_words(job->opening[i].room, place))
            return true;
    return false;
}

/* Of a place that tells no room any may be a piece; but where a window or a door is listed in a
 * room of that name, the name is a room's, as "parlor". Parts are listed by the word of their area.
 */
static bool tells_no_room(const mf_job *job, const char *place)
{
    return !mf_tells_a_room(place) && !place_is_a_room(job, place);
}

bool mf_may_be_in_room(const mf_job *job, const mf_area *area, const char *room)
{
    const char *place = area->place;
    if (!mf_given(room) || !mf_given(place))
        return false;
    if (mf_same_room_words(place, room))
        return true;
    if (place_of_another(job, area, room))
        return false;
    if (mf_room_within(room, place) || tells_no_room(job, place))
        return true;
    bool may_be = mf_may_be_one_room(place, room) || mf_room_within(place, room);
    return may_be && !place_is_a_room(job, place);
}

bool mf_listed_inside(const mf_job *job, const mf_opening *opening)
{
    for (size_t i = 0; i < job->n_area; i++)
        if (job->area[i].side == MF_SIDE_INTERIOR &&
            mf_area_has_opening(job, &job->area[i], opening))
            return true;
    return false;
}

bool mf_window_beside(const mf_job *job, const mf_area *area, const mf_opening *opening)
{
    return opening->kind == MF_OPENING_WINDOW && area->side == MF_SIDE_INTERIOR &&
           mf_may_be_in_room(job, area, opening->room) &&
           mf_room_within(opening->room, area->place) && !mf_listed_inside(job, opening);
}

int64_t mf_room_window_parts(const mf_job *job, const mf_area *area, const char *room,
                             mf_component_type part)
{
    int64_t n = 0;
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        bool beside = mf_window_beside(job, area, it);
        bool here = room == NULL || mf_same_room_words(mf_or_empty(it->room), room) ||
                    (beside && mf_same_room_words(room, area->place));
        bool its = is_window_of(job, area, it) || beside;
        n += here && its && !mf_opening_without(job, it, part);
    }
    return n;
}

int64_t mf_area_sills(const mf_job *job, const mf_area *area)
{
    int64_t n = 0;
    for (size_t i = 0; i < job->n_opening; i++)
        n += is_window_of(job, area, &job->opening[i]) &&
             !mf_opening_without(job, &job->opening[i], MF_COMP_INTERIOR_SILL);
    return n;
}

bool mf_open_into_each_other(const mf_job *job, const char *one, const char *other)
{
    for (size_t i = 0; i < job->n_opening; i++)
        if (mf_opening_replaced(job, &job->opening[i]) &&
            mf_area_lists(job, one, job->opening[i].id) &&
            mf_area_lists(job, other, job->opening[i].id))
            return true;
    return false;
}
