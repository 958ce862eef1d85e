/* Cleaning verification on the clipboard: a row for each sill and section, the two
 * wet cloths and the dry one, and a grid on which the floor is divided. */
#include "paper/forms.h"

#include <mistfold/clean.h>
#include <mistfold/limit.h>
#include <mistfold/place.h>
#include <string.h>

#define ROW  22.0F
#define CELL 12.0F

#define HAND 52.0F /* the signature under the grid stays on its page */

enum { EMPTY_ROWS = 11, GRID_ROWS = 9, GRID_LEAST = 5 };

static const char *limit_words(mf_rec *rec, mf_limit_id id)
{
    return mf_limit_words(rec, id, rec->ask->today);
}

static void section_row(mf_rec *rec, mf_table *table, const mf_surface *surface, int64_t section,
                        int64_t of)
{
    const mf_cell box = {.mark = MF_MARK_OPEN, .style = MF_ST_CELL};
    mf_cell name = mf_bold(surface->id);
    name.below = mf_below(rec, mf_small(surface->place));
    const mf_cell cells[8] = {
        name,
        mf_plain(mf_fill(rec, "n-of-m", mf_print(rec, "%lld", (long long)section),
                         mf_print(rec, "%lld", (long long)of), NULL)),
        box,
        box,
        box,
        box,
        box,
        mf_plain("")};
    mf_table_row(table, cells);
}

static size_t filled_rows(mf_rec *rec, mf_table *table, const mf_area *area)
{
    size_t rows = 0;
    for (size_t i = 0; area != NULL && i < rec->job->n_surface; i++) {
        const mf_surface *surface = &rec->job->surface[i];
        if (strcmp(surface->area, area->id) != 0)
            continue;
        int64_t of = mf_sections_of(rec->job, surface);
        for (int64_t section = 1; section <= of; section++, rows++)
            section_row(rec, table, surface, section, of);
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
    rows = rows > GRID_ROWS || rows < GRID_LEAST ? GRID_ROWS : rows;
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

void mf_form_verification(mf_rec *rec, const mf_area *area)
{
    static const mf_col cols[] = {{"form.surface", 22, false},   {"col.section", 10, false},
                                  {"form.wet-1", 12, false},     {"form.recleaned", 11, false},
                                  {"form.wet-2", 12, false},     {"form.dry-seen", 12, false},
                                  {"form.dry-cloth", 10, false}, {"form.who-when", 15, false}};
    mf_form_head(rec, area);
    mf_page_text(&rec->page, MF_ST_BODY, mf_phrase(rec, "form.verify-look"));
    mf_page_text(&rec->page, MF_ST_BODY,
                 mf_fill(rec, "form.verify-how", limit_words(rec, MF_LIMIT_DRY_WAIT), NULL, NULL));
    mf_table table = mf_table_of(rec, cols, 8);
    table.row_height = ROW;
    table.upright = true;
    size_t filled = filled_rows(rec, &table, area);
    mf_form_rows(&table, filled == 0 ? EMPTY_ROWS : 3);
    mf_table_end(&table);
    grid(rec);
    mf_form_signature(rec, "sign-renovator");
}
