#include "paper/rec.h"

#include <mistfold/paint.h>
#include <mistfold/place.h>

#include "base/fail.h"
#include "paper/photos.h"

#include <inttypes.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const mf_house no_house = {.src = {"", "", "", ""},
                                  .id = "",
                                  .address = "",
                                  .unit = "",
                                  .year_built = MF_NUM_NONE,
                                  .description = "",
                                  .start = MF_DAY_NONE,
                                  .end = MF_DAY_NONE,
                                  .called_off = MF_DAY_NONE,
                                  .language = "",
                                  .note = ""};

static const struct {
    const char *name;
    mf_point size;
} sizes[MF_SIZE_COUNT] = {
    [MF_SIZE_LETTER] = {"letter", {MF_PAPER_W, MF_PAPER_H}},
    [MF_SIZE_A4] = {"a4", {MF_PAPER_A4_W, MF_PAPER_A4_H}},
};

const char *mf_paper_size_name(mf_paper_size size)
{
    return size < MF_SIZE_COUNT ? sizes[size].name : NULL;
}

mf_paper_size mf_paper_size_named(const char *name)
{
    int size = 0;
    while (size < MF_SIZE_COUNT && strcmp(sizes[size].name, name) != 0)
        size++;
    return (mf_paper_size)size;
}

mf_status mf_rec_open(mf_rec *rec, const mf_paper_ask *ask, const char *title_id, mf_err *err)
{
    *rec = (mf_rec){.ask = ask, .job = ask->job, .house = no_house};
    if (ask->job != NULL && ask->job->n_house > 0)
        rec->house = ask->job->house[0];
    rec->page.arena = &rec->arena;
    const char *title = mf_phrase(rec, title_id);
    if (ask->job != NULL)
        title = mf_print(rec, "%s %s", title, ask->job->id);
    rec->page.where = title;
    mf_status status = mf_haru_open(&rec->page.haru, ask->font_dir, title, err);
    if (status == MF_OK) {
        if (ask->size < MF_SIZE_COUNT)
            mf_haru_paper(rec->page.haru, sizes[ask->size].size);
        mf_haru_language(rec->page.haru, mf_phrase(rec, "language-code"));
        mf_page_break(&rec->page);
    }
    return status;
}

/* A paper that is about to be sealed cannot be in the journal yet: saying on it
 * that no sealed record exists would be true and useless. */
static void leave_out_own_seal(mf_rec *rec)
{
    size_t kept = 0;
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (finding->verdict != MF_WARNING ||
            strcmp(finding->requirement->id, "record-sealed") != 0)
            rec->findings[kept++] = *finding;
    }
    rec->n_findings = kept;
}

mf_status mf_rec_audit(mf_rec *rec, mf_err *err)
{
    const mf_audit_ask ask = {.job = rec->job, .today = rec->ask->today, .gates = 0, .area = ""};
    if (!mf_findings(&ask, &rec->findings, &rec->n_findings))
        return mf_fail_memory(err);
    if (rec->ask->signer != NULL)
        leave_out_own_seal(rec);
    return MF_OK;
}

mf_area_check mf_rec_check(mf_rec *rec, const mf_area *area)
{
    return mf_check_area(rec->job, area, rec->ask->today);
}

mf_cleared mf_rec_cleared(mf_rec *rec, const mf_area *area, mf_day *on)
{
    mf_area_check check = mf_rec_check(rec, area);
    *on = check.on;
    return check.how;
}

void mf_rec_close(mf_rec *rec)
{
    mf_haru_close(rec->page.haru);
    free(rec->findings);
    mf_arena_free(&rec->arena);
}

static void judge_paint(mf_rec *rec)
{
    size_t n = rec->job->n_component;
    mf_paint_finding *list = mf_arena_alloc(&rec->arena, (n + 1) * sizeof *list);
    for (size_t i = 0; list != NULL && i < n; i++)
        mf_paint_judge(rec->job, &rec->job->component[i], &list[i]);
    rec->paint = list;
}

const mf_paint_finding *mf_rec_paints(mf_rec *rec)
{
    if (rec->paint == NULL)
        judge_paint(rec);
    if (rec->paint == NULL)
        mf_page_no_memory(&rec->page);
    return rec->paint;
}

mf_paint_finding mf_rec_paint(mf_rec *rec, size_t component)
{
    const mf_paint_finding *list = mf_rec_paints(rec);
    const mf_paint_finding none = {0};
    return list == NULL ? none : list[component];
}

/* ---- words ---------------------------------------------------------------- */

const char *mf_phrase2(const mf_rec *rec, const char *prefix, const char *id)
{
    const char *words = mf_words2(rec->ask->lang, prefix, id);
    return words == NULL ? id : words;
}

/* Of what is no housing nobody is told of his home: some phrases have a form of their own. */
const char *mf_phrase(const mf_rec *rec, const char *id)
{
    const char *own =
        mf_is_housing(&rec->house) ? NULL : mf_words2(rec->ask->lang, "paper.facility", id);
    return own != NULL ? own : mf_phrase2(rec, "paper", id);
}

const char *mf_fill(mf_rec *rec, const char *id, const char *a, const char *b, const char *c)
{
    return mf_template(&rec->page, mf_phrase(rec, id), a, b, c);
}

static const char *keep(mf_rec *rec, const char *text)
{
    const char *kept = mf_arena_text(&rec->arena, text);
    if (kept != NULL)
        return kept;
    mf_page_no_memory(&rec->page);
    return "";
}

const char *mf_print(mf_rec *rec, const char *format, ...)
{
    mf_buf buf = {0};
    va_list args;
    va_start(args, format);
    mf_buf_vprintf(&buf, format, args);
    va_end(args);
    if (buf.failed)
        mf_page_no_memory(&rec->page);
    const char *text = keep(rec, mf_buf_str(&buf));
    mf_buf_free(&buf);
    return text;
}

const char *mf_enum(const mf_rec *rec, mf_family family, int value)
{
    return mf_name(rec->ask->lang, family, value);
}

const char *mf_stated(const mf_rec *rec, const char *text)
{
    return text == NULL || *text == '\0' ? mf_phrase(rec, "not-given") : text;
}

/* "September 16, 2026" of "2026-09-16". */
static const char *long_day(mf_rec *rec, const char *iso)
{
    const int month = (iso[5] - '0') * 10 + iso[6] - '0', on = (iso[8] - '0') * 10 + iso[9] - '0';
    return mf_fill(rec, "long-day", mf_phrase(rec, mf_print(rec, "month.%d", month)),
                   mf_print(rec, "%d", on), mf_print(rec, "%.4s", iso));
}

const char *mf_day_words(mf_rec *rec, mf_day day)
{
    char text[MF_DAY_TEXT];
    mf_day_text(day, text);
    if (*text == '\0')
        return mf_phrase(rec, "not-given");
    return rec->long_days ? long_day(rec, text) : keep(rec, text);
}

const char *mf_when_words(mf_rec *rec, mf_day day, int32_t minute)
{
    char text[MF_MINUTE_TEXT];
    if (minute == MF_MINUTE_NONE)
        return mf_day_words(rec, day);
    mf_minute_text(minute, text);
    return mf_print(rec, "%s %s", mf_day_words(rec, day), text);
}

const char *mf_minutes_words(mf_rec *rec, int64_t minutes)
{
    if (minutes == MF_NUM_NONE)
        return "";
    return mf_when_words(rec, (mf_day)(minutes / 1440), (int32_t)(minutes % 1440));
}

const char *mf_logged_words(mf_rec *rec, const char *at)
{
    if (strlen(at) < 16 || at[10] != 'T')
        return at;
    return mf_print(rec, "%.10s %.5s UTC", at, at + 11);
}

const char *mf_language_words(mf_rec *rec, const char *code)
{
    const char *words =
        mf_words2(rec->ask->lang, "paper", mf_print(rec, "language.%s", code == NULL ? "" : code));
    return words == NULL ? mf_stated(rec, code) : words;
}

const char *mf_tri_words(const mf_rec *rec, mf_tri tri)
{
    return mf_phrase(rec, tri == MF_YES ? "yes" : tri == MF_NOT ? "no" : "not-given");
}

const char *mf_number_words(mf_rec *rec, int64_t number, mf_unit unit)
{
    char text[96];
    if (number == MF_NUM_NONE)
        return mf_phrase(rec, "not-given");
    mf_words_number(rec->ask->lang, number, unit, text, sizeof text);
    return keep(rec, text);
}

static mf_day or_today(const mf_rec *rec, mf_day day)
{
    return day == MF_DAY_NONE ? rec->ask->today : day;
}

mf_day mf_rec_start(const mf_rec *rec)
{
    return or_today(rec, rec->house.start);
}

mf_day mf_rec_end(const mf_rec *rec)
{
    const mf_job *job = rec->job;
    bool completed = job != NULL && job->n_completion > 0;
    return or_today(rec, completed ? job->completion[job->n_completion - 1].on : MF_DAY_NONE);
}

const char *mf_limit_words(mf_rec *rec, mf_limit_id id, mf_day day)
{
    const mf_limit *limit = mf_limit_for(rec->job, id, day);
    return limit == NULL ? "" : mf_number_words(rec, limit->value, limit->unit);
}

const char *mf_law_words(mf_rec *rec, mf_limit_id id, mf_day day)
{
    const mf_limit *law = mf_limit_on(id, day), *own = mf_limit_for(rec->job, id, day);
    if (law == NULL)
        return mf_limit_words(rec, id, day);
    const char *words = mf_number_words(rec, law->value, law->unit);
    return own == NULL || own->value == law->value
               ? words
               : mf_fill(rec, "law-and-own", words, mf_number_words(rec, own->value, own->unit),
                         NULL);
}

const char *mf_loading_words(mf_rec *rec, int64_t ug_cm2, mf_qualifier qualifier)
{
    char text[48];
    if (ug_cm2 == MF_NUM_NONE)
        return mf_phrase(rec, "not-given");
    mf_words_loading(ug_cm2, qualifier, text, sizeof text);
    return keep(rec, text);
}

const char *mf_count_words(mf_rec *rec, size_t n)
{
    return mf_print(rec, "%zu", n);
}

const char *mf_person_words(const mf_rec *rec, const char *id)
{
    if (id == NULL || *id == '\0')
        return mf_phrase(rec, "nobody");
    const mf_person *person = mf_job_person(rec->job, id);
    return person == NULL || *person->name == '\0' ? id : person->name;
}

const char *mf_join(mf_rec *rec, const char *a, const char *separator, const char *b)
{
    if (b == NULL || *b == '\0')
        return a;
    if (a == NULL || *a == '\0')
        return b;
    return mf_print(rec, "%s%s%s", a, separator, b);
}

const char *mf_list_words(mf_rec *rec, const char *list)
{
    mf_buf buf = {0};
    for (; *list != '\0'; list++)
        if (*list == ',')
            mf_buf_text(&buf, ", ");
        else if (*list != ' ')
            mf_buf_add(&buf, list, 1);
    if (buf.failed)
        mf_page_no_memory(&rec->page);
    const char *text = keep(rec, mf_buf_str(&buf));
    mf_buf_free(&buf);
    return text;
}

const char *mf_deciding_words(mf_rec *rec, const mf_paint_finding *found)
{
    if (found->basis == MF_BASIS_CHIP)
        return mf_phrase(rec, "by-chip");
    if (found->basis == MF_BASIS_KIT)
        return mf_phrase(rec, "by-kit");
    return found->worst == NULL
               ? ""
               : mf_loading_words(rec, found->worst->loading_ug_cm2, found->worst->qualifier);
}

const char *mf_lab_report(mf_rec *rec, const char *entry, const char *report)
{
    const mf_attachment *file = mf_report_attached(rec->job, entry, report);
    if (file != NULL)
        return mf_fill(rec, "lab.report-attached", file->name, file->sha256, NULL);
    return report == NULL || report[0] == '\0' ? ""
                                               : mf_fill(rec, "lab.report", report, NULL, NULL);
}

/* ---- cells ----------------------------------------------------------------- */

mf_cell mf_plain(const char *text)
{
    return (mf_cell){.style = MF_ST_CELL, .text = text};
}

mf_cell mf_bold(const char *text)
{
    return (mf_cell){.style = MF_ST_CELL_BOLD, .text = text};
}

mf_cell mf_small(const char *text)
{
    return (mf_cell){.style = MF_ST_SMALL, .text = text};
}

mf_cell mf_marked(mf_mark mark, const char *text)
{
    return (mf_cell){.mark = mark, .style = MF_ST_CELL, .text = text};
}

const mf_cell *mf_below(mf_rec *rec, mf_cell cell)
{
    if (cell.text == NULL || *cell.text == '\0')
        return cell.below;
    mf_cell *copy = mf_arena_alloc(&rec->arena, sizeof *copy);
    if (copy == NULL)
        mf_page_no_memory(&rec->page);
    else
        *copy = cell;
    return copy;
}

mf_cell mf_traced(mf_rec *rec, mf_cell cell, const mf_src *src)
{
    cell.anchor = src->entry;
    cell = mf_with_photos(rec, cell, src->entry);
    if (*src->correction == '\0')
        return cell;
    mf_cell note = mf_small(mf_fill(rec, "corrected-by", src->correction, NULL, NULL));
    note.mark = MF_MARK_WARN;
    note.below = cell.below;
    cell.below = mf_below(rec, note);
    return cell;
}

/* ---- sections ----------------------------------------------------------------- */

void mf_section(mf_rec *rec, const char *id)
{
    rec->section++;
    mf_page_heading(&rec->page, MF_ST_SECTION,
                    mf_print(rec, "%d  %s", rec->section, mf_phrase(rec, id)));
}

void mf_subhead(mf_rec *rec, const char *id)
{
    mf_page_heading(&rec->page, MF_ST_HEAD, mf_phrase(rec, id));
}

const char *mf_rec_foot(mf_rec *rec)
{
    const char *head = rec->ask->head;
    bool given = head != NULL && *head != '\0';
    return mf_fill(rec, "foot", rec->job->id,
                   given ? mf_print(rec, "%.16s", head) : mf_phrase(rec, "not-given"),
                   rec->ask->printed_at);
}

/* Whole or not at all: of a part nothing can be told. */
const char *mf_rec_head(mf_rec *rec)
{
    const char *head = rec->ask->head, *chains = rec->ask->chains;
    if (head == NULL || *head == '\0' || chains == NULL || *chains == '\0')
        return NULL;
    const char *words = mf_fill(rec, "foot-head", head, chains, "");
    return mf_page_width(&rec->page, MF_ST_SMALL, words) <= mf_across(&rec->page)
               ? words
               : mf_fill(rec, "foot-head-alone", head, "", "");
}

void mf_none(mf_rec *rec, const char *id)
{
    mf_page_text(&rec->page, MF_ST_BODY, mf_phrase(rec, id));
}

mf_table mf_table_of(mf_rec *rec, const mf_col *cols, size_t n)
{
    mf_col *said = mf_arena_alloc(&rec->arena, n * sizeof *said);
    if (said == NULL) {
        mf_page_no_memory(&rec->page);
        return (mf_table){.page = &rec->page};
    }
    for (size_t i = 0; i < n; i++) {
        said[i] = cols[i];
        said[i].head = mf_phrase(rec, cols[i].head);
    }
    return (mf_table){.page = &rec->page, .cols = said, .n = n};
}

void mf_rows(mf_rec *rec, const mf_col *cols, size_t n_cols, size_t n, mf_row_fn *row,
             const char *none)
{
    if (n == 0 && none != NULL)
        mf_none(rec, none);
    if (n == 0)
        return;
    mf_table table = mf_table_of(rec, cols, n_cols);
    table.dense = true;
    for (size_t i = 0; i < n; i++)
        row(rec, &table, i);
    mf_table_end(&table);
}

void mf_pairs(mf_rec *rec, const char *const *labels, const char *const *values, size_t n)
{
    static const mf_col cols[] = {
        {"", 17, false}, {"", 33, false}, {"", 17, false}, {"", 33, false}};
    mf_table table = {.page = &rec->page, .cols = cols, .n = 4, .dense = true, .bare = true};
    size_t rows = (n + 1) / 2; /* read down the left column, then the right one */
    mf_page_need(&rec->page, (float)rows * 16 + 40);
    for (size_t i = 0; i < rows; i++) {
        size_t other = i + rows;
        mf_cell cells[4] = {mf_small(mf_phrase(rec, labels[i])), mf_plain(values[i]), mf_small(""),
                            mf_plain("")};
        if (other < n) {
            cells[2] = mf_small(mf_phrase(rec, labels[other]));
            cells[3] = mf_plain(values[other]);
        }
        mf_table_row(&table, cells);
    }
    mf_table_end(&table);
}

void mf_hand_line(mf_rec *rec, mf_point at, float width, const char *words)
{
    mf_haru_line(rec->page.haru, MF_INK_BLACK, 0.7F, at, (mf_point){at.x + width, at.y});
    mf_page_block(&rec->page, MF_ST_SMALL, (mf_point){at.x, at.y + 2}, width, words, true);
}
