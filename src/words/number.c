/* Numbers as people read them. The decimal mark is a point in both languages, as
 * on the instruments and in the rule; the process locale changes nothing. */
#include <mistfold/words.h>

#include <inttypes.h>
#include <stdio.h>

/* value / 10^decimals, trailing zeros beyond `keep` decimals dropped. */
static void decimal(int64_t value, int decimals, int keep, char *out, size_t size)
{
    uint64_t magnitude = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
    uint64_t scale = 1;
    for (int i = 0; i < decimals; i++)
        scale *= 10;
    uint64_t part = magnitude % scale;
    uint64_t whole = magnitude / scale;
    while (decimals > keep && part % 10 == 0) {
        part /= 10;
        decimals--;
    }
    const char *sign = value < 0 ? "-" : "";
    if (decimals == 0)
        snprintf(out, size, "%s%" PRIu64, sign, whole);
    else
        snprintf(out, size, "%s%" PRIu64 ".%0*" PRIu64, sign, whole, decimals, part);
}

/* As read off a rule: "11 5/8"; what is no 64th as a decimal. */
static void inches(int64_t number, char *out, size_t size)
{
    int64_t whole = number / 1600, part = number % 1600, under = 64;
    if (part == 0) {
        snprintf(out, size, "%" PRId64, whole);
        return;
    }
    if (part % 25 != 0) {
        decimal(number / 16, 2, 0, out, size); /* typed in hundredths */
        return;
    }
    for (part /= 25; part % 2 == 0; part /= 2)
        under /= 2;
    if (whole == 0)
        snprintf(out, size, "%" PRId64 "/%" PRId64, part, under);
    else
        snprintf(out, size, "%" PRId64 " %" PRId64 "/%" PRId64, whole, part, under);
}

static const char *unit_words(mf_lang lang, mf_unit unit)
{
    static const char *const ids[] = {"unit.ug-cm2", "unit.ppm",    "unit.sqft",  "unit.ft",
                                      "unit.ng-ft2", "unit.days",   "unit.years", "unit.minutes",
                                      "unit.deg-f",  NULL,          NULL,         "unit.percent",
                                      "unit.ug-dl",  "unit.inches", "unit.ng"};
    const char *words = ids[unit] == NULL ? NULL : mf_words(lang, ids[unit]);
    return words == NULL ? "" : words;
}

size_t mf_words_number(mf_lang lang, int64_t number, mf_unit unit, char *out, size_t size)
{
    char digits[64];
    switch (unit) {
    case MF_UNIT_UG_CM2:
        decimal(number, 3, 1, digits, sizeof digits);
        break;
    case MF_UNIT_SQFT_100:
    case MF_UNIT_FT_100:
    case MF_UNIT_PERCENT_100:
    case MF_UNIT_UG_DL_100:
        decimal(number, 2, 0, digits, sizeof digits);
        break;
    case MF_UNIT_NG_FT2:
    case MF_UNIT_NG:
        decimal(number, 3, 0, digits, sizeof digits);
        break;
    case MF_UNIT_IN_1600:
        inches(number, digits, sizeof digits);
        break;
    case MF_UNIT_PPM:
    case MF_UNIT_DAYS:
    case MF_UNIT_YEARS:
    case MF_UNIT_MINUTES:
    case MF_UNIT_DEG_F:
    case MF_UNIT_CALENDAR_YEAR:
    case MF_UNIT_COUNT:
        decimal(number, 0, 0, digits, sizeof digits);
        break;
    }
    const char *unit_text = unit_words(lang, unit);
    int len = snprintf(out, size, "%s%s%s", digits, unit_text[0] == '\0' ? "" : " ", unit_text);
    return len < 0 ? 0 : (size_t)len;
}

size_t mf_words_ratio(int64_t num, int64_t den, char *out, size_t size)
{
    char digits[40];
    decimal(num / den, 3, 2, digits, sizeof digits);
    const char *sign = num < 0 && num / den == 0 ? "-" : "";
    int len = snprintf(out, size, "%s%s%s", sign, digits, num % den == 0 ? "" : "..");
    return len < 0 ? 0 : (size_t)len;
}

size_t mf_words_nano(int64_t nano, int places, char *out, size_t size)
{
    char digits[40];
    for (int i = places; i < 9; i++)
        nano /= 10;
    decimal(nano, places, places, digits, sizeof digits);
    int len = snprintf(out, size, "%s", digits);
    return len < 0 ? 0 : (size_t)len;
}

size_t mf_words_loading(int64_t ug_cm2, mf_qualifier qualifier, char *out, size_t size)
{
    static const char *const mark[] = {"", ">", "<"};
    char digits[40];
    decimal(ug_cm2, 3, 2, digits, sizeof digits);
    int len = snprintf(out, size, "%s%s", mark[qualifier], digits);
    return len < 0 ? 0 : (size_t)len;
}
