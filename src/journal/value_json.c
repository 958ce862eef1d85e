#include "journal/value_json.h"

#include "base/mem.h"
#include "base/utf8.h"
#include <string.h>

json_t *mf_text_json(const char *text)
{
    size_t len = strlen(text), step = 0;
    mf_buf out = {0};
    if (mf_utf8_valid(text, len, NULL))
        return json_string(text);
    for (size_t at = 0; at < len; at += step) {
        int32_t c = -1;
        step = mf_utf8_next(text + at, len - at, &c);
        mf_buf_add(&out, step == 0 ? "?" : text + at, step == 0 ? 1 : step);
        step = step == 0 ? 1 : step;
    }
    json_t *value = out.failed ? NULL : json_string(mf_buf_str(&out));
    mf_buf_free(&out);
    return value;
}

json_t *mf_value_json(const mf_field *field, const mf_value *value)
{
    char room[MF_VALUE_WORD];
    if (mf_field_is_number(field->type))
        return json_integer(value->number);
    if (field->type == MF_F_YESNO)
        return json_boolean(value->number == MF_YES);
    return mf_text_json(mf_value_word(field, value, room));
}
