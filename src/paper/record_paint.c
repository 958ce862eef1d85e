/* What the evidence says of each component, and why no more than that. */
#include "paper/record.h"

#include <string.h>

static mf_cell verdict_cell(mf_rec *rec, const mf_paint_finding *found)
{
    return (mf_cell){.mark = mf_paint_mark(found->verdict),
                     .style = MF_ST_CELL_BOLD,
                     .text = mf_enum(rec, MF_FAM_PAINT, (int)found->verdict)};
}

static mf_cell reason_cell(mf_rec *rec, const mf_paint_finding *found)
{
    const char *doubt = mf_enum(rec, MF_FAM_DOUBT, (int)found->doubt);
    const char *basis = mf_enum(rec, MF_FAM_BASIS, (int)found->basis);
    if (found->verdict == MF_PAINT_FREE && found->basis == MF_BASIS_XRF)
        basis = mf_phrase(rec, "basis.xrf-free");
    if (found->doubt == MF_DOUBT_NONE)
        return mf_small(basis);
    mf_cell cell = mf_small(doubt);
    if (found->basis != MF_BASIS_NONE)
        cell.below = mf_below(rec, mf_small(basis));
    return cell;
}

/* Entry of the test that says so; its row among the tests has the person and the day. */
static mf_cell source_cell(const mf_paint_finding *found)
{
    mf_cell cell = mf_small(found->evidence);
    cell.link = found->evidence;
    return cell;
}

static mf_cell highest_cell(mf_rec *rec, const mf_paint_finding *found)
{
    return mf_plain(mf_deciding_words(rec, found));
}

/* The opening, or the room of what has none. */
static void place_group(mf_rec *rec, mf_table *table, const mf_component *component)
{
    const mf_opening *opening = mf_job_opening(rec->job, component->opening);
    if (opening == NULL) {
        mf_table_group(table, mf_stated(rec, component->room));
        return;
    }
    const char *words =
        mf_join(rec, opening->id, ", ", mf_enum(rec, MF_FAM_OPENING, (int)opening->kind));
    words = mf_join(rec, words, ", ", opening->room);
    mf_table_group(table, mf_join(rec, words, ", ", opening->elevation));
}

static bool same_place(const mf_component *a, const mf_component *b)
{
    return strcmp(a->opening, b->opening) == 0 &&
           (*a->opening != '\0' || strcmp(a->room, b->room) == 0);
}

static const char *disturbed_words(mf_rec *rec, const mf_component *component)
{
    int64_t area = mf_disturbed_area(rec->job, component);
    return area == MF_NUM_NONE ? "" : mf_number_words(rec, area, MF_UNIT_SQFT_100);
}

static void paint_row(mf_rec *rec, mf_table *table, size_t at)
{
    const mf_component *component = &rec->job->component[at];
    mf_paint_finding found = mf_rec_paint(rec, at);
    const char *what = mf_component_words(rec, component);
    what = mf_join(rec, what, ", ", mf_enum(rec, MF_FAM_SUBSTRATE, (int)component->substrate));
    const mf_cell cells[7] = {mf_traced(rec, mf_bold(component->id), &component->src),
                              mf_small(what),
                              mf_small(disturbed_words(rec, component)),
                              verdict_cell(rec, &found),
                              highest_cell(rec, &found),
                              reason_cell(rec, &found),
                              source_cell(&found)};
    mf_table_row(table, cells);
}

void mf_record_paint(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.component", 14, false}, {"col.what-it-is", 18, false},
                                  {"col.disturbed", 9, false},  {"col.paint", 11, false},
                                  {"col.highest", 8, true},     {"col.because", 30, false},
                                  {"col.entry", 10, false}};
    mf_section(rec, "paint");
    if (rec->job->n_component == 0) {
        mf_none(rec, "no-components");
        return;
    }
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "paint-note"));
    mf_table table = mf_table_of(rec, cols, 7);
    table.dense = true;
    const mf_component *last = NULL;
    size_t untouched = 0;
    for (size_t i = 0; i < rec->job->n_component; i++) {
        const mf_component *component = &rec->job->component[i];
        if (!mf_component_disturbed(component)) {
            untouched++;
            continue;
        }
        if (last == NULL || !same_place(component, last))
            place_group(rec, &table, component);
        paint_row(rec, &table, i);
        last = component;
    }
    if (last != NULL)
        mf_table_end(&table);
    if (untouched > 0)
        mf_page_text(&rec->page, MF_ST_BODY,
                     mf_fill(rec, "paint-untouched", mf_count_words(rec, untouched), NULL, NULL));
}
