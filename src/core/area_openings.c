/* The openings of a work area. What is only drawn on its plan is in it as well: a window that
 * the list leaves out has a sill all the same. */
#include "core/area_openings.h"

#include "core/kind_rows.h"
#include "core/minor.h"
#include "core/text.h"
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

static bool in_an_area_inside(const mf_job *job, const mf_opening *opening)
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
           mf_given(opening->room) && mf_same_room(opening->room, area->place) &&
           !in_an_area_inside(job, opening);
}

int64_t mf_room_window_parts(const mf_job *job, const mf_area *area, const char *room,
                             mf_component_type part)
{
    int64_t n = 0;
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        bool here = room == NULL || mf_same_room(mf_or_empty(it->room), room);
        bool its = is_window_of(job, area, it) || mf_window_beside(job, area, it);
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
