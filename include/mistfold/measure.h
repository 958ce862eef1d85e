/* mistfold/measure.h - areas of wipes and chips, and what a laboratory's numbers
 * become. Exact: fractions of whole numbers, nothing is rounded on the way.
 * 1 in = 2.54 cm exactly, 1 sq ft = 144 sq in.
 */
#ifndef MISTFOLD_MEASURE_H
#define MISTFOLD_MEASURE_H

#include <mistfold/kind.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct mf_fraction {
    int64_t num, den; /* den > 0, in lowest terms */
} mf_fraction;

/* An area as typed, in square inches: "11 5/8 x 12 1/8", "11.625 x 12.125 in",
 * "30 x 30 cm", "5 x 5cm", with x, X, * or the sign of multiplication between. At
 * most four decimals, denominators up to 64, sides up to 1,000. */
MF_API mf_slip mf_area_parse(const char *text, mf_fraction *sq_in);

/* value / 10^places as a decimal, rounded half up: for printing only. */
MF_API int64_t mf_fraction_round(mf_fraction value, int places);

MF_API mf_fraction mf_sq_in_to_sq_ft(mf_fraction sq_in);
MF_API mf_fraction mf_sq_in_to_sq_cm(mf_fraction sq_in);

/* Loading of a chip in ug/cm2: ug of lead over its area; den 0 when it cannot be
 * told exactly in 64 bits. */
MF_API mf_fraction mf_chip_loading(int64_t lead_ug, mf_fraction sq_in);
/* Parts per million by weight: ug of lead over mg of chip, times 1,000. */
MF_API mf_fraction mf_chip_weight(int64_t lead_ug, int64_t chip_mg);

#ifdef __cplusplus
}
#endif
#endif
