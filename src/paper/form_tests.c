/* The log of tests of the paint, and the crew's plan by opening. */
#include "paper/days.h"
#include "paper/forms.h"
#include "paper/plan.h"
#include "paper/record.h"

#include <string.h>

#define ROW 22.0F

enum { EMPTY_ROWS = 15, PLAN_ROWS = 18 };

static bool in_area(const mf_rec *rec, const mf_component *component, const mf_area *area)
{
    return area == NULL || mf_job_area_of(rec->job, component) == area;
}

/* Numbered in the order in which they can be typed in. */
static void test_rows(mf_rec *rec, mf_table *table, const mf_area *area, int more)
{
    int number = 0;
    for (size_t i = 0; rec->job != NULL && i < rec->job->n_component; i++) {
        const mf_component *part = &rec->job->component[i];
        if (!mf_paint_disturbed(rec->job, part) || !in_area(rec, part, area))
            continue;
        mf_cell name = mf_bold(part->id);
        name.below = mf_below(rec, mf_small(mf_component_words(rec, part)));
        const mf_cell cells[6] = {mf_small(mf_print(rec, "%d", ++number)),
                                  name,
                                  mf_small(mf_enum(rec, MF_FAM_SUBSTRATE, (int)part->substrate)),
                                  mf_plain(""),
                                  mf_plain(""),
                                  mf_plain("")};
        mf_table_row(table, cells);
    }
    for (; more > 0; more--) {
        const mf_cell cells[6] = {mf_small(mf_print(rec, "%d", ++number))};
        mf_table_row(table, cells);
    }
}

void mf_form_test_log(mf_rec *rec, const mf_area *area)
{
    static const mf_col cols[] = {{"col.number", 7, false},          {"col.component", 28, false},
                                  {"col.substrate", 22, false},      {"form.reading", 18, false},
                                  {"form.class-by-hand", 12, false}, {"blank.time", 13, false}};
    const mf_form_line tester[] = {{"form.tester", "", 2}, {"form.tester-number", "", 1}};
    const mf_form_line tool[] = {{"form.instrument", "", 1}, {"form.kit", "", 2}};
    const mf_form_line film[] = {{"form.film-before", "", 1}, {"form.film-after", "", 1}};
    mf_form_head(rec, area);
    mf_form_lines(rec, tester, 2);
    mf_form_lines(rec, tool, 2);
    mf_form_lines(rec, film, 2);
    mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "form.test-who"));
    mf_table table = mf_table_of(rec, cols, 6);
    table.row_height = ROW;
    table.upright = true;
    test_rows(rec, &table, area, rec->job == NULL ? EMPTY_ROWS : 4);
    mf_table_end(&table);
    mf_form_signature(rec, "form.sign-tester");
}

/* ---- crew plan -------------------------------------------------------------------- */

/* The parts of an opening on a side of that verdict, by type. */
static const char *parts_of(mf_rec *rec, const char *opening, mf_paint_verdict verdict)
{
    const char *list = "";
    for (size_t i = 0; i < rec->job->n_component; i++) {
        const mf_component *part = &rec->job->component[i];
        if (strcmp(part->opening, opening) != 0)
            continue;
        mf_paint_finding found = mf_rec_paint(rec, i);
        if (found.verdict == verdict)
            list = mf_join(rec, list, ", ", mf_enum(rec, MF_FAM_COMPONENT, (int)part->type));
    }
    return list;
}

/* Of the areas in which there is work. */
static const char *areas_of(mf_rec *rec, const char *opening)
{
    const char *list = "";
    for (size_t i = 0; i < rec->job->n_area; i++)
        if (!mf_area_is_off(rec, &rec->job->area[i]) &&
            mf_id_in_list(rec->job->area[i].openings, opening))
            list = mf_join(rec, list, ", ", rec->job->area[i].id);
    return list;
}

/* The mark stands beside parts alone. */
static mf_cell part_cell(mf_rec *rec, mf_mark mark, const char *parts)
{
    bool none = *parts == '\0';
    return (mf_cell){.mark = none ? MF_MARK_NONE : mark,
                     .style = MF_ST_SMALL,
                     .text = none ? mf_phrase(rec, "nothing") : parts};
}

static void opening_row(mf_rec *rec, mf_table *table, const mf_opening *opening)
{
    const mf_cell box = {.mark = MF_MARK_OPEN, .style = MF_ST_CELL};
    mf_cell name = mf_bold(mf_opening_words(rec, opening));
    name.below = mf_below(rec, mf_small(opening->room));
    const char *lead = parts_of(rec, opening->id, MF_PAINT_LEAD);
    const char *presumed = parts_of(rec, opening->id, MF_PAINT_PRESUMED);
    if (!mf_opening_listed(rec->job, opening->id))
        presumed = mf_phrase(rec, "need.unlisted");
    const mf_cell cells[7] = {name,
                              mf_plain(areas_of(rec, opening->id)),
                              part_cell(rec, MF_MARK_FULL, lead),
                              part_cell(rec, MF_MARK_HALF, presumed),
                              box,
                              box,
                              box};
    mf_table_row(table, cells);
}

void mf_form_crew_plan(mf_rec *rec, const mf_area *area)
{
    static const mf_col cols[] = {{"col.opening", 20, false},  {"form.area", 8, false},
                                  {"form.lead-in", 24, false}, {"form.presumed-in", 18, false},
                                  {"form.sheeted", 10, false}, {"form.out-bagged", 10, false},
                                  {"form.cleaned", 10, false}};
    const mf_job *job = rec->job;
    mf_form_head(rec, area);
    if (area != NULL && mf_area_is_off(rec, area)) /* as its head says */
        return;
    mf_page_text(&rec->page, MF_ST_BODY, mf_phrase(rec, "form.crew-how"));
    mf_table table = mf_table_of(rec, cols, 7);
    table.row_height = ROW;
    table.upright = true;
    for (size_t i = 0; job != NULL && i < job->n_opening; i++)
        if (area == NULL ? *areas_of(rec, job->opening[i].id) != '\0'
                         : mf_id_in_list(area->openings, job->opening[i].id))
            opening_row(rec, &table, &job->opening[i]);
    mf_form_rows(&table, job == NULL ? PLAN_ROWS : 1);
    mf_table_end(&table);
    for (size_t i = 0; job != NULL && i < job->n_area; i++) {
        if (area != NULL && area != &job->area[i])
            continue;
        mf_page_heading(&rec->page, MF_ST_LARGE,
                        mf_join(rec, job->area[i].id, ", ", job->area[i].place));
        if (mf_area_off_line(rec, &job->area[i])) /* nobody closes it off */
            continue;
        mf_plan_draw(rec, &job->area[i], 300);
        mf_takeoff_draw(rec, &job->area[i]);
    }
}
