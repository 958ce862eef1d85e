/* media.c - what a file is, told by its content: names lie. */
#include "journal/media.h"

#include <mistfold/job.h>

#include <string.h>

/* Where the end mark may stand at most before the last byte. */
#define TAIL 1024

static bool begins(const unsigned char *bytes, size_t len, const void *mark, size_t n)
{
    return len >= n && memcmp(bytes, mark, n) == 0;
}

static bool holds(const unsigned char *bytes, size_t len, const void *mark, size_t n)
{
    for (size_t i = 0; len >= n && i <= len - n; i++)
        if (memcmp(bytes + i, mark, n) == 0)
            return true;
    return false;
}

static bool tail_holds(const unsigned char *bytes, size_t len, const void *mark, size_t n)
{
    size_t from = len > TAIL ? len - TAIL : 0;
    return holds(bytes + from, len - from, mark, n);
}

/* Cameras append data of their own: the end of the picture may lie well before
 * the end of the file. */
static bool jpeg_ends(const unsigned char *bytes, size_t len)
{
    return holds(bytes + len / 2, len - len / 2, "\xFF\xD9", 2);
}

int mf_media_of(const unsigned char *bytes, size_t len, bool *whole)
{
    static const unsigned char png[] = "\x89PNG\r\n\x1A\n\0\0\0\rIHDR";
    *whole = false;
    if (begins(bytes, len, "\xFF\xD8\xFF", 3)) {
        *whole = jpeg_ends(bytes, len);
        return MF_MEDIA_JPEG;
    }
    if (begins(bytes, len, png, sizeof png - 1)) {
        *whole = tail_holds(bytes, len, "IEND\xAE\x42\x60\x82", 8);
        return MF_MEDIA_PNG;
    }
    if (begins(bytes, len, "%PDF-", 5)) {
        *whole = tail_holds(bytes, len, "%%EOF", 5);
        return MF_MEDIA_PDF;
    }
    return -1;
}
