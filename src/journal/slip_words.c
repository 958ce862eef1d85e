/* slip_words.c - what a slip in typed text is called, why it is one and how to
 * mend it. */
#include "base/fail.h"
#include "base/mem.h"
#include "base/utf8.h"
#include "journal/draft.h"
#include "journal/places.h"
#include <mistfold/place.h>
#include <stdio.h>
#include <string.h>

typedef struct words {
    const char *what; /* goes after the text in quotes */
    const char *why, *mend;
} words;

static const words table[MF_SLIP_COUNT] = {
    [MF_SLIP_NONE] = {"", "", ""},
    [MF_SLIP_EMPTY] = {"is empty", "it is needed", "give it"},
    [MF_SLIP_ID] = {"is not an id", "an id is 1 to 40 letters, digits, dots, dashes or underscores",
                    "write it like W01.sash, without spaces"},
    [MF_SLIP_DATE_FORM] = {"is not a date", "dates are year-month-day", "write it like 2026-09-14"},
    [MF_SLIP_DATE_MISSING] = {"does not exist in the calendar", "dates are year-month-day",
                              "look up the date"},
    [MF_SLIP_DATE_FUTURE] = {"lies in the future", "what is logged here has happened",
                             "check the date, and the clock of this computer"},
    [MF_SLIP_TIME_FUTURE] = {"of today is still to come", "what is logged here has happened",
                             "check the time, and the clock of this computer"},
    [MF_SLIP_TIME] = {"is not a time of day", "times are 00:00 to 23:59", "write it like 08:30"},
    [MF_SLIP_NUMBER] = {"is not a number", "", "write digits, with a point before decimals"},
    [MF_SLIP_DECIMAL_COMMA] = {"has a decimal comma", "decimals follow a point",
                               "write a point in place of the comma"},
    [MF_SLIP_DECIMALS] = {"has more decimals than are kept", "nothing is rounded silently",
                          "write fewer decimals, as the source shows them"},
    [MF_SLIP_RANGE] = {"is out of range", "", "check the number and its unit"},
    [MF_SLIP_CHOICE] = {"is not one of the words known here", "", ""},
    [MF_SLIP_YESNO] = {"is neither yes nor no", "", "write yes or no"},
    [MF_SLIP_DATE_FAR] = {"lies too far off", "days from 1900 to 2200 are kept", "check the year"},
    [MF_SLIP_UNIT_G] = {"looks like g/cm2", "lead in paint is kept in mg/cm2",
                        "multiply by 1000, or set the instrument to mg/cm2"},
    [MF_SLIP_UNIT_UG] = {"looks like ug/cm2", "lead in paint is kept in mg/cm2",
                         "give the unit ug/cm2, or divide by 1000"},
    [MF_SLIP_UNIT_UNKNOWN] = {"has a unit that is not known", "known are mg/cm2 and ug/cm2",
                              "give the result in one of them"},
    [MF_SLIP_PERCENT] = {"is more than 100 %", "it looks like ppm",
                         "leave out the % sign if it is ppm"},
    [MF_SLIP_PPM] = {"is very few ppm", "it looks like %", "write a % sign after it if it is %"},
    [MF_SLIP_QUALIFIER] = {"has a < or > where only an exact number is kept", "",
                           "write the number alone"},
    [MF_SLIP_CONTROL] = {"has a line break or a control character in it", "a field is one line",
                         "write it in one line"},
    [MF_SLIP_UTF8] = {"is not UTF-8 text", "", "save or export the text as UTF-8"},
    [MF_SLIP_PLACE] = {"is not a state or territory", "after US- come its letters of ISO 3166-2",
                       ""},
};

/* What a mend is made of, from the text or the field; words go around it. */
typedef struct parts {
    mf_buf first, second;
} parts;

/* The days on both sides of one that is missing from its month. */
static void near_days(parts *out, const char *text)
{
    int year = 0, month = 0;
    for (int i = 0; i < 4; i++)
        year = year * 10 + (text[i] - '0');
    month = (text[5] - '0') * 10 + (text[6] - '0');
    mf_day next = month >= 1 && month < 12 ? mf_day_from(year, month + 1, 1) : MF_DAY_NONE;
    if (next == MF_DAY_NONE)
        return;
    char last[MF_DAY_TEXT], first[MF_DAY_TEXT];
    mf_day_text(next - 1, last);
    mf_day_text(next, first);
    mf_buf_text(&out->first, last);
    mf_buf_text(&out->second, first);
}

static void list_choices(parts *out, const mf_field *field)
{
    for (size_t i = 0; field->choices != NULL && field->choices[i] != NULL; i++)
        mf_buf_printf(&out->first, "%s%s", i == 0 ? "" : ", ", field->choices[i]);
}

/* number as it would be typed, with so many decimals kept in it. */
static void add_decimal(mf_buf *out, int64_t number, int decimals)
{
    long long unit = decimals == 3 ? 1000 : decimals == 2 ? 100 : 1;
    long long size = number < 0 ? -(long long)number : (long long)number;
    mf_buf_printf(out, "%s%lld", number < 0 ? "-" : "", size / unit);
    if (size % unit != 0)
        mf_buf_printf(out, ".%0*lld", decimals, size % unit);
}

static int decimals_of(mf_field_type type)
{
    return type == MF_F_HUNDREDTHS ? 2 : type == MF_F_LOADING || type == MF_F_DUST ? 3 : 0;
}

static void ends_of_range(parts *out, const mf_field *field)
{
    int64_t part = field->type == MF_F_INCHES ? 16 : 1; /* 1/1600 inch as hundredths */
    int decimals = field->type == MF_F_INCHES ? 2 : decimals_of(field->type);
    if (field->min == 0 && field->max == 0)
        return;
    add_decimal(&out->first, field->min / part, decimals);
    add_decimal(&out->second, field->max / part, decimals);
}

static void find_parts(parts *out, const mf_field *field, const char *text, mf_slip slip)
{
    if (slip == MF_SLIP_DATE_MISSING)
        near_days(out, text);
    else if (slip == MF_SLIP_CHOICE)
        list_choices(out, field);
    else if (slip == MF_SLIP_RANGE)
        ends_of_range(out, field);
    else if (slip == MF_SLIP_PLACE)
        mf_place_guess(&out->first, text, strlen(text));
}

/* The mend with its parts, else the fixed one. */
static void add_mend(mf_buf *out, const parts *p, mf_slip slip)
{
    const char *first = mf_buf_str(&p->first), *second = mf_buf_str(&p->second);
    if (slip == MF_SLIP_CHOICE)
        mf_buf_printf(out, "write one of: %s", first);
    else if (slip == MF_SLIP_PLACE)
        mf_place_mend(out, &p->first);
    else if (p->first.len == 0)
        mf_buf_text(out, table[slip].mend);
    else if (slip == MF_SLIP_DATE_MISSING)
        mf_buf_printf(out, "write %s or %s", first, second);
    else
        mf_buf_printf(out, "write a number from %s to %s", first, second);
}

/* "slip.range", and "slip.range.open" where the mend has no parts. */
static void name_slip(mf_err *err, const parts *p, const char *shown, mf_slip slip)
{
    char name[MF_ERR_NAME];
    bool has_parts = slip == MF_SLIP_DATE_MISSING || slip == MF_SLIP_RANGE || slip == MF_SLIP_PLACE;
    bool open = has_parts && p->first.len == 0;
    snprintf(name, sizeof name, "slip.%.16s%s", mf_slip_name(slip), open ? ".open" : "");
    mf_fail_name(err, name, shown, mf_buf_str(&p->first), mf_buf_str(&p->second));
}

/* Of several places the one that slipped: an id. */
static const char *one_place(char *out, size_t size, const char *text)
{
    size_t len = 0;
    const char *from = mf_places_no_state(text, &len);
    snprintf(out, size, "%.*s", (int)len, from);
    return out;
}

mf_status mf_slip_fail(mf_err *err, const mf_field *field, const char *where, const char *text,
                       mf_slip slip)
{
    if ((unsigned)slip >= MF_SLIP_COUNT)
        slip = MF_SLIP_NONE;
    const words *w = &table[slip];
    char shown[80], option[80], one[80];
    mf_buf mend = {0};
    parts p = {{0}, {0}};
    if (slip == MF_SLIP_PLACE)
        text = one_place(one, sizeof one, text);
    mf_utf8_show(shown, sizeof shown, text);
    snprintf(option, sizeof option, "--%.60s", field->option);
    find_parts(&p, field, text, slip);
    add_mend(&mend, &p, slip);
    const char *place = where == NULL || where[0] == '\0' ? option : where;
    if (slip == MF_SLIP_EMPTY)
        mf_failf(err, MF_INPUT, place, w->why, mf_buf_str(&mend), "it %s", w->what);
    else
        mf_failf(err, MF_INPUT, place, w->why, mf_buf_str(&mend), "\"%s\" %s", shown, w->what);
    name_slip(err, &p, shown, slip);
    mf_buf_free(&mend);
    mf_buf_free(&p.first);
    mf_buf_free(&p.second);
    return MF_INPUT;
}
