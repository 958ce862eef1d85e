/* qr.h - a square code that a telephone reads; its text stands on the paper too. */
#ifndef MF_PAPER_QR_H
#define MF_PAPER_QR_H

#include "paper/rec.h"

/* With a quiet zone inside the square. */
void mf_qr_draw(mf_rec *rec, const char *text, mf_point at, float side);

#endif
