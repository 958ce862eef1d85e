#include "base/file.h"

#include "base/fail.h"
#include "base/mem.h"
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
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

static mf_status read_all(mf_buf *out, int fd, const char *path, size_t limit, mf_err *err)
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
        if (out->len > limit)
            return too_long(path, limit, err);
    }
    return MF_OK;
}

mf_status mf_file_read(mf_bytes *out, const char *path, size_t limit, mf_err *err)
{
    *out = (mf_bytes){0};
    bool standard = strcmp(path, "-") == 0;
    int fd = standard ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    if (fd < 0)
        return mf_file_fail(err, path, "read", errno);
    mf_buf buf = {0};
    mf_status status = read_all(&buf, fd, standard ? "standard input" : path, limit, err);
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

/* ---- writing ---------------------------------------------------------------------- */

/* 0 or an errno. */
static int write_all(int fd, const char *bytes, size_t len)
{
    while (len > 0) {
        ssize_t n = write(fd, bytes, len);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return errno;
        bytes += n;
        len -= (size_t)n;
    }
    return 0;
}

static mf_status write_direct(const char *path, const void *bytes, size_t len, mf_err *err)
{
    int fd = open(path, O_WRONLY | O_CLOEXEC | O_NOCTTY | O_NOFOLLOW);
    if (fd < 0)
        return mf_file_fail(err, path, "write", errno);
    int fault = write_all(fd, bytes, len);
    if (close(fd) != 0 && fault == 0)
        fault = errno;
    return fault == 0 ? MF_OK : mf_file_fail(err, path, "write", fault);
}

/* "dir/" of path with its slash, "" when it has none. */
static size_t folder_len(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash == NULL ? 0 : (size_t)(slash - path) + 1;
}

/* A new file in the folder of path; its name goes to temp. O_EXCL makes a guess
 * of the name by others harmless. */
static int open_beside(mf_buf *temp, const char *path, mode_t mode)
{
    int fd = -1;
    for (int i = 0; fd < 0 && i < 100; i++) {
        mf_buf_clear(temp);
        mf_buf_add(temp, path, folder_len(path));
        mf_buf_printf(temp, ".mistfold-%ld-%d.tmp", (long)getpid(), i);
        if (temp->failed) {
            errno = ENOMEM;
            return -1;
        }
        fd = open(temp->data, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
        if (fd < 0 && errno != EEXIST)
            return -1;
    }
    return fd;
}

static int fill_and_rename(int fd, const char *temp, const char *path, const void *bytes,
                           size_t len)
{
    int fault = write_all(fd, bytes, len);
    if (fault == 0 && fsync(fd) != 0)
        fault = errno;
    if (close(fd) != 0 && fault == 0)
        fault = errno;
    if (fault == 0 && rename(temp, path) != 0)
        fault = errno;
    if (fault != 0)
        unlink(temp);
    return fault;
}

mf_status mf_file_sync_folder(const char *path, mf_err *err)
{
    mf_buf folder = {0};
    mf_buf_add(&folder, path, folder_len(path));
    int fd = open(folder.len == 0 ? "." : folder.data, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int fault = fd < 0 ? errno : 0;
    /* Some file systems cannot sync a folder and say EINVAL: nothing is lost then
     * that could have been kept. */
    if (fd >= 0 && fsync(fd) != 0 && errno != EINVAL)
        fault = errno;
    if (fd >= 0)
        close(fd);
    mf_buf_free(&folder);
    return fault == 0 ? MF_OK : mf_file_fail(err, path, "save", fault);
}

mf_status mf_file_write(const char *path, const void *bytes, size_t len, mode_t mode, mf_err *err)
{
    struct stat st;
    if (lstat(path, &st) == 0) {
        if (S_ISDIR(st.st_mode))
            return mf_file_fail(err, path, "write", EISDIR);
        if (S_ISLNK(st.st_mode))
            return mf_file_fail(err, path, "write", ELOOP);
        if (!S_ISREG(st.st_mode))
            return write_direct(path, bytes, len, err);
    }
    mf_buf temp = {0};
    int fd = open_beside(&temp, path, mode);
    int fault = fd < 0 ? errno : fill_and_rename(fd, temp.data, path, bytes, len);
    mf_buf_free(&temp);
    if (fault != 0)
        return mf_file_fail(err, path, "write", fault);
    return mf_file_sync_folder(path, err);
}
