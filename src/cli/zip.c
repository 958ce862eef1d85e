/* zip.c - one .zip file; alone sees the library that writes it. */
#include "base/fail.h"
#include "cli/bundle.h"

#include <stdlib.h>
#include <string.h>
#include <zip.h>

/* S_IFREG as zip files hold it, whatever the system calls it. */
#define REGULAR 0100000

struct mf_zip {
    zip_t *handle;
    char *path;
    mf_arena bytes; /* of the files, until they are written at the end */
};

static mf_status fail(const mf_zip *zip, mf_err *err)
{
    const char *why = zip->handle == NULL ? "" : zip_strerror(zip->handle);
    return mf_fail(err, MF_SYSTEM, zip->path, "the zip file cannot be written", why,
                   "free some space or choose another folder");
}

mf_status mf_zip_new(mf_zip **out, const char *path, mf_err *err)
{
    int code = 0;
    *out = NULL;
    mf_zip *zip = calloc(1, sizeof *zip);
    if (zip == NULL || (zip->path = strdup(path)) == NULL) {
        free(zip);
        return mf_fail_memory(err);
    }
    zip->handle = zip_open(path, ZIP_CREATE | ZIP_EXCL, &code);
    *out = zip;
    if (zip->handle != NULL)
        return MF_OK;
    if (code == ZIP_ER_EXISTS)
        return mf_fail(err, MF_INPUT, path, "there is a file of this name already",
                       "a bundle is never written over", "choose another name");
    return fail(zip, err);
}

static mf_status set(mf_zip *zip, zip_uint64_t at, bool program, int64_t seconds, mf_err *err)
{
    zip_uint32_t mode = (zip_uint32_t)(REGULAR | (program ? 0700 : 0600)) << 16;
    if (zip_file_set_mtime(zip->handle, at, (time_t)seconds, 0) != 0 ||
        zip_file_set_external_attributes(zip->handle, at, 0, ZIP_OPSYS_UNIX, mode) != 0)
        return fail(zip, err);
    return MF_OK;
}

mf_status mf_zip_add(mf_zip *zip, const char *name, const void *bytes, size_t len, bool program,
                     int64_t seconds, mf_err *err)
{
    void *copy = mf_arena_alloc(&zip->bytes, len + 1);
    if (copy == NULL)
        return mf_fail_memory(err);
    memcpy(copy, bytes, len);
    zip_source_t *source = zip_source_buffer(zip->handle, copy, len, 0);
    if (source == NULL)
        return fail(zip, err);
    zip_int64_t at = zip_file_add(zip->handle, name, source, ZIP_FL_ENC_UTF_8);
    if (at < 0) {
        zip_source_free(source);
        return fail(zip, err);
    }
    return set(zip, (zip_uint64_t)at, program, seconds, err);
}

mf_status mf_zip_finish(mf_zip *zip, mf_err *err)
{
    if (zip_close(zip->handle) != 0)
        return fail(zip, err);
    zip->handle = NULL;
    return MF_OK;
}

void mf_zip_free(mf_zip *zip)
{
    if (zip == NULL)
        return;
    if (zip->handle != NULL)
        zip_discard(zip->handle);
    mf_arena_free(&zip->bytes);
    free(zip->path);
    free(zip);
}
