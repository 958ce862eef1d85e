/* What usually comes with an opening and a room; see usual.h. */
#include "cli/usual.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* ---- feet by feet -------------------------------------------------------------------- */

static void trimmed(const char *from, size_t len, char out[MF_SIDE_TEXT])
{
    while (len > 0 && (*from == ' ' || *from == '\t')) {
        from++;
        len--;
    }
    while (len > 0 && (from[len - 1] == ' ' || from[len - 1] == '\t'))
        len--;
    snprintf(out, MF_SIDE_TEXT, "%.*s", (int)(len < MF_SIDE_TEXT ? len : MF_SIDE_TEXT - 1), from);
}

bool mf_two_sides(const char *text, char a[MF_SIDE_TEXT], char b[MF_SIDE_TEXT])
{
    size_t at = strcspn(text, "xX*");
    if (text[at] == '\0' || strpbrk(text + at + 1, "xX*") != NULL)
        return false;
    trimmed(text, at, a);
    trimmed(text + at + 1, strlen(text + at + 1), b);
    return a[0] != '\0' && b[0] != '\0';
}

/* Takes "in" or the sign of inches off the end. */
static bool take_inches(char side[MF_SIDE_TEXT])
{
    size_t len = strlen(side);
    size_t cut = len > 2 && strcmp(side + len - 2, "in") == 0 ? 2
                 : len > 1 && side[len - 1] == '"'            ? 1
                                                              : 0;
    char bare[MF_SIDE_TEXT];
    trimmed(side, len - cut, bare);
    snprintf(side, MF_SIDE_TEXT, "%s", bare);
    return cut > 0;
}

static bool hundredths(const char *text, int64_t *out)
{
    const mf_field *size = mf_field_named(mf_kind_named("surface"), "size");
    mf_parsed parsed = {0};
    if (mf_field_parse(size, text, "", 0, &parsed) != MF_SLIP_NONE || parsed.number > 10000000)
        return false;
    *out = parsed.number;
    return true;
}

bool mf_square_feet(const char *text, char out[MF_SIDE_TEXT])
{
    enum { HUNDREDTHS = 100, SQUARE_INCHES = 144 };
    char a[MF_SIDE_TEXT], b[MF_SIDE_TEXT];
    int64_t wide, high;
    if (!mf_two_sides(text, a, b))
        return false;
    bool inches = take_inches(a);
    if (take_inches(b) != inches || !hundredths(a, &wide) || !hundredths(b, &high))
        return false;
    int64_t by = inches ? (int64_t)HUNDREDTHS * SQUARE_INCHES : HUNDREDTHS;
    int64_t area = (wide * high + by - 1) / by; /* up: never less than there is */
    snprintf(out, MF_SIDE_TEXT, "%" PRId64 ".%02" PRId64, area / HUNDREDTHS, area % HUNDREDTHS);
    return true;
}

/* ---- parts ---------------------------------------------------------------------------- */

/* The id of that part, such as "W01.sill-out". */
enum { USUAL_ID = 64 };
static void usual_id(const char *opening, const mf_usual_part *part, char out[USUAL_ID])
{
    static const char *const names[] = {
        [MF_COMP_SASH] = "sash",
        [MF_COMP_INTERIOR_SILL] = "sill",
        [MF_COMP_APRON] = "apron",
        [MF_COMP_INTERIOR_CASING] = "casing",
        [MF_COMP_STOP] = "stop",
        [MF_COMP_JAMB] = "jamb",
        [MF_COMP_TROUGH] = "trough",
        [MF_COMP_EXTERIOR_SILL] = "sill-out",
        [MF_COMP_EXTERIOR_CASING] = "casing-out",
        [MF_COMP_DOOR_SLAB] = "slab",
        [MF_COMP_THRESHOLD] = "threshold",
    };
    snprintf(out, USUAL_ID, "%s.%s", opening, names[part->type]);
}

void mf_usual_parts(mf_batch *batch, const char *opening, mf_opening_kind kind, const char *absent,
                    const char *substrate, int line)
{
    const mf_kind *component = mf_kind_named("component");
    const char *const *types = mf_field_named(component, "type")->choices;
    const char *const *sides = mf_field_named(component, "side")->choices;
    mf_usual_part part;
    for (size_t i = 0; mf_usual_part_at(kind, i, &part); i++) {
        char id[USUAL_ID];
        if (mf_usual_part_absent(kind, i, absent))
            continue;
        mf_batch_row *row = mf_batch_add(batch, "component", line);
        if (row == NULL)
            return;
        usual_id(opening, &part, id);
        mf_batch_put(batch, row, "id", id, line);
        mf_batch_put(batch, row, "opening", opening, line);
        mf_batch_put(batch, row, "type", types[part.type], line);
        mf_batch_put(batch, row, "side", sides[part.side], line);
        mf_batch_put(batch, row, "substrate", substrate, line);
    }
}

/* ---- surfaces ------------------------------------------------------------------------- */

bool mf_usual_sill(mf_opening_kind kind, const char *absent)
{
    mf_usual_part part;
    for (size_t i = 0; mf_usual_part_at(kind, i, &part); i++)
        if (part.type == MF_COMP_INTERIOR_SILL)
            return !mf_usual_part_absent(kind, i, absent);
    return false;
}

static void add_surface(mf_batch *batch, const mf_usual_room *room, const char *id,
                        const char *kind, const char *size, int line)
{
    mf_batch_row *row = mf_batch_add(batch, "surface", line);
    if (row == NULL)
        return;
    mf_batch_put(batch, row, "id", id, line);
    mf_batch_put(batch, row, "area", room->area, line);
    mf_batch_put(batch, row, "kind", kind, line);
    mf_batch_put(batch, row, "place", room->place, line);
    mf_batch_put(batch, row, "size", size, line);
}

void mf_usual_surfaces(mf_batch *batch, const mf_usual_room *room, int line)
{
    char id[USUAL_ID];
    const char *list = room->sills;
    while (room->sill_sqft[0] != '\0' && *list != '\0') {
        size_t len = strcspn(list, ",");
        snprintf(id, sizeof id, "%.*s-sill", (int)(len < 40 ? len : 40), list);
        add_surface(batch, room, id, "sill", room->sill_sqft, line);
        list += len + (list[len] == ',');
    }
    if (room->floor_sqft[0] != '\0') {
        snprintf(id, sizeof id, "%.40s-floor", room->area);
        add_surface(batch, room, id, "floor", room->floor_sqft, line);
    }
}
