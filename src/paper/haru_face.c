/* haru_face.c - where the files of the faces are. */
#include "paper/haru.h"

#include "base/fail.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

enum { FONT_PATH = 512 };

static const char *const face_file[MF_FACE_COUNT] = {
    [MF_FACE_REGULAR] = "LiberationSans-Regular.ttf",
    [MF_FACE_BOLD] = "LiberationSans-Bold.ttf",
    [MF_FACE_MONO] = "LiberationMono-Regular.ttf",
};

static bool readable(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file != NULL)
        fclose(file);
    return file != NULL;
}

bool mf_haru_face_file(char *path, size_t size, const char *dirs, mf_face face)
{
    char first[FONT_PATH] = "";
    for (const char *dir = dirs; *dir != '\0';) {
        int len = (int)strcspn(dir, ":");
        int n = snprintf(path, size, "%.*s/%s", len, dir, face_file[face]);
        if (n > 0 && (size_t)n < size && readable(path))
            return true;
        if (*first == '\0')
            snprintf(first, sizeof first, "%s", path);
        dir += len;
        dir += *dir == ':';
    }
    snprintf(path, size, "%s", first);
    return false;
}

mf_status mf_haru_face_fail(mf_err *err, const char *path, bool there)
{
    static const char why[] = "papers are drawn with embedded fonts";
    if (errno == ENOMEM)
        return mf_fail_memory(err);
    if (there)
        return mf_fail(err, MF_SYSTEM, path, "the font file is damaged or no TrueType font", why,
                       "install the Debian package fonts-liberation2 again");
    return mf_fail(err, MF_SYSTEM, path, "the font file cannot be read", why,
                   "install the Debian package fonts-liberation2, or name another directory");
}
