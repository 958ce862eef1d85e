/* The one file that sees the QR library (ISO/IEC 18004). */
#include "paper/qr.h"

#include "base/fail.h"

#include <errno.h>
#include <stdlib.h>

#include <qrencode.h>

enum { QUIET = 2 }; /* modules around the code; the paper's margin gives the rest */

/* Dark modules of a row that touch are one bar: fewer strokes, no hair lines. */
static void draw_row(mf_rec *rec, const unsigned char *row, int width, mf_point at, float module)
{
    for (int i = 0; i < width;) {
        int run = 0;
        while (i + run < width && row[i + run] != 0)
            run++;
        if (run > 0)
            mf_haru_rect(rec->page.haru, MF_INK_BLACK, MF_INK_NONE, 0,
                         (mf_point){at.x + (float)i * module, at.y},
                         (mf_point){(float)run * module, module * 1.02F});
        i += run > 0 ? run : 1;
    }
}

mf_status mf_paper_code_make(mf_paper_code *out, const char *text, mf_err *err)
{
    *out = (mf_paper_code){0};
    QRcode *code = QRcode_encodeString8bit(text, 0, QR_ECLEVEL_M);
    if (code == NULL)
        return errno == ERANGE ? mf_fail(err, MF_INPUT, "the code", "the text is too long for it",
                                         "it takes about 2,300 letters", "give it as text")
                               : mf_fail_memory(err);
    size_t n = (size_t)code->width * (size_t)code->width;
    out->dark = calloc(n, 1);
    for (size_t i = 0; out->dark != NULL && i < n; i++)
        out->dark[i] = code->data[i] & 1;
    out->size = code->width;
    QRcode_free(code);
    return out->dark == NULL ? mf_fail_memory(err) : MF_OK;
}

void mf_paper_code_free(mf_paper_code *code)
{
    free(code->dark);
    *code = (mf_paper_code){0};
}

void mf_qr_draw(mf_rec *rec, const char *text, mf_point at, float side)
{
    mf_err err = {0};
    mf_paper_code code;
    if (mf_paper_code_make(&code, text, &err) != MF_OK) {
        mf_haru_fail(rec->page.haru, &err);
        return;
    }
    float module = side / (float)(code.size + 2 * QUIET);
    for (int row = 0; row < code.size; row++)
        draw_row(rec, code.dark + (size_t)row * (size_t)code.size, code.size,
                 (mf_point){at.x + QUIET * module, at.y + (float)(row + QUIET) * module}, module);
    mf_paper_code_free(&code);
}
