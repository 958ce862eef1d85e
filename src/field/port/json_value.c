/* json_value.c - values of port/jansson.h: made, counted, kept in one another. */
#include "base/utf8.h"
#include "field/port/jansson.h"

#include <stdlib.h>
#include <string.h>

static json_t *make(json_type type)
{
    json_t *value = calloc(1, sizeof *value);
    if (value != NULL) {
        value->type = type;
        value->refs = 1;
    }
    return value;
}

json_t *json_object(void)
{
    return make(JSON_OBJECT);
}

json_t *json_array(void)
{
    return make(JSON_ARRAY);
}

json_t *json_string_nocheck(const char *text)
{
    json_t *value = text == NULL ? NULL : make(JSON_STRING);
    size_t size = text == NULL ? 0 : strlen(text) + 1;
    if (value == NULL)
        return NULL;
    value->text = malloc(size);
    if (value->text == NULL) {
        free(value);
        return NULL;
    }
    memcpy(value->text, text, size);
    value->len = size - 1;
    return value;
}

json_t *json_string(const char *text)
{
    bool good = text != NULL && mf_utf8_valid(text, strlen(text), NULL);
    return good ? json_string_nocheck(text) : NULL;
}

json_t *json_integer(json_int_t number)
{
    json_t *value = make(JSON_INTEGER);
    if (value != NULL)
        value->integer = number;
    return value;
}

json_t *json_real(double number)
{
    json_t *value = make(JSON_REAL);
    if (value != NULL)
        value->real = number;
    return value;
}

json_t *json_boolean(bool is)
{
    return make(is ? JSON_TRUE : JSON_FALSE);
}

json_t *json_null(void)
{
    return make(JSON_NULL);
}

json_t *json_incref(json_t *value)
{
    if (value != NULL)
        value->refs++;
    return value;
}

/* No deeper than what was read or written, which is bounded (base/json.h). */
void json_decref(json_t *value)
{
    if (value == NULL || --value->refs > 0)
        return;
    bool holds = value->type == JSON_OBJECT || value->type == JSON_ARRAY;
    for (size_t i = 0; holds && i < value->len; i++) {
        json_decref(value->at[i]);
        if (value->key != NULL)
            free(value->key[i]);
    }
    free(value->text);
    free(value->key);
    free(value->at);
    free(value);
}

const char *json_string_value(const json_t *value)
{
    return json_is_string(value) ? value->text : NULL;
}

size_t json_string_length(const json_t *value)
{
    return json_is_string(value) ? value->len : 0;
}

json_int_t json_integer_value(const json_t *value)
{
    return json_is_integer(value) ? value->integer : 0;
}

double json_real_value(const json_t *value)
{
    return value != NULL && value->type == JSON_REAL ? value->real : 0;
}

/* ---- members ------------------------------------------------------------------------- */

static bool grow(json_t *value)
{
    if (value->len < value->cap)
        return true;
    size_t cap = value->cap == 0 ? 8 : value->cap * 2;
    json_t **at = realloc(value->at, cap * sizeof(json_t *));
    if (at == NULL)
        return false;
    value->at = at;
    if (value->type == JSON_OBJECT) {
        char **key = realloc(value->key, cap * sizeof(char *));
        if (key == NULL)
            return false;
        value->key = key;
    }
    value->cap = cap;
    return true;
}

size_t json_object_size(const json_t *object)
{
    return json_is_object(object) ? object->len : 0;
}

static size_t find(const json_t *object, const char *key)
{
    size_t i = 0;
    while (i < object->len && strcmp(object->key[i], key) != 0)
        i++;
    return i;
}

json_t *json_object_get(const json_t *object, const char *key)
{
    if (!json_is_object(object))
        return NULL;
    size_t i = find(object, key);
    return i < object->len ? object->at[i] : NULL;
}

static bool add_member(json_t *object, const char *key, json_t *value)
{
    size_t size = strlen(key) + 1;
    char *copy = grow(object) ? malloc(size) : NULL;
    if (copy == NULL)
        return false;
    memcpy(copy, key, size);
    object->key[object->len] = copy;
    object->at[object->len++] = value;
    return true;
}

int json_object_set_new_nocheck(json_t *object, const char *key, json_t *value)
{
    size_t i = json_is_object(object) && value != NULL ? find(object, key) : 0;
    if (!json_is_object(object) || value == NULL || value == object ||
        (i == object->len && !add_member(object, key, value))) {
        json_decref(value);
        return -1;
    }
    if (object->at[i] != value) {
        json_decref(object->at[i]);
        object->at[i] = value;
    }
    return 0;
}

int json_object_set_new(json_t *object, const char *key, json_t *value)
{
    if (mf_utf8_valid(key, strlen(key), NULL))
        return json_object_set_new_nocheck(object, key, value);
    json_decref(value);
    return -1;
}

int json_object_set(json_t *object, const char *key, json_t *value)
{
    return json_object_set_new(object, key, json_incref(value));
}

int json_object_update(json_t *object, json_t *other)
{
    if (!json_is_object(object) || !json_is_object(other))
        return -1;
    for (size_t i = 0; i < other->len; i++)
        if (json_object_set(object, other->key[i], other->at[i]) != 0)
            return -1;
    return 0;
}

/* A place in an object is where its key is kept. */
void *json_object_iter(json_t *object)
{
    return json_object_size(object) > 0 ? &object->key[0] : NULL;
}

void *json_object_iter_next(json_t *object, void *at)
{
    char **next = (char **)at + 1;
    return next < object->key + object->len ? next : NULL;
}

const char *json_object_iter_key(void *at)
{
    return *(char **)at;
}

json_t *json_object_iter_value(json_t *object, void *at)
{
    return object->at[(char **)at - object->key];
}

size_t json_array_size(const json_t *array)
{
    return json_is_array(array) ? array->len : 0;
}

json_t *json_array_get(const json_t *array, size_t i)
{
    return i < json_array_size(array) ? array->at[i] : NULL;
}

int json_array_append_new(json_t *array, json_t *value)
{
    if (!json_is_array(array) || value == NULL || value == array || !grow(array)) {
        json_decref(value);
        return -1;
    }
    array->at[array->len++] = value;
    return 0;
}

static bool equal_members(const json_t *a, const json_t *b)
{
    for (size_t i = 0; i < a->len; i++)
        if (!json_equal(a->at[i], a->type == JSON_ARRAY ? b->at[i] : json_object_get(b, a->key[i])))
            return false;
    return true;
}

bool json_equal(const json_t *a, const json_t *b)
{
    if (a == NULL || b == NULL || a->type != b->type || a->len != b->len)
        return false;
    if (a->type == JSON_STRING)
        return memcmp(a->text, b->text, a->len) == 0;
    if (a->type == JSON_INTEGER)
        return a->integer == b->integer;
    if (a->type == JSON_REAL)
        return a->real == b->real;
    return a->type > JSON_ARRAY || equal_members(a, b);
}
