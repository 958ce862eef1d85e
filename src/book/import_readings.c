/* import_readings.c - an XRF export: one reading a row, matched to the opening
 * schedule. What a row does not say clearly is refused, never guessed. */
#include "base/fail.h"
#include "base/utf8.h"
#include "book/component_of.h"
#include "book/import.h"
#include "book/row.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The columns of an export. A member of mf_reading takes the cell as it is; the
 * others are looked at here. */
#define NO_MEMBER SIZE_MAX
enum {
    COL_NUMBER,
    COL_INSTRUMENT,
    COL_OPERATOR,
    COL_DATE,
    COL_TIME,
    COL_OPENING,
    COL_COMPONENT,
    COL_SIDE,
    COL_SUBSTRATE,
    COL_COLOUR,
    COL_RESULT,
    COL_UNIT,
    COL_COUNT
};

static const struct {
    const char *head;
    size_t member;
    bool needed;
} columns[COL_COUNT] = {
    [COL_NUMBER] = {"number", offsetof(mf_reading, number), true},
    [COL_INSTRUMENT] = {"instrument", offsetof(mf_reading, instrument), true},
    [COL_OPERATOR] = {"operator", offsetof(mf_reading, operator_id), true},
    [COL_DATE] = {"date", offsetof(mf_reading, on), true},
    [COL_TIME] = {"time", offsetof(mf_reading, at_minute), true},
    [COL_OPENING] = {"opening", NO_MEMBER, true},
    [COL_COMPONENT] = {"component", offsetof(mf_reading, component), true},
    [COL_SIDE] = {"side", NO_MEMBER, true},
    [COL_SUBSTRATE] = {"substrate", offsetof(mf_reading, substrate), true},
    [COL_COLOUR] = {"colour", offsetof(mf_reading, colour), false},
    [COL_RESULT] = {"result", offsetof(mf_reading, loading_ug_cm2), true},
    [COL_UNIT] = {"unit", NO_MEMBER, false},
};

typedef struct readings {
    size_t at[COL_COUNT]; /* column of the file */
    int64_t first_seq;    /* of our chain, of the first row */
} readings;

/* ---- heads ---------------------------------------------------------------------------- */

static int column_named(const char *head)
{
    for (int i = 0; i < COL_COUNT; i++)
        if (mf_same_but_case(columns[i].head, head))
            return i;
    return -1;
}

static mf_status unknown_head(const mf_import *in, size_t column, mf_err *err)
{
    mf_buf mend = {0};
    mf_buf_text(&mend, "take the column out; known are:");
    for (size_t i = 0; i < COL_COUNT; i++)
        mf_buf_printf(&mend, "%s %s", i == 0 ? "" : ",", columns[i].head);
    mf_status status = mf_import_refuse(in, 0, column, "there is no such column",
                                        "nothing is left out silently", mf_buf_str(&mend), err);
    mf_buf_free(&mend);
    return status;
}

static mf_status check_heads(const mf_import *in, void *data, mf_err *err)
{
    readings *r = data;
    const mf_csv_row *heads = &in->csv.rows[0];
    for (size_t i = 0; i < heads->n_cells; i++)
        if (column_named(heads->cells[i]) < 0)
            return unknown_head(in, i, err);
    for (size_t i = 0; i < COL_COUNT; i++) {
        r->at[i] = mf_import_column(in, columns[i].head);
        if (r->at[i] != MF_NO_COLUMN || !columns[i].needed)
            continue;
        char what[80];
        snprintf(what, sizeof what, "the column %s is missing", columns[i].head);
        return mf_import_refuse(
            in, 0, MF_NO_COLUMN, what, "docs/intake.md lists the columns",
            "add the column, its cells may be empty where nothing is to be said", err);
    }
    return MF_OK;
}

/* ---- which component ------------------------------------------------------------------- */

static const char *cell(const mf_import *in, const readings *r, size_t row, int column)
{
    return mf_import_cell(in, row, r->at[column]);
}

static mf_status set_purpose(const mf_import *in, mf_draft *draft, mf_purpose purpose, mf_err *err)
{
    const mf_field *field = mf_field_at(in->kind, offsetof(mf_reading, purpose));
    return mf_draft_set(draft, field->name, field->choices[purpose], "", in->name, in->now->today,
                        err);
}

static mf_status set_calibration(const mf_import *in, const readings *r, mf_draft *draft,
                                 size_t row, mf_err *err)
{
    if (cell(in, r, row, COL_OPENING)[0] != '\0')
        return mf_import_refuse(in, row, r->at[COL_OPENING], "a calibration reading has an opening",
                                "it is taken on the reference film", "leave the opening empty",
                                err);
    in->out->calibrations++;
    return set_purpose(in, draft, MF_READ_CALIBRATION, err);
}

static mf_status set_component(mf_import *in, const readings *r, mf_draft *draft, size_t row,
                               mf_err *err)
{
    const char *word = cell(in, r, row, COL_COMPONENT);
    if (mf_same_but_case(word, "calibration"))
        return set_calibration(in, r, draft, row, err);
    mf_component_query query = {in->book, in->job, cell(in, r, row, COL_OPENING), word,
                                cell(in, r, row, COL_SIDE)};
    mf_component_answer answer = {0};
    mf_status status = mf_component_of(&query, &answer, err);
    if (status != MF_OK)
        return status;
    if (answer.what[0] != '\0') {
        static const int at[] = {COL_COMPONENT, COL_OPENING, COL_SIDE};
        return mf_import_refuse(in, row, r->at[at[answer.part]], answer.what, answer.why,
                                answer.mend, err);
    }
    const mf_field *field = mf_field_at(in->kind, offsetof(mf_reading, component));
    mf_import_note(in, field, r->at[COL_COMPONENT]);
    status = set_purpose(in, draft, MF_READ_PAINT, err);
    return status == MF_OK
               ? mf_draft_set(draft, field->name, answer.id, "", in->name, in->now->today, err)
               : status;
}

/* ---- the same reading twice --------------------------------------------------------------- */

static mf_status find_same(const mf_import *in, const mf_draft *draft, char found[MF_ENTRY_ID],
                           mf_err *err)
{
    const mf_field *number = mf_field_at(in->kind, offsetof(mf_reading, number));
    const mf_field *instrument = mf_field_at(in->kind, offsetof(mf_reading, instrument));
    mf_buf sql = {0};
    mf_stmt stmt;
    bool row = false;
    found[0] = '\0';
    mf_buf_printf(&sql, "SELECT entry FROM reading WHERE job = ?1 AND \"%s\" = ?2 AND \"%s\" = ?3",
                  number->name, instrument->name);
    mf_status status = mf_stmt_take(&stmt, &in->book->db, &sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, in->job);
    mf_row_bind(&stmt, 2, number, draft->body);
    mf_row_bind(&stmt, 3, instrument, draft->body);
    status = mf_stmt_step(&stmt, &row, err);
    if (row)
        snprintf(found, MF_ENTRY_ID, "%s", mf_stmt_column(&stmt, 0));
    mf_stmt_done(&stmt);
    return status;
}

/* The line of this file that made an entry, 0 when it was there before. */
static size_t line_of(const mf_import *in, const readings *r, const char *entry)
{
    const char *slash = strrchr(entry, '/');
    int64_t seq = slash == NULL ? 0 : strtoll(slash + 1, NULL, 10);
    bool ours = slash != NULL && (size_t)(slash - entry) == strlen(in->book->device) &&
                strncmp(entry, in->book->device, (size_t)(slash - entry)) == 0;
    if (!ours || r->first_seq == 0 || seq < r->first_seq)
        return 0;
    size_t row = (size_t)(seq - r->first_seq) + 1;
    return row < in->csv.n_rows ? in->csv.rows[row].line : 0;
}

static mf_status check_new(const mf_import *in, const readings *r, const mf_draft *draft,
                           size_t row, mf_err *err)
{
    char found[MF_ENTRY_ID], what[200];
    mf_status status = find_same(in, draft, found, err);
    if (status != MF_OK || found[0] == '\0')
        return status;
    size_t line = line_of(in, r, found);
    if (line > 0)
        snprintf(what, sizeof what, "reading %.20s of this instrument is on line %zu as well",
                 cell(in, r, row, COL_NUMBER), line);
    else
        snprintf(what, sizeof what, "reading %.20s of this instrument is in the job already: %s",
                 cell(in, r, row, COL_NUMBER), found);
    return mf_import_refuse(in, row, r->at[COL_NUMBER], what, "a reading counts once",
                            "take the line out, or correct its number", err);
}

/* ---- rows ------------------------------------------------------------------------------------ */

static mf_status set_members(mf_import *in, const readings *r, mf_draft *draft, size_t row,
                             mf_err *err)
{
    const char *unit = cell(in, r, row, COL_UNIT);
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < COL_COUNT; i++) {
        if (columns[i].member == NO_MEMBER || i == COL_COMPONENT)
            continue;
        const mf_field *field = mf_field_at(in->kind, columns[i].member);
        status = mf_import_set(in, draft, field, row, r->at[i], unit, err);
    }
    return status;
}

static mf_status import_row(mf_import *in, mf_draft *draft, size_t row, void *data, mf_err *err)
{
    readings *r = data;
    char id[MF_ENTRY_ID];
    mf_status status = set_members(in, r, draft, row, err);
    if (status == MF_OK)
        status = set_component(in, r, draft, row, err);
    if (status == MF_OK)
        status = check_new(in, r, draft, row, err);
    if (status == MF_OK)
        status = mf_import_write(in, draft, row, id, err);
    if (status != MF_OK)
        return status;
    if (r->first_seq == 0)
        r->first_seq = strtoll(strrchr(id, '/') + 1, NULL, 10);
    in->out->readings++;
    return MF_OK;
}

MF_API mf_status mf_import_readings(mf_book *book, const char *job, const char *name,
                                    const char *csv, size_t len, const mf_now *now, bool dry_run,
                                    mf_import_report *out, mf_err *err)
{
    mf_import_report unwanted = {0};
    readings r = {0};
    mf_import in = {.book = book,
                    .job = job == NULL ? "" : job,
                    .name = name,
                    .kind = mf_kind_named("reading"),
                    .now = now,
                    .out = out == NULL ? &unwanted : out};
    return mf_import_run(&in, csv, len, dry_run, check_heads, import_row, &r, err);
}
