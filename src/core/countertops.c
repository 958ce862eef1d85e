/* Whether the countertops of a work area are listed for wiping. 40 CFR 745.85(b)(1)(ii)(B):
 * "uncarpeted floors and countertops within the work area". A kitchen or a bath mostly has one, so
 * there somebody must say that there is none; of other rooms it is asked where one is said to be.
 */
#include "core/surfaces.h"

#include "core/area_rooms.h"
#include "core/text.h"
#include "core/unlisted_work.h"

/* What people call such a room, in the languages of the papers. Common practice, no source. */
static const char *const with_counter[] = {
    "kitchen",      "kitchenette", "kitch",     "pantry",       "bath",     "bathroom",
    "powder room",  "restroom",    "washroom",  "utility room", "laundry",  "cocina",
    "cocineta",     "baño",        "lavatory",  "lav",          "toilet",   "wc",
    "water closet", "aseo",        "bathrm",    "galley",       "bar",      "en suite",
    "ensuite",      "servicio",    "servicios", "sanitario",    "scullery", "küche",
    "shower room",  "lavadero",    "lavandería"};

/* What they call the countertop itself. Common practice, no source. */
static const char *const counters[] = {"countertop", "countertops", "counter top", "counter tops",
                                       "counter",    "counters",    "mostrador",   "mostradores",
                                       "encimera",   "encimeras"};

static bool has_counter(const char *room)
{
    return mf_words_hold_one(room, with_counter, sizeof with_counter / sizeof with_counter[0]);
}

static bool is_counter(const char *words)
{
    return mf_words_hold_one(words, counters, sizeof counters / sizeof counters[0]);
}

static bool by_rooms(const mf_job *job, const mf_area *area)
{
    size_t at = 0;
    const char *room;
    if (has_counter(area->place))
        return true;
    while ((room = mf_next_room(job, area, &at)) != NULL)
        if (has_counter(room))
            return true;
    return false;
}

static bool listed(const mf_job *job, const char *area)
{
    for (size_t i = 0; i < job->n_surface; i++)
        if (job->surface[i].kind == MF_SURFACE_COUNTERTOP && mf_same(job->surface[i].area, area))
            return true;
    return false;
}

const mf_component *mf_countertop_part(const mf_job *job, const mf_area *area)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        if (it->type == MF_COMP_OTHER && (is_counter(it->label) || is_counter(it->id)) &&
            mf_listed_in(job, area, it))
            return it;
    }
    return NULL;
}

const char *mf_countertops_lack(const mf_job *job, const mf_area *area)
{
    if (area->side != MF_SIDE_INTERIOR || listed(job, area->id))
        return NULL;
    bool part = mf_countertop_part(job, area) != NULL;
    if (area->countertops == MF_NOT)
        return part ? "countertop-on-list" : NULL;
    if (area->countertops == MF_YES || part)
        return "countertop-missing";
    return by_rooms(job, area) ? "countertop-unsaid" : NULL;
}
