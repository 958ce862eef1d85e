#include "words/value.h"

#include <inttypes.h>
#include <mistfold/words.h>
#include <stdio.h>
#include <string.h>

static void number_text(const mf_field *field, int64_t number, char *out, size_t size)
{
    if (number == MF_NUM_NONE)
        out[0] = '\0';
    else if (field->type == MF_F_HUNDREDTHS)
        mf_words_number(MF_LANG_EN, number, MF_UNIT_FT_100, out, size); /* one word: "10 ft" */
    else if (field->type == MF_F_INCHES)
        mf_words_number(MF_LANG_EN, number, MF_UNIT_IN_1600, out, size);
    else if (field->type == MF_F_LOADING)
        mf_words_number(MF_LANG_EN, number, MF_UNIT_UG_CM2, out, size);
    else if (field->type == MF_F_DUST)
        mf_words_number(MF_LANG_EN, number, MF_UNIT_NG_FT2, out, size);
    else
        snprintf(out, size, "%" PRId64, number);
    /* The unit is in the head of the column. */
    char *blank = strrchr(out, ' '); /* the last: "11 5/8 in" */
    if (blank != NULL)
        *blank = '\0';
}

static void word_text(const mf_field *field, const void *member, char *out, size_t size)
{
    int value;
    memcpy(&value, member, sizeof value);
    if (field->type == MF_F_YESNO)
        snprintf(out, size, "%s", value == MF_YES ? "yes" : value == MF_NOT ? "no" : "");
    else
        snprintf(out, size, "%s", field->choices[value]);
}

const char *mf_words_value(const mf_field *field, const void *item, char room[MF_VALUE_TEXT])
{
    const void *member = (const char *)item + field->offset;
    const char *text;
    int64_t number;
    int32_t minute;
    mf_day day;
    room[0] = '\0';
    switch (field->type) {
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
        memcpy(&text, member, sizeof text);
        return text;
    case MF_F_DATE:
        memcpy(&day, member, sizeof day);
        mf_day_text(day, room);
        break;
    case MF_F_TIME:
        memcpy(&minute, member, sizeof minute);
        if (minute != MF_MINUTE_NONE)
            mf_minute_text(minute, room);
        break;
    case MF_F_CHOICE:
    case MF_F_YESNO:
        word_text(field, member, room, MF_VALUE_TEXT);
        break;
    case MF_F_INT:
    case MF_F_HUNDREDTHS:
    case MF_F_INCHES:
    case MF_F_LOADING:
    case MF_F_DUST:
    case MF_F_PPM:
        memcpy(&number, member, sizeof number);
        number_text(field, number, room, MF_VALUE_TEXT);
        break;
    }
    return room;
}
