/* photo.h - photos, read by decoders of our own with limits, turned upright and
 * scaled down. libharu's own reader ends the process on a damaged file. */
#ifndef MF_PAPER_PHOTO_H
#define MF_PAPER_PHOTO_H

#include <mistfold/paper.h>

#include <stdbool.h>

enum {
    MF_PHOTO_BYTES = 32 * 1024 * 1024,  /* of the file, at most */
    MF_PHOTO_PIXELS = 50 * 1000 * 1000, /* of the picture, at most */
    MF_PHOTO_SIDE = 1100                /* longer side on the paper: 150 dpi over its width */
};

/* Rows of 8-bit RGB without gaps. */
typedef struct mf_pixels {
    unsigned char *at;
    unsigned w, h;
} mf_pixels;
void mf_pixels_free(mf_pixels *pixels);

/* What is wrong with the file, in words for the message; NULL = nothing. Where memory ran
 * out nothing is known of the file: mf_photo_no_memory itself. */
typedef const char *mf_photo_fault;
extern const char mf_photo_no_memory[];

/* Each decodes bytes that may be hostile. JPEG comes scaled by eighths to about
 * MF_PHOTO_SIDE, with the turn that the camera noted (1 to 8, 1 = upright). */
mf_photo_fault mf_photo_png(mf_pixels *out, const unsigned char *data, size_t len);
mf_photo_fault mf_photo_jpeg(mf_pixels *out, int *turn, const unsigned char *data, size_t len);
/* As JPEG in memory that the caller frees; false when memory ran out. */
bool mf_photo_pack(mf_bytes *out, const mf_pixels *pixels);

/* Turns upright; false = no memory. */
bool mf_photo_upright(mf_pixels *pixels, int turn);
/* The turn in an Exif block ("Exif\0\0" and TIFF), 1 when there is none. */
int mf_photo_exif_turn(const unsigned char *exif, size_t len);

/* All of it: a small upright JPEG, and its size. MF_INPUT names the photo. */
mf_status mf_photo_ready(mf_bytes *out, unsigned *w, unsigned *h, const mf_paper_photo *photo,
                         mf_err *err);

#endif
