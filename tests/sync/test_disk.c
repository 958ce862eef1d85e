/* A folder where devices meet, on a disk that fails: each way in which the store calls the system
 * fails once, and each in which it asks for memory. It says so, and the next time does what was to
 * be done. How they are failed: book/each_call.h. Constructed. */
#include "book/each_call.h"
#include "sync/script.h"

#include <dirent.h>
#include <fcntl.h>
#include <mistfold/sync.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- calls of the system ------------------------------------------------------------------------
 */

static bool fails_outside(void)
{
    if (!each_fails(EACH_OUTSIDE))
        return false;
    errno = each.code;
    return true;
}

#define EACH_CALLS(type, name, parameters, arguments, failed)                                      \
    EACH_WRAP(type, name, parameters, arguments, fails_outside(), failed)

EACH_CALLS(DIR *, opendir, (const char *path), (path), NULL)
EACH_CALLS(DIR *, fdopendir, (int fd), (fd), NULL)
EACH_CALLS(struct dirent *, readdir, (DIR * dir), (dir), NULL)
EACH_CALLS(int, fstatat, (int at, const char *path, struct stat *out, int flags),
           (at, path, out, flags), -1)
EACH_CALLS(int, fstat, (int fd, struct stat *out), (fd, out), -1)
EACH_CALLS(ssize_t, read, (int fd, void *to, size_t cap), (fd, to, cap), -1)
EACH_CALLS(int, mkdir, (const char *path, mode_t mode), (path, mode), -1)
EACH_CALLS(int, unlink, (const char *path), (path), -1)

extern int __real_openat(int at, const char *path, int flags, ...);
int __wrap_openat(int at, const char *path, int flags, ...);
int __wrap_openat(int at, const char *path, int flags, ...)
{
    return fails_outside() ? -1 : __real_openat(at, path, flags);
}

extern int __real_open(const char *path, int flags, ...);
int __wrap_open(const char *path, int flags, ...);
int __wrap_open(const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    mode_t mode = (flags & O_CREAT) != 0 ? va_arg(args, mode_t) : 0;
    va_end(args);
    return fails_outside() ? -1 : __real_open(path, flags, mode);
}

/* ---- what is done there -------------------------------------------------------------------------
 */

static char share[100];

typedef struct outcome {
    mf_status status;
    mf_err err;
    int told; /* files, or bytes */
} outcome;

typedef void op_fn(const mf_store *store, outcome *out);

static bool count(const mf_store_item *item, void *data)
{
    ++*(int *)data;
    return item->name[0] != '\0';
}

static bool count_one(const mf_store_item *item, void *data)
{
    return !count(item, data);
}

static void list(const mf_store *store, outcome *out)
{
    const mf_store_listener to = {count, NULL, true, &out->told};
    out->status = store->list(store->data, &to, &out->err);
}

static void list_one(const mf_store *store, outcome *out)
{
    const mf_store_listener to = {count_one, NULL, true, &out->told};
    out->status = store->list(store->data, &to, &out->err);
}

static void read_it(const mf_store *store, outcome *out)
{
    mf_bytes bytes = {0};
    out->status = store->read(store->data, "truck/one", &bytes, &out->err);
    out->told = (int)bytes.len;
    mf_bytes_free(&bytes);
}

static void read_folder(const mf_store *store, outcome *out)
{
    mf_bytes bytes = {0};
    out->status = store->read(store->data, "truck", &bytes, &out->err);
    mf_bytes_free(&bytes);
}

static bool stands(const char *name)
{
    char path[200];
    snprintf(path, sizeof path, "%s/%s", share, name);
    return access(path, F_OK) == 0;
}

/* Into a folder that is not there yet. */
static void write_it(const mf_store *store, outcome *out)
{
    out->status = store->write(store->data, "office/new", "whole", 5, &out->err);
    out->told = stands("office/new");
}

static void drop_it(const mf_store *store, outcome *out)
{
    out->status = store->drop(store->data, "truck/torn", &out->err);
    out->told = !stands("truck/torn");
}

/* What is half written is left over until memory is there. */
static void sweep_it(const mf_store *store, outcome *out)
{
    store->sweep(store->data, "truck");
    out->told = !stands("truck/.mistfold-999999999-0.tmp");
}

static void open_it(const mf_store *store, outcome *out)
{
    mf_store again;
    (void)store;
    out->status = mf_store_folder(&again, share, &out->err);
    mf_store_close(&again);
}

/* ---- each way
 * ------------------------------------------------------------------------------------ */

static outcome run_op(const mf_store *store, op_fn *op, each_kind kind, long fails_at, int code)
{
    outcome out = {.status = MF_OK};
    snprintf(share, sizeof share, "%s/share", folder);
    run("rm -rf share; mkdir -p share/truck share/paul; cd share; printf text > truck/one\n"
        "printf t > truck/torn; printf t > paul/two; printf t > notes; ln -s notes link\n"
        "mkfifo paul/pipe; printf half > truck/.mistfold-999999999-0.tmp");
    each_begin(kind, fails_at, code);
    op(store, &out);
    each_end();
    return out;
}

static bool is_told(const outcome *it)
{
    return it->status != MF_OK && it->err.status == it->status && it->err.what[0] != '\0' &&
           (strncmp(it->err.where, folder, strlen(folder)) == 0 ||
            strcmp(it->err.what, "out of memory") == 0);
}

static void each_way_fails(op_fn *op, each_kind kind, int code, int wanted)
{
    static long first[EACH_WAYS];
    mf_store store;
    snprintf(share, sizeof share, "%s/share", folder);
    run("mkdir -p share");
    assert_int_equal(mf_store_folder(&store, share, NULL), MF_OK);
    outcome calm = run_op(&store, op, kind, 0, code);
    assert_int_equal(calm.status, MF_OK);
    assert_int_equal(calm.told, wanted);
    size_t n = each.n;
    assert_true(n > 0);
    memcpy(first, each.first, n * sizeof first[0]);
    for (size_t i = 0; i < n; i++) {
        outcome it = run_op(&store, op, kind, first[i], code);
        bool same = it.status == MF_OK && it.told == wanted;
        if (!same && !is_told(&it) && op != sweep_it)
            fail_msg("call %ld of %zu: status %d, %d told: %s: %s", first[i], n, it.status, it.told,
                     it.err.where, it.err.what);
    }
    mf_store_close(&store);
}

/* one, torn, notes, link, two, pipe */
static void what_is_listed(void **state)
{
    (void)state;
    each_way_fails(list, EACH_OUTSIDE, EIO, 6);
    each_way_fails(list, EACH_OUTSIDE, EACCES, 6);
    each_way_fails(list, EACH_MEMORY, 0, 6);
    each_way_fails(list_one, EACH_OUTSIDE, EIO, 1);
}

static void what_is_read(void **state)
{
    mf_store store;
    (void)state;
    each_way_fails(read_it, EACH_OUTSIDE, EIO, 4);
    each_way_fails(read_it, EACH_OUTSIDE, EINTR, 4);
    each_way_fails(read_it, EACH_MEMORY, 0, 4);
    assert_int_equal(mf_store_folder(&store, share, NULL), MF_OK);
    outcome it = run_op(&store, read_folder, EACH_NONE, 0, 0);
    assert_true(is_told(&it) && it.status == MF_INPUT);
    mf_store_close(&store);
}

static void what_is_written(void **state)
{
    (void)state;
    each_way_fails(write_it, EACH_OUTSIDE, ENOSPC, 1);
    each_way_fails(write_it, EACH_MEMORY, 0, 1);
    each_way_fails(sweep_it, EACH_MEMORY, 0, 1);
}

/* What went in this moment is away. */
static void what_is_taken_away(void **state)
{
    mf_store store;
    (void)state;
    each_way_fails(drop_it, EACH_OUTSIDE, EACCES, 1);
    each_way_fails(drop_it, EACH_MEMORY, 0, 1);
    assert_int_equal(mf_store_folder(&store, share, NULL), MF_OK);
    assert_int_equal(store.drop(store.data, "truck/gone", NULL), MF_OK);
    mf_store_close(&store);
}

static void what_is_opened(void **state)
{
    (void)state;
    each_way_fails(open_it, EACH_MEMORY, 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_listed),  cmocka_unit_test(what_is_read),
        cmocka_unit_test(what_is_written), cmocka_unit_test(what_is_taken_away),
        cmocka_unit_test(what_is_opened),
    };
    return cmocka_run_group_tests(tests, script_start, shell_stop);
}
