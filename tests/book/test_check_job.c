/* The check before an answer about one job, and the index of what is due. The days
 * are those of 40 CFR 745.86(c)(1) (30 days after completion, or the final invoice)
 * and 745.86(a) (three years). All constructed. */
#include "book/journal.h"
#include "book_kit.h"
#include "tables_kit.h"

static void open_job(kit *k, const char *id, const char *address, const char *start)
{
    kit_log(k, "house", id, "id", id, "address", address, "year-built", "1926", "building",
            "dwelling", "owner-occupied", "yes", "work", "window-replacement", "description", "one",
            "start", start);
}

static int start(void **state)
{
    kit_with_chain(state); /* office/1 to 14, job J-1 */
    kit *k = *state;
    open_job(k, "J-2", "7 Invented Street", "2026-09-30");
    kit_log(k, "party", "J-2", "id", "owner", "role", "owner", "name", "Ida Invented");
    return 0;
}

/* ---- the check of a job -----------------------------------------------------------------------
 */

static void reads_the_job_and_the_firm(void **state)
{
    kit *k = *state;
    mf_book_report report;
    assert_int_equal(mf_book_check_job(k->book, "J-2", &report, &k->err), MF_OK);
    assert_int_equal(report.entries, 6); /* two of J-2; three persons, one instrument */
    assert_int_equal(report.earlier, 10);
    assert_int_equal(mf_book_check_job(k->book, "J-1", &report, &k->err), MF_OK);
    assert_int_equal(report.entries, 14);
    assert_int_equal(report.earlier, 2);
}

/* Without notes of earlier checks all is read, and noted. */
static void reads_what_no_check_has_seen(void **state)
{
    kit *k = *state;
    mf_book_report report;
    kit_sqlite_says(k, "SELECT device, seq FROM verified", "office|16\n");
    kit_sqlite_says(k, "DELETE FROM verified", "");
    assert_int_equal(mf_book_check_job(k->book, "J-2", &report, &k->err), MF_OK);
    assert_int_equal(report.entries, 16);
    assert_int_equal(report.earlier, 0);
    kit_sqlite_says(k, "SELECT device, seq FROM verified", "office|16\n");
    assert_int_equal(mf_book_check_job(k->book, "J-2", &report, &k->err), MF_OK);
    assert_int_equal(report.entries, 6);
}

/* 40 CFR 745.83 counts what another job disturbed in the same rooms within 30 days: an
 * answer about J-2 rests on the rows of J-3, and on none of J-1, which is elsewhere, nor
 * of J-4, in another unit. */
static void reads_the_jobs_of_the_same_place(void **state)
{
    kit *k = *state;
    mf_book_report report;
    open_job(k, "J-3", "7 INVENTED street", "2026-09-10");
    kit_log(k, "party", "J-3", "id", "owner", "role", "owner", "name", "Ida Invented");
    kit_log(k, "component", "J-3", "id", "C1", "room", "kitchen", "side", "interior", "type",
            "sash", "substrate", "wood", "disturbed", "2");
    kit_log(k, "house", "J-4", "id", "J-4", "address", "7 Invented Lane", "unit", "2", "year-built",
            "1926", "building", "dwelling", "owner-occupied", "yes", "work", "window-replacement",
            "description", "one", "start", "2026-09-10");
    assert_int_equal(mf_book_check_job(k->book, "J-2", &report, &k->err), MF_OK);
    assert_int_equal(mf_book_check_job(k->book, "J-2", &report, &k->err), MF_OK);
    assert_int_equal(report.entries, 9); /* three of J-3 beside the six */
    assert_int_equal(mf_book_check_job(k->book, "J-4", &report, &k->err), MF_OK);
    assert_int_equal(report.entries, 5);

    kit_force(k, "UPDATE entry SET body = replace(body, 'kitchen', 'hall') WHERE job = 'J-3'");
    assert_int_equal(mf_book_check_job(k->book, "J-4", &report, &k->err), MF_OK);
    assert_int_equal(mf_book_check_job(k->book, "J-2", &report, &k->err), MF_NO);
    assert_string_equal(report.first, "entry office/19: it was altered: its text does not give "
                                      "its hash");
}

typedef struct forgery {
    const char *sql, *job, *first;
} forgery;

static const forgery forgeries[] = {
    {"UPDATE entry SET body = replace(body, ':1400', ':400') WHERE seq = 11", "J-1",
     "entry office/11: it was altered"},
    {"UPDATE entry SET job = 'J-2' WHERE seq = 11", "J-2", "entry office/11: it was altered"},
    {"UPDATE entry SET job = 'J-2' WHERE seq = 11", "J-1", "entry office/11: it was altered"},
    {"UPDATE entry SET who = 'x' WHERE seq = 1", "J-2", "entry office/1: it was altered"},
    {"UPDATE held SET entries = 9 WHERE job = 'J-1'", "J-1", "job J-1: the journal gives"},
    {"DELETE FROM corrects", "J-1", "job J-1: table corrects"},
    {"DELETE FROM entry WHERE seq = 16", "J-1", "entry office/16: it was there at the last check"},
    {"UPDATE due SET day = '2026-10-30' WHERE job = 'J-2'", "J-2", "job J-2: table due"},
    {"UPDATE place SET key = 'x' WHERE job = 'J-2'", "J-2", "job J-2: table place"},
    {"DELETE FROM entry WHERE seq = 11", "J-1", "entry office/12: entry office/11 before it"},
    /* what no check has seen yet */
    {"UPDATE entry SET body = replace(body, ':1400', ':400') WHERE seq = 11; UPDATE verified SET "
     "seq = 5, hash = (SELECT hash FROM entry WHERE seq = 5)",
     "J-2", "entry office/11: it was altered"},
};

static void forgeries_are_found(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof forgeries / sizeof forgeries[0]; i++) {
        void *fresh = NULL;
        mf_book_report report;
        start(&fresh);
        kit *k = fresh;
        kit_force(k, forgeries[i].sql);
        assert_int_equal(mf_book_check_job(k->book, forgeries[i].job, &report, &k->err), MF_NO);
        if (strncmp(report.first, forgeries[i].first, strlen(forgeries[i].first)) != 0)
            fail_msg("%s: %s", forgeries[i].sql, report.first);
        kit_stop(k);
    }
}

/* The last entry of J-1 is changed and its hash computed anew, its row changed alike. The
 * next entry belongs to J-2: it alone tells that a hash is not the one it was. The head of
 * the book stays what it was. */
static void a_new_hash_is_found(void **state)
{
    kit *k = *state;
    char sql[300], hash[MF_HASH_HEX], before[MF_HASH_HEX], after[MF_HASH_HEX];
    mf_arena arena = {0};
    mf_line line;
    bool found = false;
    mf_book_report report;
    assert_int_equal(mf_book_head(k->book, before, NULL), MF_OK);
    assert_int_equal(mf_journal_find(&line, &arena, &k->book->db, "office", 14, &found, NULL),
                     MF_OK);
    assert_true(found);
    char *number = strstr(line.body, ":-100"); /* the text is our own copy */
    assert_non_null(number);
    number[2] = '2';
    assert_int_equal(mf_entry_hash(k->book, &line, hash, NULL), MF_OK);
    snprintf(sql, sizeof sql,
             "UPDATE entry SET body = replace(body, ':-100', ':-200'), hash = '%s' WHERE seq = 14",
             hash);
    mf_arena_free(&arena);
    kit_force(k, sql);
    assert_int_equal(mf_book_check_job(k->book, "J-1", &report, &k->err), MF_NO);
    assert_string_equal(report.first,
                        "entry office/15: it does not name the hash of the entry before it");
    assert_int_equal(mf_book_head(k->book, after, NULL), MF_OK);
    assert_string_equal(before, after);
}

/* ---- what is due
 * --------------------------------------------------------------------------------- */

static bool add_item(const mf_due_item *item, void *data)
{
    char day[MF_DAY_TEXT];
    mf_day_text(item->day, day);
    mf_buf_printf(data, "%s %s %s %s %s\n", day, item->job, item->what, item->who, item->entry);
    return true;
}

static void due_is(kit *k, const char *what, mf_day until, const char *want)
{
    mf_buf out = {0};
    mf_book_report report;
    assert_int_equal(mf_book_due(k->book, what, until, add_item, &out, &k->err), MF_OK);
    assert_string_equal(mf_buf_str(&out), want);
    mf_buf_free(&out);
    assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
}

static void due_follows_the_job(void **state)
{
    kit *k = *state;
    due_is(k, NULL, MF_DAY_NONE,
           "2026-09-21 J-1 start  office/4\n2026-09-30 J-2 start  office/15\n");
    due_is(k, NULL, mf_day_from(2026, 9, 29), "2026-09-21 J-1 start  office/4\n");
    kit_log(k, "completion", "J-2", "on", "2026-09-01");
    due_is(k, NULL, MF_DAY_NONE,
           "2026-09-21 J-1 start  office/4\n2026-10-01 J-2 handover  office/17\n");
    due_is(k, "keep", MF_DAY_NONE, "2029-09-01 J-2 keep  office/17\n");
    kit_log(k, "invoice", "J-2", "on", "2026-09-05");
    due_is(k, "handover", MF_DAY_NONE, "2026-09-05 J-2 handover  office/18\n");
    mf_draft *draft = kit_draft(k, "invoice", "on", "2026-09-07", NULL);
    assert_int_equal(mf_book_correct(k->book, "office/18", draft, "x", &k->now, k->id, NULL),
                     MF_OK);
    mf_draft_free(draft);
    due_is(k, "handover", MF_DAY_NONE, "2026-09-07 J-2 handover  office/18\n");
    kit_log(k, "handover", "J-2", "party", "owner", "what", "record", "how", "by hand", "on",
            "2026-09-10");
    due_is(k, "handover", MF_DAY_NONE, "");
    due_is(k, NULL, MF_DAY_NONE, "2026-09-21 J-1 start  office/4\n");
}

/* The last day on which it holds: of a course of which nobody said whether it had a hands-on part
 * three years from it, 745.90(a)(4). */
static void due_follows_certificates(void **state)
{
    kit *k = *state;
    kit_log(k, "certificate", "", "holder", "rosa", "discipline", "renovator", "number", "R-1",
            "issuer", "Invented", "issued", "2021-03-06", "expires", "2026-03-06");
    due_is(k, "certificate", MF_DAY_NONE, "2024-03-06  certificate rosa office/17\n");
    mf_draft *draft = kit_draft(k, "certificate", "hands-on", "yes", NULL);
    assert_int_equal(mf_book_correct(k->book, "office/17", draft, "x", &k->now, k->id, NULL),
                     MF_OK);
    mf_draft_free(draft);
    due_is(k, "certificate", MF_DAY_NONE, "2026-03-06  certificate rosa office/17\n");
    kit_log(k, "certificate", "", "holder", "rosa", "discipline", "renovator", "hands-on", "yes",
            "number", "R-2", "issuer", "Invented", "issued", "2026-03-01", "expires", "2031-03-01");
    due_is(k, "certificate", MF_DAY_NONE, "2031-03-01  certificate rosa office/19\n");
}

static void a_rebuild_gives_the_same(void **state)
{
    kit *k = *state;
    char is[MF_DIGEST_HEX], rebuilt[MF_DIGEST_HEX];
    kit_log(k, "completion", "J-2", "on", "2026-09-01");
    kit_tables_hash(k->book, is);
    assert_int_equal(mf_book_rebuild(k->book, &k->err), MF_OK);
    kit_tables_hash(k->book, rebuilt);
    assert_string_equal(is, rebuilt);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(reads_the_job_and_the_firm),
        TEST(reads_what_no_check_has_seen),
        TEST(reads_the_jobs_of_the_same_place),
        cmocka_unit_test(forgeries_are_found),
        TEST(a_new_hash_is_found),
        TEST(due_follows_the_job),
        TEST(due_follows_certificates),
        TEST(a_rebuild_gives_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
