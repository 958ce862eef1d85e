/* Cleaning verification on the clipboard: a row for each sill and section with each event and
 * its time, as the book asks for them; a grid on which the floor is divided. */
#include "paper/forms.h"

#include <mistfold/clean.h>
#include <mistfold/limit.h>
#include <mistfold/place.h>
#include <string.h>

#define ROW  31.0F
#define CELL 12.0F

#define HAND 52.0F /* the signature under the grid stays on its page */

enum { EMPTY_ROWS = 7, GRID_LEAST = 4, GRID_MOST = 40 };

static const char *limit_words(mf_rec *rec, mf_limit_id id)
{
    return mf_limit_words(rec, id, rec->ask->today);
}

/* A box to tick with its word; below it further ones, and a blank for the time. */
static mf_cell tick_cell(mf_rec *rec, const char *first, const char *second, bool timed)
{
    mf_cell time = mf_small(mf_phrase(rec, "form.at"));
    mf_cell other = {.mark = MF_MARK_OPEN, .style = MF_ST_SMALL, .text = ""};
    mf_cell cell = {.mark = MF_MARK_OPEN, .style = MF_ST_SMALL, .text = mf_phrase(rec, first)};
    const mf_cell *below = timed ? mf_below(rec, time) : NULL;
    if (second != NULL) {
        other.text = mf_phrase(rec, second);
        other.below = below;
        below = mf_below(rec, other);
    }
    cell.below = below;
    return cell;
}

/* Every event has its own time, and each wet cloth both answers: the book asks for them. A
 * fresh fold serves on sills alone, 745.85(b)(1)(ii)(A). */
static void event_row(mf_rec *rec, mf_table *table, int number, mf_cell name, bool fold)
{
    const mf_cell cells[9] = {mf_small(mf_print(rec, "%d", number)),
                              name,
                              tick_cell(rec, "form.light", "form.darker", true),
                              tick_cell(rec, "form.again", NULL, true),
                              tick_cell(rec, "form.light", "form.darker", true),
                              tick_cell(rec, "cloth.new", fold ? "cloth.fold" : NULL, false),
                              tick_cell(rec, "form.dry", NULL, true),
                              tick_cell(rec, "form.wiped", NULL, true),
                              mf_plain("")};
    mf_table_row(table, cells);
}

static mf_cell section_cell(mf_rec *rec, const mf_surface *surface, int64_t section, int64_t of)
{
    mf_cell name = mf_bold(surface->id);
    mf_cell place = mf_small(surface->place);
    const char *part = mf_fill(rec, "form.part", mf_print(rec, "%lld", (long long)section),
                               mf_print(rec, "%lld", (long long)of),
                               mf_number_words(rec, surface->size_sqft_100, MF_UNIT_SQFT_100));
    if (of > 1)
        place.below = mf_below(rec, mf_small(part));
    name.below = mf_below(rec, place);
    return name;
}

static int filled_rows(mf_rec *rec, mf_table *table, const mf_area *area)
{
    int rows = 0;
    for (size_t i = 0; area != NULL && i < rec->job->n_surface; i++) {
        const mf_surface *surface = &rec->job->surface[i];
        if (strcmp(surface->area, area->id) != 0)
            continue;
        int64_t of = mf_sections_of(rec->job, surface);
        for (int64_t section = 1; section <= of; section++)
            event_row(rec, table, ++rows, section_cell(rec, surface, section, of),
                      surface->kind == MF_SURFACE_SILL);
    }
    return rows;
}

/* Squared paper: one square stands for one foot on every side. */
static void grid(mf_rec *rec)
{
    mf_page *page = &rec->page;
    const int columns = (int)(mf_across(page) / CELL);
    mf_page_heading(page, MF_ST_HEAD, mf_phrase(rec, "form.grid"));
    mf_page_heading(page, MF_ST_SMALL,
                    mf_fill(rec, "form.grid-how", limit_words(rec, MF_LIMIT_SECTION_UNDIVIDED),
                            limit_words(rec, MF_LIMIT_SECTION_PART), NULL));
    int rows = (int)((mf_page_left(page) - HAND - 8) / CELL);
    if (rows < GRID_LEAST) { /* a page of its own, which it then fills */
        mf_page_need(page, mf_page_left(page) + 1);
        rows = (int)((mf_page_left(page) - HAND - 8) / CELL);
    }
    rows = rows > GRID_MOST ? GRID_MOST : rows;
    const float high = CELL * (float)rows;
    mf_page_need(page, high + 8 + HAND);
    for (int i = 0; i <= columns; i++) {
        float x = MF_LEFT + (float)i * CELL;
        mf_haru_line(page->haru, MF_INK_RULE, i % 5 == 0 ? 0.8F : 0.3F, (mf_point){x, page->y},
                     (mf_point){x, page->y + high});
    }
    for (int i = 0; i <= rows; i++) {
        float y = page->y + (float)i * CELL;
        mf_haru_line(page->haru, MF_INK_RULE, i % 5 == 0 ? 0.8F : 0.3F, (mf_point){MF_LEFT, y},
                     (mf_point){MF_LEFT + (float)columns * CELL, y});
    }
    page->y += high + 8;
}

static void first_look(mf_rec *rec)
{
    const mf_form_line look[] = {
        {"form.look-dirty", "", 3}, {"form.look-clean", "", 3}, {"blank.initials", "", 2}};
    mf_page_text(&rec->page, MF_ST_BODY, mf_phrase(rec, "form.verify-look"));
    rec->page.y -= 6;
    mf_form_lines(rec, look, 3);
}

void mf_form_verification(mf_rec *rec, const mf_area *area)
{
    static const mf_col cols[] = {
        {"col.number", 4, false},      {"form.surface", 15, false},   {"form.wet-1", 15, false},
        {"form.recleaned", 11, false}, {"form.wet-2", 15, false},     {"form.cloth-2", 11, false},
        {"form.dry-seen", 10, false},  {"form.dry-cloth", 10, false}, {"blank.initials", 9, false}};
    const mf_form_line totals[] = {{"form.total-wet", "", 1}, {"form.total-dry", "", 1}};
    mf_form_head(rec, area);
    first_look(rec);
    mf_page_text(&rec->page, MF_ST_SMALL,
                 mf_fill(rec, "form.verify-how", limit_words(rec, MF_LIMIT_DRY_WAIT), NULL, NULL));
    mf_table table = mf_table_of(rec, cols, 9);
    table.row_height = ROW;
    table.upright = true;
    int filled = filled_rows(rec, &table, area);
    for (int more = filled == 0 ? EMPTY_ROWS : 2; more > 0; more--)
        event_row(rec, &table, ++filled, mf_plain(""), true);
    mf_table_end(&table);
    mf_form_lines(rec, totals, 2);
    grid(rec);
    mf_form_signature(rec, "sign-renovator");
}
