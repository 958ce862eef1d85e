/* Which jobs are judged again, and the words that find a job. What must be judged
 * anew follows from what a judgment reads: the job, the firm, and other jobs at
 * the address (40 CFR 745.83, one room within 30 days). All constructed. */
#include "book/room.h"
#include "book_kit.h"

static void open_job(kit *k, const char *id, const char *address, const char *note)
{
    kit_log(k, "house", id, "id", id, "address", address, "year-built", "1926", "building",
            "dwelling", "owner-occupied", "yes", "work", "window-replacement", "description",
            "one window", "start", "2026-09-30", "note", note);
}

static int start(void **state)
{
    static kit k;
    kit_start(&k);
    kit_log(&k, "person", "", "id", "rosa", "name", "Rosa Invented");
    open_job(&k, "J-1", "12 Invented Street", "ring twice");
    open_job(&k, "J-2", "7 Other Street", "dog");
    open_job(&k, "J-3", "12 Invented street", "stairs"); /* at the address of J-1 */
    *state = &k;
    return 0;
}

/* ---- who is judged ----------------------------------------------------------------------------
 */

/* Settles every job but the one named; tells which it was asked of. */
typedef struct judge {
    const char *open;
    char asked[80];
} judge;

static const char *judge_one(const mf_job *job, void *data)
{
    judge *j = data;
    size_t len = strlen(j->asked);
    snprintf(j->asked + len, sizeof j->asked - len, "%s ", job->id);
    return strcmp(job->id, j->open) == 0 ? "" : "closed";
}

static void asks(kit *k, const char *want)
{
    judge j = {.open = "J-2"};
    assert_int_equal(mf_book_unsettled(k->book, judge_one, NULL, &j, NULL, &k->err), MF_OK);
    assert_string_equal(j.asked, want);
}

static bool add_settled(const char *job, const char *address, mf_day day, const char *stage,
                        void *data)
{
    assert_int_equal(day, mf_day_from(2026, 9, 30));
    mf_buf_printf(data, "%s %s %s\n", job, address, stage);
    return true;
}

static void settled_are_not_judged_again(void **state)
{
    kit *k = *state;
    mf_buf out = {0};
    asks(k, "J-1 J-2 J-3 ");
    asks(k, "J-2 ");
    assert_int_equal(mf_book_settled(k->book, "outside", add_settled, &out, &k->err), MF_OK);
    assert_string_equal(mf_buf_str(&out), "");
    assert_int_equal(mf_book_settled(k->book, NULL, add_settled, &out, &k->err), MF_OK);
    assert_string_equal(mf_buf_str(&out),
                        "J-1 12 Invented Street closed\nJ-3 12 Invented street closed\n");
    mf_buf_free(&out);
}

static void an_entry_brings_its_job_back(void **state)
{
    kit *k = *state;
    asks(k, "J-1 J-2 J-3 ");
    kit_log(k, "party", "J-3", "id", "owner", "role", "owner", "name", "Ida Invented");
    asks(k, "J-2 J-3 ");
    mf_draft *draft = kit_draft(k, "party", "name", "Ada Invented", NULL);
    assert_int_equal(mf_book_correct(k->book, k->id, draft, "x", &k->now, k->id, NULL), MF_OK);
    mf_draft_free(draft);
    asks(k, "J-2 J-3 ");
    asks(k, "J-2 ");
}

static void its_neighbors_too(void **state)
{
    kit *k = *state;
    asks(k, "J-1 J-2 J-3 ");
    kit_log(k, "component", "J-1", "id", "wall", "type", "wall", "side", "interior", "room",
            "kitchen", "substrate", "plaster");
    asks(k, "J-1 J-2 J-3 ");
    open_job(k, "J-4", "12, Invented Street", "x"); /* office/6 */
    asks(k, "J-1 J-2 J-3 J-4 ");
    mf_draft *draft = kit_draft(k, "house", "address", "7 Other Street", NULL);
    assert_int_equal(mf_book_correct(k->book, "office/6", draft, "x", &k->now, k->id, NULL), MF_OK);
    mf_draft_free(draft);
    asks(k, "J-1 J-2 J-3 J-4 "); /* those where it was */
    asks(k, "J-2 ");
}

/* A part that was tested is taken to have paint (load_earlier.c). */
static void tests_of_its_neighbors(void **state)
{
    static const char *const kinds[] = {"reading", "kit_test", "chip"};
    kit *k = *state;
    kit_log(k, "instrument", "", "serial", "X-100", "film", "1.04", "cal-low", "0.94", "cal-high",
            "1.14");
    kit_log(k, "component", "J-1", "id", "wall", "type", "wall", "side", "interior", "room",
            "kitchen", "substrate", "plaster", "painted", "no");
    asks(k, "J-1 J-2 J-3 ");
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        asks(k, "J-2 ");
        kit_positive(k, kinds[i], "J-1", "wall");
        asks(k, "J-1 J-2 J-3 ");
    }
    asks(k, "J-2 ");
}

static void certificate(kit *k, const char *holder, const char *discipline)
{
    kit_log(k, "certificate", "", "holder", holder, "discipline", discipline, "number", "X-1",
            "issuer", "Invented Agency", "issued", "2025-01-01", "expires", "2030-01-01");
}

static void what_all_rest_on(void **state)
{
    kit *k = *state;
    asks(k, "J-1 J-2 J-3 ");
    certificate(k, "firm", "firm"); /* 40 CFR 745.89: of every job */
    asks(k, "J-1 J-2 J-3 ");
    kit_log(k, "firm", "", "name", "Invented Renovations", "address", "1 Invented Road");
    asks(k, "J-1 J-2 J-3 ");
    kit_log(k, "local_limit", "", "limit", "dust-floor", "value", "3", "place", "Exampleton",
            "citation", "invented", "status", "memory");
    asks(k, "J-1 J-2 J-3 ");
    kit_sqlite_says(k, "UPDATE meta SET value = 'older' WHERE key = 'judged'", "");
    asks(k, "J-1 J-2 J-3 "); /* another version judged */
    kit_sqlite_says(
        k, "UPDATE meta SET value = replace(value, 'after', 'after 9') WHERE key = 'judged'", "");
    asks(k, "J-1 J-2 J-3 "); /* of more entries than there are */
    asks(k, "J-2 ");
}

/* A person or an instrument that a job does not name is nothing to it (745.90). */
static void what_some_rest_on(void **state)
{
    kit *k = *state;
    kit_log(k, "person", "", "id", "rosamund", "name", "Rosamund Invented");
    kit_log(k, "assignment", "J-1", "person", "rosa", "duty", "renovator", "on", "2026-09-30");
    kit_log(k, "instrument", "", "serial", "G1", "film", "1.04", "cal-low", "0.9", "cal-high",
            "1.2");
    kit_log(k, "component", "J-3", "id", "wall", "type", "wall", "side", "interior", "room",
            "kitchen", "substrate", "plaster");
    kit_log(k, "reading", "J-3", "number", "1", "instrument", "G1", "operator", "rosamund",
            "purpose", "paint", "component", "wall", "substrate", "plaster", "result", "0.1", "on",
            "2026-09-14", "time", "08:30");
    asks(k, "J-1 J-2 J-3 ");
    kit_log(k, "person", "", "id", "ana", "name", "Ana Invented");
    asks(k, "J-2 ");
    certificate(k, "ana", "renovator");
    asks(k, "J-2 ");
    certificate(k, "rosa", "renovator"); /* not rosamund, who shot in J-3 */
    asks(k, "J-1 J-2 ");
    certificate(k, "ana", "inspector");
    certificate(k, "rosamund", "inspector");
    asks(k, "J-2 J-3 ");
    kit_log(k, "profile_row", "", "instrument", "G1", "substrate", "wood", "threshold", "1.0");
    asks(k, "J-2 J-3 ");
    kit_log(k, "instrument", "", "serial", "G2", "film", "1.04", "cal-low", "0.9", "cal-high",
            "1.2");
    asks(k, "J-2 ");
    mf_draft *draft = kit_draft(k, "person", "name", "Rosa Otherwise", NULL);
    assert_int_equal(mf_book_correct(k->book, "office/1", draft, "x", &k->now, k->id, &k->err),
                     MF_OK);
    mf_draft_free(draft);
    asks(k, "J-1 J-2 J-3 "); /* a correction may be of anything */
    asks(k, "J-2 ");
}

/* A verdict put in by another hand holds until the book is checked. */
static void the_whole_check_forgets(void **state)
{
    kit *k = *state;
    mf_book_report report;
    asks(k, "J-1 J-2 J-3 ");
    kit_force(k, "UPDATE settled SET stage = 'closed'");
    asks(k, "");
    assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
    asks(k, "J-1 J-2 J-3 ");
}

static const char *judge_and_log(const mf_job *job, void *data)
{
    kit *k = data, other = {.now = kit_time()};
    if (strcmp(job->id, "J-3") == 0) {
        assert_int_equal(mf_book_open(&other.book, k->path, &other.err), MF_OK);
        kit_log(&other, "party", "J-1", "id", "owner", "role", "owner", "name", "Ida Invented");
        mf_book_close(other.book);
    }
    return "closed";
}

/* What came in while jobs were judged was not judged: nothing is kept. */
static void an_entry_in_between(void **state)
{
    kit *k = *state;
    assert_int_equal(mf_book_unsettled(k->book, judge_and_log, NULL, k, NULL, &k->err), MF_OK);
    asks(k, "J-1 J-2 J-3 ");
}

static const char *judge_none(const mf_job *job, void *data)
{
    (void)job;
    (void)data;
    return "";
}

typedef struct told {
    int64_t last, total;
    int times;
} told;

static void note_progress(const char *what, int64_t done, int64_t total, void *data)
{
    told *t = data;
    assert_string_equal(what, "jobs");
    assert_true(done > t->last && done <= total);
    *t = (told){done, total, t->times + 1};
}

/* Who looks is told how far it is when jobs are many; of the settled ones no more. */
static void progress_is_told(void **state)
{
    kit *k = *state;
    char id[16];
    told t = {0};
    const mf_watch watch = {.progress = note_progress, .data = &t};
    judge j = {.open = "J-2"};
    assert_int_equal(mf_book_unsettled(k->book, judge_one, NULL, &j, &watch, &k->err), MF_OK);
    assert_int_equal(t.times, 0); /* three jobs are no wait */
    for (int i = 10; i < 50; i++) {
        snprintf(id, sizeof id, "K-%d", i);
        open_job(k, id, "1 Third Street", "x");
    }
    assert_int_equal(mf_book_unsettled(k->book, judge_none, NULL, NULL, &watch, &k->err), MF_OK);
    assert_int_equal(t.last, 41); /* K-10 to K-49, and J-2 */
    assert_int_equal(t.total, 41);
    assert_in_range(t.times, 2, 41);
}

/* ---- a job that cannot be read --------------------------------------------------------- */

static void note_lost(const char *job, const mf_err *why, void *data)
{
    judge *j = data;
    size_t len = strlen(j->asked);
    assert_string_equal(why->name, MF_ERR_UNREAD);
    snprintf(j->asked + len, sizeof j->asked - len, "(%s: %s) ", job, why->where);
}

/* Constructed: a word of a newer version in the second of three jobs. */
static void one_unread_job_hides_no_other(void **state)
{
    kit *k = *state;
    judge j = {.open = ""};
    kit_force(k, "UPDATE entry SET body = replace(body, 'dwelling', 'moat') WHERE job = 'J-2'");
    assert_int_equal(mf_book_unsettled(k->book, judge_one, note_lost, &j, NULL, &k->err), MF_OK);
    assert_string_equal(j.asked, "J-1 (J-2: entry office/3) J-3 ");
    j.asked[0] = '\0'; /* it is asked again, the others are settled */
    assert_int_equal(mf_book_unsettled(k->book, judge_one, note_lost, &j, NULL, &k->err), MF_OK);
    assert_string_equal(j.asked, "(J-2: entry office/3) ");
    assert_int_equal(mf_book_unsettled(k->book, judge_one, NULL, &j, NULL, &k->err), MF_SYSTEM);
    assert_string_equal(k->err.name, MF_ERR_UNREAD);
}

/* What the firm has is in every job: said once. */
static void an_unread_entry_of_the_firm_ends_it(void **state)
{
    kit *k = *state;
    judge j = {.open = ""};
    certificate(k, "firm", "firm");
    kit_force(k, "UPDATE entry SET body = replace(body, 'discipline' || char(34, 58, 34) || 'firm',"
                 " 'discipline' || char(34, 58, 34) || 'moat') WHERE kind = 'certificate'");
    assert_int_equal(mf_book_unsettled(k->book, judge_one, note_lost, &j, NULL, &k->err),
                     MF_SYSTEM);
    assert_string_equal(j.asked, "");
    assert_string_equal(k->err.what, "discipline is \"moat\", which is not known here");
}

/* ---- words -------------------------------------------------------------------------------------
 */

static bool add_hit(const char *job, const char *address, mf_day day, void *data)
{
    (void)address;
    (void)day;
    mf_buf_printf(data, "%s ", job);
    return true;
}

static void finds(kit *k, const char *words, const char *want)
{
    mf_buf out = {0};
    assert_int_equal(mf_book_find(k->book, words, add_hit, &out, &k->err), MF_OK);
    if (strcmp(mf_buf_str(&out), want) != 0)
        fail_msg("%s: %s", words, mf_buf_str(&out));
    mf_buf_free(&out);
}

static void words_follow_the_entries(void **state)
{
    kit *k = *state;
    mf_book_report report;
    finds(k, "invented", "J-1 J-3 ");
    finds(k, "twice INV", "J-1 ");
    finds(k, "rosa", "");
    kit_log(k, "assignment", "J-2", "person", "rosa", "duty", "worker", "on", "2026-09-14");
    finds(k, "rosa", "J-2 ");
    finds(k, "other inven", "J-2 "); /* its street, her name */
    mf_draft *draft = kit_draft(k, "person", "name", "Rosa Otherwise", NULL);
    assert_int_equal(mf_book_correct(k->book, "office/1", draft, "x", &k->now, k->id, NULL), MF_OK);
    mf_draft_free(draft);
    finds(k, "otherw", "J-2 ");
    finds(k, "other inven", "");
    draft = kit_draft(k, "house", "note", "ring once", NULL);
    assert_int_equal(mf_book_correct(k->book, "office/2", draft, "x", &k->now, k->id, NULL), MF_OK);
    mf_draft_free(draft);
    finds(k, "twice", "");
    finds(k, "once", "J-1 ");
    assert_int_equal(mf_book_correct(k->book, "office/4", NULL, "x", &k->now, k->id, NULL), MF_OK);
    finds(k, "stairs", "");
    assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
    assert_int_equal(mf_book_rebuild(k->book, &k->err), MF_OK);
    finds(k, "once", "J-1 ");
    assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
}

static void words_of_another_hand_are_told(void **state)
{
    static const char *const rows[][2] = {
        {"UPDATE find SET words = 'nothing' WHERE rowid = 1", "job J-1: table find"},
        {"DELETE FROM find WHERE rowid = 2", "job J-2: table find"},
        {"UPDATE settled SET key = 'x' WHERE job = 'J-3'", "job J-3: table find"},
        {"DELETE FROM settled WHERE job = 'J-3'", "job J-3: table find"},
        {"INSERT INTO settled VALUES (9, 'J-9', 'k', '', '')", "job J-9: table settled"},
        {"UPDATE find_content SET c0 = 'nothing' WHERE id = 1", "job J-1: table find"},
        {"DELETE FROM find_data WHERE id > 10", "table find: its index"},
        {"UPDATE find_docsize SET sz = x'0101' WHERE id = 1", "table find: its index"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        void *fresh = NULL;
        mf_book_report report;
        start(&fresh);
        kit *k = fresh;
        kit_force(k, rows[i][0]);
        if (mf_book_check(k->book, &report, &k->err) != MF_NO)
            fail_msg("%s: not found", rows[i][0]);
        if (strncmp(report.first, rows[i][1], strlen(rows[i][1])) != 0)
            fail_msg("%s: %s", rows[i][0], report.first);
        assert_int_equal(mf_book_rebuild(k->book, &k->err), MF_OK); /* the mend */
        assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
        kit_stop(k);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(settled_are_not_judged_again, start, kit_done),
        cmocka_unit_test_setup_teardown(an_entry_brings_its_job_back, start, kit_done),
        cmocka_unit_test_setup_teardown(its_neighbors_too, start, kit_done),
        cmocka_unit_test_setup_teardown(tests_of_its_neighbors, start, kit_done),
        cmocka_unit_test_setup_teardown(what_all_rest_on, start, kit_done),
        cmocka_unit_test_setup_teardown(what_some_rest_on, start, kit_done),
        cmocka_unit_test_setup_teardown(the_whole_check_forgets, start, kit_done),
        cmocka_unit_test_setup_teardown(an_entry_in_between, start, kit_done),
        cmocka_unit_test_setup_teardown(progress_is_told, start, kit_done),
        cmocka_unit_test_setup_teardown(one_unread_job_hides_no_other, start, kit_done),
        cmocka_unit_test_setup_teardown(an_unread_entry_of_the_firm_ends_it, start, kit_done),
        cmocka_unit_test_setup_teardown(words_follow_the_entries, start, kit_done),
        cmocka_unit_test(words_of_another_hand_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
