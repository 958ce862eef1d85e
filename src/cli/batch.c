/* Entries that are written together; see batch.h. */
#include "cli/batch.h"

#include "base/fail.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

mf_batch_row *mf_batch_add(mf_batch *batch, const char *kind, int line)
{
    mf_batch_row *rows = mf_grown(batch->row, batch->n, &batch->room, sizeof *rows);
    if (rows == NULL) {
        batch->failed = true;
        return NULL;
    }
    batch->row = rows;
    mf_batch_row *row = &rows[batch->n++];
    memset(row, 0, sizeof *row);
    row->kind = mf_kind_named(kind);
    row->line = line;
    return row;
}

void mf_batch_put(mf_batch *batch, mf_batch_row *row, const char *option, const char *value,
                  int line)
{
    char *name = mf_arena_text(&batch->text, option), *text = mf_arena_text(&batch->text, value);
    if (name == NULL || text == NULL) {
        batch->failed = true;
        return;
    }
    row->at_line[row->args.n_opts < MF_ARGS_OPTS ? row->args.n_opts : 0] = line;
    mf_args_put(&row->args, name, text);
}

void mf_batch_fault(mf_batch *batch, int line, const mf_err *fault)
{
    mf_batch_slip *list = mf_grown(batch->fault, batch->n_fault, &batch->fault_room, sizeof *list);
    if (list == NULL) {
        batch->failed = true;
        return;
    }
    batch->fault = list;
    size_t at = batch->n_fault++;
    for (; at > 0 && list[at - 1].line > line; at--)
        list[at] = list[at - 1];
    list[at] = (mf_batch_slip){line, *fault};
    const char *option = strncmp(fault->where, "--", 2) == 0 ? fault->where + 2 : "";
    if (batch->file != NULL)
        snprintf(list[at].err.where, sizeof list[at].err.where, "%.90s:%d%s%.40s", batch->file,
                 line, option[0] == '\0' ? "" : ", ", option);
}

/* ---- one row ------------------------------------------------------------------------ */

/* The values of a row, each looked at, whatever is wrong with another. */
static mf_draft *draft_of(const mf_cli *cli, mf_batch *batch, mf_batch_row *row)
{
    mf_draft *draft = NULL;
    mf_err err = {0};
    if (mf_draft_new(&draft, row->kind, &err) != MF_OK) {
        batch->failed = true;
        return NULL;
    }
    for (int i = 0; i < row->args.n_opts; i++) {
        char where[64];
        snprintf(where, sizeof where, "--%s", row->args.opt[i]);
        if (mf_draft_set(draft, row->args.opt[i], row->args.value[i], "", where, cli->today,
                         &err) == MF_OK)
            continue;
        mf_batch_fault(batch, row->at_line[i], &err);
        row->wrong = true;
    }
    return draft;
}

/* Whether the list names a thing of that kind whose own row is wrong: of that the person is
 * told, and not once more by everything that hangs on it. */
static bool names_a_wrong_one(const mf_batch *batch, const mf_field *field, const char *list)
{
    for (size_t i = 0; i < batch->n; i++) {
        const mf_batch_row *row = &batch->row[i];
        const mf_field *key = mf_kind_key(row->kind);
        const char *id = key == NULL ? NULL : mf_args_value(&row->args, key->option);
        if (row->wrong && id != NULL && strcmp(row->kind->name, field->ref) == 0 &&
            mf_id_in_list(list, id))
            return true;
    }
    return false;
}

static bool hangs_on_a_wrong_one(const mf_batch *batch, const mf_batch_row *row)
{
    for (int i = 0; i < row->args.n_opts; i++) {
        const mf_field *field = mf_field_named(row->kind, row->args.opt[i]);
        if (field != NULL && field->ref != NULL &&
            names_a_wrong_one(batch, field, row->args.value[i]))
            return true;
    }
    return false;
}

/* ---- the group ------------------------------------------------------------------------ */

typedef struct writing {
    mf_cli *cli;
    mf_batch *batch;
    char job[48];
    mf_now now;
} writing;

/* In place of a house that is wrong, so that the rest can be looked at; there is a fault, so
 * that all of it is taken back. */
static mf_status stand_in(writing *w, mf_err *err)
{
    char day[MF_DAY_TEXT];
    mf_draft *draft = NULL;
    mf_day_text(w->cli->today, day);
    snprintf(w->job, sizeof w->job, "%s", "stand-in.0");
    const char *const fields[][2] = {{"id", w->job},       {"address", "-"},
                                     {"description", "-"}, {"building", "dwelling"},
                                     {"work", "other"},    {"owner-occupied", "yes"},
                                     {"start", day}};
    mf_status status = mf_draft_of(&draft, "house", fields, sizeof fields / sizeof fields[0], "",
                                   w->cli->today, err);
    if (status == MF_OK)
        status = mf_book_write(w->cli->book, draft, w->job, &w->now, "", NULL, err);
    mf_draft_free(draft);
    return status;
}

static bool is_house(const mf_batch_row *row)
{
    return strcmp(row->kind->name, "house") == 0;
}

/* The row before this one that has its id, or NULL: it is in no book yet. */
static const mf_batch_row *twin_of(const mf_batch *batch, const mf_batch_row *row, const char **id)
{
    const mf_field *key = mf_kind_key(row->kind);
    *id = key == NULL ? NULL : mf_args_value(&row->args, key->option);
    for (const mf_batch_row *it = batch->row; *id != NULL && it < row; it++) {
        const char *own = mf_args_value(&it->args, key->option);
        if (it->kind == row->kind && own != NULL && strcmp(own, *id) == 0)
            return it;
    }
    return NULL;
}

static mf_status refuse_twin(const mf_batch *batch, const mf_batch_row *row, mf_err *err)
{
    const char *id;
    const mf_batch_row *twin = twin_of(batch, row, &id);
    return twin == NULL
               ? MF_OK
               : mf_failf(err, MF_INPUT, "--id", "an id names one thing", "choose another id",
                          "the id %.40s stands in line %d as well", id, twin->line);
}

static mf_status write_row(writing *w, mf_batch_row *row, mf_err *err)
{
    mf_err fault = {0};
    mf_status status = MF_OK;
    mf_log_place(w->cli, row->kind, &row->args);
    mf_draft *draft = draft_of(w->cli, w->batch, row);
    const char *id = is_house(row) ? mf_args_value(&row->args, "id") : NULL;
    if (id != NULL)
        snprintf(w->job, sizeof w->job, "%s", id);
    bool goes_in = draft != NULL && !row->wrong && !hangs_on_a_wrong_one(w->batch, row);
    if (goes_in)
        status = refuse_twin(w->batch, row, &fault);
    if (goes_in && status == MF_OK)
        status = mf_book_write(w->cli->book, draft, w->job, &w->now, "", NULL, &fault);
    mf_draft_free(draft);
    if (status == MF_SYSTEM) {
        *err = fault;
        return status;
    }
    if (status != MF_OK) {
        mf_batch_fault(w->batch, row->line, &fault);
        row->wrong = true;
    }
    return is_house(row) && row->wrong ? stand_in(w, err) : MF_OK;
}

static mf_status write_rows(writing *w, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; i < w->batch->n && status == MF_OK; i++)
        status = write_row(w, &w->batch->row[i], err);
    if (status == MF_OK && w->batch->failed)
        return mf_fail_memory(err);
    if (status == MF_OK && w->batch->n_fault > 0) {
        if (err != NULL)
            *err = w->batch->fault[0].err;
        return MF_INPUT;
    }
    return status;
}

mf_status mf_batch_write(mf_cli *cli, mf_batch *batch, const char *job, bool dry_run, mf_err *err)
{
    writing w = {.cli = cli, .batch = batch};
    snprintf(w.job, sizeof w.job, "%s", job);
    mf_status status = mf_cli_now(cli, &w.now, err);
    if (status == MF_OK)
        status = mf_cli_book(cli, err);
    if (status == MF_OK)
        status = mf_book_begin(cli->book, err);
    if (status != MF_OK)
        return status;
    status = write_rows(&w, err);
    if (status == MF_OK && !dry_run)
        status = mf_book_commit(cli->book, err);
    else
        mf_book_rollback(cli->book);
    mf_book_job_free(cli->spare); /* read before this was written */
    cli->spare = NULL;
    return status;
}

void mf_batch_free(mf_batch *batch)
{
    mf_arena_free(&batch->text);
    free(batch->row);
    free(batch->fault);
    *batch = (mf_batch){0};
}
