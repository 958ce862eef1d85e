/* What a field of an item holds, in one form for every type, so that whoever writes, prints
 * or compares a value need not know how each is kept. */
#include <mistfold/kind.h>

#include "core/kind_rows.h"
#include "core/text.h"
#include <string.h>

/* How the member is kept in the struct. */
typedef enum member_form {
    FORM_TEXT,
    FORM_NUMBER,
    FORM_DAY,
    FORM_MINUTE,
    FORM_WORD,
    FORM_YESNO
} member_form;

static member_form form_of(mf_field_type type)
{
    switch (type) {
    case MF_F_DATE:
        return FORM_DAY;
    case MF_F_TIME:
        return FORM_MINUTE;
    case MF_F_CHOICE:
        return FORM_WORD;
    case MF_F_YESNO:
        return FORM_YESNO;
    case MF_F_INT:
    case MF_F_HUNDREDTHS:
    case MF_F_INCHES:
    case MF_F_LOADING:
    case MF_F_DUST:
    case MF_F_PPM:
        return FORM_NUMBER;
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
        break;
    }
    return FORM_TEXT;
}

bool mf_field_is_number(mf_field_type type)
{
    return form_of(type) == FORM_NUMBER;
}

mf_unit mf_field_unit(const mf_field *field)
{
    switch (field->type) {
    case MF_F_HUNDREDTHS:
        return field->unit;
    case MF_F_INCHES:
        return MF_UNIT_IN_1600;
    case MF_F_LOADING:
        return MF_UNIT_UG_CM2;
    case MF_F_DUST:
        return MF_UNIT_NG_FT2;
    case MF_F_PPM:
        return MF_UNIT_PPM;
    case MF_F_INT:
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
    case MF_F_DATE:
    case MF_F_TIME:
    case MF_F_CHOICE:
    case MF_F_YESNO:
        break;
    }
    return MF_UNIT_COUNT;
}

/* What stands in a member that was not given. */
static int64_t none_of(member_form form)
{
    switch (form) {
    case FORM_NUMBER:
        return MF_NUM_NONE;
    case FORM_DAY:
        return MF_DAY_NONE;
    case FORM_MINUTE:
        return MF_MINUTE_NONE;
    case FORM_TEXT:
    case FORM_WORD:
    case FORM_YESNO:
        break;
    }
    return 0;
}

static mf_value text_value(const void *member)
{
    mf_value value = {.text = ""};
    memcpy(&value.text, member, sizeof value.text);
    value.text = mf_or_empty(value.text);
    value.given = value.text[0] != '\0';
    return value;
}

/* A step that was done has no ground on which it is not needed; the first of them is what stands
 * in a tick that says none. */
static bool is_ground(const mf_field *field)
{
    return field->choices == mf_choices_ground;
}

static bool done(const void *item)
{
    const mf_tick *tick = item;
    return tick->state != MF_TICK_NOT_NEEDED && tick->ground == MF_GROUND_OWN_WORDS;
}

mf_value mf_item_value(const mf_field *field, const void *item)
{
    const void *member = (const unsigned char *)item + field->offset;
    member_form form = form_of(field->type);
    mf_value value = {.text = ""};
    int32_t small;
    if (form == FORM_TEXT)
        return text_value(member);
    if (form == FORM_NUMBER) {
        memcpy(&value.number, member, sizeof value.number);
    } else {
        memcpy(&small, member, sizeof small);
        value.number = small;
    }
    if (form == FORM_WORD && !(is_ground(field) && done(item)))
        value.text = field->choices[value.number];
    value.given = form == FORM_WORD ? value.text[0] != '\0' : value.number != none_of(form);
    return value;
}

void mf_item_put(const mf_field *field, void *item, const mf_value *value)
{
    void *member = (unsigned char *)item + field->offset;
    member_form form = form_of(field->type);
    const char *text = value->given ? value->text : "";
    int64_t number = value->given ? value->number : none_of(form);
    int32_t small = (int32_t)number;
    if (form == FORM_TEXT)
        memcpy(member, &text, sizeof text);
    else if (form == FORM_NUMBER)
        memcpy(member, &number, sizeof number);
    else
        memcpy(member, &small, sizeof small);
}

const char *mf_value_word(const mf_field *field, const mf_value *value, char room[MF_VALUE_WORD])
{
    room[0] = '\0';
    if (!value->given)
        return room;
    switch (form_of(field->type)) {
    case FORM_TEXT:
    case FORM_WORD:
        return value->text;
    case FORM_DAY:
        mf_day_text((mf_day)value->number, room);
        break;
    case FORM_MINUTE:
        mf_minute_text((int32_t)value->number, room);
        break;
    case FORM_YESNO:
        return value->number == MF_YES ? "yes" : "no";
    case FORM_NUMBER:
        break;
    }
    return room;
}
