/* Civil dates. The calendar repeats every 400 years (146,097 days); years are
 * counted from 1 March so that the leap day is the last day of a year. */
#include <mistfold/day.h>
#include <string.h>

enum {
    FIRST_YEAR = 1,
    LAST_YEAR = 9999,
    FIRST_DAY = -719162, /* 0001-01-01 */
    LAST_DAY = 2932896,  /* 9999-12-31 */
    DAYS_IN_CYCLE = 146097,
    EPOCH_FROM_CYCLE = 719468, /* 0000-03-01 to 1970-01-01 */
    MINUTES_IN_HOUR = 60,
    MINUTES_IN_DAY = 24 * MINUTES_IN_HOUR
};

static bool leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int days_in(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return month == 2 && leap(year) ? 29 : days[month - 1];
}

static bool exists(int year, int month, int day)
{
    return year >= FIRST_YEAR && year <= LAST_YEAR && month >= 1 && month <= 12 && day >= 1 &&
           day <= days_in(year, month);
}

mf_day mf_day_from(int year, int month, int day)
{
    if (!exists(year, month, day))
        return MF_DAY_NONE;
    int y = month > 2 ? year : year - 1;
    int from_march = month > 2 ? month - 3 : month + 9;
    int of_cycle = y % 400;
    int of_year = (153 * from_march + 2) / 5 + day - 1;
    int in_cycle = of_cycle * 365 + of_cycle / 4 - of_cycle / 100 + of_year;
    return y / 400 * DAYS_IN_CYCLE + in_cycle - EPOCH_FROM_CYCLE;
}

void mf_day_parts(mf_day day, int *year, int *month, int *dom)
{
    int64_t z = (int64_t)day + EPOCH_FROM_CYCLE;
    int64_t cycle = (z >= 0 ? z : z - (DAYS_IN_CYCLE - 1)) / DAYS_IN_CYCLE;
    int in_cycle = (int)(z - cycle * DAYS_IN_CYCLE);
    /* Take the leap days out: one every 4 years, but for the end of a century,
     * but for the end of a cycle. */
    int of_cycle = (in_cycle - in_cycle / 1460 + in_cycle / 36524 - in_cycle / 146096) / 365;
    int of_year = in_cycle - (365 * of_cycle + of_cycle / 4 - of_cycle / 100);
    int from_march = (5 * of_year + 2) / 153;
    *dom = of_year - (153 * from_march + 2) / 5 + 1;
    *month = from_march < 10 ? from_march + 3 : from_march - 9;
    *year = (int)(cycle * 400) + of_cycle + (*month <= 2 ? 1 : 0);
}

/* The number made of exactly n digits, or -1. */
static int digits(const char *text, int n)
{
    int value = 0;
    for (int i = 0; i < n; i++) {
        if (text[i] < '0' || text[i] > '9')
            return -1;
        value = value * 10 + (text[i] - '0');
    }
    return value;
}

mf_day mf_day_parse(const char *text, bool *well_formed)
{
    bool form = text != NULL && strlen(text) == MF_DAY_TEXT - 1 && text[4] == '-' &&
                text[7] == '-' && digits(text, 4) >= 0 && digits(text + 5, 2) >= 0 &&
                digits(text + 8, 2) >= 0;
    if (well_formed != NULL)
        *well_formed = form;
    return form ? mf_day_from(digits(text, 4), digits(text + 5, 2), digits(text + 8, 2))
                : MF_DAY_NONE;
}

static void put_digits(char *out, int n, int value)
{
    for (int i = n - 1; i >= 0; i--) {
        out[i] = (char)('0' + value % 10);
        value /= 10;
    }
}

void mf_day_text(mf_day day, char out[MF_DAY_TEXT])
{
    out[0] = '\0';
    if (day < FIRST_DAY || day > LAST_DAY)
        return;
    int year, month, dom;
    mf_day_parts(day, &year, &month, &dom);
    memcpy(out, "0000-00-00", MF_DAY_TEXT);
    put_digits(out, 4, year);
    put_digits(out + 5, 2, month);
    put_digits(out + 8, 2, dom);
}

mf_day mf_day_add_years(mf_day day, int years)
{
    if (day < FIRST_DAY || day > LAST_DAY || years > LAST_YEAR || years < -LAST_YEAR)
        return MF_DAY_NONE;
    int year, month, dom;
    mf_day_parts(day, &year, &month, &dom);
    year += years;
    if (month == 2 && dom == 29 && !leap(year))
        return mf_day_from(year, 3, 1);
    return mf_day_from(year, month, dom);
}

bool mf_day_within(mf_day from, mf_day until, mf_day day)
{
    if (day == MF_DAY_NONE)
        return until == MF_DAY_NONE;
    return (from == MF_DAY_NONE || from <= day) && (until == MF_DAY_NONE || day <= until);
}

int mf_day_weekday(mf_day day)
{
    const int thursday = 4; /* 1970-01-01 */
    return (day % 7 + 7 + thursday) % 7;
}

int32_t mf_minute_parse(const char *text)
{
    if (text == NULL || strlen(text) != MF_MINUTE_TEXT - 1 || text[2] != ':')
        return MF_MINUTE_NONE;
    int hour = digits(text, 2), minute = digits(text + 3, 2);
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59)
        return MF_MINUTE_NONE;
    return hour * MINUTES_IN_HOUR + minute;
}

void mf_minute_text(int32_t minute, char out[MF_MINUTE_TEXT])
{
    out[0] = '\0';
    if (minute < 0 || minute >= MINUTES_IN_DAY)
        return;
    memcpy(out, "00:00", MF_MINUTE_TEXT);
    put_digits(out, 2, minute / MINUTES_IN_HOUR);
    put_digits(out + 3, 2, minute % MINUTES_IN_HOUR);
}
