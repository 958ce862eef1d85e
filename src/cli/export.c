/* A job's tables: rows and cells, whatever the format. */
#include "cli/export.h"

#include "base/fail.h"
#include "base/utf8.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COLUMNS = 32 };

static void kind_table(const mf_kind *kind, const char *items, size_t count, const mf_hide *hide,
                       const mf_sink *sink)
{
    const char *heads[COLUMNS];
    char room[COLUMNS][MF_VALUE_TEXT];
    mf_cell cells[COLUMNS];
    mf_arena arena = {0};
    size_t n = 0;
    heads[n++] = "entry";
    heads[n++] = "corrected_by";
    for (size_t f = 0; f < kind->n_fields && n < COLUMNS; f++)
        heads[n++] = kind->fields[f].option; /* the cells are as typed, in its unit */
    sink->table(sink->data, kind->name, heads, n);
    for (size_t i = 0; i < count; i++) {
        const char *item = items + i * kind->size;
        mf_src src;
        memcpy(&src, item, sizeof src);
        cells[0] = (mf_cell){src.entry, false};
        cells[1] = (mf_cell){src.correction, false};
        for (size_t f = 0; f + 2 < n; f++) {
            const mf_field *field = &kind->fields[f];
            const char *text =
                mf_hide_cell(hide, field, mf_words_value(field, item, room[f]), &arena);
            cells[f + 2] = (mf_cell){text, mf_field_is_number(field->type)};
        }
        sink->row(sink->data, cells, n);
        mf_arena_free(&arena);
    }
}

static bool within(const mf_kind *kind, mf_scope scope)
{
    return scope == MF_SCOPE_ALL || kind->of_firm == (scope == MF_SCOPE_FIRM);
}

void mf_export_kinds(const mf_job *job, const char *only, mf_scope scope, const mf_hide *hide,
                     const mf_sink *sink)
{
    size_t n_kinds, count;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    for (size_t k = 0; k < n_kinds; k++) {
        if ((only != NULL && strcmp(only, kinds[k].name) != 0) || !within(&kinds[k], scope))
            continue;
        const char *items = mf_kind_items(job, &kinds[k], &count);
        if (count > 0 || only != NULL)
            kind_table(&kinds[k], items, count, hide, sink);
    }
}

static void finding_row(const mf_cli *cli, const mf_finding *whole, const mf_hide *hide,
                        const mf_sink *sink)
{
    const mf_finding finding = mf_hide_finding(hide, whole);
    const mf_requirement *req = finding.requirement;
    const char *says = mf_words2(cli->lang, "req", req->id);
    const char *subject = finding.subject == NULL ? "" : finding.subject;
    char why[1024];
    mf_arena arena = {0};
    mf_words_why(cli->lang, &finding, why, sizeof why);
    mf_cell cells[] = {{req->id, false},
                       {mf_verdict_name(finding.verdict), false},
                       {mf_hide_cell(hide, NULL, subject, &arena), false},
                       {says == NULL ? "" : says, false},
                       {mf_hide_cell(hide, NULL, why, &arena), false},
                       {req->citation, false},
                       {finding.evidence == NULL ? "" : finding.evidence, false}};
    sink->row(sink->data, cells, sizeof cells / sizeof cells[0]);
    mf_arena_free(&arena);
}

void mf_export_findings_table(const mf_sink *sink)
{
    static const char *const heads[] = {"requirement", "verdict",  "subject", "says",
                                        "reason_text", "citation", "evidence"};
    sink->table(sink->data, "findings", heads, sizeof heads / sizeof heads[0]);
}

mf_status mf_export_findings(const mf_cli *cli, const mf_job *job, const mf_hide *hide,
                             const mf_sink *sink, mf_err *err)
{
    mf_audit_ask question = {job, cli->today, 0, ""};
    mf_finding *found;
    size_t n;
    if (!mf_findings(&question, &found, &n))
        return mf_fail_memory(err);
    mf_export_findings_table(sink);
    for (size_t i = 0; i < n; i++)
        finding_row(cli, &found[i], hide, sink);
    free(found);
    return MF_OK;
}

/* ---- CSV ------------------------------------------------------------------------------- */

void mf_export_text(mf_buf *out, const char *text)
{
    size_t len = strlen(text), step = 0;
    for (size_t at = 0; at < len; at += step) {
        int32_t c = -1;
        step = mf_utf8_next(text + at, len - at, &c);
        bool plain = step > 0 && !mf_utf8_is_control(c);
        step = step == 0 ? 1 : step;
        mf_buf_add(out, plain ? text + at : "?", plain ? step : 1);
    }
}

static void csv_cell(mf_buf *out, const mf_cell *cell, bool first)
{
    mf_buf plain = {0};
    mf_export_text(&plain, cell->text);
    out->failed = out->failed || plain.failed;
    const char *text = mf_buf_str(&plain);
    bool formula = !cell->number && text[0] != '\0' && strchr("=+-@\t", text[0]) != NULL;
    bool quote = strpbrk(text, ",\"\r\n") != NULL;
    mf_buf_text(out, first ? "" : ",");
    mf_buf_text(out, quote ? "\"" : "");
    mf_buf_text(out, formula ? "'" : "");
    for (; *text != '\0'; text++)
        mf_buf_add(out, *text == '"' ? "\"\"" : text, *text == '"' ? 2 : 1);
    mf_buf_text(out, quote ? "\"" : "");
    mf_buf_free(&plain);
}

static void csv_row(void *data, const mf_cell *cells, size_t n)
{
    for (size_t i = 0; i < n; i++)
        csv_cell(data, &cells[i], i == 0);
    mf_buf_text(data, "\r\n");
}

static void csv_table(void *data, const char *name, const char *const *heads, size_t n)
{
    (void)name;
    for (size_t i = 0; i < n; i++)
        csv_cell(data, &(mf_cell){heads[i], false}, i == 0);
    mf_buf_text(data, "\r\n");
}

mf_sink mf_export_csv(mf_buf *out)
{
    return (mf_sink){out, csv_table, csv_row};
}

/* ---- JSON lines -------------------------------------------------------------------------- */

/* null for what is left out; a text that says it as well says the rest. */
static void hide_members(const mf_kind *kind, const char *item, const mf_hide *hide, json_t *object)
{
    for (size_t f = 0; f < kind->n_fields; f++) {
        const mf_field *field = &kind->fields[f];
        mf_arena arena = {0};
        const mf_value value = mf_item_value(field, item);
        if (mf_hide_field(hide, field)) {
            json_object_set_new(object, field->name, json_null());
        } else if (value.given && field->type == MF_F_TEXT) {
            const char *text = mf_hide_cell(hide, field, value.text, &arena);
            if (text != value.text)
                json_object_set_new(object, field->name, json_string(text));
        }
        mf_arena_free(&arena);
    }
}

static bool json_line(const mf_job *job, const mf_kind *kind, const char *item, const mf_hide *hide,
                      mf_buf *out)
{
    json_t *object = mf_json_item(kind, item);
    json_object_set_new(object, "job", json_string(job->id));
    json_object_set_new(object, "kind", json_string(kind->name));
    if (hide->on)
        hide_members(kind, item, hide, object);
    char *text = mf_json_text(object, JSON_COMPACT | JSON_PRESERVE_ORDER);
    json_decref(object);
    if (text == NULL)
        return false;
    mf_buf_text(out, text);
    mf_buf_text(out, "\n");
    free(text);
    return true;
}

mf_status mf_export_jsonl(const mf_job *job, mf_scope scope, const mf_hide *hide, mf_buf *out,
                          mf_err *err)
{
    size_t n_kinds, count;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    for (size_t k = 0; k < n_kinds; k++) {
        const char *items = mf_kind_items(job, &kinds[k], &count);
        for (size_t i = 0; i < count && within(&kinds[k], scope); i++)
            if (!json_line(job, &kinds[k], items + i * kinds[k].size, hide, out))
                return mf_fail_memory(err);
    }
    return MF_OK;
}
