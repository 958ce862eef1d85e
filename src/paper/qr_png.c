/* qr_png.c - a square code as a picture, for a screen or a printer. */
#include "base/fail.h"

#include <mistfold/paper.h>

#include <png.h>
#include <stdlib.h>
#include <string.h>

enum { DOTS = 8 }; /* a module: telephones find it at once on a screen */

static void draw(unsigned char *grey, const mf_paper_code *code, int side)
{
    memset(grey, 255, (size_t)side * (size_t)side);
    for (int y = 0; y < code->size * DOTS; y++)
        for (int x = 0; x < code->size * DOTS; x++)
            if (code->dark[y / DOTS * code->size + x / DOTS] != 0)
                grey[(size_t)(y + MF_CODE_QUIET * DOTS) * (size_t)side +
                     (size_t)(x + MF_CODE_QUIET * DOTS)] = 0;
}

mf_status mf_paper_code_png(mf_bytes *png, const mf_paper_code *code, mf_err *err)
{
    const int side = (code->size + 2 * MF_CODE_QUIET) * DOTS;
    png_image image;
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    image.width = image.height = (png_uint_32)side;
    image.format = PNG_FORMAT_GRAY;
    png_alloc_size_t len = PNG_IMAGE_PNG_SIZE_MAX(image);
    unsigned char *grey = malloc((size_t)side * (size_t)side);
    unsigned char *file = malloc(len);
    bool good = grey != NULL && file != NULL;
    if (good) {
        draw(grey, code, side);
        good = png_image_write_to_memory(&image, file, &len, 0, grey, 0, NULL) != 0;
    }
    png_image_free(&image);
    free(grey);
    if (!good) {
        free(file);
        return mf_fail_memory(err);
    }
    *png = (mf_bytes){.data = file, .len = len};
    return MF_OK;
}
