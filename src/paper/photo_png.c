/* PNG by the simplified interface of libpng, which reports errors by value. */
#include "paper/photo.h"

#include <png.h>
#include <stdlib.h>
#include <string.h>

mf_photo_fault mf_photo_png(mf_pixels *out, const unsigned char *data, size_t len)
{
    png_image image;
    const png_color white = {255, 255, 255}; /* behind what is see-through */
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    if (!png_image_begin_read_from_memory(&image, data, len))
        return "the PNG file is damaged";
    if (image.width == 0 || image.height == 0 ||
        (uint64_t)image.width * image.height > MF_PHOTO_PIXELS) {
        png_image_free(&image);
        return "the picture has more than 50 million pixels, or none";
    }
    image.format = PNG_FORMAT_RGB;
    unsigned char *pixels = malloc(PNG_IMAGE_SIZE(image));
    if (pixels == NULL) {
        png_image_free(&image);
        return "there is no memory for so large a picture";
    }
    if (!png_image_finish_read(&image, &white, pixels, 0, NULL)) {
        free(pixels);
        return "the PNG file is damaged";
    }
    *out = (mf_pixels){pixels, image.width, image.height};
    return NULL;
}
