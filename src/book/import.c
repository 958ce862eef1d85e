#include "book/import.h"

#include "base/digest.h"
#include "base/fail.h"
#include "base/utf8.h"
#include "book/refs.h"
#include "book/write.h"
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* ---- places ---------------------------------------------------------------------------- */

void mf_import_where(const mf_import *in, size_t row, size_t column, char out[160])
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
    mf_import_where(in, row, column, where);
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

mf_status mf_import_set(mf_import *in, mf_draft *draft, const mf_field *field, size_t row,
                        size_t column, const char *unit, mf_err *err)
{
    char where[160];
    const char *text = mf_import_cell(in, row, column);
    mf_import_note(in, field, column);
    if (text[0] == '\0')
        return MF_OK;
    mf_import_where(in, row, column, where);
    return mf_draft_set(draft, field->name, text, unit, where, in->now->today, err);
}

/* ---- rows ------------------------------------------------------------------------------------ */

mf_status mf_import_write(mf_import *in, const mf_draft *draft, size_t row, char id[MF_ENTRY_ID],
                          mf_err *err)
{
    char where[160];
    const mf_field *bad = NULL;
    mf_import_where(in, row, MF_NO_COLUMN, where);
    mf_status status = mf_write_draft(in->book, draft, in->job, in->now, where, id, &bad, err);
    if (status == MF_INPUT && bad != NULL && err != NULL)
        mf_import_where(in, row, column_of(in, bad), err->where);
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

static mf_status each_row(mf_import *in, mf_import_row_fn *each, void *data, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t row = 1; status == MF_OK && row < in->csv.n_rows; row++) {
        mf_draft *draft = NULL;
        status = mf_draft_new(&draft, in->kind, err);
        if (status == MF_OK)
            status = each(in, draft, row, data, err);
        mf_draft_free(draft);
        in->out->rows++;
    }
    return status;
}

static mf_status run_inside(mf_import *in, mf_import_heads_fn *heads, mf_import_row_fn *each,
                            void *data, mf_err *err)
{
    mf_status status = MF_OK;
    if (!in->kind->of_firm && strcmp(in->kind->name, "house") != 0)
        status = mf_job_check(in->book, in->job, in->name, err);
    if (status == MF_OK)
        status = check_heads_once(in, err);
    if (status == MF_OK)
        status = heads(in, data, err);
    if (status == MF_OK && in->csv.n_rows < 2)
        status = mf_fail(err, MF_INPUT, in->name, "there is no line after the heads", "",
                         "export it again with its rows");
    return status == MF_OK ? each_row(in, each, data, err) : status;
}

mf_status mf_import_run(mf_import *in, const char *csv, size_t len, bool dry_run,
                        mf_import_heads_fn *heads, mf_import_row_fn *each, void *data, mf_err *err)
{
    mf_part part = {0};
    *in->out = (mf_import_report){0};
    if (!mf_digest_hex(csv, len, in->out->sha256))
        return mf_fail_memory(err);
    mf_status status = mf_csv_parse(&in->csv, in->name, csv, len, err);
    if (status != MF_OK)
        return status;
    status = mf_part_begin(&part, in->book, err);
    if (status == MF_OK)
        status = run_inside(in, heads, each, data, err);
    if (status == MF_OK && dry_run)
        mf_part_end(&part, in->book, MF_NO, NULL); /* takes it back */
    else
        status = mf_part_end(&part, in->book, status, err);
    mf_csv_free(&in->csv);
    return status;
}
