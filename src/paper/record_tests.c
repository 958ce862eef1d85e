/* Each test as it was logged: instruments and their checks, readings, test kits,
 * paint chips, determinations. */
#include "paper/entry.h"
#include "paper/record.h"

#include <mistfold/paint.h>
#include <mistfold/person.h>
#include <string.h>

mf_mark mf_class_mark(mf_paint_class paint_class)
{
    static const mf_mark marks[] = {MF_MARK_RING, MF_MARK_HALF, MF_MARK_FULL};
    return marks[paint_class];
}

const char *mf_component_words(mf_rec *rec, const mf_component *component)
{
    return mf_join(rec, mf_enum(rec, MF_FAM_COMPONENT, (int)component->type), ", ",
                   component->label);
}

const char *mf_brief_words(mf_rec *rec, const char *words)
{
    const char *bracket = strstr(words, " (");
    return bracket == NULL ? words : mf_print(rec, "%.*s", (int)(bracket - words), words);
}

/* An id with the component's words below it. */
static mf_cell component_cell(mf_rec *rec, const char *id)
{
    mf_cell cell = mf_bold(id);
    const mf_component *component = mf_job_component(rec->job, id);
    if (component != NULL)
        cell.below = mf_below(rec, mf_small(mf_component_words(rec, component)));
    return cell;
}

/* What a person was certified as on the day of a test. */
static const char *standing(mf_rec *rec, const char *person, mf_day on)
{
    const mf_certificate *held = mf_certified_assessor(rec->job, person, on);
    if (held == NULL)
        held = mf_certified(rec->job, person, MF_DISC_RENOVATOR, on, NULL);
    return held == NULL ? mf_phrase(rec, "not-certified")
                        : mf_enum(rec, MF_FAM_DISCIPLINE, (int)held->discipline);
}

static mf_cell tester_cell(mf_rec *rec, const char *person, mf_day on)
{
    mf_cell cell = mf_plain(mf_person_words(rec, person));
    cell.below = mf_below(rec, mf_small(standing(rec, person, on)));
    return cell;
}

/* ---- instruments and their checks -------------------------------------------------- */

static const char *band_words(mf_rec *rec, const mf_instrument *gun)
{
    if (gun->inconclusive_low_ug_cm2 == MF_NUM_NONE)
        return mf_phrase(rec, "threshold-only");
    return mf_fill(rec, "from-to",
                   mf_loading_words(rec, gun->inconclusive_low_ug_cm2, MF_QUAL_EXACT),
                   mf_loading_words(rec, gun->inconclusive_high_ug_cm2, MF_QUAL_EXACT), NULL);
}

static void instrument_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_instrument *gun = &rec->job->instrument[i];
    const mf_cell cells[5] = {
        mf_traced(rec, mf_bold(gun->serial), &gun->src),
        mf_plain(mf_loading_words(rec, gun->film_ug_cm2, MF_QUAL_EXACT)),
        mf_plain(mf_fill(rec, "from-to", mf_loading_words(rec, gun->cal_low_ug_cm2, MF_QUAL_EXACT),
                         mf_loading_words(rec, gun->cal_high_ug_cm2, MF_QUAL_EXACT), NULL)),
        mf_plain(band_words(rec, gun)), mf_plain(gun->note)};
    mf_table_row(table, cells);
}

static void instruments(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.serial", 14, false},
                                  {"col.film", 13, false},
                                  {"col.tolerance", 16, false},
                                  {"col.inconclusive", 16, false},
                                  {"col.note", 41, false}};
    if (rec->job->n_instrument == 0)
        return;
    mf_subhead(rec, "instruments");
    mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "radiation"));
    mf_rows(rec, cols, 5, rec->job->n_instrument, instrument_row, NULL);
}

/* The mean to a whole microgram; whether the check is good is judged without it. */
static const char *mean_words(mf_rec *rec, const mf_calibration *check)
{
    if (check->n == 0)
        return "";
    return mf_fill(rec, "mean-of",
                   mf_loading_words(rec, check->sum_ug_cm2 / check->n, MF_QUAL_EXACT),
                   mf_count_words(rec, (size_t)check->n), NULL);
}

static void calibration_row(mf_rec *rec, mf_table *table, const mf_calibration *check)
{
    char last[MF_MINUTE_TEXT];
    mf_minute_text(check->last_minute, last);
    const char *when = mf_when_words(rec, check->on, check->first_minute);
    if (check->last_minute != check->first_minute)
        when = mf_fill(rec, "from-to", when, mf_print(rec, "%s", last), NULL);
    const mf_cell cells[6] = {mf_bold(check->instrument),
                              mf_plain(when),
                              mf_plain(mf_person_words(rec, check->operator_id)),
                              mf_plain(mean_words(rec, check)),
                              mf_marked(check->good ? MF_MARK_TICK : MF_MARK_CROSS,
                                        mf_phrase(rec, check->good ? "check.good" : "check.bad")),
                              mf_entry_cell(rec, check->evidence)};
    mf_table_row(table, cells);
}

static void calibrations(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.serial", 14, false},   {"col.when", 22, false},
                                  {"col.operator", 19, false}, {"col.mean", 18, false},
                                  {"col.judged", 19, false},   {"col.entry", 8, false}};
    size_t n = mf_calibrations(rec->job, NULL, 0);
    mf_subhead(rec, "calibrations");
    if (n == 0) {
        mf_none(rec, "no-calibrations");
        return;
    }
    mf_calibration *checks = mf_arena_alloc(&rec->arena, n * sizeof *checks);
    if (checks == NULL) {
        mf_page_no_memory(&rec->page);
        return;
    }
    n = mf_calibrations(rec->job, checks, n);
    mf_table table = mf_table_of(rec, cols, 6);
    table.dense = true;
    for (size_t i = 0; i < n; i++)
        calibration_row(rec, &table, &checks[i]);
    mf_table_end(&table);
}

/* ---- readings -------------------------------------------------------------------------- */

/* What a reading was of, beside its number: the substrate and color, or what it was for. */
static const char *reading_of(mf_rec *rec, const mf_reading *reading)
{
    if (reading->purpose == MF_READ_CALIBRATION)
        return mf_phrase(rec, "reference-film");
    const char *stuff = mf_join(rec, mf_enum(rec, MF_FAM_SUBSTRATE, (int)reading->substrate), ", ",
                                reading->colour);
    if (reading->purpose == MF_READ_SUBSTRATE)
        return mf_join(rec, stuff, "; ", mf_phrase(rec, "bare-substrate"));
    if (reading->purpose == MF_READ_RETEST)
        return mf_join(rec, stuff, "; ", mf_phrase(rec, "retest-reading"));
    return stuff;
}

/* What speaks against the class; "" = nothing. */
static const char *reading_doubt(mf_rec *rec, const mf_reading *reading)
{
    mf_reading_result result;
    const char *words =
        mf_reading_enclosed(rec->job, reading) ? "" : mf_phrase(rec, "not-enclosed");
    mf_reading_judge(rec->job, reading, &result);
    if (result.correction == MF_CORRECTION_MISSING)
        words = mf_join(rec, words, "; ", mf_phrase(rec, "correction-missing"));
    return words;
}

/* The display with the shape of its class, and below it what the substrate correction made of
 * it. That it could not be corrected stands with the component, where there is room. */
static mf_cell value_cell(mf_rec *rec, const mf_reading *reading)
{
    char value[40];
    mf_reading_result result;
    mf_cell cell = mf_plain(mf_loading_words(rec, reading->loading_ug_cm2, reading->qualifier));
    if (reading->purpose != MF_READ_PAINT)
        return cell;
    mf_reading_judge(rec->job, reading, &result);
    cell.mark = mf_class_mark(result.found);
    if (result.correction == MF_CORRECTION_DONE) {
        mf_words_ratio(result.num, result.den, value, sizeof value);
        cell.below = mf_below(
            rec, mf_small(mf_fill(rec, "corrected-to", mf_print(rec, "%s", value), NULL, NULL)));
    }
    return cell;
}

/* Whether the reading belongs under the same line of day, instrument, operator. */
static bool same_hand(const mf_reading *a, const mf_reading *b)
{
    return a->on == b->on && strcmp(a->instrument, b->instrument) == 0 &&
           strcmp(a->operator_id, b->operator_id) == 0;
}

static void hand_group(mf_rec *rec, mf_table *table, const mf_reading *reading)
{
    const char *who = mf_join(rec, mf_person_words(rec, reading->operator_id), ", ",
                              standing(rec, reading->operator_id, reading->on));
    mf_table_group(table, mf_join(rec, mf_day_words(rec, reading->on), "   ",
                                  mf_join(rec, reading->instrument, "   ", who)));
}

static const char *time_words(mf_rec *rec, const mf_reading *reading)
{
    char text[MF_MINUTE_TEXT];
    if (reading->at_minute == MF_MINUTE_NONE)
        return "";
    mf_minute_text(reading->at_minute, text);
    return mf_print(rec, "%s", text);
}

/* There are hundreds: two stand on one line. */
enum { READING_COLS = 6, READINGS_BESIDE = 2, READINGS_COLS = READING_COLS * READINGS_BESIDE };

static void reading_cells(mf_rec *rec, mf_cell *cells, const mf_reading *reading)
{
    bool paint = reading->purpose == MF_READ_PAINT || reading->purpose == MF_READ_RETEST;
    mf_cell part = mf_bold(paint ? reading->component : "");
    if (reading->purpose == MF_READ_PAINT)
        part.below = mf_below(rec, mf_small(reading_doubt(rec, reading)));
    cells[0] = mf_small(mf_print(rec, "%lld", (long long)reading->number));
    cells[1] = mf_small(time_words(rec, reading));
    cells[2] = mf_traced(rec, part, &reading->src);
    cells[3] = mf_small(reading_of(rec, reading));
    cells[4] = value_cell(rec, reading);
    cells[5] = mf_small(mf_entry_words(rec, reading->src.entry));
}

/* Where the readings of the same day, instrument and operator end. */
static size_t end_of_hand(const mf_rec *rec, size_t from)
{
    size_t end = from + 1;
    while (end < rec->job->n_reading &&
           same_hand(&rec->job->reading[from], &rec->job->reading[end]))
        end++;
    return end;
}

static void reading_rows(mf_rec *rec, mf_table *table, size_t from, size_t end)
{
    for (size_t i = from; i < end; i += READINGS_BESIDE) {
        mf_cell cells[READINGS_COLS] = {0};
        for (size_t k = 0; k < READINGS_BESIDE && i + k < end; k++)
            reading_cells(rec, &cells[k * READING_COLS], &rec->job->reading[i + k]);
        mf_table_row(table, cells);
    }
}

/* A shape and its class, before the rows. */
static void class_legend(void *user)
{
    mf_rec *rec = user;
    mf_page *page = &rec->page;
    float x = MF_LEFT;
    for (int found = MF_CLASS_NEGATIVE; found <= MF_CLASS_POSITIVE; found++) {
        mf_mark_draw(page->haru, mf_class_mark((mf_paint_class)found), (mf_point){x, page->y + 1},
                     7.6F);
        x += 11 + mf_page_put(page, MF_ST_SMALL, MF_INK_BLACK, (mf_point){x + 11, page->y},
                              mf_enum(rec, MF_FAM_CLASS, found));
        x += 18;
    }
    page->y += 12;
}

static void readings(mf_rec *rec)
{
    static const mf_col cols[READINGS_COLS] = {
        {"col.number", 9, false},     {"col.time", 11, false},    {"col.component", 28, false},
        {"col.substrate", 24, false}, {"col.reading", 16, false}, {"col.entry-brief", 12, false},
        {"col.number", 9, false},     {"col.time", 11, false},    {"col.component", 28, false},
        {"col.substrate", 24, false}, {"col.reading", 16, false}, {"col.entry-brief", 12, false}};
    mf_subhead(rec, "readings");
    if (rec->job->n_reading == 0) {
        mf_none(rec, "no-readings");
        return;
    }
    mf_page_heading(&rec->page, MF_ST_SMALL, mf_phrase(rec, "readings-note"));
    mf_page_hold(&rec->page, 12, class_legend, rec);
    mf_table table = mf_table_of(rec, cols, READINGS_COLS);
    table.dense = true;
    for (size_t from = 0, end = 0; from < rec->job->n_reading; from = end) {
        end = end_of_hand(rec, from);
        hand_group(rec, &table, &rec->job->reading[from]);
        reading_rows(rec, &table, from, end);
    }
    mf_table_end(&table);
}

/* ---- kits, chips, determinations ---------------------------------------------------------- */

/* By EPA, and below it for which substrates. */
static mf_cell recognized_cell(mf_rec *rec, const mf_kit_test *test)
{
    mf_cell cell = mf_plain(mf_tri_words(rec, test->epa_recognized));
    if (test->substrates[0] != '\0')
        cell.below = mf_below(rec, mf_small(mf_tokens_words(rec, "substrate", test->substrates)));
    return cell;
}

static void kit_test_row(mf_rec *rec, mf_table *table, size_t i)
{
    static const mf_mark marks[] = {MF_MARK_FULL, MF_MARK_RING, MF_MARK_HALF};
    const mf_kit_test *test = &rec->job->kit_test[i];
    const char *kit = mf_join(rec, test->maker, ", ", mf_join(rec, test->model, ", ", test->lot));
    const mf_cell cells[6] = {
        mf_traced(rec, component_cell(rec, test->component), &test->src),
        mf_plain(mf_day_words(rec, test->on)),
        mf_plain(mf_stated(rec, kit)),
        recognized_cell(rec, test),
        mf_marked(marks[test->result], mf_enum(rec, MF_FAM_RESULT, (int)test->result)),
        tester_cell(rec, test->tester, test->on)};
    mf_table_row(table, cells);
}

static void kits(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.component", 21, false}, {"col.day", 11, false},
                                  {"col.kit", 26, false},       {"col.recognized", 12, false},
                                  {"col.result", 14, false},    {"col.tester", 16, false}};
    mf_subhead(rec, "kits");
    mf_rows(rec, cols, 6, rec->job->n_kit_test, kit_test_row, "no-kits");
}

static const char *chip_amount(mf_rec *rec, const mf_chip *chip)
{
    const char *loading = chip->loading_ug_cm2 == MF_NUM_NONE
                              ? ""
                              : mf_number_words(rec, chip->loading_ug_cm2, MF_UNIT_UG_CM2);
    const char *weight =
        chip->weight_ppm == MF_NUM_NONE ? "" : mf_number_words(rec, chip->weight_ppm, MF_UNIT_PPM);
    return mf_stated(rec, mf_join(rec, loading, "; ", weight));
}

static void chip_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_chip *chip = &rec->job->chip[i];
    mf_paint_class found = mf_chip_class_for(rec->job, chip);
    mf_cell lab = mf_plain(mf_join(rec, mf_stated(rec, chip->laboratory), ", ", chip->lab_address));
    const char *lawful = mf_phrase(rec, chip->nllap == MF_YES ? "lab.recognized" : "lab.not-shown");
    const char *report = mf_lab_report(rec, chip->src.entry, chip->report);
    lab.below = mf_below(rec, mf_small(mf_join(rec, lawful, "; ", report)));
    const mf_cell cells[6] = {
        mf_traced(rec, component_cell(rec, chip->component), &chip->src),
        mf_plain(mf_day_words(rec, chip->on)),
        lab,
        mf_plain(chip_amount(rec, chip)),
        mf_marked(mf_class_mark(found), mf_enum(rec, MF_FAM_CLASS, (int)found)),
        tester_cell(rec, chip->sampler, chip->on)};
    mf_table_row(table, cells);
}

static void chips(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.component", 20, false},  {"col.sampled", 11, false},
                                  {"col.laboratory", 25, false}, {"col.amount", 13, false},
                                  {"col.result", 14, false},     {"col.sampler", 17, false}};
    mf_subhead(rec, "chips");
    mf_rows(rec, cols, 6, rec->job->n_chip, chip_row, "no-chips");
}

static void determination_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_determination *said = &rec->job->determination[i];
    bool copy = said->firm_has_copy == MF_YES;
    mf_cell covers = *said->component == '\0' ? mf_plain(mf_phrase(rec, "covers-all"))
                                              : component_cell(rec, said->component);
    const mf_cell cells[6] = {
        mf_traced(rec, covers, &said->src),
        mf_plain(mf_day_words(rec, said->on)),
        mf_plain(mf_stated(rec, said->report)),
        mf_plain(mf_stated(rec, said->method)),
        mf_marked(copy ? MF_MARK_TICK : MF_MARK_CROSS, mf_tri_words(rec, said->firm_has_copy)),
        tester_cell(rec, said->assessor, said->on)};
    mf_table_row(table, cells);
}

static void determinations(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.covers", 20, false}, {"col.signed-on", 11, false},
                                  {"col.report", 22, false}, {"col.method", 18, false},
                                  {"col.copy", 12, false},   {"col.assessor", 17, false}};
    mf_subhead(rec, "determinations");
    mf_rows(rec, cols, 6, rec->job->n_determination, determination_row, "no-determinations");
}

void mf_record_tests(mf_rec *rec)
{
    mf_section(rec, "tests");
    instruments(rec);
    mf_record_profile(rec);
    calibrations(rec);
    mf_record_checks(rec);
    readings(rec);
    mf_record_retests(rec);
    kits(rec);
    chips(rec);
    determinations(rec);
}
