/* The one file that sees the QR library (ISO/IEC 18004). */
#include "paper/qr.h"

#include "base/fail.h"

#include <errno.h>

#include <qrencode.h>
#include <stdlib.h>

enum { QUIET = 2 }; /* modules around the code; the paper's margin gives the rest */

mf_status mf_qr_modules(const char *text, mf_modules *out, mf_err *err)
{
    *out = (mf_modules){0};
    QRcode *code = QRcode_encodeString8bit(text, 0, QR_ECLEVEL_M);
    if (code == NULL)
        return errno == ERANGE
                   ? mf_fail(err, MF_INPUT, "the QR code", "the text is too long for it",
                             "about 2300 letters fit", "shorten the ids in it")
                   : mf_fail_memory(err);
    size_t n = (size_t)code->width * (size_t)code->width;
    out->width = code->width;
    out->dark = calloc(n, sizeof *out->dark);
    for (size_t i = 0; out->dark != NULL && i < n; i++)
        out->dark[i] = (code->data[i] & 1) != 0;
    QRcode_free(code);
    return out->dark == NULL ? mf_fail_memory(err) : MF_OK;
}

/* Dark modules of a row that touch are one bar: fewer strokes, no hair lines. */
static void draw_row(mf_rec *rec, const bool *row, int width, mf_point at, float module)
{
    for (int i = 0; i < width;) {
        int run = 0;
        while (i + run < width && row[i + run])
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
    mf_err err = {0};
    mf_modules code;
    if (mf_qr_modules(text, &code, &err) != MF_OK) {
        mf_haru_fail(rec->page.haru, &err);
        return;
    }
    float module = side / (float)(code.width + 2 * QUIET);
    for (int row = 0; row < code.width; row++)
        draw_row(rec, code.dark + (size_t)row * (size_t)code.width, code.width,
                 (mf_point){at.x + QUIET * module, at.y + (float)(row + QUIET) * module}, module);
    free(code.dark);
}
