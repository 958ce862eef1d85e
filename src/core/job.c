/* Finding things in a job. A later entry of the same id wins. */
#include <mistfold/job.h>

#include "core/kind_rows.h"
#include "core/minor.h"
#include "core/reading_order.h"
#include "core/spelling.h"
#include "core/text.h"

/* One look-up by a text member: the last match of a list. */
#define LAST_NAMED(list, count, member, wanted)                                                    \
    do {                                                                                           \
        for (size_t i = (count); i > 0; i--) {                                                     \
            if (mf_same((list)[i - 1].member, wanted))                                             \
                return &(list)[i - 1];                                                             \
        }                                                                                          \
        return NULL;                                                                               \
    } while (0)

const mf_person *mf_job_person(const mf_job *job, const char *id)
{
    LAST_NAMED(job->person, job->n_person, id, id);
}

const mf_party *mf_job_party(const mf_job *job, const char *id)
{
    LAST_NAMED(job->party, job->n_party, id, id);
}

const mf_opening *mf_job_opening(const mf_job *job, const char *id)
{
    LAST_NAMED(job->opening, job->n_opening, id, id);
}

const mf_component *mf_job_component(const mf_job *job, const char *id)
{
    const mf_reading_order *order = mf_order_of(job);
    if (order != NULL) {
        size_t at = mf_order_component(order, id);
        return at == SIZE_MAX ? NULL : &job->component[at];
    }
    LAST_NAMED(job->component, job->n_component, id, id);
}

const mf_area *mf_job_area(const mf_job *job, const char *id)
{
    LAST_NAMED(job->area, job->n_area, id, id);
}

const mf_surface *mf_job_surface(const mf_job *job, const char *id)
{
    LAST_NAMED(job->surface, job->n_surface, id, id);
}

const mf_instrument *mf_job_instrument(const mf_job *job, const char *serial)
{
    LAST_NAMED(job->instrument, job->n_instrument, serial, serial);
}

/* A component that belongs to no opening (a wall, a baseboard) is found by its
 * room or elevation. */
bool mf_area_holds(const mf_area *area, const mf_component *component)
{
    if (area->side != component->side)
        return false;
    if (mf_given(component->opening))
        return mf_id_in_list(area->openings, component->opening);
    return mf_given(component->room) && mf_same_room_words(area->place, component->room);
}

/* Two devices may have drawn one work area differently: what one of them leaves out is not
 * known to lie in it. */
static bool each_holds(const mf_job *job, const char *area, const mf_component *component)
{
    for (size_t i = 0; i < job->n_area; i++)
        if (mf_same(job->area[i].id, area) && !mf_area_holds(&job->area[i], component))
            return false;
    return true;
}

bool mf_area_lists(const mf_job *job, const char *area, const char *opening)
{
    bool any = false;
    for (size_t i = 0; i < job->n_area; i++) {
        if (!mf_same(job->area[i].id, area))
            continue;
        if (!mf_id_in_list(job->area[i].openings, opening))
            return false;
        any = true;
    }
    return any;
}

const mf_area *mf_job_area_of(const mf_job *job, const mf_component *component)
{
    for (size_t i = job->n_area; i > 0; i--) {
        if (mf_area_holds(&job->area[i - 1], component) &&
            each_holds(job, job->area[i - 1].id, component))
            return &job->area[i - 1];
    }
    return NULL;
}

bool mf_id_in_list(const char *list, const char *id)
{
    if (!mf_given(list) || !mf_given(id))
        return false;
    for (const char *item = list;; item++) {
        size_t same = 0;
        while (id[same] != '\0' && item[same] == id[same])
            same++;
        if (id[same] == '\0' && (item[same] == ',' || item[same] == '\0'))
            return true;
        while (*item != ',' && *item != '\0')
            item++;
        if (*item == '\0')
            return false;
    }
}

bool mf_house_does(const mf_house *house, mf_work_kind work)
{
    return mf_id_in_list(house->work, mf_choices_work[work]);
}
