/* form.c - the fields of a kind of entry, as a form asks for them. */
#include "base/fail.h"
#include "field/page.h"
#include "words/value.h"

#include <stdio.h>
#include <string.h>

static const char *const types[] = {
    [MF_F_TEXT] = "text",         [MF_F_ID] = "text",      [MF_F_IDS] = "text",
    [MF_F_DATE] = "date",         [MF_F_TIME] = "time",    [MF_F_INT] = "number",
    [MF_F_HUNDREDTHS] = "number", [MF_F_LOADING] = "text", [MF_F_DUST] = "text",
    [MF_F_PPM] = "text",          [MF_F_INCHES] = "text",  [MF_F_CHOICE] = "choice",
    [MF_F_YESNO] = "choice",
};

/* What follows from another field, or is not asked at the house. */
static bool is_asked(const mf_kind *kind, const mf_field *field)
{
    static const char *const not_asked[][2] = {
        {"reading", "qualifier"}, {"reading", "film"}, {"reading", "mode"},
        {"practice", "planned"},  {"tick", "photo"},   {"kit_test", "substrates"}};
    for (size_t i = 0; i < sizeof not_asked / sizeof not_asked[0]; i++)
        if (strcmp(not_asked[i][0], kind->name) == 0 && strcmp(not_asked[i][1], field->option) == 0)
            return false;
    return mf_field_is_typed(field);
}

static void add_choice(json_t *all, const char *word, const char *says)
{
    json_t *one = json_object();
    mf_field_put(one, "word", word);
    mf_field_put(one, "says", says);
    json_array_append_new(all, one);
}

/* The name of a person, else nothing but the id. */
static const char *says_of(const mf_job *job, const mf_kind *kind, const char *id)
{
    const mf_person *person = strcmp(kind->name, "person") == 0 ? mf_job_person(job, id) : NULL;
    return person == NULL ? id : person->name;
}

static void add_things(const mf_job *job, const mf_kind *kind, json_t *all)
{
    size_t n = 0;
    const mf_field *key = mf_kind_key(kind);
    const unsigned char *items = mf_kind_items(job, kind, &n);
    for (size_t i = 0; key != NULL && i < n; i++) {
        const char *id = mf_known_text(items + i * kind->size, key);
        add_choice(all, id, says_of(job, kind, id));
    }
}

static json_t *choices_of(const mf_field_page *page, const mf_job *job, const mf_field *field)
{
    static const char *const yesno[] = {"yes", "no", NULL};
    const char *const *words = field->type == MF_F_CHOICE  ? field->choices
                               : field->type == MF_F_YESNO ? yesno
                                                           : NULL;
    const mf_kind *kind = field->ref == NULL ? NULL : mf_kind_named(field->ref);
    json_t *all = json_array();
    for (size_t i = 0; words != NULL && words[i] != NULL; i++)
        add_choice(all, words[i], mf_field_words2(page, "choice", words[i]));
    if (kind != NULL && field->type == MF_F_ID)
        add_things(job, kind, all);
    return all;
}

static const char *label_of(const mf_field_page *page, const mf_kind *kind, const mf_field *field)
{
    char id[100];
    snprintf(id, sizeof id, "ask.%s.%s", kind->name, field->option);
    const char *words = mf_words(page->lang, id);
    return words == NULL ? field->doc : words;
}

static json_t *field_of(const mf_field_page *page, const mf_job *job, const mf_kind *kind,
                        const mf_field *field, const void *item)
{
    char room[MF_VALUE_TEXT] = "";
    json_t *one = json_object();
    bool listed = field->type == MF_F_CHOICE || field->type == MF_F_YESNO ||
                  (field->type == MF_F_ID && field->ref != NULL);
    mf_field_put(one, "option", field->option);
    mf_field_put(one, "says", label_of(page, kind, field));
    mf_field_put(one, "type", listed ? "choice" : types[field->type]);
    mf_field_put_is(one, "needed", (field->flags & MF_F_NEEDED) != 0);
    mf_field_put(one, "value", item == NULL ? "" : mf_words_value(field, item, room));
    json_object_set_new(one, "choices", choices_of(page, job, field));
    return one;
}

/* The item that an entry makes; NULL = none is in force. */
static const void *item_of(const mf_job *job, const mf_kind *kind, const char *entry)
{
    size_t n = 0;
    const unsigned char *items = mf_kind_items(job, kind, &n);
    for (size_t i = 0; i < n; i++) {
        mf_src src;
        memcpy(&src, items + i * kind->size, sizeof src);
        if (strcmp(src.entry, entry) == 0)
            return items + i * kind->size;
    }
    return NULL;
}

mf_status mf_field_form(mf_field_page *page, json_t *out, mf_err *err)
{
    const char *entry = mf_field_text(page, "entry");
    const mf_field_line *held = entry[0] == '\0' ? NULL : mf_field_held(page, entry);
    const char *name = held != NULL ? held->line.kind : mf_field_text(page, "kind");
    const mf_kind *kind = mf_kind_named(name);
    mf_job_fold *fold = NULL;
    if (kind == NULL)
        return mf_failf(err, MF_USAGE, "kind", "", "", "there is no kind %.40s", name);
    mf_status status = mf_field_job(page, MF_DAY_NONE, &fold, NULL, err);
    if (status != MF_OK)
        return status;
    json_t *fields = json_array();
    const void *item = held == NULL ? NULL : item_of(&fold->job, kind, entry);
    for (size_t i = 0; i < kind->n_fields; i++)
        if (is_asked(kind, &kind->fields[i]))
            json_array_append_new(fields, field_of(page, &fold->job, kind, &kind->fields[i], item));
    mf_field_put(out, "kind", kind->name);
    mf_field_put(out, "says", mf_field_words2(page, "field.kind", kind->name));
    json_object_set_new(out, "fields", fields);
    mf_job_fold_free(fold);
    return MF_OK;
}
