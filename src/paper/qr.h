/* qr.h - a QR code that a phone reads; its text stands on the paper too. */
#ifndef MF_PAPER_QR_H
#define MF_PAPER_QR_H

#include "paper/rec.h"

/* The code of a text: width times width modules, row by row, true = dark. The caller frees
 * dark. MF_INPUT when text is too long for one. */
typedef struct mf_modules {
    bool *dark;
    int width;
} mf_modules;
mf_status mf_qr_modules(const char *text, mf_modules *out, mf_err *err);

/* With a quiet zone inside the square. */
void mf_qr_draw(mf_rec *rec, const char *text, mf_point at, float side);

#endif
