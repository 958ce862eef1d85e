/* The one file that sees the QR library (ISO/IEC 18004). */
#include "paper/qr.h"

#include "base/fail.h"

#include <errno.h>

#include <qrencode.h>

enum { QUIET = 2 }; /* modules around the code; the paper's margin gives the rest */

/* Dark modules of a row that touch are one bar: fewer strokes, no hair lines. */
static void draw_row(mf_rec *rec, const unsigned char *row, int width, mf_point at, float module)
{
    for (int i = 0; i < width;) {
        int run = 0;
        while (i + run < width && (row[i + run] & 1) != 0)
            run++;
        if (run > 0)
            mf_haru_rect(rec->page.haru, MF_INK_BLACK, MF_INK_NONE, 0,
                         (mf_point){at.x + (float)i * module, at.y},
                         (mf_point){(float)run * module, module * 1.02F});
        i += run > 0 ? run : 1;
    }
}

void mf_qr_draw(mf_rec *rec, const char *text, mf_point at, float side)
{
    QRcode *code = QRcode_encodeString8bit(text, 0, QR_ECLEVEL_M);
    if (code == NULL) {
        mf_err err = {0};
        if (errno == ERANGE)
            mf_fail(&err, MF_INPUT, "the code on the paper", "the text is too long for it",
                    "it holds the job and the work area", "shorten their ids");
        else
            mf_fail_memory(&err);
        mf_haru_fail(rec->page.haru, &err);
        return;
    }
    float module = side / (float)(code->width + 2 * QUIET);
    for (int row = 0; row < code->width; row++)
        draw_row(rec, code->data + (size_t)row * (size_t)code->width, code->width,
                 (mf_point){at.x + QUIET * module, at.y + (float)(row + QUIET) * module}, module);
    QRcode_free(code);
}
