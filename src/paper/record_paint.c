/* What the evidence says of each component, and why no more than that. */
#include "paper/record.h"

static mf_cell verdict_cell(mf_rec *rec, const mf_paint_finding *found)
{
    mf_cell cell = {.mark = mf_paint_mark(found->verdict),
                    .style = MF_ST_CELL_BOLD,
                    .text = mf_enum(rec, MF_FAM_PAINT, (int)found->verdict)};
    if (found->worst != NULL)
        cell.below =
            mf_below(rec, mf_small(mf_fill(rec, "highest",
                                           mf_loading_words(rec, found->worst->loading_ug_cm2,
                                                            found->worst->qualifier),
                                           NULL, NULL)));
    return cell;
}

static mf_cell reason_cell(mf_rec *rec, const mf_paint_finding *found)
{
    const char *doubt = mf_enum(rec, MF_FAM_DOUBT, (int)found->doubt);
    const char *basis = mf_enum(rec, MF_FAM_BASIS, (int)found->basis);
    if (found->verdict == MF_PAINT_FREE && found->basis == MF_BASIS_XRF)
        basis = mf_phrase(rec, "basis.xrf-free");
    if (found->doubt == MF_DOUBT_NONE)
        return mf_plain(basis);
    mf_cell cell = mf_plain(doubt);
    if (found->basis != MF_BASIS_NONE)
        cell.below = mf_below(rec, mf_small(basis));
    return cell;
}

static mf_cell source_cell(mf_rec *rec, const mf_paint_finding *found)
{
    if (*found->evidence == '\0')
        return mf_plain("");
    mf_cell cell = mf_plain(*found->by == '\0' ? "" : mf_person_words(rec, found->by));
    const char *day = found->on == MF_DAY_NONE ? "" : mf_day_words(rec, found->on);
    cell.below = mf_below(rec, mf_small(mf_join(rec, day, ", ", found->evidence)));
    return cell;
}

static const char *place_words(mf_rec *rec, const mf_component *component)
{
    const mf_opening *opening = mf_job_opening(rec->job, component->opening);
    const char *place = component->room;
    if (*place == '\0' && opening != NULL)
        place = component->side == MF_SIDE_EXTERIOR ? opening->elevation : opening->room;
    return mf_join(rec, mf_enum(rec, MF_FAM_SIDE, (int)component->side), ", ", place);
}

static void paint_row(mf_rec *rec, mf_table *table, const mf_component *component)
{
    mf_paint_finding found;
    mf_paint_judge(rec->job, component, &found);
    mf_cell what = mf_bold(component->id);
    what.below = mf_below(rec, mf_small(mf_component_words(rec, component)));
    const char *disturbed =
        component->affected == MF_NOT ? mf_phrase(rec, "not-affected")
        : component->disturbed_sqft_100 == MF_NUM_NONE
            ? ""
            : mf_number_words(rec, component->disturbed_sqft_100, MF_UNIT_SQFT_100);
    mf_cell where = mf_plain(place_words(rec, component));
    where.below =
        mf_below(rec, mf_small(mf_enum(rec, MF_FAM_SUBSTRATE, (int)component->substrate)));
    const mf_cell cells[6] = {mf_traced(rec, what, &component->src),
                              where,
                              mf_plain(disturbed),
                              verdict_cell(rec, &found),
                              reason_cell(rec, &found),
                              source_cell(rec, &found)};
    mf_table_row(table, cells);
}

void mf_record_paint(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.component", 18, false}, {"col.place", 16, false},
                                  {"col.disturbed", 11, false}, {"col.paint", 15, false},
                                  {"col.because", 24, false},   {"col.shown-by", 16, false}};
    mf_section(rec, "paint");
    if (rec->job->n_component == 0) {
        mf_none(rec, "no-components");
        return;
    }
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "paint-note"));
    mf_table table = mf_table_of(rec, cols, 6);
    for (size_t i = 0; i < rec->job->n_component; i++)
        paint_row(rec, &table, &rec->job->component[i]);
    mf_table_end(&table);
}
