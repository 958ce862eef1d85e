/* look.h - the words of a seal that the paper does not hold, drawn by the seal
 * itself: as the appearance of its widget, in a face every reader has. */
#ifndef MF_SEAL_LOOK_H
#define MF_SEAL_LOOK_H

#include "base/mem.h"

#include <mistfold/seal.h>

/* Appends resources and stream of the widget's appearance, without the object's
 * frame. draw false: an empty one. date: "2026-09-30 16:20 UTC". */
void mf_look_put(mf_buf *out, const mf_seal_ask *ask, const mf_seal_place *place);

#endif
