#include "journal/body.h"

#include "base/fail.h"
#include <assert.h>
#include <stdio.h>
#include <string.h>

static_assert(sizeof(mf_tri) == sizeof(int) && sizeof(mf_component_type) == sizeof(int),
              "an enum of job.h is written as an int");

mf_status mf_body_read(mf_body *body, const char *text, mf_err *err)
{
    body->text = text;
    body->tree = NULL;
    body->is_flat = mf_json_flat(&body->flat, text);
    return body->is_flat ? MF_OK : mf_body_tree(body, err);
}

mf_status mf_body_tree(mf_body *body, mf_err *err)
{
    mf_err why = {0};
    if (body->tree == NULL && body->text != NULL)
        body->tree = mf_json_parse(body->text, strlen(body->text), &why);
    return why.status == MF_SYSTEM ? mf_fail_memory(err) : MF_OK;
}

void mf_body_free(mf_body *body)
{
    json_decref(body->tree);
    body->tree = NULL;
}

/* ---- members ------------------------------------------------------------------------- */

const char *mf_body_text(const mf_body *body, const char *key, size_t *len)
{
    *len = 0;
    if (!body->is_flat) {
        const json_t *value = json_object_get(body->tree, key);
        *len = json_string_length(value);
        return json_string_value(value);
    }
    const mf_flat_member *member = mf_flat_get(&body->flat, key);
    if (member == NULL || member->type != MF_FLAT_TEXT)
        return NULL;
    *len = member->len;
    return member->text;
}

bool mf_body_int(const mf_body *body, const char *key, int64_t *number)
{
    if (!body->is_flat) {
        const json_t *value = json_object_get(body->tree, key);
        *number = json_integer_value(value);
        return json_is_integer(value);
    }
    const mf_flat_member *member = mf_flat_get(&body->flat, key);
    *number = member == NULL ? 0 : member->number;
    return member != NULL && member->type == MF_FLAT_INT;
}

bool mf_body_bool(const mf_body *body, const char *key, bool *is)
{
    if (!body->is_flat) {
        const json_t *value = json_object_get(body->tree, key);
        *is = json_is_true(value);
        return json_is_boolean(value);
    }
    const mf_flat_member *member = mf_flat_get(&body->flat, key);
    *is = member != NULL && member->number != 0;
    return member != NULL && member->type == MF_FLAT_BOOL;
}

/* ---- fields -------------------------------------------------------------------------- */

/* Longer than any word, day or time that is one. */
enum { WORD_MAX = 64 };

/* The text of the field, ended by a NUL; false = not given. */
static bool word_of(const mf_body *body, const mf_field *field, char out[WORD_MAX])
{
    size_t len;
    const char *text = mf_body_text(body, field->name, &len);
    snprintf(out, WORD_MAX, "%.*s", (int)(len < WORD_MAX ? len : WORD_MAX - 1),
             text == NULL ? "" : text);
    return text != NULL;
}

static mf_status unknown_word(const char *entry, const mf_field *field, const char *word,
                              mf_err *err)
{
    char where[60];
    snprintf(where, sizeof where, "entry %.40s", entry);
    mf_failf(err, MF_SYSTEM, where, "it was written by a newer version, or altered",
             "use a newer version of this program, or check the book",
             "%s is \"%.40s\", which is not known here", field->name, word);
    mf_fail_name(err, MF_ERR_UNREAD, NULL, NULL, NULL);
    return MF_SYSTEM;
}

static bool has_member(const mf_body *body, const char *key)
{
    return body->is_flat ? mf_flat_get(&body->flat, key) != NULL
                         : json_object_get(body->tree, key) != NULL;
}

static mf_body_slip text_value(const mf_body *body, const mf_field *field, mf_arena *arena,
                               mf_value *out)
{
    size_t len;
    const char *text = mf_body_text(body, field->name, &len);
    out->given = len > 0;
    if (out->given)
        out->text = mf_arena_piece(arena, text, len);
    return out->text == NULL ? MF_BODY_NO_MEMORY : text == NULL ? MF_BODY_OTHER : MF_BODY_GOOD;
}

static mf_body_slip choice_value(const mf_field *field, const char *word, mf_value *out)
{
    int index = mf_choice(field->choices, word);
    out->given = index > 0 || (index == 0 && word[0] != '\0');
    out->number = index < 0 ? 0 : index;
    return index < 0 ? MF_BODY_UNKNOWN_WORD : MF_BODY_GOOD;
}

/* A day, a time or a word. */
static mf_body_slip word_value(const mf_body *body, const mf_field *field, mf_value *out)
{
    char word[WORD_MAX];
    bool time = field->type == MF_F_TIME;
    if (!word_of(body, field, word))
        return MF_BODY_OTHER;
    if (field->type == MF_F_CHOICE)
        return choice_value(field, word, out);
    out->number = time ? mf_minute_parse(word) : mf_day_parse(word, NULL);
    out->given = out->number != (time ? MF_MINUTE_NONE : MF_DAY_NONE);
    return out->given || word[0] == '\0' ? MF_BODY_GOOD : MF_BODY_OTHER;
}

static mf_body_slip yesno_value(const mf_body *body, const mf_field *field, mf_value *out)
{
    bool is = false;
    out->given = mf_body_bool(body, field->name, &is);
    out->number = is ? MF_YES : MF_NOT;
    return out->given ? MF_BODY_GOOD : MF_BODY_OTHER;
}

mf_body_slip mf_body_value(const mf_body *body, const mf_field *field, mf_arena *arena,
                           mf_value *out)
{
    *out = (mf_value){.text = ""};
    if (!has_member(body, field->name))
        return MF_BODY_GOOD;
    if (mf_field_is_number(field->type)) {
        out->given = mf_body_int(body, field->name, &out->number);
        return out->given ? MF_BODY_GOOD : MF_BODY_OTHER;
    }
    if (field->type == MF_F_YESNO)
        return yesno_value(body, field, out);
    if (field->type == MF_F_DATE || field->type == MF_F_TIME || field->type == MF_F_CHOICE)
        return word_value(body, field, out);
    return text_value(body, field, arena, out);
}

mf_status mf_body_put(void *item, const mf_field *field, const mf_body *body, const char *entry,
                      mf_arena *arena, mf_err *err)
{
    char word[WORD_MAX];
    mf_value value;
    mf_body_slip slip = mf_body_value(body, field, arena, &value);
    mf_item_put(field, item, &value);
    if (slip == MF_BODY_NO_MEMORY)
        return mf_fail_memory(err);
    if (slip != MF_BODY_UNKNOWN_WORD)
        return MF_OK;
    word_of(body, field, word);
    return unknown_word(entry, field, word, err);
}

/* Goes on behind a word that is not known here: what stands beside it is read. */
mf_status mf_body_put_all(void *item, const mf_kind *kind, const mf_body *body, const char *entry,
                          mf_arena *arena, mf_err *err)
{
    mf_err first = {.status = MF_OK};
    for (size_t i = 0; i < kind->n_fields; i++) {
        mf_err why = {.status = MF_OK};
        if (mf_body_put(item, &kind->fields[i], body, entry, arena, &why) != MF_OK &&
            first.status == MF_OK)
            first = why;
    }
    if (first.status != MF_OK && err != NULL)
        *err = first;
    return first.status;
}

mf_status mf_body_item(const void **out, const mf_kind *kind, const char *body, mf_arena *arena,
                       mf_err *err)
{
    mf_body said = {.tree = NULL};
    mf_err why = {0};
    *out = NULL;
    if (kind == NULL || body[0] == '\0')
        return MF_OK;
    void *item = mf_arena_alloc(arena, kind->size);
    if (item == NULL)
        return mf_fail_memory(err);
    memset(item, 0, kind->size);
    *out = item;
    mf_status status = mf_body_read(&said, body, &why);
    if (status == MF_OK)
        status = mf_body_put_all(item, kind, &said, "", arena, &why);
    mf_body_free(&said);
    if (status == MF_OK || strcmp(why.name, MF_ERR_UNREAD) == 0)
        return MF_OK;
    if (err != NULL)
        *err = why;
    return status;
}

const mf_field *mf_field_at(const mf_kind *kind, size_t offset)
{
    for (size_t i = 0; i < kind->n_fields; i++)
        if (kind->fields[i].offset == offset)
            return &kind->fields[i];
    return NULL;
}
