#include "core/decimal.h"

static size_t digits_at(const char *text, size_t len)
{
    size_t n = 0;
    while (n < len && text[n] >= '0' && text[n] <= '9')
        n++;
    return n;
}

/* Whether the text would look like a number but for a comma. */
static bool comma_number(const char *text, size_t len)
{
    bool comma = false, digit = false;
    for (size_t i = 0; i < len; i++) {
        bool sign = (text[i] == '-' || text[i] == '+') && i == 0;
        bool figure = text[i] >= '0' && text[i] <= '9';
        if (!sign && !figure && text[i] != ',' && text[i] != '.')
            return false;
        comma = comma || text[i] == ',';
        digit = digit || figure;
    }
    return comma && digit;
}

mf_slip mf_decimal_read(const char *text, size_t len, mf_decimal *out)
{
    size_t at = len > 0 && (text[0] == '-' || text[0] == '+') ? 1 : 0;
    out->negative = at == 1 && text[0] == '-';
    out->whole = text + at;
    out->n_whole = digits_at(text + at, len - at);
    at += out->n_whole;
    bool point = at < len && text[at] == '.';
    if (point)
        at++;
    out->decimals = text + at;
    out->n_decimals = point ? digits_at(text + at, len - at) : 0;
    at += out->n_decimals;
    bool figures = point ? out->n_decimals > 0 : out->n_whole > 0;
    if (at == len && figures)
        return MF_SLIP_NONE;
    return comma_number(text, len) ? MF_SLIP_DECIMAL_COMMA : MF_SLIP_NUMBER;
}

/* Adds one digit at the end of *value; false when it does not fit. */
static bool push(int64_t *value, int digit)
{
    if (*value > (INT64_MAX - digit) / 10)
        return false;
    *value = *value * 10 + digit;
    return true;
}

mf_slip mf_decimal_scale(const mf_decimal *number, int places, int64_t *out)
{
    int64_t value = 0;
    if (number->n_decimals > (size_t)places)
        return MF_SLIP_DECIMALS;
    for (size_t i = 0; i < number->n_whole; i++) {
        if (!push(&value, number->whole[i] - '0'))
            return MF_SLIP_RANGE;
    }
    for (size_t i = 0; i < (size_t)places; i++) {
        if (!push(&value, i < number->n_decimals ? number->decimals[i] - '0' : 0))
            return MF_SLIP_RANGE;
    }
    *out = number->negative ? -value : value;
    return MF_SLIP_NONE;
}

bool mf_decimal_nonzero(const mf_decimal *number)
{
    for (size_t i = 0; i < number->n_whole; i++) {
        if (number->whole[i] != '0')
            return true;
    }
    for (size_t i = 0; i < number->n_decimals; i++) {
        if (number->decimals[i] != '0')
            return true;
    }
    return false;
}
