#include "words/value.h"

#include <inttypes.h>
#include <mistfold/words.h>
#include <stdio.h>
#include <string.h>

static void number_text(const mf_field *field, int64_t number, char *out, size_t size)
{
    mf_unit unit = mf_field_unit(field);
    if (unit == MF_UNIT_COUNT || unit == MF_UNIT_PPM)
        snprintf(out, size, "%" PRId64, number);
    else
        mf_words_number(MF_LANG_EN, number, unit, out, size);
    /* The unit is in the head of the column: "10 sq ft", "11 5/8 in". */
    char *blank = unit == MF_UNIT_IN_1600 ? strrchr(out, ' ') : strchr(out, ' ');
    if (blank != NULL)
        *blank = '\0';
}

const char *mf_words_value(const mf_field *field, const void *item, char room[MF_VALUE_TEXT])
{
    const mf_value value = mf_item_value(field, item);
    if (!value.given || !mf_field_is_number(field->type))
        return mf_value_word(field, &value, room);
    number_text(field, value.number, room, MF_VALUE_TEXT);
    return room;
}
