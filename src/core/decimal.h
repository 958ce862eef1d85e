/* decimal.h - decimal text to whole numbers, exactly. */
#ifndef MF_CORE_DECIMAL_H
#define MF_CORE_DECIMAL_H

#include <mistfold/kind.h>

/* The digits of a number, in the text they were read from. */
typedef struct mf_decimal {
    bool negative;
    const char *whole, *decimals;
    size_t n_whole, n_decimals;
} mf_decimal;

/* Reads an optional sign, digits, and optionally a point and digits. NUMBER when
 * it is something else, DECIMAL_COMMA when a comma is all that is wrong. */
mf_slip mf_decimal_read(const char *text, size_t len, mf_decimal *out);

/* The number times ten to the power of places. DECIMALS when that is not whole
 * by the digits as written, RANGE when it does not fit. */
mf_slip mf_decimal_scale(const mf_decimal *number, int places, int64_t *out);

bool mf_decimal_nonzero(const mf_decimal *number);

#endif
