/* The containment list for the clipboard: one row a step, room for a pencil in
 * a glove, and nothing that needs the program. */
#include "paper/forms.h"
#include "paper/steps.h"

#include <string.h>

#define ROW_HEIGHT 34.0F

static bool on_side(const mf_step *step, mf_side side)
{
    return (step->sides & (side == MF_SIDE_INTERIOR ? MF_ON_INTERIOR : MF_ON_EXTERIOR)) != 0;
}

/* The job's only work area on that side; NULL when there is none or a choice. */
static const mf_area *only_area(const mf_job *job, mf_side side)
{
    const mf_area *found = NULL;
    size_t n = 0;
    for (size_t i = 0; job != NULL && i < job->n_area; i++)
        if (job->area[i].side == side) {
            found = &job->area[i];
            n++;
        }
    return n == 1 ? found : NULL;
}

/* Whose own steps stand on the list. */
static const mf_job *whose(const mf_rec *rec)
{
    return rec->job != NULL ? rec->job : rec->ask->firm;
}

/* Of a job the day it starts decides (mf_step_at), of a list for any job today. */
static bool asked_today(const mf_rec *rec, const mf_step *step)
{
    const mf_own_step *own = rec->job != NULL ? NULL : mf_own_step_named(whose(rec), step->id);
    mf_day today = rec->ask->today;
    return own == NULL ||
           (own->from <= today && (own->until == MF_DAY_NONE || today <= own->until));
}

/* The grounds on which the second box may be ticked; "" where own words are the only one. */
static const char *grounds_words(mf_rec *rec, const mf_step *step)
{
    const char *all = "";
    for (size_t i = 0; i < MF_STEP_GROUNDS && step->ground[i].citation != NULL; i++) {
        const char *one = mf_enum(rec, MF_FAM_GROUND, (int)step->ground[i].ground);
        if (step->ground[i].ground != MF_GROUND_OWN_WORDS)
            all = *all == '\0' ? one : mf_join(rec, all, "; ", one);
    }
    return *all == '\0' ? "" : mf_fill(rec, "blank.ground", all, NULL, NULL);
}

/* A number that its words give too low stands right below them. */
static mf_cell step_cell(mf_rec *rec, const mf_step *step)
{
    mf_cell cell = {.style = MF_ST_BODY,
                    .text = mf_words_step(rec->ask->lang, whose(rec), step->id)};
    const mf_cell *when = NULL;
    const char *stricter = mf_stricter_words(rec, step, rec->ask->today);
    const char *grounds = grounds_words(rec, step);
    if (*grounds != '\0')
        when = mf_below(rec, mf_small(grounds));
    if (step->when != MF_WHEN_ALWAYS) {
        mf_cell cell_when = mf_small(mf_enum(rec, MF_FAM_WHEN, (int)step->when));
        cell_when.below = when;
        when = mf_below(rec, cell_when);
    }
    cell.below = when;
    if (*stricter != '\0')
        cell.below =
            mf_below(rec, (mf_cell){.style = MF_ST_CELL_BOLD, .text = stricter, .below = when});
    return cell;
}

/* The citation, and above it room for the measure when the step has one. */
static mf_cell rule_cell(mf_rec *rec, const mf_step *step)
{
    const char *limit = mf_extent_words(rec, step, rec->ask->today);
    if (*limit == '\0')
        return mf_small(step->citation);
    mf_cell least = mf_small(limit);
    least.below = mf_below(rec, mf_small(step->citation));
    mf_cell cell = mf_plain(mf_phrase(rec, "blank.measured"));
    cell.below = mf_below(rec, least);
    return cell;
}

static void rows(mf_rec *rec, mf_side side)
{
    static const mf_col cols[] = {{"blank.done", 7, false},     {"blank.not-needed", 8, false},
                                  {"col.step", 51, false},      {"blank.rule", 16, false},
                                  {"blank.initials", 9, false}, {"blank.time", 9, false}};
    mf_step step;
    mf_table table = mf_table_of(rec, cols, 6);
    table.row_height = ROW_HEIGHT;
    table.upright = true;
    int phase = -1;
    const mf_cell box = {.mark = MF_MARK_OPEN, .style = MF_ST_TALL};
    for (size_t i = 0; mf_step_at(whose(rec), i, &step); i++) {
        if (!on_side(&step, side) || !asked_today(rec, &step))
            continue;
        if ((int)step.phase != phase)
            mf_table_group(&table, mf_enum(rec, MF_FAM_PHASE, (int)step.phase));
        phase = (int)step.phase;
        const mf_cell cells[6] = {box,
                                  mf_step_may_skip(&step) ? box : mf_plain(""),
                                  step_cell(rec, &step),
                                  rule_cell(rec, &step),
                                  mf_plain(""),
                                  mf_plain("")};
        mf_table_row(&table, cells);
    }
    mf_table_end(&table);
}

static void signatures(mf_rec *rec)
{
    mf_page *page = &rec->page;
    mf_page_need(page, 134);
    mf_page_text(page, MF_ST_BODY, mf_phrase(rec, "blank.reasons"));
    for (int i = 0; i < 2; i++) {
        page->y += 20;
        mf_haru_line(page->haru, MF_INK_BLACK, 0.7F, (mf_point){MF_LEFT, page->y},
                     (mf_point){mf_right(page), page->y});
    }
    page->y += 8;
    mf_page_text(page, MF_ST_BODY, mf_phrase(rec, "blank.before-demo"));
    page->y += 24;
    mf_hand_line(rec, (mf_point){MF_LEFT, page->y}, 330, mf_phrase(rec, "sign-renovator"));
    mf_hand_line(rec, (mf_point){MF_LEFT + 354, page->y}, mf_across(page) - 354,
                 mf_phrase(rec, "date-time"));
    page->y += 24;
}

mf_status mf_form_containment(mf_bytes *out, mf_side side, const mf_area *area,
                              const mf_paper_ask *ask, mf_err *err)
{
    const char *name = side == MF_SIDE_INTERIOR ? "blank.interior" : "blank.exterior";
    mf_rec rec;
    mf_status status = mf_rec_open(&rec, ask, "blank.title", err);
    if (status == MF_OK) {
        mf_form_title(&rec, mf_phrase(&rec, name));
        mf_form_code(&rec, "containment", area == NULL ? "" : area->id);
        mf_form_head(&rec, area);
        mf_page_text(&rec.page, MF_ST_BODY, mf_phrase(&rec, "blank.how"));
        rows(&rec, side);
        signatures(&rec);
        mf_form_finish(&rec, name);
        status = mf_haru_save(rec.page.haru, out, err);
    }
    mf_rec_close(&rec);
    return status;
}

mf_status mf_paper_containment(mf_bytes *out, mf_side side, const mf_paper_ask *ask, mf_err *err)
{
    return mf_form_containment(out, side, only_area(ask->job, side), ask, err);
}
