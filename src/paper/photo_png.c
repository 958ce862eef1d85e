/* PNG by the simplified interface of libpng, which reports errors by value. */
#include "paper/photo.h"

#include <png.h>
#include <stdlib.h>
#include <string.h>

/* libpng says it in words alone; those of zlib come through it. */
static mf_photo_fault fault_of(const png_image *image)
{
    bool memory = strstr(image->message, "ut of memory") != NULL ||
                  strstr(image->message, "nsufficient memory") != NULL;
    return memory ? mf_photo_no_memory : "the PNG file is damaged";
}

mf_photo_fault mf_photo_png(mf_pixels *out, const unsigned char *data, size_t len)
{
    png_image image;
    const png_color white = {255, 255, 255}; /* behind what is see-through */
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    if (!png_image_begin_read_from_memory(&image, data, len))
        return fault_of(&image);
    if (image.width == 0 || image.height == 0 ||
        (uint64_t)image.width * image.height > MF_PHOTO_PIXELS) {
        png_image_free(&image);
        return "the picture has more than 50 million pixels, or none";
    }
    image.format = PNG_FORMAT_RGB;
    unsigned char *pixels = malloc(PNG_IMAGE_SIZE(image));
    if (pixels == NULL) {
        png_image_free(&image);
        return mf_photo_no_memory;
    }
    if (!png_image_finish_read(&image, &white, pixels, 0, NULL)) {
        free(pixels);
        return fault_of(&image);
    }
    *out = (mf_pixels){pixels, image.width, image.height};
    return NULL;
}
