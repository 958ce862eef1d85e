/* Decimal commas and dates with the day first; see import_forms.h. */
#include "book/import_forms.h"

#include "base/utf8.h"

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

/* Three digits behind the point, and no more. */
static bool may_be_thousands(const char *point)
{
    return strspn(point + 1, "0123456789") == 3 && point[4] == '\0';
}

mf_status mf_import_doubt(const mf_import *in, const mf_field *field, size_t row, size_t column,
                          mf_err *err)
{
    const char *text = mf_import_cell(in, row, column);
    if (in->ask == NULL || !in->ask->decimal_comma || field->type != MF_F_LOADING ||
        text[0] == '\0')
        return MF_OK;
    const char *first = strpbrk(text, ",.");
    char what[120], shown[60];
    mf_utf8_show(shown, sizeof shown, text);
    if (first != NULL && strpbrk(first + 1, ",.") != NULL) {
        snprintf(what, sizeof what, "\"%s\" has more than one sign that may be the decimal one",
                 shown);
        return mf_import_refuse(
            in, row, column, what, "a decimal comma was named",
            "write one comma before the decimals, and nothing between thousands", err);
    }
    if (first != NULL && *first == '.' && may_be_thousands(first)) {
        snprintf(what, sizeof what, "\"%s\" has a point that may stand between thousands", shown);
        return mf_import_refuse(in, row, column, what, "a decimal comma was named",
                                "write a comma before the decimals, or leave --decimal comma out",
                                err);
    }
    if (first != NULL || in->csv.separator != ',')
        return MF_OK;
    snprintf(what, sizeof what, "\"%s\" may be half of a number that its comma cut", shown);
    return mf_import_refuse(in, row, column, what, "commas part the cells of this file as well",
                            "put numbers with a comma into quotes, or part the cells by semicolons",
                            err);
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
