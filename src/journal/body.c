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

static mf_status put_choice(void *member, const mf_field *field, const mf_body *body,
                            const char *entry, mf_err *err)
{
    char word[WORD_MAX];
    int index = word_of(body, field, word) ? mf_choice(field->choices, word) : 0;
    if (index < 0)
        return unknown_word(entry, field, word, err);
    memcpy(member, &index, sizeof index);
    return MF_OK;
}

static void put_yesno(void *member, const mf_field *field, const mf_body *body)
{
    bool is = false;
    int tri = !mf_body_bool(body, field->name, &is) ? MF_UNKNOWN : is ? MF_YES : MF_NOT;
    memcpy(member, &tri, sizeof tri);
}

static void put_number(void *member, const mf_field *field, const mf_body *body)
{
    int64_t number = 0;
    if (!mf_body_int(body, field->name, &number))
        number = MF_NUM_NONE;
    memcpy(member, &number, sizeof number);
}

static void put_day(void *member, const mf_field *field, const mf_body *body)
{
    char word[WORD_MAX];
    word_of(body, field, word);
    mf_day day = mf_day_parse(word, NULL);
    memcpy(member, &day, sizeof day);
}

static void put_minute(void *member, const mf_field *field, const mf_body *body)
{
    char word[WORD_MAX];
    word_of(body, field, word);
    int32_t minute = mf_minute_parse(word);
    memcpy(member, &minute, sizeof minute);
}

static mf_status put_text(void *member, const mf_field *field, const mf_body *body, mf_arena *arena,
                          mf_err *err)
{
    size_t len;
    const char *text = mf_body_text(body, field->name, &len);
    const char *copy = len == 0 ? "" : mf_arena_piece(arena, text, len);
    memcpy(member, &copy, sizeof copy);
    return copy == NULL ? mf_fail_memory(err) : MF_OK;
}

mf_status mf_body_put(void *item, const mf_field *field, const mf_body *body, const char *entry,
                      mf_arena *arena, mf_err *err)
{
    void *member = (unsigned char *)item + field->offset;
    switch (field->type) {
    case MF_F_DATE:
        put_day(member, field, body);
        return MF_OK;
    case MF_F_TIME:
        put_minute(member, field, body);
        return MF_OK;
    case MF_F_CHOICE:
        return put_choice(member, field, body, entry, err);
    case MF_F_YESNO:
        put_yesno(member, field, body);
        return MF_OK;
    case MF_F_INT:
    case MF_F_HUNDREDTHS:
    case MF_F_INCHES:
    case MF_F_LOADING:
    case MF_F_DUST:
    case MF_F_PPM:
        put_number(member, field, body);
        return MF_OK;
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
        break;
    }
    return put_text(member, field, body, arena, err);
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

const mf_field *mf_field_at(const mf_kind *kind, size_t offset)
{
    for (size_t i = 0; i < kind->n_fields; i++)
        if (kind->fields[i].offset == offset)
            return &kind->fields[i];
    return NULL;
}
