/* Areas as people measure them: inches with eighths, or centimeters. */
#include <mistfold/measure.h>

#include "core/text.h"

enum {
    LONGEST = 1000, /* of a side, in its unit */
    LARGEST_DENOMINATOR = 64,
    MOST_DECIMALS = 4
};

static int64_t common_divisor(int64_t a, int64_t b)
{
    while (b != 0) {
        int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a < 0 ? -a : a;
}

static mf_fraction lowest(int64_t num, int64_t den)
{
    int64_t by = common_divisor(num, den);
    return by == 0 ? (mf_fraction){0, 1} : (mf_fraction){num / by, den / by};
}

/* a / b times c / d, shortened crosswise first; den 0 when it does not fit. */
static mf_fraction times(mf_fraction a, int64_t c, int64_t d)
{
    mf_fraction left = lowest(a.num, d), right = lowest(c, a.den);
    if (left.num != 0 && right.num > INT64_MAX / left.num)
        return (mf_fraction){0, 0};
    if (right.den > INT64_MAX / left.den)
        return (mf_fraction){0, 0};
    return (mf_fraction){left.num * right.num, left.den * right.den};
}

/* ---- reading --------------------------------------------------------------------- */

typedef struct cursor {
    const char *at;
} cursor;

static void blanks(cursor *c)
{
    while (*c->at == ' ')
        c->at++;
}

/* A whole number up to LONGEST; -1 = none, or larger. */
static int64_t whole(cursor *c)
{
    int64_t value = 0;
    if (!mf_digit(*c->at))
        return -1;
    for (; mf_digit(*c->at); c->at++) {
        value = value * 10 + (*c->at - '0');
        if (value > LONGEST)
            return -1;
    }
    return value;
}

/* ".625" after a whole number. */
static mf_slip decimals(cursor *c, mf_fraction *side)
{
    int64_t num = side->num, den = 1;
    int n = 0;
    for (c->at++; mf_digit(*c->at); c->at++, n++) {
        if (n == MOST_DECIMALS)
            return MF_SLIP_DECIMALS;
        num = num * 10 + (*c->at - '0');
        den *= 10;
    }
    *side = lowest(num, den);
    return n > 0 ? MF_SLIP_NONE : MF_SLIP_NUMBER;
}

/* "5/8" with its numerator read; whole inches stand before it. */
static mf_slip parts(cursor *c, int64_t before, int64_t num, mf_fraction *side)
{
    c->at++; /* the stroke */
    int64_t den = whole(c);
    if (den < 1 || den > LARGEST_DENOMINATOR || num >= den)
        return MF_SLIP_NUMBER;
    *side = lowest(before * den + num, den);
    return MF_SLIP_NONE;
}

static mf_slip side(cursor *c, mf_fraction *out)
{
    blanks(c);
    int64_t first = whole(c);
    if (first < 0)
        return MF_SLIP_NUMBER;
    *out = (mf_fraction){first, 1};
    if (*c->at == ',')
        return MF_SLIP_DECIMAL_COMMA;
    if (*c->at == '.')
        return decimals(c, out);
    if (*c->at == '/')
        return parts(c, 0, first, out);
    cursor ahead = *c;
    blanks(&ahead);
    if (ahead.at == c->at || !mf_digit(*ahead.at))
        return MF_SLIP_NONE;
    int64_t num = whole(&ahead);
    if (num < 0 || *ahead.at != '/')
        return MF_SLIP_NUMBER;
    *c = ahead;
    return parts(c, first, num, out);
}

typedef enum length_unit { UNIT_UNSAID, UNIT_INCH, UNIT_CM } length_unit;

static bool takes(cursor *c, const char *word)
{
    size_t len = strlen(word);
    if (strncmp(c->at, word, len) != 0)
        return false;
    c->at += len;
    return true;
}

static length_unit unit(cursor *c)
{
    blanks(c);
    if (takes(c, "cm"))
        return UNIT_CM;
    if (takes(c, "in") || takes(c, "\""))
        return UNIT_INCH;
    return UNIT_UNSAID;
}

static bool by_sign(cursor *c)
{
    blanks(c);
    return takes(c, "x") || takes(c, "X") || takes(c, "*") || takes(c, "\xC3\x97");
}

mf_slip mf_area_parse(const char *text, mf_fraction *sq_in)
{
    cursor c = {mf_or_empty(text)};
    mf_fraction a, b;
    blanks(&c);
    if (*c.at == '\0')
        return MF_SLIP_EMPTY;
    mf_slip slip = side(&c, &a);
    if (slip != MF_SLIP_NONE)
        return slip;
    length_unit of_a = unit(&c);
    if (!by_sign(&c))
        return MF_SLIP_NUMBER;
    slip = side(&c, &b);
    if (slip != MF_SLIP_NONE)
        return slip;
    length_unit of_b = unit(&c);
    blanks(&c);
    if (*c.at != '\0')
        return MF_SLIP_UNIT_UNKNOWN;
    if (of_a == UNIT_UNSAID)
        of_a = of_b;
    if (of_b == UNIT_UNSAID)
        of_b = of_a;
    if (of_a != of_b)
        return MF_SLIP_UNIT_UNKNOWN;
    mf_fraction area = times(a, b.num, b.den);
    if (of_a == UNIT_CM) /* 1 sq in = 2.54 x 2.54 sq cm = 16129/2500 */
        area = times(area, 2500, 16129);
    if (area.num <= 0 || area.den == 0)
        return MF_SLIP_RANGE;
    *sq_in = area;
    return MF_SLIP_NONE;
}

/* ---- turning ------------------------------------------------------------------------ */

mf_fraction mf_sq_in_to_sq_ft(mf_fraction sq_in)
{
    return times(sq_in, 1, 144);
}

mf_fraction mf_sq_in_to_sq_cm(mf_fraction sq_in)
{
    return times(sq_in, 16129, 2500);
}

int64_t mf_fraction_round(mf_fraction value, int places)
{
    int64_t scale = 1;
    for (int i = 0; i < places; i++)
        scale *= 10;
    mf_fraction scaled = times(value, scale, 1);
    if (scaled.den == 0)
        return MF_NUM_NONE;
    int64_t rest = scaled.num % scaled.den;
    return scaled.num / scaled.den + (rest >= scaled.den - rest ? 1 : 0);
}

mf_fraction mf_chip_loading(int64_t lead_ug, mf_fraction sq_in)
{
    mf_fraction cm = mf_sq_in_to_sq_cm(sq_in);
    if (cm.den == 0 || cm.num == 0)
        return (mf_fraction){0, 0};
    return times((mf_fraction){lead_ug, 1}, cm.den, cm.num);
}

mf_fraction mf_chip_weight(int64_t lead_ug, int64_t chip_mg)
{
    if (chip_mg <= 0)
        return (mf_fraction){0, 0};
    return times(lowest(lead_ug, chip_mg), 1000, 1);
}
