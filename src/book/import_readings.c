/* import_readings.c - an XRF export: one reading a row, matched to the opening
 * schedule. What a row does not say clearly is refused, never guessed. */
#include "base/fail.h"
#include "base/file.h"
#include "base/letters.h"
#include "book/component_of.h"
#include "book/feed.h"
#include "book/import_forms.h"
#include "book/import_heads.h"
#include "book/journal.h"
#include "book/known.h"
#include "book/reading_set.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* From this entry on, lines and entries run side by side. */
typedef struct run {
    int64_t seq;
    size_t line;
} run;

typedef struct readings {
    mf_heads heads;
    mf_reading_set *set; /* the readings of the job, those of this file too */
    run *runs;           /* of the rows logged so far: few, however long the file */
    size_t n_runs, cap_runs;
    int64_t last_seq; /* of our chain, of the last row logged */
    size_t last_line;
    char serial[64]; /* of the first row, for the map */
} readings;

/* ---- cells --------------------------------------------------------------------------- */

/* The cell, or what was given for all rows. */
static const char *cell(const mf_import *in, const readings *r, size_t row, int column)
{
    const char *text = mf_import_cell(in, row, r->heads.at[column]);
    if (r->heads.at[column] != MF_NO_COLUMN || in->ask == NULL)
        return text;
    if (column == MF_COL_INSTRUMENT && in->ask->instrument != NULL)
        return in->ask->instrument;
    if (column == MF_COL_OPERATOR && in->ask->operator_id != NULL)
        return in->ask->operator_id;
    return text;
}

static mf_status set_members(mf_import *in, const readings *r, mf_draft *draft, size_t row,
                             mf_err *err)
{
    const char *said = cell(in, r, row, MF_COL_UNIT);
    mf_status status = MF_OK;
    for (int i = 0; status == MF_OK && i < MF_COL_COUNT; i++) {
        if (mf_columns[i].member == MF_NO_MEMBER || i == MF_COL_COMPONENT)
            continue;
        const mf_field *field = mf_field_at(in->kind, mf_columns[i].member);
        const char *unit = i != MF_COL_RESULT ? "" : said[0] != '\0' ? said : r->heads.unit;
        const char *text = cell(in, r, row, i);
        char room[MF_FORM_TEXT];
        if (r->heads.at[i] == MF_NO_COLUMN && text[0] != '\0')
            status = mf_draft_put(draft, field, text, "", in->name, in->now->today, err);
        else if ((status = mf_import_doubt(in, field, row, r->heads.at[i], err)) == MF_OK)
            status = mf_import_put(in, draft, field, row, r->heads.at[i], unit,
                                   mf_import_form(in, field, text, room), err);
    }
    return status;
}

/* ---- purpose and component -------------------------------------------------------------- */

static mf_status set_purpose(const mf_import *in, mf_draft *draft, mf_purpose purpose, mf_err *err)
{
    const mf_field *field = mf_field_at(in->kind, offsetof(mf_reading, purpose));
    return mf_draft_put(draft, field, field->choices[purpose], "", in->name, in->now->today, err);
}

/* "calibration" and "substrate" in place of a component, or the column purpose. */
static mf_status purpose_of(const mf_import *in, const readings *r, size_t row, mf_purpose *out,
                            mf_err *err)
{
    const mf_field *field = mf_field_at(in->kind, offsetof(mf_reading, purpose));
    const char *word = cell(in, r, row, MF_COL_PURPOSE);
    const char *component = cell(in, r, row, MF_COL_COMPONENT);
    *out = MF_READ_PAINT;
    if (mf_same_but_case(component, field->choices[MF_READ_CALIBRATION]))
        *out = MF_READ_CALIBRATION;
    else if (mf_same_but_case(component, field->choices[MF_READ_SUBSTRATE]))
        *out = MF_READ_SUBSTRATE;
    if (word[0] == '\0')
        return MF_OK;
    int said = mf_choice(field->choices, word);
    if (said < 0)
        return mf_import_refuse(in, row, r->heads.at[MF_COL_PURPOSE], "that is not a purpose", "",
                                "write paint, calibration, substrate or retest", err);
    *out = (mf_purpose)said;
    return MF_OK;
}

/* A reading on a film has no opening and no component. */
static mf_status set_film(const mf_import *in, const readings *r, mf_draft *draft, size_t row,
                          mf_purpose purpose, mf_err *err)
{
    const char *what = purpose == MF_READ_CALIBRATION
                           ? "a calibration reading has an opening"
                           : "a reading on bare substrate has an opening";
    if (cell(in, r, row, MF_COL_OPENING)[0] != '\0')
        return mf_import_refuse(in, row, r->heads.at[MF_COL_OPENING], what,
                                "it is taken on the reference film", "leave the opening empty",
                                err);
    return set_purpose(in, draft, purpose, err);
}

static mf_status set_component(mf_import *in, const readings *r, mf_draft *draft, size_t row,
                               mf_purpose purpose, mf_err *err)
{
    const char *word = cell(in, r, row, MF_COL_COMPONENT);
    mf_component_query query = {in->book, in->job, cell(in, r, row, MF_COL_OPENING), word,
                                cell(in, r, row, MF_COL_SIDE)};
    mf_component_answer answer = {0};
    mf_status status = mf_component_of(&query, &answer, err);
    if (status != MF_OK)
        return status;
    if (answer.what[0] != '\0') {
        static const int at[] = {MF_COL_COMPONENT, MF_COL_OPENING, MF_COL_SIDE};
        return mf_import_refuse(in, row, r->heads.at[at[answer.part]], answer.what, answer.why,
                                answer.mend, err);
    }
    const mf_field *field = mf_field_at(in->kind, offsetof(mf_reading, component));
    mf_import_note(in, field, r->heads.at[MF_COL_COMPONENT]);
    status = set_purpose(in, draft, purpose, err);
    return status == MF_OK
               ? mf_draft_put(draft, field, answer.id, "", in->name, in->now->today, err)
               : status;
}

/* ---- the same reading twice --------------------------------------------------------------- */

/* The line of this file that made an entry, 0 when it was there before. */
static size_t line_of(const mf_import *in, const readings *r, const char *entry)
{
    char device[MF_DEVICE_MAX + 1];
    int64_t seq = 0;
    if (!mf_entry_id_split(entry, device, &seq) || strcmp(device, in->book->device) != 0)
        return 0;
    for (size_t i = r->n_runs; i > 0; i--)
        if (seq >= r->runs[i - 1].seq)
            return r->runs[i - 1].line + (size_t)(seq - r->runs[i - 1].seq);
    return 0;
}

/* Whether the entry as first made says the same as the draft, word for word. */
static mf_status says_the_same(const mf_import *in, const mf_draft *draft, const char *entry,
                               bool *same, mf_err *err)
{
    mf_arena arena = {0};
    mf_buf body = {0};
    mf_line line;
    *same = false;
    mf_status status = mf_journal_entry(&line, &arena, &in->book->db, entry, same, err);
    if (status == MF_OK && !mf_json_canonical(&body, draft->body))
        status = mf_fail_memory(err);
    *same = status == MF_OK && *same && strcmp(line.body, mf_buf_str(&body)) == 0;
    mf_buf_free(&body);
    mf_arena_free(&arena);
    return status;
}

/* *skip: the row is in the job already and says the same. */
static mf_status check_new(const mf_import *in, const readings *r, const mf_draft *draft,
                           size_t row, bool *skip, mf_err *err)
{
    char found[MF_ENTRY_ID], what[200];
    *skip = false;
    mf_status status = mf_reading_set_find(r->set, draft->body, found, err);
    if (status != MF_OK || found[0] == '\0')
        return status;
    const char *number = cell(in, r, row, MF_COL_NUMBER);
    size_t line = line_of(in, r, found);
    if (line > 0) {
        snprintf(what, sizeof what, "reading %.20s of this instrument is on line %zu as well",
                 number, line);
        return mf_import_refuse(in, row, r->heads.at[MF_COL_NUMBER], what, "a reading counts once",
                                "take the line out, or correct its number", err);
    }
    status = says_the_same(in, draft, found, skip, err);
    if (status != MF_OK || *skip)
        return status;
    snprintf(what, sizeof what,
             "reading %.20s of this instrument is in the job already: %s, and says something else",
             number, found);
    return mf_import_refuse(in, row, r->heads.at[MF_COL_NUMBER], what, "a reading counts once",
                            "compare it with \"entry show\"; correct the entry, or take the line "
                            "out",
                            err);
}

/* ---- rows ------------------------------------------------------------------------------------ */

static mf_status note_line(readings *r, int64_t seq, size_t line, mf_err *err)
{
    bool beside = r->n_runs > 0 && seq - r->last_seq == 1 && line == r->last_line + 1;
    r->last_seq = seq;
    r->last_line = line;
    if (beside)
        return MF_OK;
    run *grown = mf_grown(r->runs, r->n_runs, &r->cap_runs, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    r->runs = grown;
    r->runs[r->n_runs++] = (run){seq, line};
    return MF_OK;
}

static mf_day day_of(const mf_import *in, const readings *r, size_t row)
{
    char room[MF_FORM_TEXT];
    const mf_field *on = mf_field_at(in->kind, offsetof(mf_reading, on));
    return mf_day_parse(mf_import_form(in, on, cell(in, r, row, MF_COL_DATE), room), NULL);
}

static mf_status logged(mf_import *in, readings *r, size_t row, int64_t seq, mf_purpose purpose,
                        mf_err *err)
{
    in->out->readings++;
    in->out->calibrations += purpose == MF_READ_CALIBRATION;
    if (in->ask != NULL && in->ask->logged != NULL) {
        const mf_import_row told = {cell(in, r, row, MF_COL_NUMBER),
                                    cell(in, r, row, MF_COL_INSTRUMENT),
                                    cell(in, r, row, MF_COL_OPERATOR),
                                    cell(in, r, row, MF_COL_OPENING),
                                    cell(in, r, row, MF_COL_COMPONENT),
                                    cell(in, r, row, MF_COL_RESULT),
                                    day_of(in, r, row)};
        in->ask->logged(in->ask->data, &told);
    }
    return note_line(r, seq, in->csv.rows[row].line, err);
}

static mf_status import_row(mf_import *in, mf_draft *draft, size_t row, void *data, mf_err *err)
{
    readings *r = data;
    char id[MF_ENTRY_ID];
    mf_purpose purpose = MF_READ_PAINT;
    bool skip = false;
    if (r->serial[0] == '\0')
        snprintf(r->serial, sizeof r->serial, "%s", cell(in, r, row, MF_COL_INSTRUMENT));
    mf_status status = set_members(in, r, draft, row, err);
    if (status == MF_OK)
        status = purpose_of(in, r, row, &purpose, err);
    if (status == MF_OK)
        status = purpose == MF_READ_CALIBRATION || purpose == MF_READ_SUBSTRATE
                     ? set_film(in, r, draft, row, purpose, err)
                     : set_component(in, r, draft, row, purpose, err);
    if (status == MF_OK)
        status = check_new(in, r, draft, row, &skip, err);
    if (status == MF_OK && skip) {
        in->out->skipped++;
        return MF_OK;
    }
    if (status == MF_OK)
        status = mf_import_write(in, draft, row, id, err);
    if (status == MF_OK)
        status = mf_reading_set_add(r->set, draft->body, err);
    return status == MF_OK
               ? logged(in, r, row, strtoll(strrchr(id, '/') + 1, NULL, 10), purpose, err)
               : status;
}

static mf_status read_heads(mf_import *in, void *data, mf_err *err)
{
    readings *r = data;
    mf_status status = mf_heads_read(in, &r->heads, err);
    return status == MF_OK ? mf_reading_set_new(&r->set, in->book, in->job, err) : status;
}

/* ---- the intake itself ---------------------------------------------------------------------- */

static mf_status set_number(mf_draft *draft, const char *field, int64_t number, const mf_now *now,
                            mf_err *err)
{
    char text[24];
    snprintf(text, sizeof text, "%lld", (long long)number);
    return mf_draft_set(draft, field, text, "", "", now->today, err);
}

static mf_status write_intake(mf_import *in, mf_err *err)
{
    mf_draft *draft = NULL;
    const mf_import_report *report = in->out;
    mf_status status = mf_draft_new(&draft, mf_kind_named("intake"), err);
    if (status == MF_OK)
        status = mf_draft_set(draft, "sha256", report->sha256, "", in->name, in->now->today, err);
    if (status == MF_OK)
        status =
            mf_draft_set(draft, "file", mf_file_name(in->name), "", in->name, in->now->today, err);
    if (status == MF_OK)
        status = set_number(draft, "readings", report->readings, in->now, err);
    if (status == MF_OK)
        status = set_number(draft, "calibrations", report->calibrations, in->now, err);
    if (status == MF_OK)
        status = set_number(draft, "skipped", report->skipped, in->now, err);
    if (status == MF_OK)
        status = mf_book_write(in->book, draft, in->job, in->now, in->name, NULL, err);
    mf_draft_free(draft);
    return status;
}

static mf_status finish(mf_import *in, void *data, mf_err *err)
{
    const readings *r = data;
    mf_status status = MF_OK;
    if (in->ask != NULL && in->ask->map != NULL && in->ask->map[0] != '\0')
        status = mf_heads_keep(in, r->serial, err);
    return status == MF_OK ? write_intake(in, err) : status;
}

/* Whether this very file was read into the job before. */
static mf_status find_before(mf_import *in, const mf_import_source *source, mf_err *err)
{
    const mf_kind *kind = mf_kind_named("intake");
    const mf_job_fold *fold = NULL;
    mf_status status = mf_feed_hash(source, in->out->sha256, err);
    if (status == MF_OK)
        status = mf_known_fold(&fold, in->book, in->job, err);
    size_t n = status == MF_OK ? mf_job_fold_count(fold, kind) : 0;
    for (size_t i = 0; i < n && !in->out->already; i++) {
        const mf_intake *it = mf_job_fold_item(fold, kind, i);
        in->out->already = it != NULL && strcmp(it->sha256, in->out->sha256) == 0;
        if (in->out->already)
            snprintf(in->out->before, sizeof in->out->before, "%s", it->src.entry);
    }
    return status;
}

static mf_status run_readings(mf_import *in, const mf_import_source *source, bool dry_run,
                              mf_err *err)
{
    readings r = {.n_runs = 0};
    const mf_import_work work = {read_heads, import_row, finish, &r};
    *in->out = (mf_import_report){0};
    mf_status status = find_before(in, source, err);
    if (status == MF_OK && !in->out->already)
        status = mf_import_run(in, source, dry_run, &work, err);
    mf_reading_set_free(r.set);
    free(r.runs);
    return status;
}

MF_API mf_status mf_import_readings(mf_book *book, const char *job, const char *name,
                                    const char *csv, size_t len, const mf_now *now, bool dry_run,
                                    mf_import_report *out, mf_err *err)
{
    mf_memory_source memory = {csv, len, 0};
    const mf_import_source source = mf_source_of_memory(&memory);
    mf_import_report unwanted = {0};
    mf_import in = {.book = book,
                    .job = job == NULL ? "" : job,
                    .name = name,
                    .kind = mf_kind_named("reading"),
                    .now = now,
                    .out = out == NULL ? &unwanted : out};
    return run_readings(&in, &source, dry_run, err);
}

MF_API mf_status mf_import_readings_from(mf_book *book, const mf_import_ask *ask,
                                         mf_import_report *out, mf_err *err)
{
    mf_import_report unwanted = {0};
    mf_import in = {.book = book,
                    .job = ask->job == NULL ? "" : ask->job,
                    .name = ask->name,
                    .kind = mf_kind_named("reading"),
                    .now = ask->now,
                    .out = out == NULL ? &unwanted : out,
                    .ask = ask};
    return run_readings(&in, ask->source, ask->dry_run, err);
}
