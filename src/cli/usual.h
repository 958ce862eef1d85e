/* usual.h - what usually comes with what is known: the parts of an opening, the surfaces of a
 * room; and feet by feet typed as one. It is offered and listed, never taken for tested,
 * absent or free. */
#ifndef MF_CLI_USUAL_H
#define MF_CLI_USUAL_H

#include "cli/batch.h"

/* Rows for the usual parts of an opening but those in absent (words of a component's type,
 * interior or exterior, with commas), all of one substrate. */
void mf_usual_parts(mf_batch *batch, const char *opening, mf_opening_kind kind, const char *absent,
                    const char *substrate, int line);
/* Whether such an opening has a sill inside, which is wiped; absent as above. */
bool mf_usual_sill(mf_opening_kind kind, const char *absent);
/* Rows for what is wiped in an inside area: a sill of that size in sq ft for each of the ids in
 * sills (with commas), "" = none, and a floor of that size, "" = none. */
typedef struct mf_usual_room {
    const char *area, *place, *sills, *sill_sqft, *floor_sqft;
} mf_usual_room;
void mf_usual_surfaces(mf_batch *batch, const mf_usual_room *room, int line);

enum { MF_SIDE_TEXT = 32 };
/* "12 x 10" into its two sides; false when it is not of that form. */
bool mf_two_sides(const char *text, char a[MF_SIDE_TEXT], char b[MF_SIDE_TEXT]);
/* "2.5 x 0.5" in feet, or "30 in x 6 in", as square feet with two decimals, rounded up;
 * false when it is not of that form or no such number. */
bool mf_square_feet(const char *text, char out[MF_SIDE_TEXT]);

#endif
