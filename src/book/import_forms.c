/* Decimal commas and dates with the day first; see import_forms.h. */
#include "book/import_forms.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

/* One comma between digits is a point; a point beside it would make both doubtful. */
static bool with_point(const char *text, char room[MF_FORM_TEXT])
{
    const char *comma = strchr(text, ',');
    size_t len = strlen(text);
    if (comma == NULL || len >= MF_FORM_TEXT || strchr(comma + 1, ',') != NULL ||
        strchr(text, '.') != NULL)
        return false;
    memcpy(room, text, len + 1);
    room[comma - text] = '.';
    return true;
}

/* A number of at most so many digits; what is behind it, or NULL. */
static const char *take_digits(const char *text, size_t most, unsigned *out)
{
    size_t n = 0;
    *out = 0;
    for (; n < most && isdigit((unsigned char)text[n]); n++)
        *out = *out * 10 + (unsigned)(text[n] - '0');
    return n == 0 || isdigit((unsigned char)text[n]) ? NULL : text + n;
}

/* 12/8/2026, 12.08.2026, 12-08-2026, with one sign both times and the year whole. */
static bool day_first(const char *text, char room[MF_FORM_TEXT])
{
    unsigned day, month, year;
    const char *at = take_digits(text, 2, &day);
    if (at == NULL || strchr("/.-", *at) == NULL || *at == '\0')
        return false;
    char sign = *at;
    at = take_digits(at + 1, 2, &month);
    if (at == NULL || *at != sign || strlen(at + 1) != 4)
        return false;
    at = take_digits(at + 1, 4, &year);
    if (at == NULL || *at != '\0')
        return false;
    snprintf(room, MF_FORM_TEXT, "%04u-%02u-%02u", year, month, day);
    return true;
}

const char *mf_import_form(const mf_import *in, const mf_field *field, const char *text,
                           char room[MF_FORM_TEXT])
{
    if (in->ask == NULL)
        return text;
    if (in->ask->decimal_comma && field->type == MF_F_LOADING && with_point(text, room))
        return room;
    if (in->ask->day_first && field->type == MF_F_DATE && day_first(text, room))
        return room;
    return text;
}
