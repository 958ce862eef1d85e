/* The opening schedule: a row for each opening, a column for each component
 * type, in each cell the worst that the evidence says. */
#include "paper/entry.h"
#include "paper/record.h"

#include <mistfold/schedule.h>
#include <string.h>

#define LEGEND 13.0F /* points */

enum { TYPES = MF_COMP_OTHER + 1, COLS = 9 /* types beside one another */ };

mf_mark mf_paint_mark(mf_paint_verdict verdict)
{
    static const mf_mark marks[] = {MF_MARK_FULL, MF_MARK_HALF, MF_MARK_RING, MF_MARK_BAR};
    return marks[verdict];
}

/* Lead is worse than presumed, presumed worse than free (the enumeration's order). */
static bool worse(const mf_paint_finding *a, const mf_paint_finding *b)
{
    return b->component == NULL || a->verdict < b->verdict;
}

static bool over(const mf_reading *a, const mf_reading *b)
{
    return b == NULL || a->loading_ug_cm2 > b->loading_ug_cm2;
}

/* The worst finding and the highest reading among an opening's components of a
 * type; component stays NULL when it has none. */
static mf_paint_finding worst_of(mf_rec *rec, const char *opening, const char *room,
                                 mf_component_type type)
{
    mf_paint_finding worst = {0};
    const mf_reading *highest = NULL;
    for (size_t i = 0; i < rec->job->n_component; i++) {
        const mf_component *component = &rec->job->component[i];
        if (component->type != type || strcmp(component->opening, opening) != 0 ||
            (*opening == '\0' && !mf_same_room(component->room, room)))
            continue;
        mf_paint_finding found = mf_rec_paint(rec, i);
        if (found.worst != NULL && over(found.worst, highest))
            highest = found.worst;
        if (worse(&found, &worst))
            worst = found;
    }
    worst.worst = highest;
    return worst;
}

static mf_cell schedule_cell(mf_rec *rec, const mf_paint_finding *worst)
{
    if (worst->component == NULL)
        return mf_plain("");
    const char *reading = mf_deciding_words(rec, worst);
    mf_cell cell = mf_marked(mf_paint_mark(worst->verdict), reading);
    cell.below = mf_below(rec, mf_small(mf_enum(rec, MF_FAM_PAINT, (int)worst->verdict)));
    return cell;
}

static mf_cell opening_cell(mf_rec *rec, const mf_opening *opening)
{
    const char *title = mf_opening_words(rec, opening);
    mf_cell cell = mf_bold(title);
    const char *what = mf_enum(rec, MF_FAM_OPENING, (int)opening->kind);
    what = mf_join(rec, what, ", ", opening->room);
    what = mf_join(rec, what, ", ", opening->elevation);
    cell.below = mf_below(rec, mf_small(what));
    return mf_traced(rec, cell, &opening->src);
}

static void schedule_row(mf_rec *rec, mf_table *table, mf_cell first, const char *opening,
                         const char *room, const mf_component_type *types, size_t n)
{
    mf_cell cells[COLS + 1] = {first};
    for (size_t i = 0; i < n; i++) {
        mf_paint_finding worst = worst_of(rec, opening, room, types[i]);
        cells[i + 1] = schedule_cell(rec, &worst);
    }
    mf_table_row(table, cells);
}

/* Whether an earlier component without an opening is in the same room. */
static bool room_seen(const mf_rec *rec, size_t before)
{
    const mf_component *here = &rec->job->component[before];
    for (size_t i = 0; i < before; i++) {
        const mf_component *other = &rec->job->component[i];
        if (*other->opening == '\0' && mf_same_room(other->room, here->room))
            return true;
    }
    return false;
}

/* Which rows a set of columns has: those with a component of one of its types. */
static bool row_has(mf_rec *rec, const char *opening, const char *room,
                    const mf_component_type *types, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (worst_of(rec, opening, room, types[i]).component != NULL)
            return true;
    return false;
}

/* What a table of the schedule is about: windows, doors, or what has no opening. */
typedef enum part { PART_WINDOWS, PART_DOORS, PART_NONE, PART_COUNT } part;

static part part_of(const mf_rec *rec, const mf_component *component)
{
    const mf_opening *opening = mf_job_opening(rec->job, component->opening);
    if (opening == NULL)
        return PART_NONE;
    return opening->kind == MF_OPENING_WINDOW ? PART_WINDOWS : PART_DOORS;
}

static void opening_rows(mf_rec *rec, mf_table *table, mf_opening_kind kind,
                         const mf_component_type *types, size_t n)
{
    for (size_t i = 0; i < rec->job->n_opening; i++) {
        const mf_opening *opening = &rec->job->opening[i];
        if (opening->kind == kind && row_has(rec, opening->id, "", types, n))
            schedule_row(rec, table, opening_cell(rec, opening), opening->id, "", types, n);
    }
}

static void room_rows(mf_rec *rec, mf_table *table, const mf_component_type *types, size_t n)
{
    for (size_t i = 0; i < rec->job->n_component; i++) {
        const mf_component *component = &rec->job->component[i];
        if (*component->opening != '\0' || room_seen(rec, i) ||
            !row_has(rec, "", component->room, types, n))
            continue;
        mf_cell first = mf_bold(mf_stated(rec, component->room));
        first.below = mf_below(rec, mf_small(mf_phrase(rec, "no-opening")));
        schedule_row(rec, table, first, "", component->room, types, n);
    }
}

/* Component types that occur in a part, in the order of the enumeration. */
static size_t types_present(const mf_rec *rec, part which, mf_component_type types[TYPES])
{
    size_t n = 0;
    for (int type = 0; type < TYPES; type++)
        for (size_t i = 0; i < rec->job->n_component; i++)
            if ((int)rec->job->component[i].type == type &&
                part_of(rec, &rec->job->component[i]) == which) {
                types[n++] = (mf_component_type)type;
                break;
            }
    return n;
}

static void schedule_table(mf_rec *rec, part which, const mf_component_type *types, size_t n)
{
    mf_col cols[COLS + 1] = {{"col.opening", 2.5F, false}};
    mf_table table = mf_table_of(rec, cols, 1);
    if (table.n == 0)
        return;
    cols[0].head = table.cols[0].head;
    for (size_t i = 0; i < n; i++)
        cols[i + 1] =
            (mf_col){mf_brief_words(rec, mf_enum(rec, MF_FAM_COMPONENT, (int)types[i])), 1, false};
    for (size_t i = n; i < COLS; i++) /* the same widths in every table */
        cols[i + 1] = (mf_col){"", 1, false};
    table.cols = cols;
    table.n = COLS + 1;
    table.dense = true;
    if (which == PART_NONE)
        room_rows(rec, &table, types, n);
    else
        opening_rows(rec, &table, which == PART_WINDOWS ? MF_OPENING_WINDOW : MF_OPENING_DOOR,
                     types, n);
    mf_table_end(&table);
}

/* The shapes and what they mean, kept together with the table. */
static void legend(void *user)
{
    mf_rec *rec = user;
    mf_page *page = &rec->page;
    float x = MF_LEFT;
    for (int verdict = MF_PAINT_LEAD; verdict <= MF_PAINT_UNPAINTED; verdict++) {
        mf_mark_draw(page->haru, mf_paint_mark((mf_paint_verdict)verdict),
                     (mf_point){x, page->y + 1}, 7.6F);
        x += 11;
        x += mf_page_put(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){x, page->y},
                         mf_enum(rec, MF_FAM_PAINT, verdict));
        x += 18;
    }
    page->y += LEGEND;
}

static void schedule_part(mf_rec *rec, part which)
{
    mf_component_type types[TYPES];
    size_t n = types_present(rec, which, types);
    for (size_t from = 0; from < n; from += COLS)
        schedule_table(rec, which, types + from, n - from < COLS ? n - from : COLS);
}

/* ---- what each opening needs ------------------------------------------------- */

static mf_cell need_cell(mf_rec *rec, const char *opening, mf_side side)
{
    static const char *const words[2][3] = {{"need.nothing", "need.none", "need.inside"},
                                            {"need.nothing", "need.none", "need.outside"}};
    static const mf_mark marks[] = {MF_MARK_BAR, MF_MARK_RING, MF_MARK_FULL};
    mf_opening_need need;
    mf_opening_needs_judged(rec->job, mf_rec_paints(rec), opening, side, MF_REMOVAL_AS_LOGGED,
                            &need);
    const mf_paint_finding *by = &need.decided;
    bool unlisted = need.need == MF_NEED_CONTAINMENT && by->component == NULL;
    bool presumed = unlisted || (by->component != NULL && by->verdict == MF_PAINT_PRESUMED);
    mf_cell cell = mf_marked(presumed ? MF_MARK_HALF : marks[need.need],
                             mf_phrase(rec, words[side][need.need]));
    if (unlisted)
        cell.below = mf_below(rec, mf_small(mf_phrase(rec, "need.unlisted")));
    if (by->component == NULL)
        return cell;
    const char *why = presumed ? mf_enum(rec, MF_FAM_DOUBT, (int)by->doubt)
                               : mf_enum(rec, MF_FAM_BASIS, (int)by->basis);
    const char *who = *by->by == '\0' ? "" : mf_person_words(rec, by->by);
    why = mf_join(rec, by->component->id, ": ", why);
    cell.below = mf_below(rec, mf_small(mf_join(rec, mf_join(rec, why, ", ", who), ", ",
                                                mf_entry_words(rec, by->evidence))));
    return cell;
}

static bool needs_nothing(mf_rec *rec, const char *opening)
{
    for (int side = MF_SIDE_INTERIOR; side <= MF_SIDE_EXTERIOR; side++) {
        mf_opening_need need;
        mf_opening_needs_judged(rec->job, mf_rec_paints(rec), opening, (mf_side)side,
                                MF_REMOVAL_AS_LOGGED, &need);
        if (need.need != MF_NEED_NOTHING)
            return false;
    }
    return true;
}

/* The openings that the work leaves as they are, in one line. */
static void untouched(mf_rec *rec)
{
    const char *list = "";
    for (size_t i = 0; i < rec->job->n_opening; i++)
        if (needs_nothing(rec, rec->job->opening[i].id))
            list = mf_join(rec, list, ", ", rec->job->opening[i].id);
    if (*list != '\0')
        mf_page_text(&rec->page, MF_ST_BODY, mf_fill(rec, "need.nothing-at", list, NULL, NULL));
}

static void needs(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.opening", 10, false},
                                  {"col.need-inside", 45, false},
                                  {"col.need-outside", 45, false}};
    if (rec->job->n_opening == 0)
        return;
    mf_subhead(rec, "needs");
    mf_page_heading(&rec->page, MF_ST_SMALL, mf_phrase(rec, "needs-note"));
    mf_table table = mf_table_of(rec, cols, 3);
    table.dense = true;
    size_t rows = 0;
    for (size_t i = 0; i < rec->job->n_opening; i++) {
        const char *id = rec->job->opening[i].id;
        if (needs_nothing(rec, id))
            continue;
        rows++;
        const mf_cell cells[3] = {mf_bold(id), need_cell(rec, id, MF_SIDE_INTERIOR),
                                  need_cell(rec, id, MF_SIDE_EXTERIOR)};
        mf_table_row(&table, cells);
    }
    if (rows > 0)
        mf_table_end(&table);
    untouched(rec);
}

void mf_record_schedule(mf_rec *rec)
{
    mf_section(rec, "schedule");
    if (rec->job->n_component == 0) {
        mf_none(rec, "no-components");
        return;
    }
    mf_page_hold(&rec->page, LEGEND, legend, rec);
    mf_page_heading(&rec->page, MF_ST_SMALL, mf_phrase(rec, "schedule-legend"));
    for (int which = 0; which < PART_COUNT; which++)
        schedule_part(rec, (part)which);
    needs(rec);
}
