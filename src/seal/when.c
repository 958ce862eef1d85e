#include "seal/when.h"

#include <stdio.h>

#define DAY          86400
#define LAST_SECOND  INT64_C(253402300799) /* 9999-12-31 23:59:59 */
#define DAYS_TO_1970 719468                /* from 0000-03-01 */

/* Both ways between a date and the days since 1970-01-01, counting years from
 * March so that a leap day comes last (Gregorian rule: 146097 days in 400 years). */
static int64_t days_of(int64_t year, int64_t month, int64_t day)
{
    int64_t y = month <= 2 ? year - 1 : year;
    int64_t era = y / 400, of_era = y % 400;
    int64_t of_year = (153 * (month > 2 ? month - 3 : month + 9) + 2) / 5 + day - 1;
    return era * 146097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - DAYS_TO_1970;
}

static void date_of(int64_t days, int *year, int *month, int *day)
{
    int64_t z = days + DAYS_TO_1970;
    int64_t era = z / 146097, d = z % 146097;
    int64_t of_era = (d - d / 1460 + d / 36524 - d / 146096) / 365;
    int64_t of_year = d - (365 * of_era + of_era / 4 - of_era / 100);
    int64_t m = (5 * of_year + 2) / 153;
    *day = (int)(of_year - (153 * m + 2) / 5 + 1);
    *month = (int)(m < 10 ? m + 3 : m - 9);
    *year = (int)(of_era + era * 400 + (*month <= 2));
}

bool mf_when_print(char out[MF_WHEN_SIZE], int64_t seconds)
{
    int year, month, day;
    if (seconds < 0 || seconds > LAST_SECOND)
        return false;
    date_of(seconds / DAY, &year, &month, &day);
    int rest = (int)(seconds % DAY);
    int n = snprintf(out, MF_WHEN_SIZE, "D:%04d%02d%02d%02d%02d%02d+00'00'", year, month, day,
                     rest / 3600, rest / 60 % 60, rest % 60);
    return n > 0 && n < MF_WHEN_SIZE;
}

/* Up to width digits at *at; without any the part is left out and is fallback. */
static int64_t read_part(const unsigned char **at, const unsigned char *stop, int width,
                         int64_t fallback)
{
    int64_t number = 0;
    int n = 0;
    for (; n < width && *at < stop && **at >= '0' && **at <= '9'; n++)
        number = number * 10 + (*(*at)++ - '0');
    return n == 0 ? fallback : n == width ? number : -1;
}

/* "Z", "+01'00'" or nothing: the seconds to take off. */
static int64_t read_zone(const unsigned char *at, const unsigned char *stop)
{
    if (at == stop || (*at != '+' && *at != '-'))
        return 0;
    int64_t sign = *at++ == '-' ? -1 : 1;
    int64_t hours = read_part(&at, stop, 2, 0);
    if (at < stop && *at == '\'')
        at++;
    int64_t minutes = read_part(&at, stop, 2, 0);
    return sign * (hours * 3600 + minutes * 60);
}

int64_t mf_when_read(const unsigned char *text, size_t len)
{
    const unsigned char *at = text, *stop = text + len;
    if (len >= 2 && at[0] == 'D' && at[1] == ':')
        at += 2;
    int64_t year = read_part(&at, stop, 4, -1), month = read_part(&at, stop, 2, 1);
    int64_t day = read_part(&at, stop, 2, 1), hour = read_part(&at, stop, 2, 0);
    int64_t minute = read_part(&at, stop, 2, 0), second = read_part(&at, stop, 2, 0);
    if (year < 1970 || month < 1 || month > 12 || day < 1 || day > 31 || hour < 0 || hour > 23 ||
        minute < 0 || minute > 59 || second < 0 || second > 59)
        return 0;
    return days_of(year, month, day) * DAY + hour * 3600 + minute * 60 + second -
           read_zone(at, stop);
}
