/* The containment list for the clipboard: one row a step, for a step of every day one row a
 * day, room for a pencil in a glove, and nothing that needs the program. Rows are numbered in
 * the order in which they can be typed in. */
#include "paper/forms.h"
#include "paper/steps.h"

#include <string.h>

#define ROW_HEIGHT 30.0F
#define DAY_HEIGHT 22.0F

static bool on_side(const mf_step *step, mf_side side)
{
    return (step->sides & (side == MF_SIDE_INTERIOR ? MF_ON_INTERIOR : MF_ON_EXTERIOR)) != 0;
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

/* The citation and, for whoever types it in, the step's own name; above them room for the
 * measure when the step has one. */
static mf_cell rule_cell(mf_rec *rec, const mf_step *step)
{
    const char *limit = mf_extent_words(rec, step, rec->ask->today);
    mf_cell rule = mf_small(step->citation);
    rule.below = mf_below(rec, (mf_cell){.style = MF_ST_MONO, .text = step->id});
    if (*limit == '\0')
        return rule;
    mf_cell least = mf_small(limit);
    least.below = mf_below(rec, rule);
    mf_cell cell = mf_plain(mf_phrase(rec, "blank.measured"));
    cell.below = mf_below(rec, least);
    return cell;
}

/* ---- steps of every day ----------------------------------------------------------- */

enum { DAYS_UNKNOWN = 4, DAYS_MOST = 10 };

static int days_of_work(const mf_rec *rec)
{
    if (rec->house.start == MF_DAY_NONE || rec->house.end == MF_DAY_NONE ||
        rec->house.end < rec->house.start)
        return DAYS_UNKNOWN;
    int64_t days = (int64_t)rec->house.end - rec->house.start + 1;
    return days > DAYS_MOST ? DAYS_MOST : (int)days;
}

/* "day 2: 2026-09-15", or a blank for the date. */
static const char *day_words(mf_rec *rec, int day)
{
    const bool known = rec->house.start != MF_DAY_NONE;
    return mf_fill(rec, "blank.day", mf_print(rec, "%d", day),
                   known ? mf_day_words(rec, rec->house.start + day - 1) : "____________", NULL);
}

static const mf_cell box = {.mark = MF_MARK_OPEN, .style = MF_ST_TALL};

/* A box, initials and time for each further day. */
static void day_rows(mf_rec *rec, mf_table *table, int number)
{
    const float height = table->row_height;
    table->row_height = DAY_HEIGHT;
    for (int day = 2; day <= days_of_work(rec); day++) {
        const mf_cell cells[7] = {mf_small(mf_print(rec, "%d", number)),
                                  box,
                                  mf_plain(""),
                                  mf_plain(day_words(rec, day)),
                                  mf_plain(""),
                                  mf_plain(""),
                                  mf_plain("")};
        mf_table_row(table, cells);
    }
    table->row_height = height;
}

static void step_row(mf_rec *rec, mf_table *table, const mf_step *step, int number)
{
    mf_cell words = step_cell(rec, step);
    if (mf_step_every_day(step)) {
        mf_cell first = mf_plain(day_words(rec, 1));
        first.below = words.below;
        words.below = mf_below(rec, first);
    }
    const mf_cell cells[7] = {mf_small(mf_print(rec, "%d", number)),
                              box,
                              mf_step_may_skip(step) ? box : mf_plain(""),
                              words,
                              rule_cell(rec, step),
                              mf_plain(""),
                              mf_plain("")};
    mf_table_row(table, cells);
    if (mf_step_every_day(step))
        day_rows(rec, table, number);
}

/* ---- the list --------------------------------------------------------------------- */

static mf_table start_table(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.number", 4, false},       {"blank.done", 7, false},
                                  {"blank.not-needed", 8, false}, {"col.step", 47, false},
                                  {"blank.rule", 17, false},      {"blank.initials", 8, false},
                                  {"blank.time", 9, false}};
    mf_table table = mf_table_of(rec, cols, 7);
    table.row_height = ROW_HEIGHT;
    table.upright = true;
    return table;
}

/* Signed where demo begins: below the steps before it, above those that come after. */
static void sign_before_demo(mf_rec *rec)
{
    mf_page_need(&rec->page, 74);
    mf_page_text(&rec->page, MF_ST_BOLD, mf_phrase(rec, "blank.before-demo"));
    mf_form_signature(rec, "sign-renovator");
}

/* What an emergency alone excuses has no second box where none is logged. */
static void without_emergency(const mf_rec *rec, mf_step *step)
{
    static const char relief[] = "40 CFR 745.82(b)";
    const char *first = step->ground[0].citation;
    bool logged = rec->job != NULL && rec->job->n_emergency > 0;
    if (!logged && first != NULL && strncmp(first, relief, sizeof relief - 1) == 0)
        step->ground[0].citation = NULL;
}

static void rows(mf_rec *rec, mf_side side)
{
    mf_step step;
    mf_table table = start_table(rec);
    int phase = -1, number = 0;
    for (size_t i = 0; mf_step_at(whose(rec), i, &step); i++) {
        if (!on_side(&step, side) || !asked_today(rec, &step))
            continue;
        if (phase == MF_PHASE_CONTAIN && step.phase != MF_PHASE_CONTAIN) {
            mf_table_end(&table);
            sign_before_demo(rec);
            table = start_table(rec);
        }
        if ((int)step.phase != phase)
            mf_table_group(&table, mf_enum(rec, MF_FAM_PHASE, (int)step.phase));
        phase = (int)step.phase;
        without_emergency(rec, &step);
        step_row(rec, &table, &step, ++number);
    }
    mf_table_end(&table);
}

static void reasons(mf_rec *rec)
{
    mf_page *page = &rec->page;
    mf_page_need(page, 64);
    mf_page_text(page, MF_ST_BODY, mf_phrase(rec, "blank.reasons"));
    for (int i = 0; i < 2; i++) {
        page->y += 20;
        mf_haru_line(page->haru, MF_INK_BLACK, 0.7F, (mf_point){MF_LEFT, page->y},
                     (mf_point){mf_right(page), page->y});
    }
    page->y += 8;
}

static void sheet(mf_rec *rec, mf_side side, const mf_area *area)
{
    mf_form_open(rec, side == MF_SIDE_INTERIOR ? "blank.interior" : "blank.exterior", "containment",
                 area == NULL ? "" : area->id);
    mf_form_called_off(rec);
    mf_form_head(rec, area);
    mf_page_text(&rec->page, MF_ST_BODY, mf_phrase(rec, "blank.how"));
    rows(rec, side);
    reasons(rec);
}

/* One list for the work area that is named, else one for each of the job, else one for each side.
 */
void mf_form_containment(mf_rec *rec, const mf_area *area)
{
    size_t n = area != NULL || rec->job == NULL ? 0 : rec->job->n_area;
    if (area != NULL)
        sheet(rec, area->side, area);
    for (size_t i = 0; i < n; i++) {
        if (i > 0)
            mf_page_break(&rec->page);
        sheet(rec, rec->job->area[i].side, &rec->job->area[i]);
    }
    if (area != NULL || n > 0)
        return;
    sheet(rec, MF_SIDE_INTERIOR, NULL);
    mf_page_break(&rec->page);
    sheet(rec, MF_SIDE_EXTERIOR, NULL);
}
