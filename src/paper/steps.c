#include "paper/steps.h"

#include "paper/cite.h"
#include "paper/days.h"
#include "paper/entry.h"
#include "paper/photos.h"

#include <mistfold/place.h>

#include <string.h>

const char *mf_area_words(mf_rec *rec, const mf_area *area)
{
    const char *words = mf_join(rec, area->id, ", ", mf_enum(rec, MF_FAM_SIDE, (int)area->side));
    return mf_join(rec, words, ", ", area->place);
}

const char *mf_extent_words(mf_rec *rec, const mf_step *step, mf_day day)
{
    if (step->extent < 0)
        return "";
    const mf_limit *limit = mf_limit_for(rec->job, (mf_limit_id)step->extent, day);
    if (limit == NULL)
        return "";
    return mf_fill(rec, "at-least", mf_number_words(rec, limit->value, limit->unit), NULL, NULL);
}

const char *mf_stricter_words(mf_rec *rec, const mf_step *step, mf_day day)
{
    const mf_limit *ours = mf_step_stricter(rec->job, step, day);
    if (ours == NULL)
        return "";
    return mf_fill(rec, "stricter-here", mf_number_words(rec, ours->value, ours->unit), NULL, NULL);
}

static mf_mark state_mark(mf_step_state state)
{
    switch (state) {
    case MF_STEP_DONE:
        return MF_MARK_TICK;
    case MF_STEP_NOT_NEEDED:
        return MF_MARK_DASH;
    case MF_STEP_OWN_WORDS:
        return MF_MARK_WARN;
    case MF_STEP_OPEN:
        return MF_MARK_OPEN;
    case MF_STEP_SHORT:
    case MF_STEP_UNMEASURED:
    case MF_STEP_NO_RENOVATOR:
    case MF_STEP_NO_REASON:
    case MF_STEP_NO_GROUND:
    case MF_STEP_CONTRADICTED:
        break;
    }
    return MF_MARK_CROSS;
}

/* Whatever was said to be undone before the last word on a step, when and why. */
static const mf_cell *undone_before(mf_rec *rec, const mf_tick *last)
{
    const mf_cell *below = NULL;
    for (size_t i = rec->job->n_tick; i > 0; i--) {
        const mf_tick *it = &rec->job->tick[i - 1];
        if (it == last || it->state != MF_TICK_UNDONE || strcmp(it->area, last->area) != 0 ||
            strcmp(it->step, last->step) != 0)
            continue;
        mf_cell cell =
            mf_small(mf_fill(rec, "step-was-undone", mf_when_words(rec, it->on, it->at_minute),
                             it->reason, it->src.entry));
        cell.below = below;
        below = mf_below(rec, cell);
    }
    return below;
}

/* The ground in words, and the reason that was written; then what was undone before. */
static const mf_cell *why_left_out(mf_rec *rec, const mf_tick *tick)
{
    const mf_cell *below = undone_before(rec, tick);
    if (*tick->reason != '\0') {
        mf_cell reason = mf_small(tick->reason);
        reason.below = below;
        below = mf_below(rec, reason);
    }
    if (tick->state != MF_TICK_NOT_NEEDED || tick->ground == MF_GROUND_OWN_WORDS)
        return below;
    mf_cell ground = mf_small(mf_enum(rec, MF_FAM_GROUND, (int)tick->ground));
    ground.below = below;
    return mf_below(rec, ground);
}

static mf_cell state_cell(mf_rec *rec, mf_step_state state, const mf_tick *tick)
{
    mf_cell cell = {.mark = state_mark(state),
                    .style = MF_ST_CELL_BOLD,
                    .text = mf_enum(rec, MF_FAM_STEP, (int)state)};
    if (tick == NULL)
        return cell;
    cell = mf_with_named_photo(rec, cell, tick);
    return mf_traced(rec, cell, &tick->src);
}

/* The renovator with whom most of the area's steps were done: told once, above them. */
static const char *usual_renovator(const mf_rec *rec, const mf_area *area)
{
    const char *usual = "";
    size_t most = 1;
    for (size_t i = 0; i < rec->job->n_tick; i++) {
        const mf_tick *tick = &rec->job->tick[i];
        size_t n = 0;
        for (size_t k = 0; k < rec->job->n_tick; k++)
            n += strcmp(rec->job->tick[k].area, area->id) == 0 &&
                 strcmp(rec->job->tick[k].renovator, tick->renovator) == 0;
        if (*tick->renovator != '\0' && strcmp(tick->area, area->id) == 0 && n > most) {
            most = n;
            usual = tick->renovator;
        }
    }
    return usual;
}

/* By whom; with which renovator, when that is not the usual one; that none was named, when the
 * usual one would be read into it. */
static const char *by_words(mf_rec *rec, const mf_tick *tick, const char *usual)
{
    const char *who = mf_person_words(rec, tick->person);
    const bool none = *tick->renovator == '\0';
    const bool self = strcmp(tick->renovator, tick->person) == 0;
    const char *led_by = none ? tick->person : tick->renovator;
    if (strcmp(led_by, usual) == 0 || (*usual == '\0' && (none || self)))
        return who;
    const char *led = none ? mf_phrase(rec, "no-renovator-named") : mf_phrase(rec, "as-renovator");
    if (!none && !self)
        led = mf_fill(rec, "with-renovator", mf_person_words(rec, led_by), NULL, NULL);
    return mf_join(rec, who, ", ", led);
}

/* What was measured, and what is asked; nothing where nothing is to be measured. */
static const char *extent_words(mf_rec *rec, const mf_step *step, const mf_tick *tick)
{
    mf_day day = tick == NULL ? rec->house.start : tick->on;
    const char *limit = mf_extent_words(rec, step, day);
    if (*limit == '\0')
        return mf_stricter_words(rec, step, day);
    if (tick == NULL || tick->measured_ft_100 == MF_NUM_NONE)
        return limit;
    return mf_fill(rec, "step-measured",
                   mf_number_words(rec, tick->measured_ft_100, MF_UNIT_FT_100), limit, NULL);
}

/* A sheet that ended at a barrier, which was taken down when all was clean, did not fall short. */
static bool stood_all_the_same(const mf_rec *rec, const mf_area *area, const mf_step *step)
{
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *it = &rec->findings[i];
        if (it->verdict == MF_MET && strcmp(it->why, "step-done-to-barrier") == 0 &&
            strcmp(it->requirement->id, step->id) == 0 && strcmp(it->subject, area->id) == 0)
            return true;
    }
    return false;
}

static void step_row(mf_rec *rec, mf_table *table, const mf_area *area, const mf_step *step,
                     const char *usual)
{
    const mf_tick *tick = NULL;
    mf_step_state state = mf_step_judge(rec->job, area, step, &tick);
    if (state == MF_STEP_SHORT && stood_all_the_same(rec, area, step))
        state = MF_STEP_DONE;
    const char *words = mf_words_step(rec->ask->lang, rec->job, step->id);
    mf_cell what = mf_small(mf_print(rec, "%s [%s]", words, mf_cite(step->citation)));
    mf_cell extent = mf_bold(extent_words(rec, step, tick));
    if (tick != NULL)
        extent.below = why_left_out(rec, tick);
    what.below = mf_below(rec, extent);
    const mf_cell cells[5] = {
        what, state_cell(rec, state, tick),
        mf_small(tick == NULL ? "" : mf_when_words(rec, tick->on, tick->at_minute)),
        mf_small(tick == NULL ? "" : by_words(rec, tick, usual)),
        mf_entry_cell(rec, tick == NULL ? "" : tick->src.entry)};
    mf_table_row(table, cells);
}

static bool is_row(const mf_rec *rec, const mf_area *area, const mf_step *step, unsigned phases)
{
    return (phases & (1U << step->phase)) != 0 &&
           mf_step_listed(rec->job, area, step, mf_area_is_off(rec, area));
}

static bool any_row(const mf_rec *rec, const mf_area *area, unsigned phases)
{
    mf_step step;
    for (size_t i = 0; mf_step_at(rec->job, i, &step); i++)
        if (is_row(rec, area, &step, phases))
            return true;
    return false;
}

void mf_steps_table(mf_rec *rec, const mf_area *area, unsigned phases)
{
    static const mf_col cols[] = {{"col.step", 56, false},
                                  {"col.state", 10, false},
                                  {"col.when", 14, false},
                                  {"col.done-by", 13, false},
                                  {"col.entry", 7, false}};
    mf_step step;
    if (!any_row(rec, area, phases))
        return;
    mf_table table = mf_table_of(rec, cols, 5);
    const char *usual = usual_renovator(rec, area);
    table.dense = true;
    table.first = mf_print(rec, "%s: %s", area->id, mf_phrase(rec, cols[0].head));
    if (*usual != '\0')
        mf_page_heading(&rec->page, MF_ST_SMALL,
                        mf_fill(rec, "usual-renovator", mf_person_words(rec, usual), NULL, NULL));
    int phase = -1;
    for (size_t i = 0; mf_step_at(rec->job, i, &step); i++) {
        if (!is_row(rec, area, &step, phases))
            continue;
        if ((int)step.phase != phase)
            mf_table_group(&table, mf_enum(rec, MF_FAM_PHASE, (int)step.phase));
        phase = (int)step.phase;
        step_row(rec, &table, area, &step, usual);
    }
    mf_table_end(&table);
}
