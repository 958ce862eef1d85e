/* import_kind.c - a CSV whose heads are options of a kind. */
#include "base/fail.h"
#include "base/letters.h"
#include "book/feed.h"
#include "book/import.h"
#include <stdio.h>
#include <string.h>

#define UNIT "unit"

/* The field a head names; heads are compared without regard to case. */
static const mf_field *field_of_head(const mf_kind *kind, const char *head)
{
    for (size_t i = 0; i < kind->n_fields; i++)
        if (mf_field_is_typed(&kind->fields[i]) && mf_same_but_case(kind->fields[i].option, head))
            return &kind->fields[i];
    return NULL;
}

static bool has_loading(const mf_kind *kind)
{
    for (size_t i = 0; i < kind->n_fields; i++)
        if (kind->fields[i].type == MF_F_LOADING)
            return true;
    return false;
}

static bool is_unit(const mf_kind *kind, const char *head)
{
    return has_loading(kind) && field_of_head(kind, UNIT) == NULL && mf_same_but_case(head, UNIT);
}

static mf_status unknown_head(const mf_import *in, size_t column, mf_err *err)
{
    mf_buf mend = {0};
    mf_buf_text(&mend, "take the column out; known are:");
    for (size_t i = 0; i < in->kind->n_fields; i++)
        if (mf_field_is_typed(&in->kind->fields[i]))
            mf_buf_printf(&mend, "%s %s", i == 0 ? "" : ",", in->kind->fields[i].option);
    mf_status status = mf_import_refuse(in, 0, column, "there is no such column",
                                        "nothing is left out silently", mf_buf_str(&mend), err);
    mf_buf_free(&mend);
    return status;
}

static mf_status check_heads(mf_import *in, void *data, mf_err *err)
{
    (void)data;
    const mf_csv_row *heads = &in->csv.rows[0];
    for (size_t i = 0; i < heads->n_cells; i++)
        if (field_of_head(in->kind, heads->cells[i]) == NULL && !is_unit(in->kind, heads->cells[i]))
            return unknown_head(in, i, err);
    for (size_t i = 0; i < in->kind->n_fields; i++) {
        const mf_field *field = &in->kind->fields[i];
        char what[120];
        if ((field->flags & MF_F_NEEDED) == 0 ||
            mf_import_column(in, field->option) != MF_NO_COLUMN)
            continue;
        snprintf(what, sizeof what, "the column %.60s is missing", field->option);
        return mf_import_refuse(in, 0, MF_NO_COLUMN, what, field->doc, "add the column", err);
    }
    return MF_OK;
}

static mf_status import_row(mf_import *in, mf_draft *draft, size_t row, void *data, mf_err *err)
{
    (void)data;
    const mf_csv_row *heads = &in->csv.rows[0];
    const char *unit = has_loading(in->kind) && field_of_head(in->kind, UNIT) == NULL
                           ? mf_import_cell(in, row, mf_import_column(in, UNIT))
                           : "";
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < heads->n_cells; i++) {
        const mf_field *field = field_of_head(in->kind, heads->cells[i]);
        if (field != NULL)
            status = mf_import_set(in, draft, field, row, i, unit, err);
    }
    if (status != MF_OK)
        return status;
    const char *job = in->job;
    if (strcmp(in->kind->name, "house") == 0) { /* each line is a job of its own */
        const char *id =
            json_string_value(json_object_get(draft->body, mf_kind_key(in->kind)->name));
        in->job = id == NULL ? "" : id;
    }
    status = mf_import_write(in, draft, row, NULL, err);
    in->job = job;
    return status;
}

MF_API mf_status mf_import_kind(mf_book *book, const char *job, const mf_kind *kind,
                                const char *name, const char *csv, size_t len, const mf_now *now,
                                bool dry_run, mf_import_report *out, mf_err *err)
{
    mf_import_report unwanted = {0};
    mf_import in = {.book = book,
                    .job = job == NULL ? "" : job,
                    .name = name,
                    .kind = kind,
                    .now = now,
                    .out = out == NULL ? &unwanted : out};
    if (kind == NULL)
        return mf_fail(err, MF_USAGE, name, "there is no such kind of entry", "", "");
    mf_memory_source memory = {csv, len, 0};
    const mf_import_source source = mf_source_of_memory(&memory);
    const mf_import_work work = {.heads = check_heads, .row = import_row};
    *in.out = (mf_import_report){0};
    mf_status status = mf_feed_hash(&source, in.out->sha256, err);
    return status == MF_OK ? mf_import_run(&in, &source, dry_run, &work, err) : status;
}
