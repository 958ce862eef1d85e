/* zip.c - one .zip file; alone sees the library that writes it. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/bundle.h"

#include <stdlib.h>
#include <string.h>
#include <zip.h>

/* S_IFREG as zip files hold it, whatever the system calls it. */
#define REGULAR 0100000

struct mf_zip {
    zip_t *handle;
    zip_source_t *whole; /* the zip file itself, in memory until it is whole */
    char *path;
    mf_arena bytes; /* of the files, until then */
};

static mf_status fail(const mf_zip *zip, mf_err *err)
{
    const char *why = zip->handle == NULL ? "" : zip_strerror(zip->handle);
    return mf_fail(err, MF_SYSTEM, zip->path, "the zip file cannot be written", why,
                   "free some space or choose another folder");
}

mf_status mf_zip_new(mf_zip **out, const char *path, mf_err *err)
{
    *out = NULL;
    mf_status status = mf_file_is_free(path, err);
    if (status != MF_OK)
        return status;
    mf_zip *zip = calloc(1, sizeof *zip);
    if (zip == NULL || (zip->path = strdup(path)) == NULL) {
        free(zip);
        return mf_fail_memory(err);
    }
    *out = zip;
    zip->whole = zip_source_buffer_create(NULL, 0, 0, NULL);
    if (zip->whole != NULL)
        zip->handle = zip_open_from_source(zip->whole, ZIP_TRUNCATE, NULL);
    if (zip->handle == NULL)
        return mf_fail_memory(err);
    zip_source_keep(zip->whole); /* it outlives the handle */
    return MF_OK;
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

/* The bytes of the zip file, to be freed by the caller. */
static unsigned char *bytes_of(zip_source_t *whole, size_t *len)
{
    zip_stat_t st;
    unsigned char *bytes = NULL;
    if (zip_source_stat(whole, &st) == 0 && zip_source_open(whole) == 0) {
        *len = (size_t)st.size;
        bytes = malloc(*len + 1);
        if (bytes != NULL && zip_source_read(whole, bytes, *len) != (zip_int64_t)*len) {
            free(bytes);
            bytes = NULL;
        }
        zip_source_close(whole);
    }
    return bytes;
}

mf_status mf_zip_finish(mf_zip *zip, mf_err *err)
{
    size_t len = 0;
    if (zip_close(zip->handle) != 0)
        return fail(zip, err);
    zip->handle = NULL;
    unsigned char *bytes = bytes_of(zip->whole, &len);
    if (bytes == NULL)
        return mf_fail_memory(err);
    mf_status status = mf_file_write_new(zip->path, bytes, len, 0600, err);
    free(bytes);
    return status;
}

void mf_zip_free(mf_zip *zip)
{
    if (zip == NULL)
        return;
    if (zip->handle != NULL)
        zip_discard(zip->handle);
    zip_source_free(zip->whole); /* NULL is none */
    mf_arena_free(&zip->bytes);
    free(zip->path);
    free(zip);
}
