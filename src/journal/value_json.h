/* value_json.h - a value as it stands in the JSON of a body. */
#ifndef MF_JOURNAL_VALUE_JSON_H
#define MF_JOURNAL_VALUE_JSON_H

#include "base/json.h"
#include <mistfold/kind.h>

/* Of a value that is given. A text of a book that was altered may be no UTF-8, and JSON
 * must be: '?' stands for such bytes. NULL when memory ran out. */
json_t *mf_value_json(const mf_field *field, const mf_value *value);
json_t *mf_text_json(const char *text);

#endif
