/* file_sweep.c - what was left half written by a program that was ended. */
#include "base/file.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

/* The process in ".mistfold-PID-N.tmp" (mf_file_beside); 0 when it is no such name. */
static long maker_of(const char *name)
{
    static const char begin[] = ".mistfold-";
    char *end = NULL;
    if (strncmp(name, begin, sizeof begin - 1) != 0)
        return 0;
    long pid = strtol(name + sizeof begin - 1, &end, 10);
    if (pid <= 0 || *end != '-')
        return 0;
    strtol(end + 1, &end, 10);
    return strcmp(end, ".tmp") == 0 ? pid : 0;
}

/* Nobody works at it: its maker is gone, and on a disk that several computers share nobody
 * there holds it. A file of somebody else's is left alone. */
static bool is_left(int folder, const char *name, long pid)
{
    struct stat st;
    if (pid == (long)getpid() || kill((pid_t)pid, 0) == 0 || errno != ESRCH)
        return false;
    int fd = openat(folder, name, O_RDONLY | O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK);
    bool left = fd >= 0 && fstat(fd, &st) == 0 && S_ISREG(st.st_mode) && st.st_uid == geteuid() &&
                flock(fd, LOCK_EX | LOCK_NB) == 0;
    if (fd >= 0)
        close(fd);
    return left;
}

static bool take_away(int folder, const char *name)
{
    static const char *const ends[] = {"-wal", "-shm", "-journal", ""};
    bool gone = false;
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        mf_buf file = {0};
        mf_buf_printf(&file, "%s%s", name, ends[i]);
        gone = !file.failed && unlinkat(folder, file.data, 0) == 0;
        mf_buf_free(&file);
    }
    return gone;
}

int mf_file_sweep(const char *path)
{
    mf_buf folder = {0};
    const char *slash = strrchr(path, '/');
    int n = 0;
    mf_buf_add(&folder, path, slash == NULL ? 0 : (size_t)(slash - path) + 1);
    DIR *dir = folder.failed ? NULL : opendir(folder.len == 0 ? "." : folder.data);
    /* cppcheck-suppress readdirCalled ; a stream of its own, which no other thread has */
    for (struct dirent *it; dir != NULL && (it = readdir(dir)) != NULL;) {
        long pid = maker_of(it->d_name);
        if (pid > 0 && is_left(dirfd(dir), it->d_name, pid))
            n += take_away(dirfd(dir), it->d_name);
    }
    if (dir != NULL)
        closedir(dir);
    mf_buf_free(&folder);
    return n;
}
