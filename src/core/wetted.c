/* When the cloths of a verification were used, and whether a floor or countertop was dry as a whole
 * before its first dry cloth. 40 CFR 745.85(b)(1)(ii)(B)(2). */
#include "core/wetted.h"

#include "core/text.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/clean.h>

int64_t mf_event_when(const mf_job *job, size_t index)
{
    const mf_verification *event = &job->verification[index];
    int64_t when = mf_when(event->on, event->at_minute);
    for (size_t i = 0; event->at_minute == MF_MINUTE_NONE && i < index; i++) {
        const mf_verification *other = &job->verification[i];
        int64_t other_when = mf_when(other->on, other->at_minute);
        if (mf_same(other->area, event->area) && other->on == event->on && other_when > when)
            when = other_when;
    }
    return when;
}

/* A place in the order of time; of one minute as entered. */
typedef struct place {
    int64_t when;
    size_t index;
} place;

static bool is_after(place one, place other)
{
    return one.when > other.when || (one.when == other.when && one.index > other.index);
}

static bool of_section(const mf_verification *it, const mf_verification *event)
{
    return it->section == event->section && mf_same(it->surface, event->surface);
}

/* Whether the darker cloth is the second of its section, and until then nothing came of the section
 * after it, nor was dust seen: then all is wiped anew. */
static bool waits_unseen(const mf_job *job, place dark, place until)
{
    const mf_verification *event = &job->verification[dark.index];
    const mf_verification *before = NULL;
    place last = {INT64_MIN, 0};
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        bool dirty = it->event == MF_VER_LOOK_DIRTY;
        if (i == dark.index || !mf_same(it->area, event->area) ||
            (!dirty && (mf_is_look(it) || !of_section(it, event))))
            continue;
        const place at = {mf_event_when(job, i), i};
        if (is_after(at, dark) && is_after(until, at))
            return false;
        if (is_after(dark, at) && is_after(at, last)) {
            before = it;
            last = at;
        }
    }
    return before != NULL && before->event == MF_VER_RECLEANED;
}

bool mf_wet_elsewhere(const mf_job *job, const mf_surface *surface, const mf_verification *event,
                      int64_t when)
{
    place until = {when, 0};
    if (surface->kind == MF_SURFACE_SILL)
        return false;
    while (until.index < job->n_verification && &job->verification[until.index] != event)
        until.index++;
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (it->event != MF_VER_WET_DARKER || it->section == event->section ||
            !mf_same(it->surface, event->surface) || !mf_same(it->area, event->area))
            continue;
        const place dark = {mf_event_when(job, i), i};
        if (is_after(until, dark) && waits_unseen(job, dark, until))
            return true;
    }
    return false;
}
