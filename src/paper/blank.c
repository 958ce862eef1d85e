/* The containment list for the clipboard: one row a step, room for a pencil in
 * a glove, and nothing that needs the program. */
#include "paper/rec.h"
#include "paper/steps.h"

#include <string.h>

#define ROW_HEIGHT 34.0F

static bool on_side(const mf_step *step, mf_side side)
{
    return (step->sides & (side == MF_SIDE_INTERIOR ? MF_ON_INTERIOR : MF_ON_EXTERIOR)) != 0;
}

static void title(mf_rec *rec, mf_side side)
{
    mf_page *page = &rec->page;
    page->y = 40;
    mf_page_put(page, MF_ST_TITLE, MF_INK_ACCENT, (mf_point){MF_LEFT, page->y},
                mf_phrase(rec, side == MF_SIDE_INTERIOR ? "blank.interior" : "blank.exterior"));
    page->y += 27;
    mf_haru_line(page->haru, MF_INK_ACCENT, 2.2F, (mf_point){MF_LEFT, page->y},
                 (mf_point){MF_RIGHT, page->y});
    page->y += 4;
}

/* A line to write on, filled when the job says it already. */
static void field(mf_rec *rec, float x, float width, const char *label, const char *value)
{
    mf_page *page = &rec->page;
    float y = page->y + 24;
    if (*value != '\0')
        mf_page_put(page, MF_ST_BODY, MF_INK_BLACK, (mf_point){x + 1, y - 13}, value);
    mf_hand_line(rec, (mf_point){x, y}, width, mf_phrase(rec, label));
}

static const char *renovator_name(mf_rec *rec)
{
    const char *id = "";
    if (rec->job == NULL)
        return "";
    for (size_t i = 0; i < rec->job->n_assignment; i++)
        if (rec->job->assignment[i].duty == MF_DUTY_RENOVATOR)
            id = rec->job->assignment[i].person;
    return *id == '\0' ? "" : mf_person_words(rec, id);
}

static void head_fields(mf_rec *rec)
{
    mf_page *page = &rec->page;
    const float half = (MF_WIDTH - 14) / 2;
    const float right = MF_LEFT + half + 14;
    const char *address = mf_join(rec, rec->house.address, ", ", rec->house.unit);
    field(rec, MF_LEFT, 110, "blank.job", rec->job == NULL ? "" : rec->job->id);
    /* An address too long for its line is left to the hand. */
    const float room = MF_WIDTH - 124;
    float one = mf_page_block(page, MF_ST_BODY, (mf_point){0, 0}, room, address, false);
    bool fits = one <= mf_style_of(MF_ST_BODY)->leading;
    field(rec, MF_LEFT + 124, room, "blank.address", fits ? address : "");
    page->y += 36;
    field(rec, MF_LEFT, half, "blank.area", "");
    field(rec, right, half, "blank.openings", "");
    page->y += 36;
    const char *name = renovator_name(rec);
    one = mf_page_block(page, MF_ST_BODY, (mf_point){0, 0}, half, name, false);
    field(rec, MF_LEFT, half, "blank.renovator",
          one <= mf_style_of(MF_ST_BODY)->leading ? name : "");
    field(rec, right, half, "blank.date", "");
    page->y += 42;
}

static mf_cell step_cell(mf_rec *rec, const mf_step *step)
{
    mf_cell cell = {.style = MF_ST_BODY, .text = mf_phrase2(rec, "step", step->id)};
    if (step->when != MF_WHEN_ALWAYS)
        cell.below = mf_below(rec, mf_small(mf_enum(rec, MF_FAM_WHEN, (int)step->when)));
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
    size_t n = 0;
    const mf_step *steps = mf_steps(&n);
    mf_table table = mf_table_of(rec, cols, 6);
    table.row_height = ROW_HEIGHT;
    table.upright = true;
    int phase = -1;
    const mf_cell box = {.mark = MF_MARK_OPEN, .style = MF_ST_TALL};
    for (size_t i = 0; i < n; i++) {
        if (!on_side(&steps[i], side))
            continue;
        if ((int)steps[i].phase != phase)
            mf_table_group(&table, mf_enum(rec, MF_FAM_PHASE, (int)steps[i].phase));
        phase = (int)steps[i].phase;
        const mf_cell cells[6] = {box,
                                  steps[i].not_needed_ok ? box : mf_plain(""),
                                  step_cell(rec, &steps[i]),
                                  rule_cell(rec, &steps[i]),
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
                     (mf_point){MF_RIGHT, page->y});
    }
    page->y += 8;
    mf_page_text(page, MF_ST_BODY, mf_phrase(rec, "blank.before-demo"));
    page->y += 24;
    mf_hand_line(rec, (mf_point){MF_LEFT, page->y}, 330, mf_phrase(rec, "sign-renovator"));
    mf_hand_line(rec, (mf_point){MF_LEFT + 354, page->y}, MF_WIDTH - 354,
                 mf_phrase(rec, "date-time"));
    page->y += 24;
}

static void finish(mf_rec *rec, mf_side side)
{
    const char *name =
        mf_phrase(rec, side == MF_SIDE_INTERIOR ? "blank.interior" : "blank.exterior");
    const char *job = rec->job == NULL ? mf_phrase(rec, "blank.job-line") : rec->job->id;
    const mf_running running = {.head_left = name,
                                .head_right = rec->house.address,
                                .foot_left = job,
                                .foot_note = mf_phrase(rec, "foot-caution"),
                                .page_of = mf_phrase(rec, "page-of")};
    mf_page_finish(&rec->page, &running);
}

mf_status mf_paper_containment(mf_bytes *out, mf_side side, const mf_paper_ask *ask, mf_err *err)
{
    mf_rec rec;
    mf_status status = mf_rec_open(&rec, ask, "blank.title", err);
    if (status == MF_OK) {
        title(&rec, side);
        head_fields(&rec);
        mf_page_text(&rec.page, MF_ST_BODY, mf_phrase(&rec, "blank.how"));
        rows(&rec, side);
        signatures(&rec);
        finish(&rec, side);
        status = mf_haru_save(rec.page.haru, out, err);
    }
    mf_rec_close(&rec);
    return status;
}
