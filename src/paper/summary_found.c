/* Of the summary: what was found, room by room, and what the parts of a window are called. */
#include "paper/form.h"
#include "paper/summary.h"

#include <string.h>

#define SEPARATOR ", "

enum { TYPES = MF_COMP_OTHER + 1 };

static bool first_of_room(mf_rec *rec, size_t at)
{
    for (size_t i = 0; i < at; i++)
        if (mf_part_beside(rec, &rec->job->component[i], &rec->job->component[at]))
            return false;
    return true;
}

/* What is neither of the types that are listed is said by its own name. */
static bool is_own(const mf_component *part)
{
    return part->type == MF_COMP_OTHER && *part->opening == '\0' && *part->label != '\0';
}

/* The number of a part's opening, or its own name, with its side where the opening has another part
 * of the type of which something else is known. */
static const char *opening_words(mf_rec *rec, size_t at)
{
    const mf_component *part = &rec->job->component[at];
    if (*part->opening == '\0')
        return mf_part_own(rec, part);
    for (size_t i = 0; i < rec->job->n_component; i++) {
        const mf_component *other = &rec->job->component[i];
        if (other->type == part->type && strcmp(other->opening, part->opening) == 0 &&
            other->side != part->side &&
            mf_rec_paint(rec, i).verdict != mf_rec_paint(rec, at).verdict)
            return mf_print(rec, "%s-%s", part->opening,
                            mf_enum(rec, MF_FAM_SIDE, (int)part->side));
    }
    return part->opening;
}

/* Whether the words stand in the list already: labels may hold commas. */
static bool listed(const char *list, const char *words)
{
    const size_t len = strlen(words), between = strlen(SEPARATOR);
    for (const char *at = list; (at = strstr(at, words)) != NULL; at += len) {
        const bool begins =
            at == list || (at >= list + between && strncmp(at - between, SEPARATOR, between) == 0);
        if (begins && (at[len] == '\0' || strncmp(at + len, SEPARATOR, between) == 0))
            return true;
    }
    return false;
}

/* Which parts of a type in the room of another have that verdict; *others: they must be told
 * apart, from some of the type with another one, or as nothing else says what they are. */
static const char *openings_of(mf_rec *rec, const mf_component *room, int type,
                               mf_paint_verdict verdict, size_t *n, bool *others)
{
    const char *list = "";
    *n = 0;
    *others = false;
    for (size_t i = 0; i < rec->job->n_component; i++) {
        const mf_component *part = &rec->job->component[i];
        if ((int)part->type != type || !mf_part_beside(rec, part, room))
            continue;
        if (mf_rec_paint(rec, i).verdict != verdict) {
            *others = true;
            continue;
        }
        (*n)++;
        const char *words = opening_words(rec, i);
        *others = *others || is_own(part);
        if (*words != '\0' && !listed(list, words))
            list = mf_join(rec, list, SEPARATOR, words);
    }
    return list;
}

/* "sash; stop (W01)": the numbers only where not all of the room are alike. */
static const char *parts_words(mf_rec *rec, const mf_component *room, mf_paint_verdict verdict)
{
    const char *all = "";
    for (int type = 0; type < TYPES; type++) {
        size_t n = 0;
        bool others = false;
        const char *list = openings_of(rec, room, type, verdict, &n, &others);
        const char *words = mf_enum(rec, MF_FAM_COMPONENT, type);
        if (n == 0)
            continue;
        if (others && *list != '\0')
            words = mf_print(rec, "%s (%s)", words, list);
        all = mf_join(rec, all, "; ", words);
    }
    return all;
}

/* The openings of a room, below its name. */
static const char *numbers_of(mf_rec *rec, const mf_component *room)
{
    const char *list = "";
    for (size_t i = 0; i < rec->job->n_component; i++) {
        const mf_component *part = &rec->job->component[i];
        if (*part->opening != '\0' && mf_part_beside(rec, part, room) &&
            !mf_id_in_list(list, part->opening))
            list = mf_join(rec, list, ",", part->opening);
    }
    return mf_list_words(rec, list);
}

static mf_cell verdict_cell(mf_rec *rec, const mf_component *room, mf_paint_verdict verdict)
{
    const char *words = parts_words(rec, room, verdict);
    return *words == '\0' ? mf_plain("") : mf_marked(mf_paint_mark(verdict), words);
}

static bool any_of(mf_rec *rec, mf_paint_verdict verdict)
{
    for (size_t i = 0; i < rec->job->n_component; i++)
        if (mf_rec_paint(rec, i).verdict == verdict)
            return true;
    return false;
}

/* A column for each verdict that there is; paint that is not there needs none. */
static void rooms(mf_rec *rec)
{
    static const struct {
        mf_paint_verdict verdict;
        const char *head;
    } kinds[] = {{MF_PAINT_LEAD, "summary.found-lead"},
                 {MF_PAINT_PRESUMED, "summary.found-presumed"},
                 {MF_PAINT_FREE, "summary.found-free"}};
    mf_paint_verdict shown[3];
    mf_col cols[4] = {{"summary.room", 20, false}};
    size_t n = 0;
    for (size_t i = 0; i < 3; i++) {
        if (!any_of(rec, kinds[i].verdict))
            continue;
        shown[n++] = kinds[i].verdict;
        cols[n] = (mf_col){kinds[i].head, 35, false};
    }
    if (n == 0)
        return;
    mf_table table = mf_table_of(rec, cols, n + 1);
    table.dense = true;
    for (size_t i = 0; i < rec->job->n_component; i++) {
        mf_cell cells[4] = {0};
        const mf_component *room = &rec->job->component[i];
        if (!first_of_room(rec, i))
            continue;
        cells[0] = mf_bold(mf_stated(rec, mf_part_place(rec, room)));
        cells[0].below = mf_below(rec, mf_small(numbers_of(rec, room)));
        for (size_t k = 0; k < n; k++)
            cells[k + 1] = verdict_cell(rec, room, shown[k]);
        mf_table_row(&table, cells);
    }
    mf_table_end(&table);
}

void mf_summary_found(mf_rec *rec)
{
    mf_page_heading(&rec->page, MF_ST_SECTION, mf_phrase(rec, "summary.found"));
    if (rec->job->n_component == 0) {
        mf_form_bullet(rec, MF_MARK_NONE, mf_phrase(rec, "no-components"));
        return;
    }
    rooms(rec);
    if (rec->job->n_opening > 0)
        mf_summary_window(rec);
}
