/* The journal can be proved with stock tools, cannot be quietly changed, and what
 * is derived can be made anew with the same result. Outside sources: sqlite3(1),
 * sha256sum(1), FIPS 180-4. */
#include "book/journal.h"
#include "book/room.h"
#include "book_kit.h"

static void check_good(kit *k, int64_t entries)
{
    mf_book_report report;
    mf_err err = {0};
    mf_status status = mf_book_check(k->book, &report, &err);
    if (status != MF_OK)
        print_error("%s\n", err.what);
    assert_int_equal(status, MF_OK);
    assert_int_equal(report.faults, 0);
    assert_int_equal(report.entries, entries);
    assert_string_equal(report.first, "");
}

/* ---- with stock tools -------------------------------------------------------------------- */

/* Every line of the view, hashed by sha256sum(1), gives the stored hash, and each
 * prev is the hash before. */
static void hashes_by_stock_tools(void **state)
{
    kit *k = *state;
    run_result result;
    run_shell(&result, k->folder,
              "set -e\n"
              "n=$(sqlite3 firm.book 'SELECT count(*) FROM entry')\n"
              "prev=0000000000000000000000000000000000000000000000000000000000000000\n"
              "i=0\n"
              "while [ $i -lt $n ]; do\n"
              "  line=$(sqlite3 firm.book \"SELECT line FROM entry_line LIMIT 1 OFFSET $i\")\n"
              "  want=$(sqlite3 firm.book \"SELECT hash FROM entry_line LIMIT 1 OFFSET $i\")\n"
              "  got=$(printf '%s' \"$line\" | sha256sum | cut -c1-64)\n"
              "  [ \"$got\" = \"$want\" ]\n"
              "  case $line in *'\"prev\":\"'$prev'\"'*) ;; *) exit 9;; esac\n"
              "  prev=$got i=$((i + 1))\n"
              "done\n"
              "echo $n $(printf 'office %s\\n' \"$prev\" | sha256sum | cut -c1-64)");
    assert_int_equal(result.status, 0);
    char head[MF_HASH_HEX], want[80];
    assert_int_equal(mf_book_head(k->book, head, NULL), MF_OK);
    snprintf(want, sizeof want, "14 %s\n", head);
    assert_string_equal(result.out, want);
}

/* The first line, written out by hand; its hash by sha256sum(1) of this text. */
static void first_line(void **state)
{
    kit *k = *state;
    kit_sqlite_says(k, "SELECT line FROM entry_line WHERE entry = 'office/1'",
                    "{\"at\":\"2026-09-15T14:00:00Z\",\"body\":{\"id\":\"rosa\",\"name\":\"Rosa "
                    "Invented\"},\"device\":\"office\",\"job\":\"\",\"kind\":\"person\",\"prev\":"
                    "\"0000000000000000000000000000000000000000000000000000000000000000\",\"seq\":"
                    "1,\"who\":\"rosa\"}\n");
    kit_sqlite_says(k, "SELECT hash FROM entry WHERE seq = 1",
                    "d064b07ea0a490fd4d80ffb9879c9dd4c30cf2102449db105ef4fab95090c5d9\n");
}

/* FIPS 180-4: the SHA-256 of nothing. */
static void head_of_an_empty_book(void **state)
{
    kit *k = *state;
    char path[128], head[MF_HASH_HEX];
    mf_book *book = NULL;
    snprintf(path, sizeof path, "%s/empty", k->folder);
    assert_int_equal(mf_book_new(&book, path, "a", NULL), MF_OK);
    assert_int_equal(mf_book_head(book, head, NULL), MF_OK);
    assert_string_equal(head, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    mf_book_report report;
    assert_int_equal(mf_book_check(book, &report, NULL), MF_OK);
    assert_int_equal(report.entries, 0);
    mf_book_close(book);
}

/* The schema explains itself in twenty years: sqlite3(1) .schema. */
static void schema_is_documented(void **state)
{
    kit *k = *state;
    run_result result;
    kit_sqlite(k, ".schema reading", &result);
    assert_non_null(strstr(result.out, "AS \"loading_ug_cm2\" -- lead loading in mg/cm2"));
    assert_non_null(strstr(result.out, " AS -- one XRF reading"));
    kit_sqlite(k, ".schema entry", &result);
    assert_non_null(strstr(result.out, "-- hash of the device's entry before"));
}

/* Each column of each view has a comment. */
static void every_column_has_a_comment(void **state)
{
    kit *k = *state;
    run_result result;
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    assert_true(count > 20);
    for (size_t i = 0; i < count; i++) {
        char sql[128], want[128];
        snprintf(sql, sizeof sql, "SELECT sql FROM sqlite_schema WHERE name = '%s'", kinds[i].name);
        kit_sqlite(k, sql, &result);
        for (size_t j = 0; j < kinds[i].n_fields; j++) {
            snprintf(want, sizeof want, "\"%s\" ", kinds[i].fields[j].name);
            const char *at = strstr(result.out, want);
            assert_non_null(at);
            at = strstr(at, " -- ");
            assert_non_null(at);
            assert_true(at[4] != '\n');
        }
    }
}

/* ---- no quiet change ---------------------------------------------------------------------- */

static const struct {
    const char *sql, *message;
} refused_by_sqlite[] = {
    {"UPDATE entry SET who = 'ana'", "an entry is never changed; log a correction"},
    {"UPDATE entry SET body = '{}' WHERE seq = 11", "an entry is never changed"},
    {"DELETE FROM entry WHERE seq = 14", "an entry is never deleted; log a correction"},
    {"INSERT OR REPLACE INTO entry SELECT device, seq, logged_at, 'ana', kind, job, body, prev, "
     "hash FROM entry WHERE seq = 3",
     "an entry is never replaced"},
    {"INSERT OR REPLACE INTO entry (rowid, device, seq, logged_at, who, kind, job, body, prev, "
     "hash) SELECT 3, device, 15, logged_at, who, kind, job, body, hash, prev FROM entry WHERE seq "
     "= 14",
     "an entry is never replaced"},
    {"INSERT INTO entry SELECT device, 15, logged_at, who, kind, job, body, prev, hash FROM entry "
     "WHERE seq = 14",
     "must name the hash of the entry before it"},
    {"INSERT INTO entry SELECT device, 16, logged_at, who, kind, job, body, hash, prev FROM entry "
     "WHERE seq = 14",
     "must name the hash of the entry before it"},
    {"UPDATE reading SET loading_ug_cm2 = 300", "cannot modify reading because it is a view"},
    {"DELETE FROM correction", "cannot modify correction because it is a view"},
    {"UPDATE place SET address = 'x'", "only_mistfold_may_change_this_table"},
    {"DELETE FROM due", "only_mistfold_may_change_this_table"},
    {"DELETE FROM corrects", "only_mistfold_may_change_this_table"},
    {"INSERT INTO held VALUES ('x', 1)", "only_mistfold_may_change_this_table"},
};

static void stock_sqlite_is_refused(void **state)
{
    kit *k = *state;
    run_result result;
    for (size_t i = 0; i < sizeof refused_by_sqlite / sizeof refused_by_sqlite[0]; i++) {
        kit_sqlite(k, refused_by_sqlite[i].sql, &result);
        assert_int_not_equal(result.status, 0);
        if (strstr(result.err, refused_by_sqlite[i].message) == NULL)
            print_error("%s: %s\n", refused_by_sqlite[i].sql, result.err);
        assert_non_null(strstr(result.err, refused_by_sqlite[i].message));
    }
    check_good(k, 14);
}

/* ---- beside ours -------------------------------------------------------------------------- */

/* A table or an index of somebody's own, for a report, is no fault. */
static void own_views_are_allowed(void **state)
{
    kit *k = *state;
    kit_sqlite_says(k, "CREATE VIEW high AS SELECT * FROM reading WHERE loading_ug_cm2 > 999", "");
    kit_sqlite_says(k, "SELECT count(*) FROM high", "1\n");
    check_good(k, 14);
}

static void lost_table_is_found_and_rebuilt(void **state)
{
    kit *k = *state;
    mf_book_report report;
    kit_sqlite_says(k, "DROP TABLE due; DROP VIEW reading", "");
    assert_int_equal(mf_book_check(k->book, &report, NULL), MF_NO);
    assert_int_equal(mf_book_rebuild(k->book, &k->err), MF_OK);
    check_good(k, 14);
}

/* ---- rebuild ------------------------------------------------------------------------------------
 */

static void dump(kit *k, run_result *result)
{
    run_shell(result, k->folder, "sqlite3 firm.book .dump");
    assert_int_equal(result->status, 0);
    assert_true(strlen(result->out) > 20000);
}

static void rebuild_gives_the_same(void **state)
{
    kit *k = *state;
    static run_result before, after;
    run_shell(&before, k->folder,
              "for t in $(sqlite3 firm.book \"SELECT name FROM sqlite_schema WHERE type IN "
              "('table', 'view') "
              "ORDER BY 1\"); do echo \"== $t\"; sqlite3 firm.book \"SELECT * FROM $t ORDER BY 1, "
              "2\"; done");
    assert_non_null(strstr(before.out, "office/13"));
    assert_int_equal(mf_book_rebuild(k->book, &k->err), MF_OK);
    run_shell(&after, k->folder,
              "for t in $(sqlite3 firm.book \"SELECT name FROM sqlite_schema WHERE type IN "
              "('table', 'view') "
              "ORDER BY 1\"); do echo \"== $t\"; sqlite3 firm.book \"SELECT * FROM $t ORDER BY 1, "
              "2\"; done");
    assert_string_equal(before.out, after.out);
    check_good(k, 14);
    dump(k, &before);
    assert_int_equal(mf_book_rebuild(k->book, &k->err), MF_OK);
    dump(k, &after);
    assert_string_equal(before.out, after.out);
}

/* A change of a row by force is gone after a rebuild. */
static void rebuild_mends_rows(void **state)
{
    kit *k = *state;
    kit_force(k, "UPDATE place SET key = 'x'; DELETE FROM due; DELETE FROM corrects");
    assert_int_equal(mf_book_rebuild(k->book, &k->err), MF_OK);
    check_good(k, 14);
}

/* Another SQL of the derived tables (an older version's) makes opening rebuild. */
static void outdated_tables_are_rebuilt(void **state)
{
    kit *k = *state;
    mf_book_close(k->book);
    kit_force(k, "UPDATE meta SET value = 'old' WHERE key = 'derived';"
                 "UPDATE meta SET value = value || ' gone_kind' WHERE key = 'tables';"
                 "CREATE TABLE gone_kind (entry TEXT); DROP VIEW chip;"
                 "CREATE TABLE chip (entry TEXT)");
    assert_int_equal(mf_book_open(&k->book, k->path, &k->err), MF_OK);
    kit_sqlite_says(k, "SELECT count(*) FROM sqlite_schema WHERE name = 'gone_kind'", "0\n");
    check_good(k, 14);
}

/* Names of tables in meta come from the file: they cannot take the journal away. */
static void forged_table_names_are_harmless(void **state)
{
    kit *k = *state;
    mf_book_close(k->book);
    kit_force(k, "UPDATE meta SET value = 'entry Entry meta content Verified "
                 "x\\\";DROP_TABLE_entry;-- person' "
                 "WHERE key = 'tables';"
                 "UPDATE meta SET value = 'old' WHERE key = 'derived'");
    assert_int_equal(mf_book_open(&k->book, k->path, &k->err), MF_OK);
    check_good(k, 14);
}

/* ---- kinds of a newer version
 * -------------------------------------------------------------------- */

/* An entry of an unknown kind stays, is counted, and is no fault. */
static void unknown_kind(void **state)
{
    kit *k = *state;
    char id[MF_ENTRY_ID];
    int64_t seq = 0;
    mf_book_report report;
    assert_int_equal(mf_book_begin(k->book, NULL), MF_OK);
    assert_int_equal(
        mf_journal_append(k->book, "future", "J-1", "{\"a\":1}", &k->now, id, &seq, NULL), MF_OK);
    assert_int_equal(mf_book_commit(k->book, NULL), MF_OK);
    assert_int_equal(mf_book_check(k->book, &report, NULL), MF_OK);
    assert_int_equal(report.entries, 15);
    assert_int_equal(report.unknown, 1);
    assert_int_equal(mf_book_rebuild(k->book, NULL), MF_OK);
    check_good(k, 15);
}

/* A word that only a newer version knows is not read as some other word. */
static void unknown_word(void **state)
{
    kit *k = *state;
    char id[MF_ENTRY_ID];
    int64_t seq = 0;
    mf_job *job = NULL;
    assert_int_equal(mf_book_begin(k->book, NULL), MF_OK);
    assert_int_equal(mf_journal_append(k->book, "opening", "J-1",
                                       "{\"id\":\"W05\",\"kind\":\"hatch\"}", &k->now, id, &seq,
                                       NULL),
                     MF_OK);
    assert_int_equal(mf_book_commit(k->book, NULL), MF_OK);
    assert_int_equal(mf_book_job(k->book, "J-1", &job, &k->err), MF_SYSTEM);
    assert_null(job);
    assert_string_equal(k->err.where, "entry office/15");
    assert_string_equal(k->err.what, "kind is \"hatch\", which is not known here");
}

/* ---- two devices
 * ------------------------------------------------------------------------------------ */

/* Entries of another device put in by hand in two orders give the same tables:
 * corrections of the same entry on two devices, decided by time. */
static void add_foreign(kit *k, const char *target, const char *at, const char *result)
{
    char device[MF_DEVICE_MAX + 1], body[1000], id[MF_ENTRY_ID];
    int64_t seq = 0;
    snprintf(device, sizeof device, "%s", k->book->device);
    snprintf(k->book->device, sizeof k->book->device, "tablet");
    mf_now now = k->now;
    now.at = at;
    snprintf(
        body, sizeof body,
        "{\"body\":{\"component\":\"W01.sash\",\"day\":\"2026-09-14\",\"instrument\":\"X-100\","
        "\"loading_ug_cm2\":%s,\"number\":1,\"operator\":\"rosa\",\"purpose\":\"paint\","
        "\"substrate\":\"wood\"},\"kind\":\"reading\",\"reason\":\"r\",\"replaces\":\"%s\","
        "\"target\":\"%s\"}",
        result, target, target);
    assert_int_equal(mf_book_begin(k->book, NULL), MF_OK);
    assert_int_equal(mf_journal_append(k->book, "correction", "J-1", body, &now, id, &seq, NULL),
                     MF_OK);
    assert_int_equal(mf_book_commit(k->book, NULL), MF_OK);
    snprintf(k->book->device, sizeof k->book->device, "%s", device);
}

static void correct_here(kit *k, const char *at, const char *result)
{
    mf_draft *draft = kit_draft(k, "reading", "result", result, NULL);
    mf_now now = k->now;
    now.at = at;
    assert_int_equal(mf_book_correct(k->book, "office/11", draft, "r", &now, k->id, NULL), MF_OK);
    mf_draft_free(draft);
}

static void contradiction_does_not_depend_on_order(void **state)
{
    kit *k = *state;
    /* The tablet's correction is the later one, by its clock, and comes in first. */
    add_foreign(k, "office/11", "2026-09-15T18:00:00Z", "777");
    kit_sqlite_says(k, "SELECT loading_ug_cm2 FROM reading WHERE entry = 'office/11'", "777\n");
    add_foreign(k, "office/12", "2026-09-15T13:30:00Z", "555"); /* before the office's: loses */
    kit_sqlite_says(k, "SELECT loading_ug_cm2 FROM reading WHERE entry = 'office/12'", "400\n");
    mf_book_report report;
    assert_int_equal(mf_book_check(k->book, &report, NULL), MF_OK);
    assert_int_equal(report.devices, 2);
    /* Made here with the tablet's in sight: it replaces it, whatever the clock says. */
    correct_here(k, "2026-09-15T15:00:00Z", "0.6");
    kit_sqlite_says(k, "SELECT loading_ug_cm2 FROM reading WHERE entry = 'office/11'", "600\n");
    check_good(k, 17);
    assert_int_equal(mf_book_rebuild(k->book, NULL), MF_OK);
    kit_sqlite_says(k, "SELECT loading_ug_cm2 FROM reading WHERE entry = 'office/11'", "600\n");
}

/* A correction that came in before its target takes hold when the target comes. */
static void correction_before_its_target(void **state)
{
    kit *k = *state;
    add_foreign(k, "office/15", "2026-09-15T18:00:00Z", "777");
    check_good(k, 15);
    kit_reading(k, "9", "1.0");
    assert_string_equal(k->id, "office/15");
    kit_sqlite_says(k, "SELECT loading_ug_cm2 FROM reading WHERE entry = 'office/15'", "777\n");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kit_with_chain, kit_done)

int main(void)
{
    const struct CMUnitTest others[] = {
        TEST(hashes_by_stock_tools),
        TEST(first_line),
        TEST(head_of_an_empty_book),
        TEST(schema_is_documented),
        TEST(every_column_has_a_comment),
        TEST(stock_sqlite_is_refused),
        TEST(own_views_are_allowed),
        TEST(lost_table_is_found_and_rebuilt),
        TEST(rebuild_gives_the_same),
        TEST(rebuild_mends_rows),
        TEST(outdated_tables_are_rebuilt),
        TEST(forged_table_names_are_harmless),
        TEST(unknown_kind),
        TEST(unknown_word),
        TEST(contradiction_does_not_depend_on_order),
        TEST(correction_before_its_target),
    };
    return cmocka_run_group_tests(others, NULL, NULL);
}
