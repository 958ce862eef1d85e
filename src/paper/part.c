/* What a part is called on a paper: two that somebody must tell apart have two names. */
#include "paper/rec.h"

#include <string.h>

static const char *room_of(const mf_rec *rec, const mf_component *part)
{
    const mf_opening *opening = mf_job_opening(rec->job, part->opening);
    return *part->room != '\0' || opening == NULL ? part->room : opening->room;
}

static const char *unit_of(const mf_rec *rec, size_t area)
{
    const char *unit = rec->job->area[area].unit;
    return unit == NULL ? "" : unit;
}

/* Whether one of the first n areas could be the part's, in that unit. */
static bool in_unit(const mf_rec *rec, size_t n, const mf_component *part, const char *unit)
{
    for (size_t i = 0; i < n; i++)
        if (strcmp(unit_of(rec, i), unit) == 0 && mf_area_holds(&rec->job->area[i], part))
            return true;
    return false;
}

/* "2B / 3A"; "" = none is said of the areas that could be the part's. */
static const char *units_of(mf_rec *rec, const mf_component *part)
{
    const char *units = "";
    for (size_t i = 0; i < rec->job->n_area; i++) {
        const char *unit = unit_of(rec, i);
        if (*unit != '\0' && mf_area_holds(&rec->job->area[i], part) &&
            !in_unit(rec, i, part, unit))
            units = mf_join(rec, units, " / ", unit);
    }
    return units;
}

bool mf_part_beside(const mf_rec *rec, const mf_component *a, const mf_component *b)
{
    const size_t n = rec->job->n_area;
    if (!mf_same_room(room_of(rec, a), room_of(rec, b)))
        return false;
    for (size_t i = 0; i < n; i++) {
        const char *unit = unit_of(rec, i);
        if (*unit != '\0' && in_unit(rec, n, a, unit) != in_unit(rec, n, b, unit))
            return false;
    }
    return true;
}

const char *mf_part_place(mf_rec *rec, const mf_component *part)
{
    const char *units = units_of(rec, part);
    return *units == '\0'
               ? room_of(rec, part)
               : mf_join(rec, room_of(rec, part), ", ", mf_fill(rec, "of-unit", units, NULL, NULL));
}

/* Another part of the type beside it, at no opening either, that the label does not tell apart. */
static bool has_namesake(const mf_rec *rec, const mf_component *part)
{
    for (size_t i = 0; i < rec->job->n_component; i++) {
        const mf_component *it = &rec->job->component[i];
        if (it != part && it->type == part->type && *it->opening == '\0' &&
            strcmp(it->label, part->label) == 0 && mf_part_beside(rec, it, part))
            return true;
    }
    return false;
}

const char *mf_part_own(mf_rec *rec, const mf_component *part)
{
    if (*part->opening != '\0')
        return "";
    return has_namesake(rec, part) ? mf_join(rec, part->label, ", ", part->id) : part->label;
}

const char *mf_part_words(mf_rec *rec, const char *id)
{
    const mf_component *part = mf_job_component(rec->job, id);
    if (part == NULL)
        return id;
    const char *type = mf_enum(rec, MF_FAM_COMPONENT, (int)part->type);
    if (*part->opening != '\0')
        return mf_fill(rec, "part-at", type, part->opening, NULL);
    const char *own = mf_part_own(rec, part), *place = mf_part_place(rec, part);
    if (*own != '\0')
        type = mf_print(rec, "%s (%s)", type, own);
    return *place == '\0' ? type : mf_fill(rec, "part-in", type, place, NULL);
}

const char *mf_area_place(mf_rec *rec, const mf_area *area)
{
    const char *place = mf_join(rec, area->id, ", ", area->place);
    if (area->unit == NULL || *area->unit == '\0')
        return place;
    return mf_join(rec, place, ", ", mf_fill(rec, "of-unit", area->unit, NULL, NULL));
}

const char *mf_tokens_words(mf_rec *rec, const char *family, const char *list)
{
    const char *all = "";
    while (*list != '\0') {
        const size_t len = strcspn(list, ",");
        const char *token = mf_print(rec, "%.*s", (int)len, list);
        const char *words =
            mf_words2(rec->ask->lang, "paper", mf_print(rec, "%s.%s", family, token));
        all = mf_join(rec, all, ", ", words == NULL ? token : words);
        list += len + (list[len] == ',');
    }
    return all;
}

const char *mf_opening_words(mf_rec *rec, const mf_opening *opening)
{
    if (opening->width_in == MF_NUM_NONE || opening->height_in == MF_NUM_NONE)
        return opening->id;
    return mf_fill(rec, "size-in", opening->id, mf_print(rec, "%lld", (long long)opening->width_in),
                   mf_print(rec, "%lld", (long long)opening->height_in));
}
