/* Many corrections of one entry: what is done with them grows with their number, not
 * with its square. Counted in steps of SQLite's machine, the same on every computer.
 * All constructed. */
#include "book/journal.h"
#include "book/room.h"
#include "tables_kit.h"

/* office/10 of a copy, corrected n times on another device, each one correcting the one
 * before; straight into its journal, of which alone a merge reads. */
static void corrected(kit *k, const char *kind, const char *target, const char *body, int n,
                      char path[128])
{
    char id[MF_ENTRY_ID], replaces[MF_ENTRY_ID], text[700];
    int64_t seq = 0;
    mf_book *truck = NULL;
    kit_in_folder(k, "truck.book", path);
    unlink(path);
    assert_int_equal(mf_book_copy(k->book, path, "truck", NULL, &k->err), MF_OK);
    assert_int_equal(mf_book_open(&truck, path, &k->err), MF_OK);
    assert_int_equal(mf_book_begin(truck, &k->err), MF_OK);
    snprintf(replaces, sizeof replaces, "%s", target);
    for (int i = 0; i < n; i++) {
        snprintf(text, sizeof text,
                 "{\"body\":%s,\"kind\":\"%s\",\"reason\":\"r%d\",\"replaces\":\"%s\","
                 "\"target\":\"%s\"}",
                 body, kind, i, replaces, target);
        assert_int_equal(
            mf_journal_append(truck, "correction", "J-1", text, &k->now, id, &seq, &k->err), MF_OK);
        snprintf(replaces, sizeof replaces, "%s", id);
    }
    assert_int_equal(mf_book_commit(truck, &k->err), MF_OK);
    mf_book_close(truck);
}

static int count(void *steps)
{
    ++*(int64_t *)steps;
    return 0;
}

enum { EVERY = 100 };

typedef struct row {
    const char *name, *kind, *target, *body;
} row;

static const row rows[] = {
    {"a reading", "reading", "office/10",
     "{\"component\":\"W01.sash\",\"day\":\"2026-09-14\",\"instrument\":\"X-100\",\"loading_ug_"
     "cm2\":900,\"number\":\"1\",\"operator\":\"rosa\",\"purpose\":\"paint\",\"substrate\":"
     "\"wood\",\"time\":\"08:30\"}"},
    {"the house, which due and place rest on", "house", "office/4",
     "{\"address\":\"14 Invented Street\",\"building\":\"dwelling\",\"description\":\"d\",\"id\":"
     "\"J-1\",\"owner_occupied\":true,\"start\":\"2026-09-22\",\"work\":\"window-replacement\","
     "\"year_built\":1926}"},
};

/* Steps of taking over and of building anew, and that both give the tables that folding
 * one after the other gives. */
static void steps(const row *r, int n, int64_t *merging, int64_t *building)
{
    kit k;
    char path[128];
    mf_merge_report merged;
    mf_book_report report;
    kit_start(&k);
    kit_house(&k);
    kit_reading(&k, "1", "1.4"); /* office/10 */
    corrected(&k, r->kind, r->target, r->body, n, path);
    *merging = *building = 0;
    sqlite3_progress_handler(k.book->db.handle, EVERY, count, merging);
    mf_status status = mf_book_merge(k.book, path, NULL, NULL, &merged, &k.err);
    if (status != MF_OK)
        fail_msg("%s", k.err.what);
    assert_int_equal(merged.added, n);
    assert_int_equal(merged.contradictions, 0);
    sqlite3_progress_handler(k.book->db.handle, 0, NULL, NULL);
    assert_int_equal(mf_book_check(k.book, &report, &k.err), MF_OK);
    sqlite3_progress_handler(k.book->db.handle, EVERY, count, building);
    assert_int_equal(mf_book_rebuild(k.book, &k.err), MF_OK);
    sqlite3_progress_handler(k.book->db.handle, 0, NULL, NULL);
    assert_int_equal(mf_book_check(k.book, &report, &k.err), MF_OK);
    kit_stop(&k);
}

static void four_times_as_many(void **state)
{
    const row *r = *state;
    int64_t few[2], many[2];
    steps(r, 250, &few[0], &few[1]);
    steps(r, 1000, &many[0], &many[1]);
    for (int i = 0; i < 2; i++) /* n log n is 5 times; the square would be 16 */
        if (many[i] > few[i] * 6)
            fail_msg("%s: %lld, then %lld hundred steps", i == 0 ? "merge" : "rebuild",
                     (long long)few[i], (long long)many[i]);
}

int main(void)
{
    enum { N = sizeof rows / sizeof rows[0] };
    struct CMUnitTest tests[N];
    EACH_ROW(tests, rows, four_times_as_many);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
