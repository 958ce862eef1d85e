#include "paper/photo.h"

#include "base/fail.h"

#include <stdlib.h>
#include <string.h>

enum { DRAWING_SIDE = 800 };

void mf_pixels_free(mf_pixels *pixels)
{
    free(pixels->at);
    *pixels = (mf_pixels){0};
}

/* ---- scaling and turning ---------------------------------------------------------- */

/* The mean of the pixels that fall together. */
static void mean(unsigned char *to, const mf_pixels *from, const unsigned box[4])
{
    uint64_t sum[3] = {0};
    for (unsigned y = box[1]; y < box[3]; y++)
        for (unsigned x = box[0]; x < box[2]; x++)
            for (size_t i = 0; i < 3; i++)
                sum[i] += from->at[((size_t)y * from->w + x) * 3 + i];
    uint64_t n = (uint64_t)(box[2] - box[0]) * (box[3] - box[1]);
    for (size_t i = 0; i < 3; i++)
        to[i] = (unsigned char)(n == 0 ? 0 : sum[i] / n);
}

static unsigned part(unsigned i, unsigned of, unsigned whole)
{
    return (unsigned)((uint64_t)i * whole / of);
}

/* Averages down so that the longer side is at most `side`; false = no memory. */
static bool scale_down(mf_pixels *pixels, unsigned side)
{
    unsigned longer = pixels->w > pixels->h ? pixels->w : pixels->h;
    if (longer <= side)
        return true;
    mf_pixels small = {NULL, part(pixels->w, longer, side), part(pixels->h, longer, side)};
    small.w = small.w == 0 ? 1 : small.w;
    small.h = small.h == 0 ? 1 : small.h;
    small.at = malloc((size_t)small.w * small.h * 3);
    if (small.at == NULL)
        return false;
    for (unsigned y = 0; y < small.h; y++)
        for (unsigned x = 0; x < small.w; x++) {
            const unsigned box[4] = {part(x, small.w, pixels->w), part(y, small.h, pixels->h),
                                     part(x + 1, small.w, pixels->w),
                                     part(y + 1, small.h, pixels->h)};
            mean(small.at + ((size_t)y * small.w + x) * 3, pixels, box);
        }
    free(pixels->at);
    *pixels = small;
    return true;
}

/* Exif 2.3, 4.6.4 A: where row 0 and column 0 of the file are seen. */
static size_t source_of(const mf_pixels *from, int turn, unsigned x, unsigned y)
{
    unsigned right = from->w - 1, low = from->h - 1;
    unsigned sx = x, sy = y;
    switch (turn) {
    case 2:
        sx = right - x;
        break;
    case 3:
        sx = right - x;
        sy = low - y;
        break;
    case 4:
        sy = low - y;
        break;
    case 5:
        sx = y;
        sy = x;
        break;
    case 6:
        sx = y;
        sy = low - x;
        break;
    case 7:
        sx = right - y;
        sy = low - x;
        break;
    case 8:
        sx = right - y;
        sy = x;
        break;
    default:
        break;
    }
    return ((size_t)sy * from->w + sx) * 3;
}

bool mf_photo_upright(mf_pixels *pixels, int turn)
{
    bool across = turn >= 5;
    if (turn < 2 || turn > 8)
        return true;
    mf_pixels up = {NULL, across ? pixels->h : pixels->w, across ? pixels->w : pixels->h};
    up.at = malloc((size_t)up.w * up.h * 3);
    if (up.at == NULL)
        return false;
    for (unsigned y = 0; y < up.h; y++)
        for (unsigned x = 0; x < up.w; x++)
            memcpy(up.at + ((size_t)y * up.w + x) * 3, pixels->at + source_of(pixels, turn, x, y),
                   3);
    free(pixels->at);
    *pixels = up;
    return true;
}

static unsigned number(const unsigned char *at, size_t bytes, bool little)
{
    unsigned sum = 0;
    for (size_t i = 0; i < bytes; i++)
        sum = sum << 8 | at[little ? bytes - 1 - i : i];
    return sum;
}

int mf_photo_exif_turn(const unsigned char *exif, size_t len)
{
    if (len < 14 || memcmp(exif, "Exif\0\0", 6) != 0)
        return 1;
    const unsigned char *tiff = exif + 6;
    size_t size = len - 6;
    bool little = tiff[0] == 'I';
    size_t at = number(tiff + 4, 4, little);
    if (at > size - 2)
        return 1;
    unsigned n = number(tiff + at, 2, little);
    for (at += 2; n > 0 && size - at >= 12 && at <= size; n--, at += 12)
        if (number(tiff + at, 2, little) == 0x0112) {
            unsigned turn = number(tiff + at + 8, 2, little);
            return turn >= 1 && turn <= 8 ? (int)turn : 1;
        }
    return 1;
}

/* ---- all of it --------------------------------------------------------------------- */

const char mf_photo_no_memory[] = "there is no memory for the picture";

static mf_photo_fault decode(mf_pixels *out, int *turn, const mf_paper_photo *photo)
{
    *turn = 1;
    if (photo->len > MF_PHOTO_BYTES)
        return "the file has more than 32 MiB";
    if (photo->len > 8 && memcmp(photo->data, "\x89PNG\r\n\x1a\n", 8) == 0)
        return mf_photo_png(out, photo->data, photo->len);
    if (photo->len > 3 && memcmp(photo->data, "\xff\xd8\xff", 3) == 0)
        return mf_photo_jpeg(out, turn, photo->data, photo->len);
    return "it is neither a JPEG nor a PNG file";
}

static mf_status read_photo(mf_pixels *out, int *turn, const mf_paper_photo *photo, mf_err *err)
{
    const char *fault = decode(out, turn, photo);
    if (fault == NULL)
        return MF_OK;
    if (fault == mf_photo_no_memory) /* nobody is to withdraw a good photo for that */
        return mf_fail_memory(err);
    if (*photo->entry == '\0')
        return mf_fail(err, MF_INPUT, photo->name, fault, "photos are shown in the record",
                       "take the photo again, or leave it out");
    return mf_failf(err, MF_INPUT, photo->entry, "photos are shown in the record",
                    "withdraw that entry and attach a good copy", "%.100s: %s", photo->name, fault);
}

mf_status mf_photo_ready(mf_bytes *out, unsigned *w, unsigned *h, const mf_paper_photo *photo,
                         mf_err *err)
{
    mf_pixels pixels = {0};
    int turn = 1;
    mf_status status = read_photo(&pixels, &turn, photo, err);
    if (status != MF_OK)
        return status;
    if (!scale_down(&pixels, MF_PHOTO_SIDE) || !mf_photo_upright(&pixels, turn) ||
        !mf_photo_pack(out, &pixels))
        status = mf_fail_memory(err);
    *w = pixels.w;
    *h = pixels.h;
    mf_pixels_free(&pixels);
    return status;
}

mf_status mf_paper_photo_check(const mf_paper_photo *photo, mf_err *err)
{
    mf_pixels pixels = {0};
    int turn = 1;
    mf_status status = read_photo(&pixels, &turn, photo, err);
    mf_pixels_free(&pixels);
    return status;
}

mf_status mf_paper_drawing(mf_bytes *grey, unsigned *w, unsigned *h, const mf_paper_photo *photo,
                           mf_err *err)
{
    mf_pixels pixels = {0};
    int turn = 1;
    *grey = (mf_bytes){0};
    mf_status status = read_photo(&pixels, &turn, photo, err);
    if (status != MF_OK)
        return status;
    if (scale_down(&pixels, DRAWING_SIDE) && mf_photo_upright(&pixels, turn))
        grey->data = malloc((size_t)pixels.w * pixels.h + 1);
    if (grey->data == NULL) {
        mf_pixels_free(&pixels);
        return mf_fail_memory(err);
    }
    grey->len = (size_t)pixels.w * pixels.h;
    for (size_t i = 0; i < grey->len; i++) /* ITU-R BT.601: the weights of the three colors */
        grey->data[i] = (unsigned char)((299U * pixels.at[3 * i] + 587U * pixels.at[3 * i + 1] +
                                         114U * pixels.at[3 * i + 2] + 500U) /
                                        1000U);
    *w = pixels.w;
    *h = pixels.h;
    mf_pixels_free(&pixels);
    return MF_OK;
}
