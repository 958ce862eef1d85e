/* A book in trouble: no rights, no room, killed while it writes. What was
 * acknowledged is there, and nothing else. */
#include "book_kit.h"
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* ---- rights and room: in a child, as an ordinary user ------------------------------------- */

/* A child must not go on with the tests of its parent when it crashes. */
static pid_t fork_plainly(void)
{
    static const int caught[] = {SIGFPE, SIGILL, SIGSEGV, SIGBUS, SIGSYS};
    pid_t child = fork();
    assert_true(child >= 0);
    for (size_t i = 0; child == 0 && i < sizeof caught / sizeof caught[0]; i++)
        signal(caught[i], SIG_DFL);
    return child;
}

/* Runs body in a child as "nobody" (65534) and wants its exit status to be 0. */
static void as_nobody(void (*body)(const kit *k), const kit *k)
{
    pid_t child = fork_plainly();
    if (child == 0) {
        if (geteuid() == 0 && (setgid(65534) != 0 || setuid(65534) != 0))
            _exit(3);
        body(k);
        _exit(0);
    }
    int status = -1;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
}

static void must(bool good, const char *what, const mf_err *err)
{
    if (good)
        return;
    print_error("%s: [%d] %s: %s (%s)\n", what, err->status, err->where, err->what, err->why);
    _exit(1);
}

static void open_without_rights(const kit *k)
{
    mf_book *book = NULL;
    mf_err err = {0};
    must(mf_book_open(&book, k->path, &err) == MF_SYSTEM, "open", &err);
    must(strcmp(err.what, "the book cannot be opened") == 0 ||
             strcmp(err.what, "the book cannot be written") == 0,
         "words", &err);
    must(strstr(err.mend, "right to write") != NULL, "mend", &err);
}

/* It is read, and nothing is made beside it; what would write is refused. */
static void read_without_writing(const kit *k)
{
    kit c = {.now = kit_time()};
    mf_job *job = NULL;
    mf_book_report report;
    must(mf_book_open(&c.book, k->path, &c.err) == MF_OK, "open", &c.err);
    must(mf_book_is_read_only(c.book), "read-only", &c.err);
    must(mf_book_job(c.book, "", &job, &c.err) == MF_OK, "job", &c.err);
    must(mf_book_check(c.book, &report, &c.err) == MF_OK, "check", &c.err);
    must(mf_book_begin(c.book, &c.err) == MF_SYSTEM, "begin", &c.err);
    must(strcmp(c.err.what, "the book is read-only: nothing was written") == 0, "words", &c.err);
    must(mf_book_rebuild(c.book, &c.err) == MF_SYSTEM, "rebuild", &c.err);
    mf_book_job_free(job);
    mf_book_close(c.book);
}

static void nothing_beside(const kit *k)
{
    kit_shell(k, "test \"$(ls)\" = firm.book");
}

static void unreadable(void **state)
{
    kit *k = *state;
    kit_shell(k, "chmod 755 . && chmod 000 firm.book");
    as_nobody(open_without_rights, k);
}

static void read_only_file(void **state)
{
    kit *k = *state;
    mf_book_close(k->book);
    k->book = NULL;
    kit_shell(k, "chmod 777 . && chmod 444 firm.book");
    as_nobody(read_without_writing, k);
    nothing_beside(k);
}

static void read_only_folder(void **state)
{
    kit *k = *state;
    mf_book_close(k->book);
    k->book = NULL;
    kit_shell(k, "chmod 666 firm.book && chmod 555 .");
    as_nobody(read_without_writing, k);
    nothing_beside(k);
}

/* Writes readings until the disk is full; what was acknowledged must be there,
 * and nothing else. */
static int fill(const char *path, int64_t *acknowledged)
{
    kit k = {.now = kit_time()};
    char number[24];
    if (mf_book_open(&k.book, path, &k.err) != MF_OK)
        return 2;
    for (int i = 0; i < 100000; i++) {
        snprintf(number, sizeof number, "%d", i);
        mf_status status =
            kit_try(&k, "reading", "J-1", "number", number, "instrument", "X-100", "operator",
                    "rosa", "purpose", "paint", "component", "W01.sash", "substrate", "wood",
                    "result", "0.5", "on", "2026-09-14", "color",
                    "a long color name to fill the disk a little sooner than without it", NULL);
        if (status == MF_OK) {
            *acknowledged = i + 1;
            continue;
        }
        must(strcmp(k.err.what, "the disk is full: nothing was written") == 0, "words", &k.err);
        must(strcmp(k.err.mend, "free some space, then do it again") == 0, "mend", &k.err);
        mf_book_close(k.book);
        return status == MF_SYSTEM ? 0 : 1;
    }
    return 4;
}

static void check_filled(const char *path, int64_t acknowledged)
{
    mf_book *book = NULL;
    mf_book_report report;
    mf_err err = {0};
    assert_int_equal(mf_book_open(&book, path, &err), MF_OK);
    assert_int_equal(mf_book_check(book, &report, &err), MF_OK);
    assert_int_equal(report.entries, 9 + acknowledged);
    assert_true(acknowledged > 0);
    mf_book_close(book);
}

/* In a child under RLIMIT_FSIZE: the kernel's answer is EFBIG, setrlimit(2). */
static void file_size_limit(void **state)
{
    kit *k = *state;
    kit_house(k);
    mf_book_close(k->book);
    k->book = NULL;
    int results[2];
    assert_int_equal(pipe(results), 0);
    pid_t child = fork_plainly();
    if (child == 0) {
        struct rlimit limit = {900000, 900000};
        int64_t acknowledged = 0;
        signal(SIGXFSZ, SIG_IGN);
        setrlimit(RLIMIT_FSIZE, &limit);
        int result = fill(k->path, &acknowledged);
        if (write(results[1], &acknowledged, sizeof acknowledged) != sizeof acknowledged)
            _exit(5);
        _exit(result);
    }
    int status = -1;
    int64_t acknowledged = 0;
    assert_int_equal(read(results[0], &acknowledged, sizeof acknowledged), sizeof acknowledged);
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    close(results[0]);
    close(results[1]);
    check_filled(k->path, acknowledged);
}

/* On a file system of 1 MB: ENOSPC, tmpfs(5). Needs the right to mount. */
static void full_disk(void **state)
{
    kit *k = *state;
    char small[128], path[128];
    kit_in_folder(k, "small", small);
    kit_in_folder(k, "small/firm.book", path);
    kit_house(k);
    mf_book_close(k->book);
    k->book = NULL;
    assert_int_equal(mkdir(small, 0700), 0);
    if (mount("tmpfs", small, "tmpfs", 0, "size=1m") != 0)
        skip();
    kit_shell(k, "cp firm.book small/");
    int64_t acknowledged = 0;
    int result = fill(path, &acknowledged);
    check_filled(path, acknowledged);
    assert_int_equal(umount(small), 0);
    assert_int_equal(result, 0);
}

/* ---- kill -9 ----------------------------------------------------------------------------------
 */

/* The child is killed while it writes; every entry it acknowledged is there. */
static void killed(void **state)
{
    kit *k = *state;
    kit_house(k);
    mf_book_close(k->book);
    k->book = NULL;
    int pipes[2];
    assert_int_equal(pipe(pipes), 0);
    pid_t child = fork_plainly();
    if (child == 0) {
        kit c = {.now = kit_time()};
        if (mf_book_open(&c.book, k->path, NULL) != MF_OK)
            _exit(1);
        for (int i = 0; i < 120; i++) {
            char number[24];
            snprintf(number, sizeof number, "%d", i);
            kit_reading(&c, number, "0.5");
            if (write(pipes[1], "x", 1) != 1)
                _exit(2);
        }
        pause();
    }
    char acknowledged;
    for (int i = 0; i < 25; i++)
        assert_int_equal(read(pipes[0], &acknowledged, 1), 1);
    kill(child, SIGKILL);
    assert_int_equal(waitpid(child, NULL, 0), child);
    close(pipes[1]);
    int64_t count = 25;
    while (read(pipes[0], &acknowledged, 1) == 1)
        count++;
    close(pipes[0]);
    mf_book_report report;
    assert_int_equal(mf_book_open(&k->book, k->path, &k->err), MF_OK);
    assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
    assert_true(report.entries == 9 + count || report.entries == 9 + count + 1);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kit_with_book, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(unreadable),      TEST(read_only_file), TEST(read_only_folder),
        TEST(file_size_limit), TEST(full_disk),      TEST(killed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
