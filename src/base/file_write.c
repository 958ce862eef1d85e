/* file_write.c - files written whole or not at all, and one that can be taken back. */
#include "base/fail.h"
#include "base/file.h"
#include "base/file_kind.h"
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

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

/* O_EXCL makes a guess of the name by others harmless. */
int mf_file_beside(mf_buf *temp, const char *path, mode_t mode)
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
    if (fd >= 0) /* says to mf_file_sweep that somebody is at work; where it cannot, its pid does */
        flock(fd, LOCK_EX | LOCK_NB);
    return fd;
}

/* 0 or an errno; fd is closed. */
static int fill(int fd, const void *bytes, size_t len)
{
    int fault = write_all(fd, bytes, len);
    if (fault == 0 && fsync(fd) != 0)
        fault = errno;
    if (close(fd) != 0 && fault == 0)
        fault = errno;
    return fault;
}

mf_status mf_file_sync_folder(const char *path, mf_err *err)
{
    mf_buf folder = {0};
    mf_buf_add(&folder, path, folder_len(path));
    int fd = open(folder.len == 0 ? "." : folder.data, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    /* Some file systems cannot sync a folder and say EINVAL, and a folder may be one to put
     * files into and not to look into: nothing is lost then that could have been kept. */
    int fault = fd < 0 && errno != EACCES ? errno : 0;
    if (fd >= 0 && fsync(fd) != 0 && errno != EINVAL)
        fault = errno;
    if (fd >= 0)
        close(fd);
    mf_buf_free(&folder);
    return fault == 0 ? MF_OK : mf_file_fail(err, path, "save", fault);
}

/* ---- never over another ------------------------------------------------------------------- */

static mf_status taken(const char *path, mf_err *err)
{
    return mf_fail(err, MF_INPUT, path, "there is a file of this name already",
                   "it is never written over", "choose another name");
}

mf_status mf_file_is_free(const char *path, mf_err *err)
{
    struct stat st;
    return lstat(path, &st) == 0 ? taken(path, err) : mf_file_no_log(path, err);
}

/* Where a disk knows no second names the place is taken by an empty file of ours, over
 * which the whole one is put. 0 or an errno. */
static int take_place(const char *temp, const char *path)
{
    int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
    if (fd < 0)
        return errno;
    close(fd);
    int fault = rename(temp, path) == 0 ? 0 : errno;
    if (fault != 0)
        unlink(path);
    return fault;
}

/* 0 or an errno, EEXIST when something stands there. */
static int take_name(const char *temp, const char *path)
{
    int fault = link(temp, path) == 0 ? 0 : errno;
    if (fault == 0)
        unlink(temp);
    return fault == 0 || fault == EEXIST ? fault : take_place(temp, path);
}

mf_status mf_file_settle(const char *temp, const char *path, mf_err *err)
{
    int fault = take_name(temp, path);
    if (fault == EEXIST)
        return taken(path, err);
    return fault == 0 ? mf_file_sync_folder(path, err) : mf_file_fail(err, path, "make", fault);
}

/* ---- in two steps --------------------------------------------------------------------- */

/* What stands under the path. A disk is no place for a file. */
static mf_status look_at(mf_staged *s, mf_err *err)
{
    struct stat st;
    if (lstat(s->path, &st) != 0)
        return mf_file_no_log(s->path, err);
    if (S_ISDIR(st.st_mode))
        return mf_file_fail(err, s->path, "write", EISDIR);
    if (S_ISLNK(st.st_mode))
        return mf_file_fail(err, s->path, "write", ELOOP);
    if (S_ISBLK(st.st_mode))
        return mf_file_fail(err, s->path, "write", ENOTBLK);
    s->direct = !S_ISREG(st.st_mode);
    s->over = true;
    return mf_file_no_log(s->path, err);
}

mf_status mf_file_stage(mf_staged *out, const char *path, const void *bytes, size_t len,
                        mode_t mode, mf_err *err)
{
    *out = (mf_staged){.path = path, .bytes = bytes, .len = len};
    mf_status status = look_at(out, err);
    if (status != MF_OK || out->direct)
        return status;
    int fd = mf_file_beside(&out->temp, path, mode);
    int fault = fd < 0 ? errno : fill(fd, bytes, len);
    if (fault == 0)
        return MF_OK;
    if (fd >= 0)
        unlink(out->temp.data);
    mf_buf_free(&out->temp);
    return mf_file_fail(err, path, "write", fault);
}

/* A second name for what stands under path. Some disks know no second names: there it is
 * moved, and a power cut in the next moment leaves both files beside an empty place. */
static int keep_before(mf_staged *s)
{
    int fault = EEXIST;
    for (int i = 0; fault == EEXIST && i < 100; i++) {
        mf_buf_clear(&s->before);
        mf_buf_printf(&s->before, i == 0 ? "%s.before" : "%s.before-%d", s->path, i);
        if (s->before.failed)
            return ENOMEM;
        fault = link(s->path, s->before.data) == 0 ? 0 : errno;
        if (fault != 0 && fault != EEXIST && access(s->before.data, F_OK) != 0)
            fault = rename(s->path, s->before.data) == 0 ? 0 : errno;
    }
    if (fault != 0)
        mf_buf_free(&s->before);
    return fault;
}

mf_status mf_file_put(mf_staged *s, bool keep, mf_err *err)
{
    if (s->direct)
        return write_direct(s->path, s->bytes, s->len, err);
    int fault = keep && s->over ? keep_before(s) : 0;
    if (fault == 0 && !s->over) /* what came there since it was looked at stays */
        fault = take_name(s->temp.data, s->path);
    else if (fault == 0 && rename(s->temp.data, s->path) != 0)
        fault = errno;
    if (fault != 0)
        return fault == EEXIST ? taken(s->path, err) : mf_file_fail(err, s->path, "write", fault);
    s->put = true;
    return mf_file_sync_folder(s->path, err);
}

void mf_file_end(mf_staged *s, bool good)
{
    if (s->temp.data != NULL && !s->put)
        unlink(s->temp.data);
    /* Two names of one file stay two after a rename: the second is taken away here. */
    if (s->before.data != NULL && (good || rename(s->before.data, s->path) == 0))
        unlink(s->before.data);
    else if (s->put && !s->over && !good)
        unlink(s->path);
    mf_buf_free(&s->temp);
    mf_buf_free(&s->before);
    *s = (mf_staged){.path = NULL};
}

mf_status mf_file_write(const char *path, const void *bytes, size_t len, mode_t mode, mf_err *err)
{
    mf_staged staged;
    mf_status status = mf_file_stage(&staged, path, bytes, len, mode, err);
    if (status == MF_OK)
        status = mf_file_put(&staged, false, err);
    mf_file_end(&staged, true);
    return status;
}

mf_status mf_file_write_new(const char *path, const void *bytes, size_t len, mode_t mode,
                            mf_err *err)
{
    mf_buf temp = {0};
    mf_status status = mf_file_is_free(path, err);
    if (status != MF_OK)
        return status;
    int fd = mf_file_beside(&temp, path, mode);
    int fault = fd < 0 ? errno : fill(fd, bytes, len);
    status =
        fault != 0 ? mf_file_fail(err, path, "write", fault) : mf_file_settle(temp.data, path, err);
    if (fd >= 0)
        unlink(temp.data); /* gone already when all went well */
    mf_buf_free(&temp);
    return status;
}
