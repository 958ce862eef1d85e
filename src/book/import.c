#include "book/import.h"

#include "base/fail.h"
#include "base/letters.h"
#include "base/utf8.h"
#include "book/feed.h"
#include "book/journal.h"
#include "book/refs.h"
#include "book/straight.h"
#include "book/write.h"
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* ---- places ---------------------------------------------------------------------------- */

/* Where a row is: "name:line", with a column "name:line, column Head". */
static void where_is(const mf_import *in, size_t row, size_t column, char out[160])
{
    char head[48];
    if (column == MF_NO_COLUMN || column >= in->csv.rows[0].n_cells) {
        snprintf(out, 160, "%.90s:%zu", in->name, in->csv.rows[row].line);
        return;
    }
    mf_utf8_show(head, sizeof head, in->csv.rows[0].cells[column]);
    snprintf(out, 160, "%.90s:%zu, column %s", in->name, in->csv.rows[row].line, head);
}

mf_status mf_import_refuse(const mf_import *in, size_t row, size_t column, const char *what,
                           const char *why, const char *mend, mf_err *err)
{
    char where[160];
    where_is(in, row, column, where);
    return mf_fail(err, MF_INPUT, where, what, why, mend);
}

/* ---- heads and cells ---------------------------------------------------------------------- */

size_t mf_import_column(const mf_import *in, const char *head)
{
    const mf_csv_row *heads = &in->csv.rows[0];
    for (size_t i = 0; i < heads->n_cells; i++)
        if (mf_same_but_case(heads->cells[i], head))
            return i;
    return MF_NO_COLUMN;
}

const char *mf_import_cell(const mf_import *in, size_t row, size_t column)
{
    return column == MF_NO_COLUMN ? "" : in->csv.rows[row].cells[column];
}

void mf_import_note(mf_import *in, const mf_field *field, size_t column)
{
    size_t index = (size_t)(field - in->kind->fields);
    if (index < MF_MAX_FIELDS)
        in->column_of[index] = column == MF_NO_COLUMN ? 0 : column + 1;
}

static size_t column_of(const mf_import *in, const mf_field *field)
{
    size_t index = (size_t)(field - in->kind->fields);
    size_t noted = index < MF_MAX_FIELDS ? in->column_of[index] : 0;
    return noted == 0 ? MF_NO_COLUMN : noted - 1;
}

mf_status mf_import_put(mf_import *in, mf_draft *draft, const mf_field *field, size_t row,
                        size_t column, const char *unit, const char *text, mf_err *err)
{
    mf_import_note(in, field, column);
    if (text[0] == '\0')
        return MF_OK;
    mf_status status = mf_draft_put(draft, field, text, unit, "", in->now->today, err);
    if (status != MF_OK && err != NULL)
        where_is(in, row, column, err->where);
    return status;
}

mf_status mf_import_set(mf_import *in, mf_draft *draft, const mf_field *field, size_t row,
                        size_t column, const char *unit, mf_err *err)
{
    return mf_import_put(in, draft, field, row, column, unit, mf_import_cell(in, row, column), err);
}

/* ---- rows ------------------------------------------------------------------------------------ */

mf_status mf_import_write(mf_import *in, const mf_draft *draft, size_t row, char id[MF_ENTRY_ID],
                          mf_err *err)
{
    const mf_field *bad = NULL;
    mf_status status = mf_write_row(in->book, draft, in->job, in->now, "", id, &bad, err);
    if (status != MF_OK && err != NULL && (bad != NULL || err->where[0] == '\0'))
        where_is(in, row, bad == NULL ? MF_NO_COLUMN : column_of(in, bad), err->where);
    return status;
}

static mf_status check_heads_once(const mf_import *in, mf_err *err)
{
    const mf_csv_row *heads = &in->csv.rows[0];
    for (size_t i = 0; i < heads->n_cells; i++) {
        if (heads->cells[i][0] == '\0')
            return mf_import_refuse(in, 0, MF_NO_COLUMN, "a column has no head",
                                    "the first line names the columns",
                                    "name it, or take the column out", err);
        if (mf_import_column(in, heads->cells[i]) != i)
            return mf_import_refuse(in, 0, i, "there are two columns of this name", "",
                                    "take one of them out", err);
    }
    return MF_OK;
}

static mf_status one_row(mf_import *in, const mf_import_work *work, size_t row, mf_err *err)
{
    mf_draft *draft = NULL;
    mf_status status = mf_csv_cells(&in->csv, in->name, row, err);
    if (status == MF_OK)
        status = mf_draft_new(&draft, in->kind, err);
    if (status == MF_OK)
        status = work->row(in, draft, row, work->data, err);
    mf_draft_free(draft);
    in->out->rows++;
    return status;
}

/* Rows of the part at hand. A refused row is told and the next one read, so that
 * a person mends a file once; the first one is kept in err. */
static mf_status each_row(mf_import *in, const mf_import_work *work, mf_err *err)
{
    mf_err fault = {0};
    for (size_t row = 1; row < in->csv.n_rows; row++) {
        mf_status status = one_row(in, work, row, &fault);
        if (status == MF_OK)
            continue;
        if (err != NULL && (in->out->faults == 0 || status != MF_INPUT))
            *err = fault;
        if (status != MF_INPUT || in->ask == NULL || in->ask->fault == NULL)
            return status;
        in->out->faults++;
        in->ask->fault(in->ask->data, &fault);
        fault = (mf_err){0};
    }
    return MF_OK;
}

static mf_status each_part(mf_import *in, mf_feed *feed, const mf_import_work *work, mf_err *err)
{
    mf_status status = MF_OK;
    while (status == MF_OK) {
        status = each_row(in, work, err);
        if (status == MF_OK)
            status = mf_journal_read_back(in->book, err);
        if (status == MF_OK && in->ask != NULL && in->ask->progress != NULL)
            in->ask->progress(in->ask->data, feed->consumed + (int64_t)feed->part);
        if (status == MF_OK)
            status = mf_feed_next(feed, err);
        if (status != MF_OK || feed->part == 0)
            break;
        status = mf_csv_more(&in->csv, in->name, feed->text.data, feed->part, err);
    }
    return status;
}

static mf_status all_rows(mf_import *in, mf_feed *feed, const mf_import_work *work, mf_err *err)
{
    mf_status status = check_heads_once(in, err);
    if (status == MF_OK)
        status = work->heads(in, work->data, err);
    if (status == MF_OK)
        status = each_part(in, feed, work, err);
    if (status == MF_OK && in->out->rows == 0)
        status = mf_fail(err, MF_INPUT, in->name, "there is no line after the heads", "",
                         "export it again with its rows");
    if (status == MF_OK && in->out->faults > 1)
        status = mf_failf(err, MF_INPUT, in->name, "all rows are logged or none",
                          "correct them and read the file in again", "%lld rows are wrong",
                          (long long)in->out->faults);
    else if (status == MF_OK && in->out->faults == 1)
        status = MF_INPUT; /* err holds it */
    return status;
}

static mf_status run_inside(mf_import *in, const mf_import_source *source,
                            const mf_import_work *work, mf_err *err)
{
    mf_feed feed = {.source = source};
    mf_status status = MF_OK;
    if (!in->kind->of_firm && strcmp(in->kind->name, "house") != 0)
        status = mf_job_check(in->book, in->job, in->name, err);
    if (status == MF_OK)
        status = mf_feed_next(&feed, err);
    if (status == MF_OK)
        status = mf_csv_begin(&in->csv, in->name, feed.text.data, feed.part, err);
    if (status == MF_OK)
        status = all_rows(in, &feed, work, err);
    if (status == MF_OK && work->finish != NULL)
        status = work->finish(in, work->data, err);
    mf_feed_free(&feed);
    mf_csv_free(&in->csv);
    return status;
}

static mf_status run_part(mf_import *in, const mf_import_source *source, bool dry_run,
                          const mf_import_work *work, mf_err *err)
{
    mf_part part = {0};
    mf_status status = mf_part_begin(&part, in->book, err);
    if (status == MF_OK)
        status = run_inside(in, source, work, err);
    if (status == MF_OK && dry_run) {
        mf_part_end(&part, in->book, MF_NO, NULL); /* takes it back */
        return MF_OK;
    }
    return mf_part_end(&part, in->book, status, err);
}

mf_status mf_import_run(mf_import *in, const mf_import_source *source, bool dry_run,
                        const mf_import_work *work, mf_err *err)
{
    mf_db *db = &in->book->db;
    bool straight = !dry_run && source->size >= MF_STRAIGHT && mf_straight_begin(db);
    mf_status status = run_part(in, source, dry_run, work, err);
    if (straight)
        mf_straight_end(db);
    return status;
}
