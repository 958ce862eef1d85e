/* A large import, which goes straight into the file instead of the write-ahead log:
 * whole or not at all when it is killed, refused or in company. What the file holds is
 * counted by the stock sqlite3 program. All data is constructed. */
#include "book_kit.h"
#include "support/torture.h"
#include <signal.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { ROWS = 20000 }; /* 1.5 MB, over the least that goes straight (straight.h) */

/* last: the result of the last row. */
static void write_export(const kit *k, const char *last)
{
    char path[128];
    snprintf(path, sizeof path, "%s/long.csv", k->folder);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs("number,instrument,operator,date,time,opening,component,side,substrate,color,result\n",
          file);
    for (int i = 1; i <= ROWS; i++)
        fprintf(file, "%d,X-100,rosa,2026-09-14,%02d:%02d,W01,sash,interior,wood,white,%s\n", i,
                8 + i / 60 % 10, i % 60, i == ROWS ? last : "0.3");
    assert_int_equal(fclose(file), 0);
}

static pid_t begin(const kit *k)
{
    char csv[128];
    const char *program = getenv("MISTFOLD");
    snprintf(csv, sizeof csv, "%s/long.csv", k->folder);
    fflush(NULL);
    pid_t child = fork();
    if (child != 0)
        return child;
    if (program == NULL || freopen("/dev/null", "w", stdout) == NULL ||
        freopen("/dev/null", "w", stderr) == NULL)
        _exit(126);
    execl(program, "mistfold", "--book", k->path, "--by", "rosa", "test", "import", "J-1", csv,
          (char *)NULL);
    _exit(127);
}

static int import(const kit *k)
{
    int status = 0;
    pid_t child = begin(k);
    assert_true(child > 0);
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

/* Opens the book, which takes back what a killed program left. */
static void reopen(kit *k)
{
    mf_book_report report;
    assert_int_equal(mf_book_open(&k->book, k->path, &k->err), MF_OK);
    assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
    kit_sqlite_says(k, "PRAGMA journal_mode", "wal\n");
}

static void close_book(kit *k)
{
    mf_book_close(k->book);
    k->book = NULL;
}

static const char readings[] = "SELECT count(*) FROM reading";
static const char entries[] = "SELECT count(*) FROM entry WHERE kind = 'reading'";

static void is_whole(void **state)
{
    kit *k = *state;
    char path[128];
    write_export(k, "0.3");
    close_book(k);
    assert_int_equal(import(k), 0);
    snprintf(path, sizeof path, "%s-journal", k->path);
    assert_int_not_equal(access(path, F_OK), 0);
    reopen(k);
    kit_sqlite_says(k, readings, "20000\n");
    kit_sqlite_says(k, entries, "20000\n");
}

/* Somebody reads the book all the time, as from another window. */
static void in_company(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    write_export(k, "0.3");
    assert_int_equal(import(k), 0);
    assert_int_equal(mf_book_job(k->book, "J-1", &job, &k->err), MF_OK);
    assert_int_equal(job->n_reading, ROWS);
    mf_book_job_free(job);
    close_book(k);
    reopen(k);
}

static void refused_leaves_nothing(void **state)
{
    kit *k = *state;
    write_export(k, "much");
    close_book(k);
    assert_int_not_equal(import(k), 0);
    reopen(k);
    kit_sqlite_says(k, readings, "0\n");
    kit_sqlite_says(k, entries, "0\n");
}

static void killed_at_random(void **state)
{
    kit *k = *state;
    struct timespec from, to;
    uint64_t seed = 78;
    int tries = torture(6, 200), status = 0;
    write_export(k, "much"); /* refused at its end: every try begins from the same book */
    close_book(k);
    clock_gettime(CLOCK_MONOTONIC, &from);
    assert_int_not_equal(import(k), 0);
    clock_gettime(CLOCK_MONOTONIC, &to);
    long usual = (to.tv_sec - from.tv_sec) * 1000000L + (to.tv_nsec - from.tv_nsec) / 1000;
    write_export(k, "0.3");
    for (int i = 0; i < tries; i++) {
        pid_t child = begin(k);
        assert_true(child > 0);
        long us = (long)torture_below(&seed, (size_t)usual);
        nanosleep(&(struct timespec){us / 1000000, us % 1000000 * 1000}, NULL);
        kill(child, SIGKILL);
        assert_int_equal(waitpid(child, &status, 0), child);
        reopen(k);
        run_result result;
        kit_sqlite(k, readings, &result);
        assert_true(strcmp(result.out, "0\n") == 0 || strcmp(result.out, "20000\n") == 0);
        kit_sqlite_says(k, entries, result.out);
        close_book(k);
        if (result.out[0] != '0')
            break; /* it was faster than the kill */
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kit_with_house, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(is_whole), TEST(in_company),
                                       TEST(refused_leaves_nothing), TEST(killed_at_random)};
    return cmocka_run_group_tests_name("straight", tests, NULL, NULL);
}
