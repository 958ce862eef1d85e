/* A record held against the book it was printed from, with and without the hashes: what was
 * logged since is told as that, what nobody logged as altered or missing. */
#include "record_kit.h"

/* kit_chain with everything a record may hold of an entry: one corrected, one withdrawn. */
static int start(void **state)
{
    static kit k;
    kit_start(&k);
    kit_chain(&k);
    assert_int_equal(mf_book_correct(k.book, "office/14", NULL, "twice", &k.now, k.id, NULL),
                     MF_OK);
    *state = &k;
    return 0;
}

static int end(void **state)
{
    kit_stop(*state);
    return 0;
}

static void correct(kit *k, const char *entry, const char *field, const char *text)
{
    mf_draft *draft = text == NULL ? NULL : kit_draft(k, "reading", field, text, NULL);
    assert_int_equal(mf_book_correct(k->book, entry, draft, "misread", &k->now, k->id, &k->err),
                     MF_OK);
    mf_draft_free(draft);
}

/* SQL over the guards, after which the tables are made anew. The hashes stay as they are: a
 * record is held against the words also where nobody looked at the hashes. */
static void alter(kit *k, const char *sql)
{
    run_result result;
    char all[900];
    mf_book_close(k->book);
    snprintf(all, sizeof all,
             "DROP TRIGGER entry_no_update; DROP TRIGGER entry_no_delete; %s; UPDATE meta SET "
             "value = 'x' WHERE key = 'derived'",
             sql);
    kit_sqlite(k, all, &result);
    assert_string_equal(result.err, "");
    assert_int_equal(mf_book_open(&k->book, k->path, &k->err), MF_OK);
}

static void nothing_since(void **state)
{
    for (int bare = 0; bare < 2; bare++) {
        mf_record *record = kit_record(*state, "J-1", bare);
        assert_int_equal(record->links.n_entries, bare ? 0 : 15);
        assert_int_equal(record->links.n_chains, bare ? 0 : 1);
        kit_differs(*state, record, MF_HEAD_STANDS, "");
        mf_record_free(record);
    }
}

static void logged_since(void **state)
{
    kit *k = *state;
    mf_record *with = kit_record(k, "J-1", false), *bare = kit_record(k, "J-1", true);
    correct(k, "office/11", "result", "1.5");
    correct(k, "office/12", "result", "0.5"); /* for the second time */
    correct(k, "office/9", NULL, NULL);
    kit_reading(k, "4", "0.2");
    static const char want[] = "2 component office/9\n1 reading office/11\n1 reading office/12\n"
                               "0 reading office/19\n";
    kit_differs(k, with, MF_HEAD_STANDS, want);
    kit_differs(k, bare, MF_HEAD_STANDS, want);
    mf_record_free(with);
    mf_record_free(bare);
}

/* Words of an entry in force, of one that was corrected before, and of the correction. */
static void words_altered(void **state)
{
    static const char *const of[][2] = {
        {"UPDATE entry SET body = replace(body, ':1400', ':1600') WHERE seq = 11",
         "3 reading office/11 loading_ug_cm2 1400 1600\n"},
        {"UPDATE entry SET body = replace(body, ':300', ':100') WHERE seq = 12",
         "3 reading office/12 loading_ug_cm2 300 100\n"},
        {"UPDATE entry SET body = replace(body, ':400', ':100') WHERE seq = 13",
         "3 reading office/12 loading_ug_cm2 400 100\n"},
        {"UPDATE entry SET body = replace(body, ':-100', ':100') WHERE seq = 14",
         "3 reading office/14 loading_ug_cm2 -100 100\n"},
        {"UPDATE entry SET who = 'ana' WHERE seq = 11",
         "3 reading office/11 by \"rosa\" \"ana\"\n"},
        {"UPDATE entry SET logged_at = '2026-09-15T14:00:01Z' WHERE seq = 11",
         "3 reading office/11 at \"2026-09-15T14:00:00Z\" \"2026-09-15T14:00:01Z\"\n"},
    };
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        void *fresh = NULL;
        (void)state;
        start(&fresh);
        mf_record *with = kit_record(fresh, "J-1", false), *bare = kit_record(fresh, "J-1", true);
        alter(fresh, of[i][0]);
        kit_differs(fresh, with, MF_HEAD_STANDS, of[i][1]);
        kit_differs(fresh, bare, MF_HEAD_STANDS, of[i][1]);
        mf_record_free(with);
        mf_record_free(bare);
        end(&fresh);
    }
}

static void hash_altered(void **state)
{
    kit *k = *state;
    mf_record *with = kit_record(k, "J-1", false), *bare = kit_record(k, "J-1", true);
    alter(k, "UPDATE entry SET hash = replace(hash, 'a', 'b') WHERE seq = 15");
    kit_differs(k, with, MF_HEAD_NEVER, "3 correction office/15\n");
    kit_differs(k, bare, MF_HEAD_NEVER, "");
    mf_record_free(with);
    mf_record_free(bare);
}

static void an_entry_is_gone(void **state)
{
    kit *k = *state;
    mf_record *with = kit_record(k, "J-1", false), *bare = kit_record(k, "J-1", true);
    alter(k, "DELETE FROM entry WHERE seq = 11");
    kit_differs(k, with, MF_HEAD_STANDS, "4 reading office/11\n");
    kit_differs(k, bare, MF_HEAD_STANDS, "4 reading office/11\n");
    mf_record_free(with);
    mf_record_free(bare);
}

/* A record that was made to hide something, sealed maybe by the firm's own key: its findings
 * follow from what it says, and what it does not say was in the book by the time of its head. */
static mf_record *hiding(kit *k, void hide(mf_job *job), const char *entry)
{
    mf_job *job = NULL;
    mf_links *links = NULL;
    mf_bytes json = {0};
    mf_record *record = NULL;
    assert_int_equal(mf_book_links(k->book, "J-1", &job, &links, &k->err), MF_OK);
    mf_links less = *links;
    mf_link kept[40];
    less.n_entries = 0;
    for (size_t i = 0; i < links->n_entries; i++)
        if (strcmp(links->entries[i].entry, entry) != 0)
            kept[less.n_entries++] = links->entries[i];
    less.entries = kept;
    hide(job);
    const mf_record_ask ask = {
        .job = job, .today = k->now.today, .head = links->head, .printed_at = "", .links = &less};
    assert_int_equal(mf_record_write(&json, &ask, &k->err), MF_OK);
    assert_int_equal(mf_record_read(&record, (const char *)json.data, json.len, &k->err), MF_OK);
    assert_int_equal(mf_record_agrees(record, &k->err), MF_OK);
    mf_bytes_free(&json);
    mf_book_links_free(links);
    mf_book_job_free(job);
    return record;
}

static void hide_component(mf_job *job)
{
    job->n_component--;
}

/* As if office/13 had not been logged. */
static void hide_correction(mf_job *job)
{
    static mf_reading readings[8];
    size_t n = 0;
    for (size_t i = 0; i < job->n_reading; i++) {
        readings[n] = job->reading[i];
        if (strcmp(readings[n].src.entry, "office/12") == 0) {
            readings[n].src.correction = "";
            readings[n].loading_ug_cm2 = 300;
        }
        n++;
    }
    job->reading = readings;
    job->n_correction = 0;
}

static void hide_nothing(mf_job *job)
{
    (void)job;
}

static void what_is_left_out(void **state)
{
    mf_record *record = hiding(*state, hide_component, "office/9");
    kit_differs(*state, record, MF_HEAD_STANDS, "5 component office/9\n");
    mf_record_free(record);
    record = hiding(*state, hide_correction, "office/13");
    kit_differs(*state, record, MF_HEAD_STANDS, "5 correction office/13\n");
    mf_record_free(record);
    record = hiding(*state, hide_nothing, "");
    kit_differs(*state, record, MF_HEAD_STANDS, "");
    mf_record_free(record);
}

/* The head of another book that was merged: over entries that are here, in no order in which
 * they came here. Without their names nobody can tell. */
static void a_head_of_another_device(void **state)
{
    kit *k = *state, truck = *k;
    mf_merge_report report;
    char path[128];
    kit_in_folder(k, "truck.book", path);
    assert_int_equal(mf_book_copy(k->book, path, "truck", NULL, &k->err), MF_OK);
    assert_int_equal(mf_book_open(&truck.book, path, &k->err), MF_OK);
    kit_reading(k, "7", "0.2");
    kit_reading(&truck, "8", "0.2");
    mf_record *with = kit_record(&truck, "J-1", false), *bare = kit_record(&truck, "J-1", true);
    assert_int_equal(mf_book_merge(k->book, path, NULL, NULL, &report, &k->err), MF_OK);
    kit_differs(k, with, MF_HEAD_STANDS, "0 reading office/16\n");
    kit_differs(k, bare, MF_HEAD_UNTOLD, "0 reading office/16\n");
    mf_record_free(with);
    mf_record_free(bare);
    mf_book_close(truck.book);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(nothing_since),
        TEST(logged_since),
        cmocka_unit_test(words_altered),
        TEST(hash_altered),
        TEST(what_is_left_out),
        TEST(an_entry_is_gone),
        TEST(a_head_of_another_device),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
