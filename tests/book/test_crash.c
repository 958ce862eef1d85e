/* The program is killed at random instants while it logs and imports. What it
 * acknowledged (exit 0) is there, an import is whole or not at all, every hash and
 * chain holds. kill -9 as in signal(7). "make torture" kills a thousand times. */
#include "book_kit.h"
#include "support/torture.h"
#include <signal.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { IMPORT_ROWS = 20, MAX_TRIES = 2500 };

typedef struct crash {
    kit k;
    uint64_t seed;
    long usual; /* microseconds one run takes */
    bool acknowledged[MAX_TRIES];
    int killed, finished;
} crash;

static long now_us(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec * 1000000L + t.tv_nsec / 1000;
}

static void write_csv(crash *c, int number)
{
    char path[128];
    snprintf(path, sizeof path, "%s/import.csv", c->k.folder);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs("id,type,side,room,substrate\n", file);
    for (int i = 0; i < IMPORT_ROWS; i++)
        fprintf(file, "i%d.%d,wall,interior,kitchen,plaster\n", number, i);
    assert_int_equal(fclose(file), 0);
}

/* Odd tries import, even ones log. */
static pid_t begin(crash *c, int number)
{
    char id[24], csv[128];
    const char *program = getenv("MISTFOLD");
    snprintf(id, sizeof id, "c%d", number);
    snprintf(csv, sizeof csv, "%s/import.csv", c->k.folder);
    if (number % 2 == 1)
        write_csv(c, number);
    fflush(NULL);
    pid_t child = fork();
    if (child != 0)
        return child;
    if (program == NULL || freopen("/dev/null", "w", stdout) == NULL ||
        freopen("/dev/null", "w", stderr) == NULL)
        _exit(126);
    if (number % 2 == 1)
        execl(program, "mistfold", "--book", c->k.path, "--by", "rosa", "component", "import",
              "J-1", csv, (char *)NULL);
    else
        execl(program, "mistfold", "--book", c->k.path, "--by", "rosa", "component", "add", "J-1",
              "--id", id, "--type", "wall", "--side", "interior", "--room", "kitchen",
              "--substrate", "plaster", (char *)NULL);
    _exit(127);
}

static void wait_us(long us)
{
    struct timespec t = {us / 1000000, us % 1000000 * 1000};
    nanosleep(&t, NULL);
}

static void try_once(crash *c, int number, bool let_live)
{
    int status = 0;
    long from = now_us();
    pid_t child = begin(c, number);
    assert_true(child > 0);
    if (!let_live) {
        wait_us((long)torture_below(&c->seed, (size_t)(c->usual * 5 / 4)));
        kill(child, SIGKILL);
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    if (let_live)
        c->usual = now_us() - from;
    if (WIFSIGNALED(status)) {
        c->killed++;
        return;
    }
    assert_int_equal(WEXITSTATUS(status), 0); /* a leftover of a crash is no trouble */
    c->finished++;
    c->acknowledged[number] = true;
}

/* What the stock sqlite3 program counts. */
static int count(crash *c, const char *pattern)
{
    char sql[200];
    run_result result;
    snprintf(sql, sizeof sql, "SELECT count(*) FROM entry WHERE body ->> '$.id' GLOB '%s'",
             pattern);
    kit_sqlite(&c->k, sql, &result);
    assert_int_equal(result.status, 0);
    return (int)strtol(result.out, NULL, 10);
}

static void check_try(crash *c, int number)
{
    char pattern[40];
    bool import = number % 2 == 1;
    snprintf(pattern, sizeof pattern, import ? "i%d.*" : "c%d", number);
    int whole = import ? IMPORT_ROWS : 1, found = count(c, pattern);
    if (c->acknowledged[number] ? found != whole : found != 0 && found != whole)
        fail_msg("try %d: %d of %d entries, %s", number, found, whole,
                 c->acknowledged[number] ? "acknowledged" : "killed");
}

static void check_book(crash *c)
{
    mf_book *book = NULL;
    mf_book_report report;
    mf_err err = {0};
    mf_status status = mf_book_open(&book, c->k.path, &err);
    if (status == MF_OK)
        status = mf_book_check(book, &report, &err);
    mf_book_close(book);
    if (status != MF_OK)
        fail_msg("%s", err.what);
}

static void killed_at_random(void **state)
{
    static crash c;
    int wanted = torture(30, 1000), number = 0;
    (void)state;
    c = (crash){.seed = 77};
    kit_start(&c.k);
    kit_house(&c.k);
    mf_book_close(c.k.book);
    try_once(&c, number++, true);
    try_once(&c, number++, true);
    while (c.killed < wanted && number < MAX_TRIES) {
        try_once(&c, number++, false);
        if (number % 25 == 0)
            check_book(&c);
    }
    check_book(&c);
    for (int i = 0; i < number; i++)
        check_try(&c, i);
    print_message("%d kills, %d runs acknowledged before theirs, about %ld ms a run\n", c.killed,
                  c.finished, c.usual / 1000);
    assert_true(c.killed >= wanted);
    c.k.book = NULL;
    kit_stop(&c.k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(killed_at_random)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
