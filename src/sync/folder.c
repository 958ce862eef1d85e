/* folder.c - a folder as a store: one folder in it for each device that writes. The disk may
 * be a stick, a share, or kept the same on several computers by whatever service. */
#include "base/fail.h"
#include "base/file.h"
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <mistfold/sync.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { TEXT_MAX = 257 * 1024 * 1024, CHUNK = 1 << 16 };

typedef struct place {
    char *path;
} place;

static bool path_of(const place *p, const char *name, mf_buf *out, mf_err *err)
{
    mf_buf_printf(out, "%s/%s", p->path, name);
    if (out->failed)
        mf_fail_memory(err);
    return !out->failed;
}

/* ---- listing ------------------------------------------------------------------------------ */

typedef struct listing {
    mf_store_fn *fn;
    void *to;
    const char *path; /* for messages */
    bool more;
} listing;

static bool is_hidden(const char *name)
{
    return name[0] == '.'; /* half-written files are; services keep theirs so, too */
}

/* Only a plain file is ever read: what else stands there has size -1. */
static mf_status tell(listing *l, int folder, const char *device, const char *file, mf_err *err)
{
    struct stat st;
    mf_buf name = {0};
    mf_store_item item = {.size = -1};
    if (fstatat(folder, file, &st, AT_SYMLINK_NOFOLLOW) != 0)
        return errno == ENOENT ? MF_OK /* it went in this moment */
                               : mf_file_fail(err, l->path, "read", errno);
    mf_buf_printf(&name, "%s%s%s", device, device[0] == '\0' ? "" : "/", file);
    item.name = mf_buf_str(&name);
    if (S_ISREG(st.st_mode)) {
        item.size = (int64_t)st.st_size;
        item.stamp = (int64_t)st.st_mtim.tv_sec * 1000000000 + st.st_mtim.tv_nsec;
    }
    mf_status status = name.failed ? mf_fail_memory(err) : MF_OK;
    l->more = status == MF_OK && l->fn(&item, l->to);
    mf_buf_free(&name);
    return status;
}

static mf_status list_one(listing *l, DIR *dir, const char *device, mf_err *err)
{
    struct dirent *it;
    mf_status status = MF_OK;
    errno = 0;
    /* cppcheck-suppress readdirCalled ; a stream of its own, which no other thread has */
    while (status == MF_OK && l->more && (it = readdir(dir)) != NULL) {
        if (!is_hidden(it->d_name))
            status = tell(l, dirfd(dir), device, it->d_name, err);
        errno = 0;
    }
    return errno == 0 ? status : mf_file_fail(err, l->path, "read", errno);
}

static mf_status list_device(listing *l, int folder, const char *device, mf_err *err)
{
    int fd = openat(folder, device, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (fd < 0 && (errno == ENOTDIR || errno == ELOOP))
        return tell(l, folder, "", device, err);
    DIR *dir = fd < 0 ? NULL : fdopendir(fd);
    if (dir == NULL) {
        mf_status status = mf_file_fail(err, l->path, "read", errno);
        if (fd >= 0)
            close(fd);
        return status;
    }
    mf_status status = list_one(l, dir, device, err);
    closedir(dir);
    return status;
}

static mf_status list(void *data, const mf_store_listener *to, mf_err *err)
{
    const place *p = data;
    listing l = {to->item, to->data, p->path, true};
    struct dirent *it;
    mf_status status = MF_OK;
    DIR *dir = opendir(p->path);
    if (dir == NULL)
        return mf_file_fail(err, p->path, "read", errno);
    errno = 0;
    /* cppcheck-suppress readdirCalled ; a stream of its own, which no other thread has */
    while (status == MF_OK && l.more && (it = readdir(dir)) != NULL) {
        if (!is_hidden(it->d_name))
            status = list_device(&l, dirfd(dir), it->d_name, err);
        errno = 0;
    }
    if (status == MF_OK && errno != 0)
        status = mf_file_fail(err, p->path, "read", errno);
    closedir(dir);
    return status;
}

/* ---- reading and writing ------------------------------------------------------------------- */

static int read_all(int fd, mf_buf *out)
{
    char chunk[CHUNK];
    for (;;) {
        ssize_t n = read(fd, chunk, sizeof chunk);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return errno;
        if (n == 0)
            return 0;
        mf_buf_add(out, chunk, (size_t)n);
        if (out->failed || out->len > TEXT_MAX)
            return out->failed ? ENOMEM : EFBIG;
    }
}

/* A link, a pipe or a device in the place of a file is not followed, and nothing waits for it. */
static mf_status read_plain(const char *path, mf_bytes *out, mf_err *err)
{
    struct stat st;
    mf_buf text = {0};
    int fd = open(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    int fault = fd < 0 || fstat(fd, &st) != 0 ? errno : S_ISREG(st.st_mode) ? 0 : EISDIR;
    if (fault == 0)
        fault = read_all(fd, &text);
    if (fd >= 0)
        close(fd);
    if (fault == 0)
        mf_buf_take(&text, out);
    mf_buf_free(&text);
    return fault == 0 ? MF_OK : mf_file_fail(err, path, "read", fault);
}

static mf_status read_one(void *data, const char *name, mf_bytes *out, mf_err *err)
{
    mf_buf path = {0};
    mf_status status = path_of(data, name, &path, err) ? MF_OK : MF_SYSTEM;
    if (status == MF_OK)
        status = read_plain(path.data, out, err);
    mf_buf_free(&path);
    return status;
}

/* The folder of the one who writes. */
static mf_status own_folder(const char *path, mf_err *err)
{
    mf_buf folder = {0};
    const char *slash = strrchr(path, '/');
    mf_buf_add(&folder, path, (size_t)(slash - path));
    mf_status status = folder.failed ? mf_fail_memory(err) : MF_OK;
    if (status == MF_OK && mkdir(folder.data, 0777) == 0)
        status = mf_file_sync_folder(folder.data, err);
    else if (status == MF_OK && errno != EEXIST)
        status = mf_file_fail(err, folder.data, "make", errno);
    mf_buf_free(&folder);
    return status;
}

/* Readable by whoever may read the folder: the others are to. */
static mf_status write_one(void *data, const char *name, const void *bytes, size_t len, mf_err *err)
{
    mf_buf path = {0};
    mf_status status = path_of(data, name, &path, err) ? own_folder(path.data, err) : MF_SYSTEM;
    if (status == MF_OK)
        status = mf_file_write(path.data, bytes, len, 0666, err);
    mf_buf_free(&path);
    return status;
}

static mf_status drop_one(void *data, const char *name, mf_err *err)
{
    mf_buf path = {0};
    mf_status status = path_of(data, name, &path, err) ? MF_OK : MF_SYSTEM;
    if (status == MF_OK && unlink(path.data) != 0 && errno != ENOENT)
        status = mf_file_fail(err, path.data, "take away", errno);
    mf_buf_free(&path);
    return status;
}

static void sweep(void *data, const char *device)
{
    mf_err err;
    mf_buf path = {0};
    if (path_of(data, device, &path, &err)) {
        mf_buf_text(&path, "/");
        mf_file_sweep(mf_buf_str(&path));
    }
    mf_buf_free(&path);
}

static void shut(void *data)
{
    place *p = data;
    free(p->path);
    free(p);
}

MF_API mf_status mf_store_folder(mf_store *out, const char *path, mf_err *err)
{
    struct stat st;
    *out = (mf_store){.list = NULL};
    if (stat(path, &st) != 0)
        return mf_file_fail(err, path, "open", errno);
    if (!S_ISDIR(st.st_mode))
        return mf_fail(err, MF_INPUT, path, "it is not a folder", "devices meet in a folder",
                       "name the folder itself");
    place *p = calloc(1, sizeof *p);
    char *copy = p == NULL ? NULL : strdup(path);
    if (copy == NULL) {
        free(p);
        return mf_fail_memory(err);
    }
    p->path = copy;
    *out = (mf_store){.list = list,
                      .read = read_one,
                      .write = write_one,
                      .drop = drop_one,
                      .sweep = sweep,
                      .close = shut,
                      .data = p};
    snprintf(out->name, sizeof out->name, "%s", path);
    return MF_OK;
}

MF_API void mf_store_close(mf_store *store)
{
    if (store->close != NULL)
        store->close(store->data);
    *store = (mf_store){.list = NULL};
}
