/* qr_shown.c - a QR code for those who have no paper at hand: a terminal, a picture. */
#include <mistfold/qr.h>

#include "base/fail.h"
#include "base/mem.h"
#include "paper/qr.h"

#include <png.h>
#include <stdlib.h>
#include <string.h>

enum { QUIET = 4, SCALE = 8 };

static bool dark_at(const mf_modules *m, int x, int y)
{
    bool inside = x >= 0 && y >= 0 && x < m->width && y < m->width;
    return inside && m->dark[(size_t)y * (size_t)m->width + (size_t)x];
}

MF_API mf_status mf_qr_text(const char *text, mf_bytes *out, mf_err *err)
{
    static const char *const halves[] = {" ", "\xE2\x96\x84", "\xE2\x96\x80", "\xE2\x96\x88"};
    mf_buf lines = {0};
    mf_modules m;
    mf_status status = mf_qr_modules(text, &m, err);
    if (status != MF_OK)
        return status;
    for (int y = -QUIET; y < m.width + QUIET; y += 2) {
        mf_buf_text(&lines, "\033[30;47m");
        for (int x = -QUIET; x < m.width + QUIET; x++)
            mf_buf_text(&lines, halves[(dark_at(&m, x, y) ? 2 : 0) + dark_at(&m, x, y + 1)]);
        mf_buf_text(&lines, "\033[0m\n");
    }
    free(m.dark);
    status = lines.failed ? mf_fail_memory(err) : MF_OK;
    if (status == MF_OK)
        mf_buf_take(&lines, out);
    mf_buf_free(&lines);
    return status;
}

static unsigned char *pixels_of(const mf_modules *m, int side)
{
    unsigned char *pixels = malloc((size_t)side * (size_t)side);
    for (int y = 0; pixels != NULL && y < side; y++)
        for (int x = 0; x < side; x++)
            pixels[(size_t)y * (size_t)side + (size_t)x] =
                dark_at(m, x / SCALE - QUIET, y / SCALE - QUIET) ? 0 : 255;
    return pixels;
}

/* False when memory ran out, the only way in which a good picture cannot be written. */
static bool write_png(const unsigned char *pixels, int side, mf_bytes *out)
{
    png_image image;
    png_alloc_size_t len = 0;
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    image.width = image.height = (png_uint_32)side;
    image.format = PNG_FORMAT_GRAY;
    if (!png_image_write_get_memory_size(image, len, 0, pixels, 0, NULL))
        return false;
    out->data = malloc(len);
    bool good =
        out->data != NULL && png_image_write_to_memory(&image, out->data, &len, 0, pixels, 0, NULL);
    out->len = good ? len : 0;
    if (!good)
        mf_bytes_free(out);
    return good;
}

MF_API mf_status mf_qr_png(const char *text, mf_bytes *out, mf_err *err)
{
    mf_modules m;
    mf_status status = mf_qr_modules(text, &m, err);
    if (status != MF_OK)
        return status;
    int side = (m.width + 2 * QUIET) * SCALE;
    unsigned char *pixels = pixels_of(&m, side);
    free(m.dark);
    bool good = pixels != NULL && write_png(pixels, side, out);
    free(pixels);
    return good ? MF_OK : mf_fail_memory(err);
}
