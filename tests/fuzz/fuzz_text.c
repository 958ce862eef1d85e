/* Text that people and other programs wrote: CSV, JSON, a record's data, settings,
 * and single values. */
#include "base/csv.h"
#include "base/json.h"
#include "base/utf8.h"
#include "cli/settings.h"
#include "fuzz/fuzz.h"

#include <mistfold/place.h>
#include <mistfold/record.h>
#include <string.h>
#include <sys/stat.h>

/* ---- CSV --------------------------------------------------------------------------- */

static void look_at_rows(const mf_csv *csv)
{
    size_t len = 0;
    for (size_t row = 0; row < csv->n_rows; row++)
        for (size_t cell = 0; cell < csv->rows[row].n_cells; cell++)
            len += strlen(csv->rows[row].cells[cell]);
    FUZZ_HOLDS(len < SIZE_MAX);
}

/* Whole, and in two parts cut at a line end. */
void fuzz_csv(const uint8_t *data, size_t len)
{
    mf_csv csv = {0};
    mf_err err = {0};
    const char *text = (const char *)data;
    mf_status status = mf_csv_begin(&csv, "export.csv", text, len, &err);
    if (status == MF_OK) {
        look_at_rows(&csv);
        for (size_t row = 1; row < csv.n_rows; row++)
            FUZZ_HOLDS((mf_csv_cells(&csv, "export.csv", row, NULL) == MF_OK) ==
                       (csv.rows[row].n_cells == csv.rows[0].n_cells));
    }
    FUZZ_HOLDS(status == MF_OK || (err.what[0] != '\0' && err.mend[0] != '\0'));
    mf_csv_free(&csv);
    const char *end = memchr(text, '\n', len);
    size_t first = end == NULL ? len : (size_t)(end - text) + 1;
    if (mf_csv_begin(&csv, "export.csv", text, first, &err) == MF_OK &&
        mf_csv_more(&csv, "export.csv", text + first, len - first, &err) == MF_OK) {
        look_at_rows(&csv);
        for (size_t row = 1; row < csv.n_rows; row++)
            mf_csv_cells(&csv, "export.csv", row, &err);
    }
    mf_csv_free(&csv);
}

/* ---- JSON ---------------------------------------------------------------------------- */

/* A number beyond 2^53 that is written without an exponent: RFC 8785 wants it so, and
 * RFC 7493 wants no reader to take it. */
static bool has_long_number(const char *text)
{
    size_t digits = 0;
    for (; *text != '\0' && digits < 16; text++)
        digits = *text >= '0' && *text <= '9' ? digits + 1 : 0;
    return digits == 16;
}

/* What was read and has a canonical text gives the same text when that is read. */
void fuzz_json(const uint8_t *data, size_t len)
{
    mf_err err = {0};
    mf_buf once = {0}, twice = {0};
    json_t *value = mf_json_parse((const char *)data, len, &err);
    if (value != NULL && mf_json_canonical(&once, value)) {
        json_t *again = mf_json_parse(once.data, once.len, &err);
        FUZZ_HOLDS(again != NULL || has_long_number(once.data));
        if (again != NULL && mf_json_canonical(&twice, again))
            FUZZ_HOLDS(once.len == twice.len && memcmp(once.data, twice.data, once.len) == 0);
        json_decref(again);
    }
    json_decref(value);
    mf_buf_free(&once);
    mf_buf_free(&twice);
}

static void any_change(const mf_record_diff *diff, void *data)
{
    (void)data;
    FUZZ_HOLDS(diff->entry != NULL && diff->kind != NULL && diff->field != NULL);
}

/* Made once: a book that has nothing of what a record may say. */
static mf_book *empty_book(void)
{
    static mf_book *book;
    char path[160];
    if (book == NULL)
        FUZZ_HOLDS(mf_book_new(&book, fuzz_path(path, "empty.book"), "home", NULL) == MF_OK);
    return book;
}

/* What was read can be judged, and held against a book that is another. */
void fuzz_record(const uint8_t *data, size_t len)
{
    mf_err err = {0};
    mf_head_found head;
    mf_record *record = NULL;
    mf_status status = mf_record_read(&record, (const char *)data, len, &err);
    FUZZ_HOLDS(status == MF_OK || err.what[0] != '\0');
    if (status == MF_OK) {
        mf_book *book = empty_book();
        mf_record_agrees(record, &err);
        FUZZ_HOLDS(mf_record_compare(record, book, record->job, any_change, NULL, &err) == MF_OK);
        FUZZ_HOLDS(mf_record_head(record, book, &head, &err) == MF_OK);
        FUZZ_HOLDS(head != MF_HEAD_STANDS);
    }
    mf_record_free(record);
}

/* ---- settings ---------------------------------------------------------------------------- */

void fuzz_settings(const uint8_t *data, size_t len)
{
    char path[160];
    mf_cli cli = {0};
    mf_err err = {0};
    mkdir(fuzz_path(path, "mistfold"), 0700);
    setenv("XDG_CONFIG_HOME", fuzz_folder(), 1);
    setenv("HOME", "/home/invented", 1);
    fuzz_write(fuzz_path(path, "mistfold/settings"), data, len);
    mf_status status = mf_settings_read(&cli, &err);
    FUZZ_HOLDS(status == MF_OK || (status == MF_INPUT && err.mend[0] != '\0'));
    FUZZ_HOLDS(cli.book_path != NULL && cli.who != NULL);
    mf_arena_free(&cli.ids);
}

/* ---- one value ------------------------------------------------------------------------------ */

/* A date or a time that was read is written as it stood. */
static void days(const char *text)
{
    char day[MF_DAY_TEXT], minute[MF_MINUTE_TEXT];
    bool well_formed = false;
    mf_day on = mf_day_parse(text, &well_formed);
    if (on != MF_DAY_NONE) {
        mf_day_text(on, day);
        FUZZ_HOLDS(well_formed && strcmp(day, text) == 0);
        FUZZ_HOLDS(mf_day_weekday(on) == mf_day_weekday(on - 7) || on < mf_day_from(1, 1, 8));
    }
    int32_t at = mf_minute_parse(text);
    if (at == MF_MINUTE_NONE)
        return;
    mf_minute_text(at, minute);
    FUZZ_HOLDS(strcmp(minute, text) == 0);
}

static void as_field(const mf_field *field, const char *text, const char *unit)
{
    mf_parsed out = {0};
    mf_slip slip = mf_field_parse(field, text, unit, mf_day_from(2026, 9, 15), &out);
    FUZZ_HOLDS(slip >= MF_SLIP_NONE && slip < MF_SLIP_COUNT);
    FUZZ_HOLDS(slip == MF_SLIP_NONE || mf_slip_name(slip)[0] != '\0');
    bool number = slip == MF_SLIP_NONE && text[0] != '\0' && (field->min != 0 || field->max != 0);
    FUZZ_HOLDS(!number || (out.number >= field->min && out.number <= field->max));
}

/* The text up to a line end as every field there is, what follows as its unit. */
void fuzz_values(const uint8_t *data, size_t len)
{
    size_t n = 0;
    char shown[32];
    char *text = fuzz_text(data, len), *unit = strchr(text, '\n');
    if (unit != NULL)
        *unit++ = '\0';
    const mf_kind *kinds = mf_kinds(&n);
    days(text);
    for (size_t k = 0; k < n; k++)
        for (size_t f = 0; f < kinds[k].n_fields; f++)
            as_field(&kinds[k].fields[f], text, unit == NULL ? "" : unit);
    for (int id = 0; id < MF_LIMIT_COUNT; id++) {
        int64_t value = 0;
        mf_limit_value((mf_limit_id)id, text, &value);
    }
    mf_utf8_show(shown, sizeof shown, text);
    FUZZ_HOLDS(mf_utf8_check(shown, strlen(shown), NULL) == MF_UTF8_GOOD);
    free(text);
}
