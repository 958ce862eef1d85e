/* fault.so, for LD_PRELOAD: one allocation or one system call of a run fails, or
 * that one and all after it.
 *
 *   FAULT_KIND   alloc or call
 *   FAULT_AT     which one fails, counted from 1 at the start of main; 0 = none
 *   FAULT_LASTS  when set, all that follow fail too
 *   FAULT_SAYS   file to which "count live" is written at the end: how many there
 *                were, and how many blocks were not freed
 *   FAULT_PLACES file to which the numbers are written, one a line, of those that came
 *                from a place (all the calls up to main) from which none came before
 *
 * Threads count together, in the order in which they come. Only for glibc, which exports
 * its allocator under a second name. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <execinfo.h>
#include <fcntl.h>
#include <link.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t n, size_t size);
extern void *__libc_realloc(void *at, size_t size);
extern void __libc_free(void *at);

static atomic_long count, live;
static long fails_at;
static int allocs, lasts;
static atomic_int armed;

/* ---- places --------------------------------------------------------------------------- */

enum { KNOWN = 1 << 20, FRAMES = 100 };
static FILE *places;
static uint64_t known[KNOWN];

/* Hashes the stack; backtrace() asks for memory only the first time (counted_main). */
static void note_place(long now)
{
    void *frame[FRAMES];
    uint64_t hash = 14695981039346656037U;
    int n = backtrace(frame, FRAMES);
    for (int i = 0; i < n; i++)
        hash = (hash ^ (uintptr_t)frame[i]) * 1099511628211U;
    size_t at = hash >> 44;
    while (known[at] != 0 && known[at] != hash)
        at = (at + 1) % KNOWN;
    if (known[at] == 0)
        fprintf(places, "%ld\n", now);
    known[at] = hash;
}

static int fails(int is_alloc)
{
    static _Thread_local int inside;
    if (!armed || is_alloc != allocs || inside)
        return 0;
    long now = ++count;
    if (places != NULL) {
        inside = 1;
        note_place(now);
        inside = 0;
    }
    return now == fails_at || (lasts && fails_at > 0 && now > fails_at);
}

/* ---- memory --------------------------------------------------------------------------- */

/* libcrypto keeps what it has read of its configuration, once a process, whole or
 * not; its blocks are no leak of ours and are left out of the count. */
static uintptr_t crypto_from, crypto_to;

static int find_crypto(struct dl_phdr_info *info, size_t size, void *data)
{
    (void)size;
    (void)data;
    if (strstr(info->dlpi_name, "libcrypto") == NULL)
        return 0;
    crypto_from = info->dlpi_addr;
    for (int i = 0; i < info->dlpi_phnum; i++) {
        uintptr_t end = crypto_from + info->dlpi_phdr[i].p_vaddr + info->dlpi_phdr[i].p_memsz;
        if (info->dlpi_phdr[i].p_type == PT_LOAD && end > crypto_to)
            crypto_to = end;
    }
    return 1;
}

static int ours(const void *caller)
{
    return armed && !((uintptr_t)caller >= crypto_from && (uintptr_t)caller < crypto_to);
}

/* The blocks that count, by address: one that libcrypto frees for us, or we for it, must
 * not shift the sum. Open addressing; a place once used is never empty again. */
enum { PLACES = 1 << 19 };
static const void *held[PLACES];
static const char gone;
static atomic_flag taken = ATOMIC_FLAG_INIT;

static void take(void)
{
    while (atomic_flag_test_and_set(&taken))
        ;
}

static void give(void)
{
    atomic_flag_clear(&taken);
}

static size_t place_of(const void *at)
{
    return ((uintptr_t)at >> 4) * UINT64_C(0x9E3779B97F4A7C15) >> 45;
}

static void *noted(void *at, const void *caller)
{
    size_t i = place_of(at);
    if (at == NULL || !ours(caller))
        return at;
    take();
    while (held[i] != NULL && held[i] != &gone)
        i = (i + 1) % PLACES;
    held[i] = at;
    give();
    live++;
    return at;
}

static void forgotten(const void *at)
{
    take();
    for (size_t i = place_of(at); at != NULL && held[i] != NULL; i = (i + 1) % PLACES) {
        if (held[i] != at)
            continue;
        held[i] = &gone;
        live--;
        break;
    }
    give();
}

void *malloc(size_t size)
{
    if (fails(1)) {
        errno = ENOMEM;
        return NULL;
    }
    return noted(__libc_malloc(size), __builtin_return_address(0));
}

void *calloc(size_t n, size_t size)
{
    if (fails(1)) {
        errno = ENOMEM;
        return NULL;
    }
    return noted(__libc_calloc(n, size), __builtin_return_address(0));
}

void *realloc(void *at, size_t size)
{
    if (fails(1)) {
        errno = ENOMEM;
        return NULL;
    }
    void *moved = __libc_realloc(at, size);
    if (moved == NULL)
        return NULL;
    forgotten(at);
    return noted(moved, __builtin_return_address(0));
}

void free(void *at)
{
    forgotten(at);
    __libc_free(at);
}

/* ---- system calls ------------------------------------------------------------------------- */

#define NEXT(type, name) ((type)dlsym(RTLD_NEXT, #name))

#define FAILS_WITH(number)                                                                         \
    if (fails(0)) {                                                                                \
        errno = number;                                                                            \
        return -1;                                                                                 \
    }

static int opened(const char *name, const char *path, int flags, va_list args)
{
    typedef int open_fn(const char *, int, ...);
    int mode = (flags & O_CREAT) != 0 ? va_arg(args, int) : 0;
    FAILS_WITH(EACCES)
    return ((open_fn *)dlsym(RTLD_NEXT, name))(path, flags, mode);
}

int open(const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    int fd = opened("open", path, flags, args);
    va_end(args);
    return fd;
}

int open64(const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    int fd = opened("open64", path, flags, args);
    va_end(args);
    return fd;
}

ssize_t read(int fd, void *bytes, size_t len)
{
    FAILS_WITH(EIO)
    return NEXT(ssize_t(*)(int, void *, size_t), read)(fd, bytes, len);
}

ssize_t pread64(int fd, void *bytes, size_t len, off64_t at)
{
    FAILS_WITH(EIO)
    return NEXT(ssize_t(*)(int, void *, size_t, off64_t), pread64)(fd, bytes, len, at);
}

ssize_t write(int fd, const void *bytes, size_t len)
{
    FAILS_WITH(ENOSPC)
    return NEXT(ssize_t(*)(int, const void *, size_t), write)(fd, bytes, len);
}

ssize_t pwrite64(int fd, const void *bytes, size_t len, off64_t at)
{
    FAILS_WITH(ENOSPC)
    return NEXT(ssize_t(*)(int, const void *, size_t, off64_t), pwrite64)(fd, bytes, len, at);
}

int fsync(int fd)
{
    FAILS_WITH(EIO)
    return NEXT(int (*)(int), fsync)(fd);
}

int fdatasync(int fd)
{
    FAILS_WITH(EIO)
    return NEXT(int (*)(int), fdatasync)(fd);
}

int ftruncate64(int fd, off64_t len)
{
    FAILS_WITH(EIO)
    return NEXT(int (*)(int, off64_t), ftruncate64)(fd, len);
}

int rename(const char *from, const char *to)
{
    FAILS_WITH(EACCES)
    return NEXT(int (*)(const char *, const char *), rename)(from, to);
}

int link(const char *from, const char *to)
{
    FAILS_WITH(EPERM)
    return NEXT(int (*)(const char *, const char *), link)(from, to);
}

int mkdir(const char *path, mode_t mode)
{
    FAILS_WITH(ENOSPC)
    return NEXT(int (*)(const char *, mode_t), mkdir)(path, mode);
}

int unlink(const char *path)
{
    FAILS_WITH(EACCES)
    return NEXT(int (*)(const char *), unlink)(path);
}

int close(int fd)
{
    int result = NEXT(int (*)(int), close)(fd);
    FAILS_WITH(EIO)
    return result;
}

int stat64(const char *path, struct stat64 *out)
{
    FAILS_WITH(EACCES)
    return NEXT(int (*)(const char *, struct stat64 *), stat64)(path, out);
}

int stat(const char *path, struct stat *out)
{
    FAILS_WITH(EACCES)
    return NEXT(int (*)(const char *, struct stat *), stat)(path, out);
}

int fstat64(int fd, struct stat64 *out)
{
    FAILS_WITH(EIO)
    return NEXT(int (*)(int, struct stat64 *), fstat64)(fd, out);
}

void *mmap64(void *at, size_t len, int protection, int flags, int fd, off64_t offset)
{
    if (fails(0)) {
        errno = ENOMEM;
        return MAP_FAILED;
    }
    return NEXT(void *(*)(void *, size_t, int, int, int, off64_t), mmap64)(at, len, protection,
                                                                           flags, fd, offset);
}

/* The C library's own calls do not come by the names above. */
FILE *fopen(const char *path, const char *mode)
{
    if (fails(0)) {
        errno = EACCES;
        return NULL;
    }
    return NEXT(FILE * (*)(const char *, const char *), fopen)(path, mode);
}

FILE *fopen64(const char *path, const char *mode)
{
    if (fails(0)) {
        errno = EACCES;
        return NULL;
    }
    return NEXT(FILE * (*)(const char *, const char *), fopen64)(path, mode);
}

int fclose(FILE *file)
{
    int result = NEXT(int (*)(FILE *), fclose)(file);
    FAILS_WITH(EIO)
    return result;
}

/* ---- begin and end --------------------------------------------------------------------------- */

static int (*real_main)(int, char **, char **);

static void say(void)
{
    const char *path = getenv("FAULT_SAYS");
    long n = count, left = live;
    armed = 0;
    if (places != NULL)
        fclose(places);
    FILE *file = path == NULL ? NULL : fopen(path, "w");
    if (file != NULL) {
        fprintf(file, "%ld %ld\n", n, left);
        fclose(file);
    }
}

static int counted_main(int argc, char **argv, char **env)
{
    const char *kind = getenv("FAULT_KIND"), *at = getenv("FAULT_AT");
    allocs = kind != NULL && strcmp(kind, "alloc") == 0;
    lasts = getenv("FAULT_LASTS") != NULL;
    fails_at = at == NULL ? 0 : strtol(at, NULL, 10);
    dl_iterate_phdr(find_crypto, NULL);
    const char *to = getenv("FAULT_PLACES");
    void *frame[1];
    places = to == NULL ? NULL : fopen(to, "w");
    backtrace(frame, 1);
    armed = 1;
    int status = real_main(argc, argv, env);
    say();
    return status;
}

int __libc_start_main(int (*start)(int, char **, char **), int argc, char **argv,
                      void (*init)(void), void (*fini)(void), void (*rtld_fini)(void), void *stack)
{
    typedef int start_fn(int (*)(int, char **, char **), int, char **, void (*)(void),
                         void (*)(void), void (*)(void), void *);
    real_main = start;
    return NEXT(start_fn *, __libc_start_main)(counted_main, argc, argv, init, fini, rtld_fini,
                                               stack);
}
