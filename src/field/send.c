/* send.c - what was added here: listed, written as a file, and known to have arrived. */
#include "base/fail.h"
#include "field/page.h"
#include "journal/amend.h"
#include "words/words_data.h"

#include <stdlib.h>
#include <string.h>

/* ---- the list -------------------------------------------------------------------------- */

/* A value of a body as text. */
static void put_value(const json_t *value, mf_buf *out)
{
    if (json_is_string(value))
        mf_buf_text(out, json_string_value(value));
    else
        mf_json_canonical(out, value);
}

static json_t *fields_of(const mf_line *line, const json_t *body)
{
    json_t *all = json_array(), *value, *shared = (json_t *)(uintptr_t)body;
    const mf_kind *kind = mf_kind_named(line->kind);
    const char *name;
    json_object_foreach(shared, name, value)
    {
        mf_buf text = {0};
        const mf_field *field = kind == NULL ? NULL : mf_field_named(kind, name);
        json_t *one = json_object();
        put_value(value, &text);
        mf_field_put(one, "name", field == NULL ? name : field->option);
        mf_field_put(one, "value", mf_buf_str(&text));
        json_array_append_new(all, one);
        mf_buf_free(&text);
    }
    return all;
}

static json_t *entry_of(const mf_field_page *page, const mf_job_fold *fold, const mf_field_line *it)
{
    json_t *one = json_object();
    json_t *body = mf_json_parse(it->line.body, strlen(it->line.body), NULL);
    const char *step = mf_json_string_of(body, "step");
    const mf_correction *force = mf_job_fold_in_force(fold, it->id, false);
    bool correction = strcmp(it->line.kind, MF_KIND_CORRECTION) == 0;
    mf_field_put(one, "entry", it->id);
    mf_field_put(one, "at", it->line.at);
    mf_field_put(one, "who", it->line.who);
    mf_field_put(one, "kind", it->line.kind);
    mf_field_put(one, "says", mf_field_words2(page, "field.kind", it->line.kind));
    mf_field_put(one, "step", step[0] == '\0' ? "" : mf_words_step(page->lang, &fold->job, step));
    mf_field_put(one, "corrected", force == NULL ? "" : force->src.entry);
    mf_field_put_is(one, "sent", it->line.seq <= page->sent);
    mf_field_put_is(one, "withdrawn", force != NULL && force->after[0] == '\0');
    mf_field_put_is(one, "correctable", !correction && (force == NULL || force->after[0] != '\0'));
    json_object_set_new(one, "fields", fields_of(&it->line, body));
    json_decref(body);
    return one;
}

mf_status mf_field_entries(mf_field_page *page, json_t *out, mf_err *err)
{
    const mf_job_fold *fold = NULL;
    const mf_folds folds = mf_field_folds(page);
    json_t *all = json_array();
    mf_status status = folds.of(&fold, page, page->job, err);
    for (size_t i = page->n; status == MF_OK && i > 0; i--)
        if (page->at[i - 1].own)
            json_array_append_new(all, entry_of(page, fold, &page->at[i - 1]));
    json_object_set_new(out, "all", all);
    return status;
}

/* ---- the file --------------------------------------------------------------------------- */

/* Bytes stand in front of the first entry that names them. */
static void put_contents(mf_field_page *page, const mf_line *line, bool *put)
{
    if (strcmp(line->kind, MF_KIND_ATTACHMENT) != 0)
        return;
    json_t *body = mf_json_parse(line->body, strlen(line->body), NULL);
    const char *sha256 = mf_json_string_of(body, "sha256");
    for (size_t i = 0; i < page->n_content; i++) {
        const mf_field_content *it = &page->content[i];
        if (put[i] || strcmp(it->sha256, sha256) != 0)
            continue;
        mf_entries_put_content(&page->file, it->sha256, it->bytes.data, it->bytes.len);
        put[i] = true;
    }
    json_decref(body);
}

static void put_name(const mf_field_page *page, json_t *out)
{
    mf_buf name = {0};
    mf_buf_printf(&name, "%s-%s.entries", page->job, page->device);
    mf_field_put(out, "name", mf_buf_str(&name));
    mf_buf_free(&name);
}

mf_status mf_field_send(mf_field_page *page, json_t *out, mf_err *err)
{
    mf_entries_heads heads = {0};
    bool *put = calloc(page->n_content + 1, sizeof *put), good = put != NULL;
    mf_entries_put_first(&page->file, mf_field_text(page, "at"), page->from, page->job);
    for (size_t i = 0; good && i < page->n; i++) {
        if (!page->at[i].own)
            continue;
        put_contents(page, &page->at[i].line, put);
        mf_entries_put_line(&page->file, &page->at[i].line);
        good = mf_entries_head_note(&heads, &page->at[i].line);
    }
    mf_entries_put_last(&page->file, heads.at, heads.n);
    put_name(page, out);
    mf_field_put_number(out, "entries", (int64_t)mf_field_count_own(page));
    free(heads.at);
    free(put);
    return good ? MF_OK : mf_fail_memory(err);
}

/* ---- the receipt ---------------------------------------------------------------------------- */

/* The number of the own entry whose "device seq hash" the line begins with, 0 = of none. */
static int64_t named_by(const mf_field_page *page, const char *line, size_t len)
{
    int64_t seq = 0;
    for (size_t i = 0; i < page->n && seq == 0; i++) {
        const mf_line *own = &page->at[i].line;
        mf_buf want = {0};
        mf_buf_printf(&want, "%s %lld %s", own->device, (long long)own->seq, own->hash);
        if (page->at[i].own && want.len <= len && memcmp(line, mf_buf_str(&want), want.len) == 0)
            seq = own->seq;
        mf_buf_free(&want);
    }
    return seq;
}

/* What the book says it holds of this install: only its own hash proves that it arrived. */
mf_status mf_field_receipt(mf_field_page *page, json_t *out, mf_err *err)
{
    const char *at = mf_field_text(page, "text");
    int64_t seq = 0;
    while (*at != '\0' && seq == 0) {
        size_t len = strcspn(at, "\r\n");
        for (size_t i = 0; i < len && seq == 0; i++)
            seq = named_by(page, at + i, len - i);
        at += len + strspn(at + len, "\r\n");
    }
    if (seq == 0)
        return mf_fail(err, MF_INPUT, "receipt", mf_field_words(page, "field.receipt-none"), "",
                       mf_field_words(page, "field.receipt-mend"));
    page->sent = seq > page->sent ? seq : page->sent;
    mf_field_put_number(out, "sent", page->sent);
    return mf_field_show_job(page, out, err);
}

/* ---- the wording ------------------------------------------------------------------------------
 */

mf_status mf_field_all_words(mf_field_page *page, json_t *out, mf_err *err)
{
    const char *prefix = mf_field_text(page, "prefix");
    json_t *all = json_object();
    for (size_t i = 0; i < mf_words_count; i++)
        if (strncmp(mf_words_rows[i].id, prefix, strlen(prefix)) == 0)
            mf_field_put(all, mf_words_rows[i].id, mf_field_words(page, mf_words_rows[i].id));
    (void)err;
    json_object_set_new(out, "words", all);
    return MF_OK;
}
