/* Several processes write into one book at once: nothing is lost and nobody sees an
 * error. "make torture": two processes with ten thousand entries each. */
#include "book_kit.h"
#include "support/torture.h"
#include <sys/wait.h>
#include <unistd.h>

enum { HANDS = 2 };

static void write_many(const char *path, int hand, int n)
{
    kit c = {.now = kit_time()};
    char number[24];
    if (mf_book_open(&c.book, path, &c.err) != MF_OK)
        _exit(2);
    for (int i = 0; i < n; i++) {
        snprintf(number, sizeof number, "%d", hand * 1000000 + i);
        mf_status status = kit_try(&c, "reading", "J-1", "number", number, "instrument", "X-100",
                                   "operator", "rosa", "purpose", "paint", "component", "W01.sash",
                                   "substrate", "wood", "result", "0.4", "on", "2026-09-14", NULL);
        if (status != MF_OK) {
            fprintf(stderr, "hand %d, entry %d: %s\n", hand, i, c.err.what);
            _exit(3);
        }
    }
    mf_book_close(c.book);
    _exit(0);
}

static void two_hands_lose_nothing(void **state)
{
    static kit k;
    char want[64];
    int n = torture(60, 10000);
    pid_t child[HANDS];
    (void)state;
    kit_start(&k);
    kit_house(&k);
    mf_book_close(k.book);
    k.book = NULL;
    fflush(NULL);
    for (int i = 0; i < HANDS; i++) {
        child[i] = fork();
        assert_true(child[i] >= 0);
        if (child[i] == 0)
            write_many(k.path, i, n);
    }
    for (int i = 0; i < HANDS; i++) {
        int status = -1;
        assert_int_equal(waitpid(child[i], &status, 0), child[i]);
        assert_int_equal(status, 0);
    }
    snprintf(want, sizeof want, "%d|%d\n", HANDS * n, HANDS * n);
    kit_sqlite_says(&k,
                    "SELECT count(*), count(DISTINCT body ->> '$.number') FROM entry WHERE "
                    "kind = 'reading'",
                    want);
    mf_book_report report;
    assert_int_equal(mf_book_open(&k.book, k.path, &k.err), MF_OK);
    assert_int_equal(mf_book_check(k.book, &report, &k.err), MF_OK);
    assert_int_equal(report.entries, 9 + HANDS * n);
    kit_stop(&k);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(two_hands_lose_nothing)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
