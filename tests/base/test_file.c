/* Durable writing and reading with a limit. /dev/full and its errno ENOSPC: full(4). */
#include "base/file.h"
#include "support/cmocka_all.h"
#include "support/folder_kit.h"
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static const char *in_folder(const char *name)
{
    static char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

static void check_content(const char *path, const char *want)
{
    mf_bytes bytes = {0};
    mf_err err = {0};
    assert_int_equal(mf_file_read(&bytes, path, 1000, &err), MF_OK);
    assert_int_equal(bytes.len, strlen(want));
    assert_string_equal((const char *)bytes.data, want); /* also: it ends in a NUL */
    mf_bytes_free(&bytes);
}

/* What is in the folder, as ls(1) -A says. */
static void check_names(const char *want)
{
    run_result result;
    run_shell(&result, folder, "ls -A");
    assert_string_equal(result.out, want);
}

static void round_trip(void **state)
{
    (void)state;
    const char *path = in_folder("paper.pdf");
    assert_int_equal(mf_file_write(path, "first", 5, 0600, NULL), MF_OK);
    check_content(path, "first");
    assert_int_equal(mf_file_write(path, "second", 6, 0600, NULL), MF_OK);
    check_content(path, "second");
    assert_int_equal(mf_file_write(path, "", 0, 0600, NULL), MF_OK);
    check_content(path, "");
    check_names("paper.pdf\n");
}

static void mode(void **state)
{
    (void)state;
    struct stat st;
    mode_t mask = umask(022);
    assert_int_equal(mf_file_write(in_folder("key"), "k", 1, 0600, NULL), MF_OK);
    assert_int_equal(stat(in_folder("key"), &st), 0);
    assert_int_equal(st.st_mode & 0777, 0600);
    assert_int_equal(mf_file_write(in_folder("paper"), "k", 1, 0644, NULL), MF_OK);
    assert_int_equal(stat(in_folder("paper"), &st), 0);
    assert_int_equal(st.st_mode & 0777, 0644);
    umask(mask);
}

static void check_refused(const char *path, mf_status status, const char *what, const char *why)
{
    mf_err err = {0};
    assert_int_equal(mf_file_write(path, "x", 1, 0600, &err), status);
    assert_int_equal(err.status, status);
    assert_string_equal(err.where, path);
    assert_string_equal(err.what, what);
    assert_string_equal(err.why, why);
    assert_true(err.mend[0] != '\0');
}

static void full_disk(void **state)
{
    (void)state;
    check_refused("/dev/full", MF_SYSTEM, "cannot write it", "the disk is full");
}

static void no_folder(void **state)
{
    (void)state;
    check_refused(in_folder("none/paper.pdf"), MF_INPUT, "cannot write it",
                  "there is no such file or folder");
}

static void part_is_no_folder(void **state)
{
    (void)state;
    assert_int_equal(mf_file_write(in_folder("file"), "x", 1, 0600, NULL), MF_OK);
    check_refused(in_folder("file/paper.pdf"), MF_INPUT, "cannot write it",
                  "a part of the path is not a folder");
}

static void is_folder(void **state)
{
    (void)state;
    check_refused(folder, MF_INPUT, "cannot write it", "it is a folder");
}

/* What a link points to must not be written over. */
static void symlink_is_not_followed(void **state)
{
    (void)state;
    char target[128];
    snprintf(target, sizeof target, "%s", in_folder("target"));
    assert_int_equal(mf_file_write(target, "kept", 4, 0600, NULL), MF_OK);
    assert_int_equal(symlink(target, in_folder("link")), 0);
    check_refused(in_folder("link"), MF_INPUT, "cannot write it", "it is a symbolic link");
    check_content(target, "kept");
}

/* A file that grows beyond what the system allows (setrlimit(2), EFBIG) leaves
 * the old file as it was, and nothing beside it. */
static void failure_keeps_the_old_file(void **state)
{
    (void)state;
    const char *path = in_folder("paper.pdf");
    assert_int_equal(mf_file_write(path, "old", 3, 0600, NULL), MF_OK);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        struct rlimit limit = {4096, 4096};
        static char large[100000];
        mf_err err = {0};
        signal(SIGXFSZ, SIG_IGN);
        setrlimit(RLIMIT_FSIZE, &limit);
        _exit(mf_file_write(path, large, sizeof large, 0600, &err) == MF_SYSTEM &&
                      strcmp(err.what, "cannot write it") == 0
                  ? 0
                  : 1);
    }
    int status = -1;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    check_content(path, "old");
    check_names("paper.pdf\n");
}

static void read_limit(void **state)
{
    (void)state;
    mf_bytes bytes;
    mf_err err = {0};
    const char *path = in_folder("f");
    assert_int_equal(mf_file_write(path, "12345", 5, 0600, NULL), MF_OK);
    assert_int_equal(mf_file_read(&bytes, path, 5, &err), MF_OK);
    mf_bytes_free(&bytes);
    assert_int_equal(mf_file_read(&bytes, path, 4, &err), MF_INPUT);
    assert_string_equal(err.what, "the file is longer than 4 bytes");
    assert_null(bytes.data);
}

static void read_refused(void **state)
{
    (void)state;
    mf_bytes bytes;
    mf_err err = {0};
    assert_int_equal(mf_file_read(&bytes, in_folder("none"), 10, &err), MF_INPUT);
    assert_string_equal(err.why, "there is no such file or folder");
    assert_int_equal(mf_file_read(&bytes, folder, 10, &err), MF_INPUT);
    assert_string_equal(err.why, "it is a folder");
}

/* ---- in two steps --------------------------------------------------------------------- */

static void stage(mf_staged *out, const char *path)
{
    assert_int_equal(mf_file_stage(out, path, "new", 3, 0600, NULL), MF_OK);
}

static void a_new_file_is_taken_back(void **state)
{
    (void)state;
    mf_staged staged;
    const char *path = in_folder("a");
    stage(&staged, path);
    mf_file_end(&staged, false); /* never put */
    check_names("");
    stage(&staged, path);
    assert_int_equal(mf_file_put(&staged, true, NULL), MF_OK);
    check_names("a\n");
    mf_file_end(&staged, false);
    check_names("");
    stage(&staged, path);
    assert_int_equal(mf_file_put(&staged, true, NULL), MF_OK);
    mf_file_end(&staged, true);
    check_names("a\n");
    check_content(path, "new");
}

/* The old file is beside the new one until the end, under a name that is free. */
static void an_old_file_comes_back(void **state)
{
    (void)state;
    mf_staged staged;
    char other[160];
    const char *path = in_folder("a");
    assert_int_equal(mf_file_write(path, "old", 3, 0600, NULL), MF_OK);
    stage(&staged, path);
    check_content(path, "old");
    assert_int_equal(mf_file_put(&staged, true, NULL), MF_OK);
    check_names("a\na.before\n");
    check_content(path, "new");
    mf_file_end(&staged, false);
    check_names("a\n");
    check_content(path, "old");

    snprintf(other, sizeof other, "%s.before", path);
    assert_int_equal(mf_file_write(other, "mine", 4, 0600, NULL), MF_OK);
    stage(&staged, path);
    assert_int_equal(mf_file_put(&staged, true, NULL), MF_OK);
    check_names("a\na.before\na.before-1\n");
    mf_file_end(&staged, true);
    check_names("a\na.before\n");
    check_content(path, "new");
    check_content(other, "mine");
}

/* A folder to put files into and not to look into (mode 0333): open(2) says EACCES for it. */
static void a_folder_that_cannot_be_read(void **state)
{
    (void)state;
    int status = -1;
    const char *path = in_folder("drop");
    assert_int_equal(mkdir(path, 0700) | chmod(path, 0333) | chmod(folder, 0711), 0);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        if (geteuid() == 0 && setuid(65534) != 0) /* nothing is refused to root */
            _exit(3);
        _exit(mf_file_write(in_folder("drop/a"), "new", 3, 0600, NULL) == MF_OK ? 0 : 1);
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(chmod(path, 0700) | status, 0);
    check_content(in_folder("drop/a"), "new");
}

/* The place became a folder in the meantime: nothing can be put there, all stays. */
static void what_cannot_be_put(void **state)
{
    (void)state;
    mf_err err = {0};
    mf_staged staged;
    const char *path = in_folder("a");
    stage(&staged, path);
    assert_int_equal(mkdir(path, 0700), 0);
    assert_int_equal(mf_file_put(&staged, true, &err), MF_INPUT);
    mf_file_end(&staged, false);
    check_names("a\n");
}

/* ---- a new file alone ----------------------------------------------------------------- */

static void new_files_take_no_place(void **state)
{
    (void)state;
    mf_err err = {0};
    const char *path = in_folder("k");
    assert_int_equal(mf_file_write_new(path, "first", 5, 0600, &err), MF_OK);
    assert_int_equal(mf_file_write_new(path, "second", 6, 0600, &err), MF_INPUT);
    assert_string_equal(err.what, "there is a file of this name already");
    check_content(path, "first");
    assert_int_equal(symlink("nowhere", in_folder("l")), 0); /* a link to nothing is something */
    assert_int_equal(mf_file_write_new(in_folder("l"), "x", 1, 0600, NULL), MF_INPUT);
    assert_int_equal(mf_file_write_new(in_folder("no/k"), "x", 1, 0600, NULL), MF_INPUT);
    assert_int_equal(mf_file_write_new(folder, "x", 1, 0600, NULL), MF_INPUT);
    check_names("k\nl\n");
}

/* It was free when it was looked at: link(2) does not take the place of what came since. */
static void what_came_in_between_stays(void **state)
{
    (void)state;
    char temp[128];
    snprintf(temp, sizeof temp, "%s", in_folder("t"));
    assert_int_equal(mf_file_write(temp, "late", 4, 0600, NULL), MF_OK);
    assert_int_equal(mf_file_write(in_folder("k"), "early", 5, 0600, NULL), MF_OK);
    assert_int_equal(mf_file_settle(temp, in_folder("k"), NULL), MF_INPUT);
    check_content(in_folder("k"), "early");
    check_content(temp, "late");
}

/* Eight at once: one wins, and what it wrote is there. */
static void one_of_many_wins(void **state)
{
    (void)state;
    enum { N = 8 };
    pid_t child[N];
    int won = -1, status = -1;
    char text[20], want[20] = "";
    for (int i = 0; i < N; i++) {
        child[i] = fork();
        assert_true(child[i] >= 0);
        snprintf(text, sizeof text, "by %d", i);
        if (child[i] == 0)
            _exit(mf_file_write_new(in_folder("k"), text, strlen(text), 0600, NULL) == MF_OK ? 0
                                                                                             : 1);
    }
    for (int i = 0; i < N; i++) {
        assert_int_equal(waitpid(child[i], &status, 0), child[i]);
        assert_true(status != 0 || won < 0); /* no second one */
        won = status == 0 ? i : won;
    }
    snprintf(want, sizeof want, "by %d", won);
    check_content(in_folder("k"), want);
    check_names("k\n");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, make_folder, remove_folder)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(round_trip),
        TEST(mode),
        TEST(full_disk),
        TEST(no_folder),
        TEST(part_is_no_folder),
        TEST(is_folder),
        TEST(symlink_is_not_followed),
        TEST(failure_keeps_the_old_file),
        TEST(read_limit),
        TEST(read_refused),
        TEST(a_new_file_is_taken_back),
        TEST(an_old_file_comes_back),
        TEST(what_cannot_be_put),
        TEST(new_files_take_no_place),
        TEST(what_came_in_between_stays),
        TEST(one_of_many_wins),
        TEST(a_folder_that_cannot_be_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
