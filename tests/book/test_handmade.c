/* Entries that no program of ours writes, in a book that is merged. Whoever makes them by
 * hand gets their hashes right, so that nothing but what they say tells. All constructed. */
#include "book/journal.h"
#include "book_kit.h"

/* Entry truck/1, written past the program, its hash as it should be; what is said when its
 * book is merged, NULL = it is taken over. All constructed. */
typedef struct handmade {
    const char *name, *kind, *job, *at, *who, *body, *what;
} handmade;

#define AT "2026-09-15T15:00:00Z"

static const handmade all[] = {
    {"a time that is none", "person", "", "zzzz", "rosa", "{\"id\":\"teo\",\"name\":\"Teo\"}",
     "entry truck/1: its time is no UTC time, or nobody is named who wrote it"},
    {"a writer who clears the screen", "person", "", AT, "\x1b[2J",
     "{\"id\":\"teo\",\"name\":\"Teo\"}",
     "entry truck/1: its time is no UTC time, or nobody is named who wrote it"},
    {"a name that clears the screen", "person", "", AT, "rosa",
     "{\"id\":\"teo\",\"name\":\"\\u001b[2J\"}",
     "entry truck/1: there is a sign in its text that nobody can type"},
    {"a job whose id is two lines", "house", "J\n2", AT, "rosa", "{\"id\":\"J-2\"}",
     "entry truck/1: there is a sign in its text that nobody can type"},
    {"a house of no job", "house", "", AT, "rosa",
     "{\"address\":\"x\",\"description\":\"x\",\"id\":\"x\"}", "entry truck/1: it names no job"},
    {"a person of a job", "person", "J-1", AT, "rosa", "{\"id\":\"teo\",\"name\":\"Teo\"}",
     "entry truck/1: it is the firm's and names a job"},
    /* The kind it says is not that of the house: place, due and find follow all the same. */
    {"a correction that says another kind", "correction", "J-1", AT, "rosa",
     "{\"body\":{\"address\":\"9 "
     "Other\",\"description\":\"x\",\"id\":\"J-1\"},\"kind\":\"reading\","
     "\"reason\":\"x\",\"replaces\":\"office/4\",\"target\":\"office/4\"}",
     NULL},
    /* A correction under another job is not among those of this one: it corrects nothing. */
    {"a correction of another job's entry", "correction", "J-2", AT, "rosa",
     "{\"kind\":\"reading\",\"reason\":\"x\",\"replaces\":\"office/10\",\"target\":\"office/10\"}",
     NULL},
    {"a kind of a newer version", "newer", "J-1", AT, "rosa", "{}", NULL},
};

static void make_by_hand(mf_book *book, const handmade *h)
{
    char hash[MF_HASH_HEX];
    mf_line line = {"truck", 1, h->at, h->who, h->kind, h->job, h->body, mf_zero_hash, hash};
    assert_int_equal(mf_entry_hash(book, &line, hash, NULL), MF_OK);
    assert_int_equal(mf_journal_insert(book, &line, NULL), MF_OK);
}

static void merged(void **state)
{
    static kit k;
    char path[128];
    mf_book *truck = NULL;
    mf_merge_report report;
    mf_book_report checked;
    const handmade *h = *state;
    kit_start(&k);
    kit_house(&k);
    kit_reading(&k, "1", "3.1"); /* office/10 */
    kit_in_folder(&k, "truck.book", path);
    assert_int_equal(mf_book_copy(k.book, path, "truck", NULL, NULL), MF_OK);
    assert_int_equal(mf_book_open(&truck, path, NULL), MF_OK);
    make_by_hand(truck, h);
    mf_book_close(truck);
    mf_status status = mf_book_merge(k.book, path, NULL, NULL, &report, &k.err);
    assert_int_equal(status, h->what == NULL ? MF_OK : MF_INPUT);
    assert_string_equal(k.err.what, h->what == NULL ? "" : h->what);
    if (mf_book_check(k.book, &checked, &k.err) != MF_OK)
        fail_msg("%s", k.err.what);
    assert_int_equal(checked.entries, h->what == NULL ? 11 : 10);
    kit_sqlite_says(&k, "SELECT loading_ug_cm2, correction FROM reading", "3100|\n");
    kit_stop(&k);
}

#define N (sizeof all / sizeof all[0])

int main(void)
{
    struct CMUnitTest tests[N];
    memset(tests, 0, sizeof tests);
    EACH_ROW(tests, all, merged);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
