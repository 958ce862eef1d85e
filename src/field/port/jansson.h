/* jansson.h - the calls of that library that base, journal and this room make, for a machine
 * it is not packaged for (WebAssembly). A test gives both the same texts and compares. */
#ifndef MF_FIELD_PORT_JANSSON_H
#define MF_FIELD_PORT_JANSSON_H

#include <stdbool.h>
#include <stddef.h>

typedef enum {
    JSON_OBJECT,
    JSON_ARRAY,
    JSON_STRING,
    JSON_INTEGER,
    JSON_REAL,
    JSON_TRUE,
    JSON_FALSE,
    JSON_NULL
} json_type;

typedef long long json_int_t;

typedef struct json_t {
    json_type type;
    size_t refs;
    char *text; /* of a string */
    size_t len; /* of a string; members of an object or an array */
    size_t cap;
    char **key; /* of an object */
    struct json_t **at;
    json_int_t integer;
    double real;
} json_t;

typedef struct {
    int line, column;
    char text[80];
} json_error_t;

enum { JSON_REJECT_DUPLICATES = 1, JSON_DECODE_ANY = 4 };

#define json_typeof(value)     ((value)->type)
#define json_is_object(value)  ((value) != NULL && (value)->type == JSON_OBJECT)
#define json_is_array(value)   ((value) != NULL && (value)->type == JSON_ARRAY)
#define json_is_string(value)  ((value) != NULL && (value)->type == JSON_STRING)
#define json_is_integer(value) ((value) != NULL && (value)->type == JSON_INTEGER)
#define json_is_true(value)    ((value) != NULL && (value)->type == JSON_TRUE)
#define json_is_null(value)    ((value) != NULL && (value)->type == JSON_NULL)
#define json_is_boolean(value)                                                                     \
    ((value) != NULL && ((value)->type == JSON_TRUE || (value)->type == JSON_FALSE))

json_t *json_object(void);
json_t *json_array(void);
json_t *json_string(const char *text); /* NULL when it is no UTF-8 */
json_t *json_string_nocheck(const char *text);
json_t *json_integer(json_int_t number);
json_t *json_real(double number);
json_t *json_boolean(bool is);
json_t *json_null(void);
json_t *json_incref(json_t *value);
void json_decref(json_t *value);

const char *json_string_value(const json_t *value);
size_t json_string_length(const json_t *value);
json_int_t json_integer_value(const json_t *value);
double json_real_value(const json_t *value);

size_t json_object_size(const json_t *object);
json_t *json_object_get(const json_t *object, const char *key);
int json_object_set(json_t *object, const char *key, json_t *value);
int json_object_set_new(json_t *object, const char *key, json_t *value);
int json_object_set_new_nocheck(json_t *object, const char *key, json_t *value);
int json_object_update(json_t *object, json_t *other);
void *json_object_iter(json_t *object);
void *json_object_iter_next(json_t *object, void *at);
const char *json_object_iter_key(void *at);
json_t *json_object_iter_value(json_t *object, void *at);

size_t json_array_size(const json_t *array);
json_t *json_array_get(const json_t *array, size_t i);
int json_array_append_new(json_t *array, json_t *value);

bool json_equal(const json_t *a, const json_t *b);
json_t *json_loadb(const char *text, size_t len, size_t flags, json_error_t *error);

#define json_object_foreach(object, name, value)                                                   \
    for (void *name##_at = json_object_iter(object);                                               \
         name##_at != NULL && ((name) = json_object_iter_key(name##_at)) != NULL &&                \
         ((value) = json_object_iter_value(object, name##_at)) != NULL;                            \
         name##_at = json_object_iter_next(object, name##_at))
#define json_array_foreach(array, i, value)                                                        \
    for ((i) = 0; (i) < json_array_size(array) && ((value) = json_array_get(array, i)) != NULL;    \
         (i)++)

#endif
