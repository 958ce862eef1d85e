/* What is in the rooms of a work area, in whichever list of the job it stands: a window is one of
 * its room though only another area lists it, or none. 40 CFR 745.85(a)(2)(i). */
#include "core/ground_room.h"

#include "core/area_openings.h"
#include "core/area_rooms.h"
#include "core/minor.h"
#include "core/opening_parts.h"
#include "core/spelling.h"
#include "core/text.h"

/* Only areas of another unit list it: a room there may have the same name. */
static bool of_another_unit(const mf_job *job, const mf_area *area, const mf_opening *opening)
{
    bool listed = false;
    for (size_t i = 0; i < job->n_area; i++) {
        if (job->area[i].side != area->side || !mf_area_has_opening(job, &job->area[i], opening))
            continue;
        listed = true;
        if (!mf_areas_apart(job, area, &job->area[i]))
            return false;
    }
    return listed;
}

/* Whether the words go on with the name of another room, and further: "bedroom 2". */
static bool longer_name(const mf_job *job, const char *words, size_t len)
{
    for (size_t i = 0; i < job->n_opening; i++)
        if (mf_goes_on(words, mf_or_empty(job->opening[i].room)) > len)
            return true;
    return false;
}

/* By its place, which may be a piece of the room or several rooms: "kitchen, west end". */
static bool named_there(const mf_job *job, const mf_area *area, const char *room)
{
    const char *place = mf_or_empty(area->place);
    if (mf_given(room) && mf_same_room(place, room))
        return true;
    for (size_t i = 0; mf_given(room) && place[i] != '\0'; i++) {
        size_t len = mf_word_begins(place, i) ? mf_goes_on(place + i, room) : 0;
        if (len > 0 && !longer_name(job, place + i, len))
            return true;
    }
    return false;
}

/* Named there, or by the words it may be. */
static bool place_names(const mf_job *job, const mf_area *area, const char *room)
{
    return named_there(job, area, room) || mf_may_be_in_room(job, area, room);
}

/* What another area inside lists is there where no word is needed to tell that it may be. */
static bool is_in_room(const mf_job *job, const mf_area *area, const mf_opening *opening)
{
    const char *room = opening->room;
    if (named_there(job, area, room) || (mf_given(room) && mf_same_room_words(area->place, room)))
        return true;
    if (mf_may_be_in_room(job, area, room) && !mf_listed_inside(job, opening))
        return true;
    for (size_t i = 0; i < job->n_opening; i++)
        if (mf_same_room_words(job->opening[i].room, room) &&
            mf_area_has_opening(job, area, &job->opening[i]))
            return true;
    return false;
}

const mf_opening *mf_room_opening(const mf_job *job, const mf_area *area, mf_opening_kind kind)
{
    for (size_t i = 0; i < job->n_opening; i++) {
        const mf_opening *it = &job->opening[i];
        if (it->kind == kind && area->side == MF_SIDE_INTERIOR && is_in_room(job, area, it) &&
            !of_another_unit(job, area, it))
            return it;
    }
    return NULL;
}

const mf_component *mf_room_part(const mf_job *job, const mf_area *area, mf_opening_kind kind)
{
    for (size_t i = 0; i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        bool its =
            kind == MF_OPENING_WINDOW ? mf_only_window_has(it->type) : mf_only_door_has(it->type);
        if (its && it->side == area->side && mf_job_opening(job, it->opening) == NULL &&
            place_names(job, area, mf_room_of(job, it)))
            return it;
    }
    return NULL;
}

/* What people call a duct opening, in the languages of the papers; whole words. 40 CFR
 * 745.85(a)(2)(i)(B) has all duct openings closed. Common practice, no source. */
static const char *const duct_words[] = {
    "duct",        "ducts",        "ductwork",    "vent",         "vents",           "ventilation",
    "register",    "registers",    "grille",      "grilles",      "diffuser",        "diffusers",
    "hvac",        "air return",   "return air",  "air intake",   "ducto",           "ductos",
    "conducto",    "conductos",    "rejilla",     "rejillas",     "difusor",         "difusores",
    "respiradero", "respiraderos", "ventilación", "toma de aire", "retorno de aire", "grate",
    "grates",      "supply",       "exhaust",     "extractor",    "extractores"};

static bool names_duct(const char *words)
{
    return mf_words_hold_one(words, duct_words, sizeof duct_words / sizeof duct_words[0]);
}

const mf_component *mf_room_duct(const mf_job *job, const mf_area *area)
{
    for (size_t i = 0; area->side == MF_SIDE_INTERIOR && i < job->n_component; i++) {
        const mf_component *it = &job->component[i];
        if (it->type == MF_COMP_OTHER && it->side == area->side &&
            (names_duct(it->label) || names_duct(it->id)) &&
            place_names(job, area, mf_room_of(job, it)))
            return it;
    }
    return NULL;
}

const mf_area *mf_room_area(const mf_job *job, const mf_area *area, size_t *at)
{
    while (*at < job->n_area) {
        const mf_area *it = &job->area[(*at)++];
        if (it->side == area->side && !mf_same(it->id, area->id) &&
            mf_same_room_words(it->place, area->place) && !mf_areas_apart(job, area, it))
            return it;
    }
    return NULL;
}
