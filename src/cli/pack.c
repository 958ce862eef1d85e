/* pack.c - a set of files and the list of their hashes. */
#include "base/digest.h"
#include "base/fail.h"
#include "base/file.h"
#include "base/file_kind.h"
#include "cli/bundle.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct mf_pack {
    mf_buf path, manifest;
    mf_buf made; /* files and folders written so far, each ended by a NUL */
    mf_zip *zip;
    int64_t seconds;
    bool finished;
};

mf_status mf_pack_folder(const char *path, mf_err *err)
{
    mf_status status = mf_file_no_log(path, err);
    if (status != MF_OK || mkdir(path, 0700) == 0)
        return status;
    if (errno == EEXIST)
        return mf_fail(err, MF_INPUT, path, "there is a file or folder of this name already",
                       "a bundle is never written over", "choose another name");
    return mf_file_fail(err, path, "make", errno);
}

static mf_status make_folder(mf_pack *pack, const char *path, mf_err *err)
{
    mf_status status = mf_pack_folder(path, err);
    if (status == MF_OK)
        mf_buf_add(&pack->made, path, strlen(path) + 1);
    return pack->made.failed ? mf_fail_memory(err) : status;
}

mf_status mf_pack_new(mf_pack **out, const char *path, bool zip, int64_t seconds, mf_err *err)
{
    mf_pack *pack = calloc(1, sizeof *pack);
    *out = pack;
    if (pack == NULL)
        return mf_fail_memory(err);
    pack->seconds = seconds;
    mf_buf_text(&pack->path, path);
    if (pack->path.failed)
        return mf_fail_memory(err);
    umask(077); /* of the zip file, too, which its library makes */
    return zip ? mf_zip_new(&pack->zip, path, err) : make_folder(pack, path, err);
}

static bool was_made(const mf_pack *pack, const char *path)
{
    for (size_t at = 0; at < pack->made.len; at += strlen(pack->made.data + at) + 1)
        if (strcmp(pack->made.data + at, path) == 0)
            return true;
    return false;
}

static mf_status write_file(mf_pack *pack, const char *name, const void *bytes, size_t len,
                            mf_err *err)
{
    mf_buf path = {0};
    mf_status status = MF_OK;
    const char *slash = strchr(name, '/');
    if (slash != NULL) {
        mf_buf_printf(&path, "%s/%.*s", mf_buf_str(&pack->path), (int)(slash - name), name);
        if (path.failed)
            status = mf_fail_memory(err);
        else if (!was_made(pack, path.data))
            status = make_folder(pack, path.data, err);
        mf_buf_clear(&path);
    }
    mf_buf_printf(&path, "%s/%s", mf_buf_str(&pack->path), name);
    if (status == MF_OK && path.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK)
        mf_buf_add(&pack->made, path.data, path.len + 1);
    if (status == MF_OK)
        status = mf_file_write_new(path.data, bytes, len, 0600, err);
    mf_buf_free(&path);
    return status;
}

static mf_status put(mf_pack *pack, const char *name, const void *bytes, size_t len, mf_err *err)
{
    if (pack->zip != NULL)
        return mf_zip_add(pack->zip, name, bytes, len, strcmp(name, "verify.sh") == 0,
                          pack->seconds, err);
    return write_file(pack, name, bytes, len, err);
}

mf_status mf_pack_add(mf_pack *pack, const char *name, const void *bytes, size_t len, mf_err *err)
{
    char hash[MF_DIGEST_HEX];
    if (!mf_digest_hex(bytes, len, hash))
        return mf_fail_memory(err);
    mf_buf_printf(&pack->manifest, "%s  %s\n", hash, name); /* as sha256sum(1) writes it */
    return put(pack, name, bytes, len, err);
}

mf_status mf_pack_take(mf_pack *pack, const char *name, mf_buf *text, mf_err *err)
{
    mf_status status = text->failed ? mf_fail_memory(err)
                                    : mf_pack_add(pack, name, mf_buf_str(text), text->len, err);
    mf_buf_free(text);
    return status;
}

mf_status mf_pack_finish(mf_pack *pack, mf_err *err)
{
    if (pack->manifest.failed)
        return mf_fail_memory(err);
    mf_status status =
        put(pack, "MANIFEST.sha256", mf_buf_str(&pack->manifest), pack->manifest.len, err);
    if (status == MF_OK && pack->zip != NULL)
        status = mf_zip_finish(pack->zip, err);
    if (status == MF_OK)
        status = mf_file_sync_folder(mf_buf_str(&pack->path), err);
    pack->finished = status == MF_OK;
    return status;
}

/* The last made goes first, so that folders are empty when their turn comes. */
static void take_away(const mf_pack *pack)
{
    size_t end = pack->made.len;
    while (end > 0) {
        size_t from = end - 1;
        while (from > 0 && pack->made.data[from - 1] != '\0')
            from--;
        const char *path = pack->made.data + from;
        if (unlink(path) != 0)
            rmdir(path);
        end = from;
    }
}

void mf_pack_free(mf_pack *pack)
{
    if (pack == NULL)
        return;
    if (!pack->finished)
        take_away(pack);
    mf_zip_free(pack->zip);
    mf_buf_free(&pack->path);
    mf_buf_free(&pack->manifest);
    mf_buf_free(&pack->made);
    free(pack);
}
