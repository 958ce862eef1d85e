/* The power is cut: a file system under SQLite (a VFS, sqlite.org/vfs.html) that
 * remembers what was synced. At random writes and syncs the disk is looked at as a
 * power cut would leave it: everything that was synced, and of what was not any
 * sectors whatever. Each such disk is opened: what was acknowledged by then is
 * there, and the book is whole. The same file system also fails each of its calls
 * once, in one process. */
#include "book_kit.h"
#include "support/torture.h"
#include <sqlite3.h>
#include <unistd.h>

enum { SECTOR = 512, DISKS_MAX = 600, FILES = 2 };

/* What the test's disk knows; SQLite hands the VFS's pAppData along. */
typedef struct disk {
    kit *k;
    sqlite3_vfs *real;
    uint64_t seed;
    unsigned char *synced[FILES]; /* firm.book, firm.book-wal */
    size_t len[FILES];
    int cuts, wanted, one_in; /* disks looked at; one in so many calls */
    int64_t acknowledged, at_cut[DISKS_MAX];
    long calls, fails_at; /* of all calls that can fail; 0 = none fails */
    bool cutting;
} disk;

typedef struct file {
    sqlite3_file base;
    disk *d;
    int which; /* of synced; -1 = another file */
    sqlite3_file *real;
} file;

static const char *const names[FILES] = {"firm.book", "firm.book-wal"};

/* ---- the disk as a power cut leaves it ----------------------------------------------------- */

static unsigned char *slurp(const char *path, size_t *len)
{
    FILE *in = fopen(path, "rb");
    *len = 0;
    if (in == NULL)
        return NULL;
    fseek(in, 0, SEEK_END);
    long size = ftell(in);
    rewind(in);
    unsigned char *bytes = malloc((size_t)size + 1);
    assert_non_null(bytes);
    *len = fread(bytes, 1, (size_t)size, in);
    fclose(in);
    return bytes;
}

static void path_of(const disk *d, int which, char out[160])
{
    snprintf(out, 160, "%s/%s", d->k->folder, names[which]);
}

static void note_synced(disk *d, int which)
{
    char path[160];
    path_of(d, which, path);
    free(d->synced[which]);
    d->synced[which] = slurp(path, &d->len[which]);
}

/* Sectors that were written and not synced may or may not have reached the disk. */
static void write_torn(disk *d, int which, const char *to)
{
    char path[160];
    size_t now_len = 0;
    path_of(d, which, path);
    unsigned char *now = slurp(path, &now_len);
    FILE *out = fopen(to, "wb");
    assert_non_null(out);
    bool longer = now_len > d->len[which] && torture_below(&d->seed, 2) == 0;
    size_t len = longer ? now_len : d->len[which];
    for (size_t at = 0; at < len; at += SECTOR) {
        size_t n = len - at < SECTOR ? len - at : SECTOR;
        unsigned char sector[SECTOR] = {0};
        if (at + n <= d->len[which])
            memcpy(sector, d->synced[which] + at, n);
        if (at + n <= now_len && torture_below(&d->seed, 2) == 0)
            memcpy(sector, now + at, n);
        fwrite(sector, 1, n, out);
    }
    fclose(out);
    free(now);
}

static void maybe_cut(disk *d)
{
    char to[200];
    if (!d->cutting || d->cuts >= d->wanted || torture_below(&d->seed, (size_t)d->one_in) != 0)
        return;
    for (int i = 0; i < FILES; i++) {
        snprintf(to, sizeof to, "%s/cut-%d%s", d->k->folder, d->cuts, i == 0 ? "" : "-wal");
        if (d->synced[i] != NULL)
            write_torn(d, i, to);
    }
    d->at_cut[d->cuts++] = d->acknowledged;
}

/* ---- the calls of a file ----------------------------------------------------------------------
 */

static bool fails(disk *d)
{
    return ++d->calls == d->fails_at;
}

static file *of(sqlite3_file *f)
{
    return (file *)f;
}

#define REAL(f) (of(f)->real)

static int x_close(sqlite3_file *f)
{
    int rc = REAL(f)->pMethods->xClose(REAL(f));
    sqlite3_free(REAL(f));
    return rc;
}

static int x_read(sqlite3_file *f, void *bytes, int n, sqlite3_int64 at)
{
    if (fails(of(f)->d))
        return SQLITE_IOERR_READ;
    return REAL(f)->pMethods->xRead(REAL(f), bytes, n, at);
}

static int x_write(sqlite3_file *f, const void *bytes, int n, sqlite3_int64 at)
{
    if (fails(of(f)->d))
        return SQLITE_FULL;
    int rc = REAL(f)->pMethods->xWrite(REAL(f), bytes, n, at);
    maybe_cut(of(f)->d);
    return rc;
}

static int x_truncate(sqlite3_file *f, sqlite3_int64 size)
{
    if (fails(of(f)->d))
        return SQLITE_IOERR_TRUNCATE;
    return REAL(f)->pMethods->xTruncate(REAL(f), size);
}

/* The real sync is left out: what is synced is what note_synced remembers. */
static int x_sync(sqlite3_file *f, int flags)
{
    (void)flags;
    if (fails(of(f)->d))
        return SQLITE_IOERR_FSYNC;
    maybe_cut(of(f)->d);
    if (of(f)->which >= 0 && of(f)->d->cutting)
        note_synced(of(f)->d, of(f)->which);
    maybe_cut(of(f)->d);
    return SQLITE_OK;
}

static int x_size(sqlite3_file *f, sqlite3_int64 *size)
{
    if (fails(of(f)->d))
        return SQLITE_IOERR_FSTAT;
    return REAL(f)->pMethods->xFileSize(REAL(f), size);
}

static int x_lock(sqlite3_file *f, int lock)
{
    if (fails(of(f)->d))
        return SQLITE_IOERR_LOCK;
    return REAL(f)->pMethods->xLock(REAL(f), lock);
}

static int x_unlock(sqlite3_file *f, int lock)
{
    return REAL(f)->pMethods->xUnlock(REAL(f), lock);
}

static int x_reserved(sqlite3_file *f, int *out)
{
    return REAL(f)->pMethods->xCheckReservedLock(REAL(f), out);
}

static int x_control(sqlite3_file *f, int op, void *arg)
{
    return REAL(f)->pMethods->xFileControl(REAL(f), op, arg);
}

static int x_sector(sqlite3_file *f)
{
    return REAL(f)->pMethods->xSectorSize(REAL(f));
}

/* No promises: a disk that tears sectors apart keeps none. */
static int x_traits(sqlite3_file *f)
{
    (void)f;
    return 0;
}

static int x_shm_map(sqlite3_file *f, int page, int size, int extend, void volatile **out)
{
    if (fails(of(f)->d))
        return SQLITE_IOERR_SHMMAP;
    return REAL(f)->pMethods->xShmMap(REAL(f), page, size, extend, out);
}

static int x_shm_lock(sqlite3_file *f, int offset, int n, int flags)
{
    return REAL(f)->pMethods->xShmLock(REAL(f), offset, n, flags);
}

static void x_shm_barrier(sqlite3_file *f)
{
    REAL(f)->pMethods->xShmBarrier(REAL(f));
}

static int x_shm_unmap(sqlite3_file *f, int delete_too)
{
    return REAL(f)->pMethods->xShmUnmap(REAL(f), delete_too);
}

static const sqlite3_io_methods methods = {.iVersion = 2,
                                           .xClose = x_close,
                                           .xRead = x_read,
                                           .xWrite = x_write,
                                           .xTruncate = x_truncate,
                                           .xSync = x_sync,
                                           .xFileSize = x_size,
                                           .xLock = x_lock,
                                           .xUnlock = x_unlock,
                                           .xCheckReservedLock = x_reserved,
                                           .xFileControl = x_control,
                                           .xSectorSize = x_sector,
                                           .xDeviceCharacteristics = x_traits,
                                           .xShmMap = x_shm_map,
                                           .xShmLock = x_shm_lock,
                                           .xShmBarrier = x_shm_barrier,
                                           .xShmUnmap = x_shm_unmap};

/* ---- the calls of the file system ---------------------------------------------------------------
 */

static int which_of(const char *path)
{
    const char *slash = path == NULL ? NULL : strrchr(path, '/');
    for (int i = 0; slash != NULL && i < FILES; i++)
        if (strcmp(slash + 1, names[i]) == 0)
            return i;
    return -1;
}

static int x_open(sqlite3_vfs *vfs, const char *path, sqlite3_file *f, int flags, int *out_flags)
{
    disk *d = vfs->pAppData;
    file *it = of(f);
    memset(it, 0, sizeof *it);
    if (fails(d))
        return SQLITE_CANTOPEN;
    it->real = sqlite3_malloc(d->real->szOsFile);
    if (it->real == NULL)
        return SQLITE_NOMEM;
    int rc = d->real->xOpen(d->real, path, it->real, flags, out_flags);
    if (rc != SQLITE_OK) {
        sqlite3_free(it->real);
        return rc;
    }
    it->d = d;
    it->which = which_of(path);
    it->base.pMethods = &methods;
    return SQLITE_OK;
}

static int x_delete(sqlite3_vfs *vfs, const char *path, int sync)
{
    disk *d = vfs->pAppData;
    if (fails(d))
        return SQLITE_IOERR_DELETE;
    return d->real->xDelete(d->real, path, sync);
}

static int x_access(sqlite3_vfs *vfs, const char *path, int flags, int *out)
{
    disk *d = vfs->pAppData;
    if (fails(d))
        return SQLITE_IOERR_ACCESS;
    return d->real->xAccess(d->real, path, flags, out);
}

static void put_under(disk *d, sqlite3_vfs *vfs)
{
    d->real = sqlite3_vfs_find("unix");
    assert_non_null(d->real);
    *vfs = *d->real;
    vfs->iVersion = 2;
    vfs->pNext = NULL;
    vfs->szOsFile = (int)sizeof(file);
    vfs->zName = "test-disk";
    vfs->pAppData = d;
    vfs->xOpen = x_open;
    vfs->xDelete = x_delete;
    vfs->xAccess = x_access;
    assert_int_equal(sqlite3_vfs_register(vfs, 1), SQLITE_OK);
}

static void take_away(disk *d, sqlite3_vfs *vfs)
{
    assert_int_equal(sqlite3_vfs_unregister(vfs), SQLITE_OK);
    assert_int_equal(sqlite3_vfs_register(d->real, 1), SQLITE_OK);
    for (int i = 0; i < FILES; i++)
        free(d->synced[i]);
}

/* ---- cuts ---------------------------------------------------------------------------------------
 */

static void write_and_cut(disk *d, int entries)
{
    for (int i = 0; i < entries; i++) {
        char number[24];
        snprintf(number, sizeof number, "%d", i + 100);
        if (i % 10 == 9) { /* a group is acknowledged as one */
            assert_int_equal(mf_book_begin(d->k->book, NULL), MF_OK);
            kit_reading(d->k, number, "0.5");
            kit_reading(d->k, number, "0.6");
            assert_int_equal(mf_book_commit(d->k->book, NULL), MF_OK);
            d->acknowledged += 2;
        } else {
            kit_reading(d->k, number, "0.5");
            d->acknowledged++;
        }
    }
}

/* At most what was being written at the cut is there too, and whole. */
static void look_at(disk *d, int cut, int64_t before)
{
    char path[160];
    mf_book *book = NULL;
    mf_book_report report = {0};
    mf_err err = {0};
    snprintf(path, sizeof path, "%s/cut-%d", d->k->folder, cut);
    mf_status status = mf_book_open(&book, path, &err);
    if (status == MF_OK)
        status = mf_book_check(book, &report, &err);
    mf_book_close(book);
    int64_t more = report.entries - before - d->at_cut[cut];
    if (status != MF_OK || more < 0 || more > 2)
        fail_msg("cut %d: %lld entries acknowledged, %lld there: %s", cut,
                 (long long)d->at_cut[cut], (long long)(report.entries - before), err.what);
}

static void power_cuts(void **state)
{
    static kit k;
    static disk d;
    static sqlite3_vfs vfs;
    (void)state;
    d = (disk){.k = &k, .seed = 99, .wanted = torture(40, DISKS_MAX), .one_in = 25};
    put_under(&d, &vfs);
    kit_start(&k);
    kit_house(&k);
    int64_t before = 9;
    for (int i = 0; i < FILES; i++)
        note_synced(&d, i);
    d.cutting = true;
    write_and_cut(&d, torture(200, 2400)); /* over several checkpoints */
    d.cutting = false;
    mf_book_close(k.book);
    k.book = NULL;
    for (int i = 0; i < d.cuts; i++)
        look_at(&d, i, before);
    print_message("%d cuts of the power, %lld entries\n", d.cuts, (long long)d.acknowledged);
    assert_true(d.cuts >= d.wanted * 3 / 4);
    take_away(&d, &vfs);
    kit_stop(&k);
}

/* ---- each call fails once
 * ------------------------------------------------------------------------- */

/* Opens, writes one entry, closes. */
static mf_status one_run(kit *k, mf_err *err)
{
    kit c = {.now = k->now};
    mf_status status = mf_book_open(&c.book, k->path, err);
    if (status == MF_OK) {
        status = kit_try(&c, "person", "", "id", "x", "name", "X X", NULL);
        *err = c.err;
    }
    mf_book_close(c.book);
    return status;
}

static int64_t restore_and_run(disk *d, long fails_at, mf_status *status, mf_err *err)
{
    run_result result;
    mf_book *book = NULL;
    mf_book_report report = {0};
    run_shell(&result, d->k->folder, "rm -f firm.book-*; cp keep firm.book");
    d->calls = 0;
    d->fails_at = fails_at;
    *status = one_run(d->k, err);
    d->fails_at = 0;
    assert_int_equal(mf_book_open(&book, d->k->path, NULL), MF_OK);
    assert_int_equal(mf_book_check(book, &report, NULL), MF_OK);
    mf_book_close(book);
    return report.entries;
}

static void each_call_fails_once(void **state)
{
    static kit k;
    static disk d;
    static sqlite3_vfs vfs;
    run_result result;
    mf_status status;
    mf_err err = {0};
    long calls = 0, n = 0;
    (void)state;
    d = (disk){.k = &k, .seed = 5, .one_in = 1};
    put_under(&d, &vfs);
    kit_start(&k);
    kit_house(&k);
    mf_book_close(k.book);
    k.book = NULL;
    run_shell(&result, k.folder, "cp firm.book keep");
    d.fails_at = 0;
    run_shell(&result, k.folder, "rm -f firm.book-*");
    d.calls = 0;
    assert_int_equal(one_run(&k, &err), MF_OK);
    calls = d.calls;
    for (long at = 1; at <= calls; at += torture(6, 1), n++) {
        err = (mf_err){0};
        int64_t entries = restore_and_run(&d, at, &status, &err);
        bool good = (status == MF_OK && entries == 10) ||
                    (status == MF_SYSTEM && err.what[0] != '\0' && entries == 9);
        if (!good)
            fail_msg("call %ld: status %d, %lld entries: %s", at, (int)status, (long long)entries,
                     err.what);
    }
    print_message("%ld of %ld calls failed once\n", n, calls);
    take_away(&d, &vfs);
    kit_stop(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(power_cuts),
        cmocka_unit_test(each_call_fails_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
