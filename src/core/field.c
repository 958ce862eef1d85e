/* From what a person typed to the stored number, or the slip that was made.
 * Decimal text becomes a whole number of the unit kept, digit by digit. The
 * numbers that only tell a slip of unit are named here; limits of the rule are
 * in limit_rows.c. */
#include <mistfold/kind.h>

#include "core/decimal.h"
#include "core/text.h"
#include <mistfold/limit.h>
#include <mistfold/place.h>
#include <string.h>

enum {
    LOADING_DECIMALS = 3, /* mg/cm2 kept as ug/cm2 */
    DUST_DECIMALS = 3,    /* ug/ft2 kept as ng/ft2 */
    AREA_DECIMALS = 2,
    INCH_DECIMALS = 6,       /* 1/64 inch is 0.015625 */
    PARTS_OF_AN_INCH = 1600, /* holds 1/64 and 0.01 exactly */
    MILLION = 1000000,
    MANY_INCHES = 100000,
    PERCENT_DECIMALS = 4, /* 0.0001 % = 1 ppm */
    ALL_OF_IT_PPM = 1000000,
    LOOKS_LIKE_PERCENT_PPM = 10, /* a smaller number of ppm was probably percent */
    ID_LENGTH = 40,
    YEAR_FIRST = 1900, /* no paper of a job has an earlier day, or a later one: a slip */
    YEAR_LAST = 2200
};

typedef enum unit { UNIT_MG, UNIT_UG, UNIT_G, UNIT_OTHER } unit;

static unit unit_named(const char *text)
{
    static const struct {
        const char *spelling;
        unit means;
    } known[] = {
        {"", UNIT_MG},
        {"mg/cm2", UNIT_MG},
        {"mg/cm\xC2\xB2", UNIT_MG},
        {"ug/cm2", UNIT_UG},
        {"\xC2\xB5g/cm2", UNIT_UG}, /* the micro sign, then the Greek letter */
        {"\xC2\xB5g/cm\xC2\xB2", UNIT_UG},
        {"\xCE\xBCg/cm2", UNIT_UG},
        {"\xCE\xBCg/cm\xC2\xB2", UNIT_UG},
        {"g/cm2", UNIT_G},
        {"g/cm\xC2\xB2", UNIT_G},
    };
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (mf_same(known[i].spelling, text))
            return known[i].means;
    }
    return UNIT_OTHER;
}

/* ---- numbers ---------------------------------------------------------------- */

static mf_slip in_range(const mf_field *field, int64_t number)
{
    bool any = field->min == 0 && field->max == 0;
    return any || (number >= field->min && number <= field->max) ? MF_SLIP_NONE : MF_SLIP_RANGE;
}

/* A decimal number with at most that many decimals. */
static mf_slip plain(const char *text, int decimals, int64_t *out)
{
    mf_decimal number;
    mf_slip slip = mf_decimal_read(text, strlen(text), &number);
    return slip != MF_SLIP_NONE ? slip : mf_decimal_scale(&number, decimals, out);
}

/* A positive number below 0.01 with three decimals or more is what a loading in
 * g/cm2 looks like. */
static bool looks_like_grams(const mf_decimal *number)
{
    int64_t hundredths = 0;
    mf_decimal cut = *number;
    if (cut.n_decimals < 3 || cut.negative || !mf_decimal_nonzero(number))
        return false;
    cut.n_decimals = 2;
    return mf_decimal_scale(&cut, 2, &hundredths) == MF_SLIP_NONE && hundredths == 0;
}

static bool implausible(int64_t ug_cm2)
{
    return mf_limit_holds(mf_limit_on(MF_LIMIT_PLAUSIBLE_LOADING, MF_DAY_NONE), ug_cm2);
}

static mf_slip loading_mg(const mf_decimal *number, int64_t *out)
{
    if (looks_like_grams(number))
        return MF_SLIP_UNIT_G;
    mf_slip slip = mf_decimal_scale(number, LOADING_DECIMALS, out);
    if (slip == MF_SLIP_NONE && implausible(*out))
        return MF_SLIP_UNIT_UG;
    return slip;
}

static mf_slip loading_ug(const mf_decimal *number, int64_t *out)
{
    mf_slip slip = mf_decimal_scale(number, 0, out);
    return slip == MF_SLIP_NONE && implausible(*out) ? MF_SLIP_RANGE : slip;
}

static mf_slip loading(const char *text, const char *unit_text, int64_t *out)
{
    mf_decimal number;
    unit in = unit_named(mf_or_empty(unit_text));
    if (in == UNIT_OTHER)
        return MF_SLIP_UNIT_UNKNOWN;
    mf_slip slip = mf_decimal_read(text, strlen(text), &number);
    if (slip != MF_SLIP_NONE)
        return slip;
    if (in == UNIT_G)
        return MF_SLIP_UNIT_G;
    return in == UNIT_MG ? loading_mg(&number, out) : loading_ug(&number, out);
}

static mf_slip dust(const char *text, int64_t *out)
{
    mf_slip slip = plain(text, DUST_DECIMALS, out);
    return slip == MF_SLIP_NONE && *out < 0 ? MF_SLIP_RANGE : slip;
}

static mf_slip percent(const mf_decimal *number, int64_t *out)
{
    mf_slip slip = mf_decimal_scale(number, PERCENT_DECIMALS, out);
    if (slip == MF_SLIP_RANGE && !number->negative)
        return MF_SLIP_PERCENT;
    if (slip == MF_SLIP_NONE && *out > ALL_OF_IT_PPM)
        return MF_SLIP_PERCENT;
    return slip;
}

/* "0" says the same in both units and is no slip. */
static mf_slip parts_per_million(const mf_decimal *number, int64_t *out)
{
    int64_t whole = 0;
    mf_decimal cut = *number;
    cut.n_decimals = 0;
    mf_slip slip = mf_decimal_scale(&cut, 0, &whole);
    if (slip == MF_SLIP_NONE && !number->negative && mf_decimal_nonzero(number) &&
        whole < LOOKS_LIKE_PERCENT_PPM)
        return MF_SLIP_PPM;
    slip = mf_decimal_scale(number, 0, out);
    return slip == MF_SLIP_NONE && *out > ALL_OF_IT_PPM ? MF_SLIP_RANGE : slip;
}

static mf_slip weight(const char *text, int64_t *out)
{
    mf_decimal number;
    size_t len = strlen(text);
    bool of_hundred = len > 0 && text[len - 1] == '%';
    if (of_hundred)
        len -= len > 2 && text[len - 2] == ' ' ? 2 : 1;
    mf_slip slip = mf_decimal_read(text, len, &number);
    if (slip == MF_SLIP_NONE)
        slip = of_hundred ? percent(&number, out) : parts_per_million(&number, out);
    return slip == MF_SLIP_NONE && *out < 0 ? MF_SLIP_RANGE : slip;
}

/* Takes "<" or ">" and spaces after it off the front. */
static mf_slip qualifier(const mf_field *field, const char **text, mf_qualifier *out)
{
    *out = MF_QUAL_EXACT;
    if (**text != '<' && **text != '>')
        return MF_SLIP_NONE;
    bool kept = field->type == MF_F_LOADING || field->type == MF_F_DUST;
    if (!kept || (field->flags & MF_F_QUALIFIED) == 0)
        return MF_SLIP_QUALIFIER;
    *out = **text == '<' ? MF_QUAL_UNDER : MF_QUAL_OVER;
    do {
        (*text)++;
    } while (**text == ' ');
    return MF_SLIP_NONE;
}

/* One run of decimal digits, no longer than that the value can be multiplied: who asks
 * looks at what comes after it, which of a longer run is a digit. */
static bool digits(const char **at, int64_t *out)
{
    const char *from = *at;
    for (*out = 0; **at >= '0' && **at <= '9' && *out < MANY_INCHES; (*at)++)
        *out = *out * 10 + (**at - '0');
    return *at > from;
}

static mf_slip decimal_inches(const char *text, int64_t *out)
{
    int64_t millionths;
    mf_slip slip = plain(text, INCH_DECIMALS, &millionths);
    if (slip != MF_SLIP_NONE)
        return slip;
    if (millionths < 0 || millionths > (int64_t)MANY_INCHES * MILLION)
        return MF_SLIP_RANGE;
    if (millionths * PARTS_OF_AN_INCH % MILLION != 0)
        return MF_SLIP_DECIMALS;
    *out = millionths * PARTS_OF_AN_INCH / MILLION;
    return MF_SLIP_NONE;
}

/* "11 5/8", "5/8", or a decimal: a rule is read in halves down to 64ths. */
static mf_slip inches(const char *text, int64_t *out)
{
    int64_t whole = 0, over = 0, under = 0;
    const char *at = text;
    if (strchr(text, '/') == NULL)
        return decimal_inches(text, out);
    if (strchr(text, ' ') != NULL && (!digits(&at, &whole) || *at++ != ' '))
        return MF_SLIP_NUMBER;
    if (!digits(&at, &over) || *at++ != '/' || !digits(&at, &under) || *at != '\0' || under == 0 ||
        over >= under)
        return MF_SLIP_NUMBER;
    if (over * PARTS_OF_AN_INCH % under != 0)
        return MF_SLIP_DECIMALS;
    *out = whole * PARTS_OF_AN_INCH + over * PARTS_OF_AN_INCH / under;
    return MF_SLIP_NONE;
}

static mf_slip quantity(const mf_field *field, const char *text, const char *unit_text,
                        mf_parsed *out)
{
    mf_slip slip = qualifier(field, &text, &out->qualifier);
    if (slip != MF_SLIP_NONE)
        return slip;
    if (field->type == MF_F_LOADING)
        slip = loading(text, unit_text, &out->number);
    else if (field->type == MF_F_DUST)
        slip = dust(text, &out->number);
    else if (field->type == MF_F_PPM)
        slip = weight(text, &out->number);
    else if (field->type == MF_F_INCHES)
        slip = inches(text, &out->number);
    else
        slip = plain(text, field->type == MF_F_HUNDREDTHS ? AREA_DECIMALS : 0, &out->number);
    return slip != MF_SLIP_NONE ? slip : in_range(field, out->number);
}

/* ---- texts, dates, words ------------------------------------------------------ */

/* ASCII controls, and in UTF-8 the controls U+0080 to U+009F and the two line
 * separators U+2028 and U+2029. */
static bool control_at(const char *text)
{
    const unsigned char *c = (const unsigned char *)text;
    if (c[0] < 0x20 || c[0] == 0x7F)
        return true;
    if (c[0] == 0xC2)
        return c[1] >= 0x80 && c[1] <= 0x9F;
    return c[0] == 0xE2 && c[1] == 0x80 && (c[2] == 0xA8 || c[2] == 0xA9);
}

static mf_slip line(const char *text)
{
    bool blank = true;
    for (const char *c = text; *c != '\0'; c++) {
        if (control_at(c))
            return MF_SLIP_CONTROL;
        if (*c != ' ')
            blank = false;
    }
    return blank ? MF_SLIP_EMPTY : MF_SLIP_NONE;
}

static bool id_char(char c)
{
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' ||
           c == '_' || c == '-';
}

static mf_slip ids(const char *text, bool many)
{
    size_t len = 0;
    for (const char *c = text;; c++) {
        bool ends = *c == '\0' || (many && *c == ',');
        if (ends && (len == 0 || len > ID_LENGTH))
            return MF_SLIP_ID;
        if (*c == '\0')
            return MF_SLIP_NONE;
        if (!ends && !id_char(*c))
            return MF_SLIP_ID;
        len = ends ? 0 : len + 1;
    }
}

/* Ids, and where the field has words, only these. */
static mf_slip words(const mf_field *field, const char *text)
{
    char one[ID_LENGTH + 1];
    mf_slip slip = ids(text, true);
    for (const char *c = text; slip == MF_SLIP_NONE && field->choices != NULL; c++) {
        size_t len = strcspn(c, ",");
        memcpy(one, c, len);
        one[len] = '\0';
        if (mf_choice(field->choices, one) < 0)
            slip = MF_SLIP_CHOICE;
        c += len;
        if (*c == '\0')
            break;
    }
    return slip;
}

static mf_slip date(const mf_field *field, const char *text, mf_day today, mf_parsed *out)
{
    bool form;
    mf_day day = mf_day_parse(text, &form);
    if (day == MF_DAY_NONE)
        return form ? MF_SLIP_DATE_MISSING : MF_SLIP_DATE_FORM;
    if ((field->flags & MF_F_PAST) != 0 && today != MF_DAY_NONE && day > today)
        return MF_SLIP_DATE_FUTURE;
    if (day < mf_day_from(YEAR_FIRST, 1, 1) || day > mf_day_from(YEAR_LAST, 12, 31))
        return MF_SLIP_DATE_FAR;
    out->number = day;
    return in_range(field, day);
}

static mf_slip time_of_day(const char *text, mf_parsed *out)
{
    out->number = mf_minute_parse(text);
    return out->number == MF_MINUTE_NONE ? MF_SLIP_TIME : MF_SLIP_NONE;
}

static mf_slip word(const mf_field *field, const char *text, mf_parsed *out)
{
    out->number = mf_choice(field->choices, text);
    return out->number < 0 ? MF_SLIP_CHOICE : MF_SLIP_NONE;
}

static mf_slip yes_no(const char *text, mf_parsed *out)
{
    if (mf_same(text, "yes"))
        out->number = MF_YES;
    else if (mf_same(text, "no"))
        out->number = MF_NOT;
    else
        return MF_SLIP_YESNO;
    return MF_SLIP_NONE;
}

static mf_slip parse(const mf_field *field, const char *text, const char *unit_text, mf_day today,
                     mf_parsed *out)
{
    switch (field->type) {
    case MF_F_TEXT:
        return line(text);
    case MF_F_ID:
        return ids(text, false);
    case MF_F_IDS:
        return words(field, text);
    case MF_F_DATE:
        return date(field, text, today, out);
    case MF_F_TIME:
        return time_of_day(text, out);
    case MF_F_CHOICE:
        return word(field, text, out);
    case MF_F_YESNO:
        return yes_no(text, out);
    case MF_F_INT:
    case MF_F_HUNDREDTHS:
    case MF_F_INCHES:
    case MF_F_LOADING:
    case MF_F_DUST:
    case MF_F_PPM:
        break;
    }
    return quantity(field, text, unit_text, out);
}

mf_slip mf_field_parse(const mf_field *field, const char *text, const char *unit_text, mf_day today,
                       mf_parsed *out)
{
    mf_parsed parsed = {MF_NUM_NONE, MF_QUAL_EXACT};
    size_t len = 0;
    if (!mf_given(text))
        return MF_SLIP_EMPTY;
    mf_slip slip = parse(field, text, unit_text, today, &parsed);
    if (slip == MF_SLIP_NONE && (field->flags & MF_F_PLACE) != 0 &&
        *mf_places_no_state(text, &len) != '\0')
        slip = MF_SLIP_PLACE;
    if (slip == MF_SLIP_NONE)
        *out = parsed;
    return slip;
}
