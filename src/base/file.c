#include "base/file.h"

#include "base/fail.h"
#include "base/mem.h"
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

typedef struct reason {
    int number;
    mf_status status;
    const char *why, *mend;
} reason;

static const reason reasons[] = {
    {ENOENT, MF_INPUT, "there is no such file or folder", "check the name and the folder"},
    {ENOTDIR, MF_INPUT, "a part of the path is not a folder", "check the path"},
    {EISDIR, MF_INPUT, "it is a folder", "name a file in it"},
    {ELOOP, MF_INPUT, "it is a symbolic link", "name the file itself"},
    {ENOTBLK, MF_INPUT, "it is a disk, not a file", "name a file on it"},
    {ENAMETOOLONG, MF_INPUT, "the name is too long", "choose a shorter name"},
    {EACCES, MF_SYSTEM, "access is not allowed", "ask its owner or choose another folder"},
    {EPERM, MF_SYSTEM, "the system does not allow it", "ask its owner or choose another folder"},
    {EROFS, MF_SYSTEM, "the disk is read-only", "choose a folder on another disk"},
    {ENOSPC, MF_SYSTEM, "the disk is full", "free some space and try again"},
    {EDQUOT, MF_SYSTEM, "the disk quota is used up", "free some space and try again"},
    {EFBIG, MF_SYSTEM, "the file would be larger than the system allows",
     "free some space or raise the limit and try again"},
    {EIO, MF_SYSTEM, "the disk reports an error", "check the disk; use another one meanwhile"},
};

const char *mf_file_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash == NULL || slash[1] == '\0' ? path : slash + 1;
}

mf_status mf_file_fail(mf_err *err, const char *path, const char *action, int number)
{
    for (size_t i = 0; i < sizeof reasons / sizeof reasons[0]; i++)
        if (reasons[i].number == number)
            return mf_failf(err, reasons[i].status, path, reasons[i].why, reasons[i].mend,
                            "cannot %s it", action);
    return mf_failf(err, MF_SYSTEM, path, "", "try again or choose another place",
                    "cannot %s it (error %d of the system)", action, number);
}

/* ---- reading ------------------------------------------------------------------- */

static mf_status too_long(const char *path, size_t limit, mf_err *err)
{
    return mf_failf(err, MF_INPUT, path, "", "give a smaller file",
                    "the file is longer than %zu bytes", limit);
}

static mf_status read_all(mf_buf *out, int fd, const char *path, size_t limit, bool head,
                          mf_err *err)
{
    char chunk[16384];
    for (;;) {
        ssize_t n = read(fd, chunk, sizeof chunk);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return mf_file_fail(err, path, "read", errno);
        if (n == 0)
            break;
        mf_buf_add(out, chunk, (size_t)n);
        if (out->failed)
            return mf_fail_memory(err);
        if (head && out->len >= limit)
            break;
        if (out->len > limit)
            return too_long(path, limit, err);
    }
    return MF_OK;
}

static mf_status read_file(mf_bytes *out, const char *path, size_t limit, bool head, mf_err *err)
{
    *out = (mf_bytes){0};
    bool standard = strcmp(path, "-") == 0;
    int fd = standard ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    if (fd < 0)
        return mf_file_fail(err, path, "read", errno);
    mf_buf buf = {0};
    mf_status status = read_all(&buf, fd, standard ? "standard input" : path, limit, head, err);
    if (!standard)
        close(fd);
    if (status == MF_OK && buf.data == NULL) { /* an empty file still has its NUL */
        mf_buf_add(&buf, "", 1);
        buf.len = 0;
        if (buf.failed)
            status = mf_fail_memory(err);
    }
    if (status == MF_OK)
        mf_buf_take(&buf, out);
    mf_buf_free(&buf);
    return status;
}

mf_status mf_file_read(mf_bytes *out, const char *path, size_t limit, mf_err *err)
{
    return read_file(out, path, limit, false, err);
}

mf_status mf_file_read_head(mf_bytes *out, const char *path, size_t most, mf_err *err)
{
    return read_file(out, path, most, true, err);
}
