/* look.h - the words of a seal that the paper does not hold, drawn by the seal
 * itself: as the appearance of its widget, in a face every reader has. */
#ifndef MF_SEAL_LOOK_H
#define MF_SEAL_LOOK_H

#include "base/mem.h"

#include <mistfold/seal.h>

#include <stdbool.h>
#include <stdint.h>

/* Whether there is room in the place for words, and beside them for a drawing. */
bool mf_look_has_room(const mf_seal_ask *ask, const mf_seal_place *place);

/* Appends resources and stream of the widget's appearance, without the object's
 * frame. draw false: an empty one. image: number of the drawing's object. */
void mf_look_put(mf_buf *out, const mf_seal_ask *ask, const mf_seal_place *place, int64_t image);

/* Appends dictionary and stream of the drawing, without the object's frame. */
void mf_look_drawing(mf_buf *out, const mf_seal_drawing *drawing);

#endif
