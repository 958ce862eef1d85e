/* json_number.c - a double as ECMAScript prints it (RFC 8785 3.2.2.3): the
 * fewest digits that read back as the same double; of those, the nearest. */
#include "base/json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MAX_DIGITS 17 /* always enough for an IEEE 754 double */

typedef struct decimal {
    char digits[MAX_DIGITS + 2];
    int count;
    int point; /* the value is 0.DIGITS times ten to this power */
} decimal;

/* number > 0 correctly rounded to count digits. Only digits are taken from
 * printf's text, so that a decimal comma of the locale does not matter. */
static void rounded(decimal *out, double number, int count)
{
    char text[64];
    snprintf(text, sizeof text, "%.*e", count - 1, number);
    int n = 0;
    const char *at = text;
    for (; *at != 'e' && *at != '\0'; at++)
        if (*at >= '0' && *at <= '9' && n < MAX_DIGITS)
            out->digits[n++] = *at;
    out->digits[n] = '\0';
    out->count = n;
    out->point = (int)strtol(*at == 'e' ? at + 1 : "0", NULL, 10) + 1;
}

/* Adds one to the last digit. */
static void add_one(decimal *d)
{
    int i = d->count - 1;
    while (i >= 0 && d->digits[i] == '9')
        d->digits[i--] = '0';
    if (i >= 0) {
        d->digits[i]++;
        return;
    }
    d->digits[0] = '1'; /* 99 became 100: one place more to the left */
    d->point++;
}

static bool reads_back(const decimal *d, double number)
{
    char text[64];
    snprintf(text, sizeof text, "%se%d", d->digits, d->point - d->count); /* no point in it */
    return strtod(text, NULL) == number;
}

/* Below a power of two doubles lie closer than above it: there the nearest
 * decimal of this length may read back as the neighbor below while the next
 * one above it is still ours. */
static void shortest(decimal *out, double number)
{
    for (int count = 1; count <= MAX_DIGITS; count++) {
        rounded(out, number, count);
        if (reads_back(out, number))
            break;
        decimal above = *out;
        add_one(&above);
        if (reads_back(&above, number)) {
            *out = above;
            break;
        }
    }
    while (out->count > 1 && out->digits[out->count - 1] == '0')
        out->digits[--out->count] = '\0';
}

static void zeros(mf_buf *out, int count)
{
    for (int i = 0; i < count; i++)
        mf_buf_add(out, "0", 1);
}

static void put_exponent(mf_buf *out, const decimal *d)
{
    mf_buf_add(out, d->digits, 1);
    if (d->count > 1)
        mf_buf_printf(out, ".%s", d->digits + 1);
    int exponent = d->point - 1;
    mf_buf_printf(out, "e%c%d", exponent < 0 ? '-' : '+', abs(exponent));
}

/* ECMA-262 Number::toString, steps 6 to 10, n = point and k = count. */
void mf_json_number(mf_buf *out, double number)
{
    if (number == 0) { /* also -0 */
        mf_buf_add(out, "0", 1);
        return;
    }
    if (number < 0) {
        mf_buf_add(out, "-", 1);
        number = -number;
    }
    decimal d = {0};
    shortest(&d, number);
    if (d.point > 21 || d.point < -5) {
        put_exponent(out, &d);
    } else if (d.point <= 0) {
        mf_buf_text(out, "0.");
        zeros(out, -d.point);
        mf_buf_text(out, d.digits);
    } else if (d.count <= d.point) {
        mf_buf_text(out, d.digits);
        zeros(out, d.point - d.count);
    } else {
        mf_buf_add(out, d.digits, (size_t)d.point);
        mf_buf_printf(out, ".%s", d.digits + d.point);
    }
}
