/* Any partition of a history, merged in any order, gives the same book. What is expected follows
 * from the design: entries name their device and are only ever added. All constructed. */
#include "merge_kit.h"
#include "support/torture.h"

enum { N_DEVICES = 4, N_SLICES = 9 };

static const char *const devices[N_DEVICES] = {"office", "truck", "tablet", "van"};

/* Keeps in the book at name only the entries of one device up to seq. */
static void slice(kit *k, const char *from, const char *name, const char *device, int upto)
{
    run_result result;
    char script[1200];
    snprintf(script, sizeof script,
             "set -e; sqlite3 %s 'PRAGMA wal_checkpoint(TRUNCATE)' > /dev/null; cp %s %s\n"
             "sqlite3 %s \"SELECT sql || ';' FROM sqlite_schema WHERE type = 'trigger'\" > guards\n"
             "sqlite3 %s \"SELECT 'DROP TRIGGER ' || quote(name) || ';' FROM sqlite_schema"
             " WHERE type = 'trigger'\" > drop\n"
             "sqlite3 %s < drop\n"
             "sqlite3 %s \"DELETE FROM entry WHERE device <> '%s' OR seq > %d;"
             " DELETE FROM verified\"\nsqlite3 %s < guards\n",
             from, from, name, name, name, name, name, device, upto, name);
    run_shell(&result, k->folder, script);
    if (result.status != 0)
        print_error("%s", result.err);
    assert_int_equal(result.status, 0);
}

/* A history of four devices: each logs, corrects its own entries and those of
 * others, corrects corrections, withdraws. */
static void make_history(kit *k)
{
    kit others[N_DEVICES];
    mf_merge_report report;
    others[0] = *k;
    for (int d = 1; d < N_DEVICES; d++)
        others[d] = copied(k, devices[d]);
    for (int round = 0; round < 3; round++) {
        for (int d = 0; d < N_DEVICES; d++) {
            char number[16], result[16], last[MF_ENTRY_ID], at[24];
            snprintf(at, sizeof at, "2026-09-15T14:%02d:%02dZ", round, (d * 7) % 5);
            others[d].now.at = at;
            snprintf(number, sizeof number, "%d", 100 * d + round + 2);
            snprintf(result, sizeof result, "0.%d", d + 1);
            kit_reading(&others[d], number, result);
            snprintf(last, sizeof last, "%s", others[d].id);
            correct(&others[d], last, round == 0 ? "1.1" : "1.2");
            correct(&others[d], "office/10", round == 0 ? result : "2.2");
            correct(&others[d], "office/10", round == 1 ? result : "3.3");
            if (round == 1)
                assert_int_equal(mf_book_correct(others[d].book, last, NULL, "not ours",
                                                 &others[d].now, others[d].id, NULL),
                                 MF_OK);
        }
        if (round == 1) /* some know of one another, some do not */
            assert_int_equal(merge(&others[2], others[1].path, &report), MF_OK);
    }
    for (int d = 1; d < N_DEVICES; d++) {
        assert_int_equal(merge(k, others[d].path, &report), MF_OK);
        mf_book_close(others[d].book);
    }
}

static void shuffle(uint64_t *seed, int order[], int n)
{
    for (int i = 0; i < n; i++)
        order[i] = i;
    for (int i = n - 1; i > 0; i--) {
        int j = (int)torture_below(seed, (size_t)i + 1), swap = order[i];
        order[i] = order[j];
        order[j] = swap;
    }
}

/* Merges all slices in a random order into a new book; the tables must be those
 * of the whole. Along the way the tables are those of a rebuild. */
static void try_order(kit *k, uint64_t *seed, const char *want)
{
    int order[N_SLICES];
    char path[128], name[32], hash[MF_DIGEST_HEX];
    mf_book *book = NULL;
    mf_book_report checked;
    mf_merge_report report;
    kit_in_folder(k, "new.book", path);
    assert_int_equal(mf_book_new(&book, path, "fresh", &k->err), MF_OK);
    shuffle(seed, order, N_SLICES);
    for (int i = 0; i < N_SLICES; i++) {
        snprintf(name, sizeof name, "slice-%d", order[i]);
        char from[128];
        kit_in_folder(k, name, from);
        mf_status status = mf_book_merge(book, from, NULL, NULL, &report, &k->err);
        if (status != MF_OK)
            print_error("%s\n", k->err.what);
        assert_int_equal(status, MF_OK);
        assert_int_equal(mf_book_check(book, &checked, &k->err), MF_OK);
    }
    kit_tables_hash(book, hash);
    assert_string_equal(hash, want);
    mf_book_close(book);
    run_result result;
    run_shell(&result, k->folder, "rm -f new.book*");
}

static void any_partition_in_any_order(void **state)
{
    kit *k = *state;
    char want[MF_DIGEST_HEX], again[MF_DIGEST_HEX], name[32];
    uint64_t seed = 20260915;
    make_history(k);
    kit_tables_hash(k->book, want);
    assert_int_equal(mf_book_rebuild(k->book, &k->err), MF_OK);
    kit_tables_hash(k->book, again);
    assert_string_equal(want, again);
    for (int trial = 0; trial < torture(2, 100); trial++) {
        for (int i = 0; i < N_SLICES; i++) { /* each device whole, and random beginnings */
            int d = i < N_DEVICES ? i : (int)torture_below(&seed, N_DEVICES);
            int upto = i < N_DEVICES ? 1000 : 1 + (int)torture_below(&seed, 14);
            if (trial > 0 && i < N_DEVICES)
                continue;
            snprintf(name, sizeof name, "slice-%d", i);
            slice(k, "firm.book", name, devices[d], upto);
        }
        try_order(k, &seed, want);
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(any_partition_in_any_order)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
