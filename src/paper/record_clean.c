/* Cleaning as ticked, the verification of each surface, dust samples. */
#include "paper/checked.h"
#include "paper/days.h"
#include "paper/entry.h"
#include "paper/record.h"
#include "paper/steps.h"

#include <string.h>

static mf_mark ver_mark(mf_ver_state state)
{
    return state == MF_VS_CLEAN     ? MF_MARK_TICK
           : state == MF_VS_UNWIPED ? MF_MARK_OPEN
                                    : MF_MARK_CROSS;
}

static mf_cell ver_cell(mf_rec *rec, const mf_ver_section *at)
{
    mf_cell cell = {.mark = ver_mark(at->state),
                    .style = MF_ST_CELL_BOLD,
                    .text = mf_words_ver_state(rec->ask->lang, at->state)};
    if (at->refused != MF_VR_NONE) {
        mf_cell note = mf_small(mf_fill(rec, "refused-event", at->refused_entry,
                                        mf_enum(rec, MF_FAM_REFUSAL, (int)at->refused), NULL));
        note.mark = MF_MARK_WARN;
        cell.below = mf_below(rec, note);
    }
    return cell;
}

static void section_row(mf_rec *rec, mf_table *table, const mf_area *area,
                        const mf_surface *surface, int64_t section)
{
    mf_ver_section at;
    mf_verification_replay(rec->job, area, surface, section, &at);
    int64_t of = mf_sections_of(rec->job, surface);
    const char *place =
        mf_join(rec, mf_enum(rec, MF_FAM_SURFACE, (int)surface->kind), ", ", surface->place);
    const mf_cell cells[8] = {
        mf_traced(rec, mf_bold(surface->id), &surface->src),
        mf_plain(place),
        mf_plain(mf_fill(rec, "n-of-m", mf_print(rec, "%lld", (long long)section),
                         mf_print(rec, "%lld", (long long)of), NULL)),
        ver_cell(rec, &at),
        mf_plain(mf_print(rec, "%d", at.wet)),
        mf_plain(mf_print(rec, "%d", at.dry)),
        mf_plain(mf_minutes_words(rec, at.last)),
        mf_entry_cell(rec, at.evidence)};
    mf_table_row(table, cells);
}

static void surfaces(mf_rec *rec, const mf_area *area)
{
    static const mf_col cols[] = {{"col.surface", 13, false}, {"col.what-it-is", 22, false},
                                  {"col.section", 8, false},  {"col.state", 15, false},
                                  {"col.wet", 10, true},      {"col.dry", 8, true},
                                  {"col.last", 16, false},    {"col.entry", 8, false}};
    mf_table table = mf_table_of(rec, cols, 8);
    table.dense = true;
    size_t n = 0;
    for (size_t i = 0; i < rec->job->n_surface; i++) {
        const mf_surface *surface = &rec->job->surface[i];
        if (strcmp(surface->area, area->id) != 0)
            continue;
        int64_t of = mf_sections_of(rec->job, surface);
        for (int64_t section = 1; section <= of; section++, n++)
            section_row(rec, &table, area, surface, section);
    }
    if (n > 0)
        mf_table_end(&table);
    else if (area->side == MF_SIDE_INTERIOR)
        mf_none(rec, "no-surfaces");
}

/* ---- the events, in the order logged ------------------------------------------------- */

static void event_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_verification *event = &rec->job->verification[i];
    const char *where = *event->surface == '\0'
                            ? mf_phrase(rec, "whole-area")
                            : mf_fill(rec, "surface-section", event->surface,
                                      mf_print(rec, "%lld", (long long)event->section), NULL);
    const char *cloth =
        event->cloth == MF_CLOTH_NONE ? "" : mf_enum(rec, MF_FAM_CLOTH, (int)event->cloth);
    const mf_cell cells[7] = {
        mf_plain(mf_when_words(rec, event->on, event->at_minute)),
        mf_bold(event->area),
        mf_plain(where),
        mf_traced(rec, mf_plain(mf_enum(rec, MF_FAM_WIPE, (int)event->event)), &event->src),
        mf_plain(cloth),
        mf_plain(mf_person_words(rec, event->person)),
        mf_entry_cell(rec, event->src.entry)};
    mf_table_row(table, cells);
}

/* Of all areas, so that the order is seen. */
static void events(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.when", 15, false},    {"col.area", 6, false},
                                  {"col.surface", 16, false}, {"col.event", 34, false},
                                  {"col.cloth", 10, false},   {"col.person", 12, false},
                                  {"col.entry", 7, false}};
    if (rec->job->n_verification == 0)
        return;
    mf_subhead(rec, "events");
    mf_rows(rec, cols, 7, rec->job->n_verification, event_row, NULL);
}

/* By the question of the signs, so that cloths of somebody who is not certified, or of before
 * the last cleaning, verify nothing. */
static const char *check_words(mf_rec *rec, const mf_area_check *check)
{
    if (check->how == MF_CLEARED_NOT)
        return check->lacks ? mf_fill(rec, "area-not-verified-as",
                                      mf_asked_words(rec, &check->lacking), NULL, NULL)
                            : mf_phrase(rec, "area-not-verified");
    return mf_fill(rec, check->how == MF_CLEARED_BY_SAMPLES ? "area-cleared" : "area-verified",
                   mf_day_words(rec, check->on), NULL, NULL);
}

static void area_verdict(mf_rec *rec, const mf_area *area)
{
    mf_ver_area sum;
    mf_page *page = &rec->page;
    mf_area_check check = mf_rec_check(rec, area);
    const char *state = check_words(rec, &check);
    mf_verification_area(rec->job, area, &sum);
    const char *parts = mf_fill(rec, "area-sections", mf_count_words(rec, sum.n_clean),
                                mf_count_words(rec, sum.n_sections), NULL);
    if (area->side == MF_SIDE_INTERIOR)
        state = mf_print(rec, "%s %s %s", state, parts, mf_cloths_words(rec, &sum));
    float height =
        mf_page_block(page, MF_ST_BOLD, (mf_point){0, 0}, mf_across(page) - 16, state, false);
    mf_page_need(page, height + 40);
    mf_mark_draw(page->haru, check.how != MF_CLEARED_NOT ? MF_MARK_TICK : MF_MARK_CROSS,
                 (mf_point){MF_LEFT, page->y + 1}, 9);
    mf_page_block(page, MF_ST_BOLD, (mf_point){MF_LEFT + 16, page->y}, mf_across(page) - 16, state,
                  true);
    page->y += height + 4;
}

static void verification(mf_rec *rec)
{
    mf_section(rec, "verification");
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "verification-note"));
    if (rec->job->n_area == 0)
        mf_none(rec, "no-areas");
    for (size_t i = 0; i < rec->job->n_area; i++) {
        const mf_area *area = &rec->job->area[i];
        mf_page_heading(&rec->page, MF_ST_HEAD, mf_area_words(rec, area));
        if (mf_area_off_line(rec, area)) /* and nothing is to be wiped there */
            continue;
        area_verdict(rec, area);
        surfaces(rec, area);
    }
    events(rec);
}

/* ---- dust ---------------------------------------------------------------------------------- */

/* What the loading was worked out from: mass, wiped area, wipes of a composite. */
static void dust_measured(mf_rec *rec, const mf_dust_sample *sample, mf_cell *amount)
{
    if (sample->mass_ng == MF_NUM_NONE || sample->length_in_1600 == MF_NUM_NONE ||
        sample->width_in_1600 == MF_NUM_NONE)
        return;
    char mass[48], length[48], width[48];
    mf_words_number(rec->ask->lang, sample->mass_ng, MF_UNIT_NG, mass, sizeof mass);
    mf_words_number(rec->ask->lang, sample->length_in_1600, MF_UNIT_IN_1600, length, sizeof length);
    mf_words_number(rec->ask->lang, sample->width_in_1600, MF_UNIT_IN_1600, width, sizeof width);
    int64_t wipes = sample->wipes == MF_NUM_NONE ? 1 : sample->wipes;
    const char *times = wipes > 1 ? mf_print(rec, " x %d", (int)wipes) : "";
    amount->below =
        mf_below(rec, mf_small(mf_print(rec, "%s, %s x %s%s", mass, length, width, times)));
}

static mf_cell sampled_when(mf_rec *rec, const mf_dust_sample *sample)
{
    mf_cell when = mf_plain(mf_day_words(rec, sample->on));
    char text[MF_MINUTE_TEXT];
    mf_minute_text(sample->at_minute, text);
    when.below = mf_below(rec, mf_small(mf_print(rec, "%s", text)));
    return when;
}

/* Who employs the sampler, who approved it, the laboratory's report. */
static const char *sampled_by(mf_rec *rec, const mf_dust_sample *sample)
{
    const char *said = sample->employer == MF_EMPLOYER_UNSAID
                           ? ""
                           : mf_enum(rec, MF_FAM_EMPLOYER, (int)sample->employer);
    if (sample->approved_by[0] != '\0')
        said = mf_join(
            rec, said, "; ",
            mf_fill(rec, "approved-by", mf_person_words(rec, sample->approved_by), NULL, NULL));
    return mf_join(rec, said, "; ", mf_lab_report(rec, sample->src.entry, sample->report));
}

/* "A1, hall, 3 ft outside the area" */
static const char *sampled_where(mf_rec *rec, const mf_dust_sample *sample)
{
    const char *place = mf_join(rec, sample->area, ", ", sample->place);
    if (sample->outside_ft_100 <= 0)
        return place;
    return mf_join(rec, place, ", ",
                   mf_fill(rec, "sampled-outside",
                           mf_number_words(rec, sample->outside_ft_100, MF_UNIT_FT_100), NULL,
                           NULL));
}

static void dust_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_dust_sample *sample = &rec->job->dust_sample[i];
    const mf_limit *level = NULL;
    mf_dust_verdict verdict = mf_dust_judge(rec->job, sample, &level);
    mf_cell where = mf_bold(mf_enum(rec, MF_FAM_DUST_SURFACE, (int)sample->surface));
    where.below = mf_below(rec, mf_small(sampled_where(rec, sample)));
    mf_cell limit = mf_plain("");
    if (level != NULL) {
        limit = mf_plain(mf_dust_level_words(rec, sample, level));
        if (level->from != MF_DAY_NONE)
            limit.below =
                mf_below(rec, mf_small(mf_fill(rec, "in-force-from", mf_day_words(rec, level->from),
                                               NULL, NULL)));
    }
    mf_cell amount = mf_plain(mf_dust_amount_words(rec, sample));
    dust_measured(rec, sample, &amount);
    mf_cell judged = mf_marked(verdict == MF_DUST_PASS ? MF_MARK_TICK : MF_MARK_CROSS,
                               mf_enum(rec, MF_FAM_DUST_VERDICT, (int)verdict));
    if (sample->blank == MF_YES) /* it touched nothing: there is no level for it */
        judged = mf_plain(mf_phrase(rec, "dust-blank"));
    mf_cell who =
        mf_plain(mf_join(rec, mf_person_words(rec, sample->sampler), "; ", sample->laboratory));
    who.below = mf_below(rec, mf_small(sampled_by(rec, sample)));
    const mf_cell cells[6] = {
        mf_traced(rec, where, &sample->src), sampled_when(rec, sample), amount, limit, judged, who};
    mf_table_row(table, cells);
}

static void dust(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.surface", 18, false}, {"col.day", 11, false},
                                  {"col.result", 14, false},  {"col.level", 19, false},
                                  {"col.judged", 17, false},  {"col.sampler-lab", 21, false}};
    mf_section(rec, "dust");
    if (rec->job->n_dust_sample > 0)
        mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "dust-note"));
    mf_rows(rec, cols, 6, rec->job->n_dust_sample, dust_row, "no-dust");
}

void mf_record_clean(mf_rec *rec)
{
    mf_section(rec, "cleaning");
    if (rec->job->n_area == 0)
        mf_none(rec, "no-areas");
    for (size_t i = 0; i < rec->job->n_area; i++) {
        mf_page_heading(&rec->page, MF_ST_HEAD, mf_area_words(rec, &rec->job->area[i]));
        mf_area_off_line(rec, &rec->job->area[i]);
        mf_steps_table(rec, &rec->job->area[i], 1U << MF_PHASE_CLEAN);
    }
    verification(rec);
    dust(rec);
}
