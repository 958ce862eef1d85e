/* door.c - a request is read, answered, and what it came to is written. */
#include "base/fail.h"
#include "field/page.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *name;
    mf_field_fn *answer;
    bool needs_job;
} requests[] = {
    {"load", mf_field_load, false},       {"device", mf_field_device, true},
    {"again", mf_field_again, true},      {"job", mf_field_show_job, true},
    {"gate", mf_field_gate, true},        {"steps", mf_field_steps, true},
    {"verify", mf_field_verify, true},    {"form", mf_field_form, true},
    {"add", mf_field_add, true},          {"attach", mf_field_attach, true},
    {"correct", mf_field_correct, true},  {"entries", mf_field_entries, true},
    {"send", mf_field_send, true},        {"receipt", mf_field_receipt, true},
    {"words", mf_field_all_words, false},
};

mf_field_page *mf_field_new(void)
{
    return calloc(1, sizeof(mf_field_page));
}

void mf_field_free(mf_field_page *page)
{
    if (page == NULL)
        return;
    mf_field_drop(page);
    mf_buf_free(&page->text);
    mf_buf_free(&page->file);
    free(page);
}

/* ---- small things --------------------------------------------------------------------- */

const char *mf_field_text(const mf_field_page *page, const char *name)
{
    return mf_json_string_of(page->ask, name);
}

const char *mf_field_words(const mf_field_page *page, const char *id)
{
    const char *words = mf_words(page->lang, id);
    return words == NULL ? id : words;
}

const char *mf_field_words2(const mf_field_page *page, const char *prefix, const char *id)
{
    const char *words = mf_words2(page->lang, prefix, id);
    return words == NULL ? id : words;
}

void mf_field_put(json_t *object, const char *name, const char *text)
{
    json_object_set_new(object, name, json_string(text == NULL ? "" : text));
}

void mf_field_put_number(json_t *object, const char *name, int64_t number)
{
    json_object_set_new(object, name, json_integer(number));
}

void mf_field_put_is(json_t *object, const char *name, bool is)
{
    json_object_set_new(object, name, json_boolean(is));
}

/* ---- asking ------------------------------------------------------------------------------ */

static mf_status read_when(mf_field_page *page, mf_err *err)
{
    page->lang = mf_lang_of(mf_field_text(page, "lang"));
    page->today = mf_day_parse(mf_field_text(page, "today"), NULL);
    page->minute = mf_minute_parse(mf_field_text(page, "time"));
    if (page->today == MF_DAY_NONE || page->minute == MF_MINUTE_NONE)
        return mf_fail(err, MF_USAGE, "today", "the request does not say the day and the time", "",
                       "");
    return MF_OK;
}

static mf_status answer(mf_field_page *page, json_t *out, mf_err *err)
{
    const char *name = mf_field_text(page, "do");
    mf_status status = read_when(page, err);
    if (status != MF_OK)
        return status;
    for (size_t i = 0; i < sizeof requests / sizeof requests[0]; i++) {
        if (strcmp(requests[i].name, name) != 0)
            continue;
        if (requests[i].needs_job && page->job == NULL)
            return mf_fail(err, MF_USAGE, name, "no job is loaded", "", "");
        return requests[i].answer(page, out, err);
    }
    return mf_failf(err, MF_USAGE, "do", "", "", "there is no request %.40s", name);
}

static void put_error(const mf_field_page *page, json_t *out, const mf_err *err)
{
    char text[MF_FIELD_SENTENCE];
    json_t *object = json_object();
    mf_words_error(page->lang, err, text, sizeof text);
    mf_field_put(object, "text", text);
    mf_field_put(object, "where", err->where);
    mf_field_put(object, "what", err->what);
    mf_field_put(object, "why", err->why);
    mf_field_put(object, "mend", err->mend);
    json_object_set_new(out, "error", object);
}

const char *mf_field_ask(mf_field_page *page, const char *request, const void *bytes, size_t len)
{
    mf_err err = {0};
    json_t *out = json_object(), *ask = mf_json_parse(request, strlen(request), &err);
    mf_buf_clear(&page->text);
    mf_buf_clear(&page->file);
    page->ask = ask;
    page->bytes = bytes;
    page->len = len;
    mf_status status = ask == NULL || out == NULL ? mf_fail_memory(&err) : answer(page, out, &err);
    mf_field_forget(page);
    if (status != MF_OK && out != NULL)
        put_error(page, out, &err);
    bool whole = out != NULL && mf_json_canonical(&page->text, out) && !page->file.failed;
    json_decref(out);
    json_decref(ask);
    page->ask = NULL;
    return whole ? mf_buf_str(&page->text) : "{\"error\":{\"text\":\"out of memory\"}}";
}

const char *mf_field_file(const mf_field_page *page, size_t *len)
{
    *len = page->file.len;
    return mf_buf_str(&page->file);
}
