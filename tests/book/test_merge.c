/* Copies that are worked on elsewhere and come back. What is expected follows from
 * the design: entries name their device and are only ever added. All constructed. */
#include "merge_kit.h"
#include <mistfold/audit.h>
#include <mistfold/house.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* ---- copies ---------------------------------------------------------------------------------- */

static void copy_is_private_and_its_own_device(void **state)
{
    kit *k = *state;
    struct stat st;
    kit truck = copied(k, "truck");
    assert_int_equal(stat(truck.path, &st), 0);
    assert_int_equal(st.st_mode & 0777, 0600);
    kit_reading(&truck, "2", "0.3");
    assert_string_equal(truck.id, "truck/1");
    check_good(&truck, 11);
    mf_book_close(truck.book);
}

static void copy_refuses_a_device_that_is_there(void **state)
{
    kit *k = *state;
    char path[128];
    kit_in_folder(k, "x.book", path);
    assert_int_equal(mf_book_copy(k->book, path, "office", NULL, &k->err), MF_INPUT);
    assert_int_equal(access(path, F_OK), -1);
    assert_int_equal(mf_book_copy(k->book, k->path, "truck", NULL, &k->err), MF_INPUT);
}

/* Cut off when the last page is there and the copy has no device of its own yet, which
 * would make two histories of one name: nothing has the name of the copy. */
static void cut_off(const char *what, int64_t done, int64_t total, void *data)
{
    (void)what;
    (void)data;
    if (done == total)
        _exit(9);
}

static void copy_has_its_name_when_it_is_whole(void **state)
{
    kit *k = *state;
    char path[128];
    int status = 0;
    const mf_watch watch = {.progress = cut_off};
    kit_in_folder(k, "truck.book", path);
    for (int backup = 0; backup < 2; backup++) {
        pid_t child = fork();
        assert_true(child >= 0);
        if (child == 0)
            _exit(backup ? (int)mf_book_backup(k->book, path, &watch, NULL)
                         : (int)mf_book_copy(k->book, path, "truck", &watch, NULL));
        assert_int_equal(waitpid(child, &status, 0), child);
        assert_int_equal(WEXITSTATUS(status), 9);
        assert_int_not_equal(access(path, F_OK), 0);
    }
    kit truck = copied(k, "truck"); /* the next one is made, and leaves nothing beside it */
    mf_book_close(truck.book);
    run_result names;
    run_shell(&names, k->folder, "ls -A | grep -v '^.mistfold-'"); /* those of the two that died */
    assert_string_equal(names.out, "firm.book\nfirm.book-shm\nfirm.book-wal\ntruck.book\n");
}

static void backup_is_the_same_book(void **state)
{
    kit *k = *state;
    char path[128], ours[MF_HASH_HEX], theirs[MF_HASH_HEX];
    mf_book *backup = NULL;
    run_result result;
    kit_in_folder(k, "b.book", path);
    assert_int_equal(mf_book_backup(k->book, path, NULL, &k->err), MF_OK);
    assert_int_equal(mf_book_open(&backup, path, &k->err), MF_OK);
    assert_int_equal(mf_book_head(k->book, ours, NULL), MF_OK);
    assert_int_equal(mf_book_head(backup, theirs, NULL), MF_OK);
    assert_string_equal(ours, theirs);
    mf_book_close(backup);
    run_shell(&result, k->folder,
              "sqlite3 b.book 'PRAGMA integrity_check'; ls b.book*; stat -c %a b.book");
    assert_string_equal(result.out, "ok\nb.book\n600\n");
}

/* ---- union
 * --------------------------------------------------------------------------------------- */

static void both_ways(void **state)
{
    kit *k = *state;
    mf_merge_report report;
    char ours[MF_HASH_HEX], theirs[MF_HASH_HEX];
    kit truck = copied(k, "truck");
    kit_reading(&truck, "2", "0.3");
    kit_reading(k, "3", "0.4");
    assert_int_equal(merge(k, truck.path, &report), MF_OK);
    assert_int_equal(report.read, 11);
    assert_int_equal(report.added, 1);
    assert_int_equal(merge(&truck, k->path, &report), MF_OK);
    assert_int_equal(report.added, 1);
    assert_int_equal(merge(&truck, k->path, &report), MF_OK);
    assert_int_equal(report.added, 0);
    check_good(k, 12);
    check_good(&truck, 12);
    assert_int_equal(mf_book_head(k->book, ours, NULL), MF_OK);
    assert_int_equal(mf_book_head(truck.book, theirs, NULL), MF_OK);
    assert_string_equal(ours, theirs);
    mf_book_close(truck.book);
}

static void last_line(const char *line, void *data)
{
    snprintf(data, 256, "%s", line);
}

static void contradicting_corrections_stay_and_are_told(void **state)
{
    kit *k = *state;
    char told[256] = "";
    mf_merge_report report;
    mf_watch watch = {.note = last_line, .data = told};
    kit truck = copied(k, "truck");
    correct(k, "office/10", "0.4");
    correct(&truck, "office/10", "0.5");
    assert_int_equal(mf_book_merge(k->book, truck.path, NULL, &watch, &report, &k->err), MF_OK);
    assert_int_equal(report.contradictions, 1);
    assert_string_equal(told,
                        "entry office/10 was corrected on two devices in two ways (office/11, "
                        "truck/1): both are kept; say what is true: mistfold entry correct "
                        "office/10 --set ... --reason ...");
    kit_sqlite_says(k, "SELECT entry, after ->> '$.loading_ug_cm2' FROM correction ORDER BY entry",
                    "office/11|400\ntruck/1|500\n");
    check_good(k, 12);
    mf_book_close(truck.book);
}

static void same_id_twice_is_told(void **state)
{
    kit *k = *state;
    char told[256] = "";
    mf_merge_report report;
    mf_watch watch = {.note = last_line, .data = told};
    kit truck = copied(k, "truck");
    kit_log(k, "person", "", "id", "teo", "name", "Teo Invented");
    kit_log(&truck, "person", "", "id", "teo", "name", "Theo Invented");
    assert_int_equal(mf_book_merge(k->book, truck.path, NULL, &watch, &report, &k->err), MF_OK);
    assert_int_equal(report.doubles, 1);
    assert_string_equal(told, "person teo is in two entries (office/11, truck/1): both are kept; "
                              "withdraw or correct one of them");
    mf_book_close(truck.book);
}

/* ---- refusals ----------------------------------------------------------------------------------
 */

/* A backup that was gone on with: two histories of one device. */
static void rewriting_history_is_refused(void **state)
{
    kit *k = *state;
    char path[128];
    mf_merge_report report;
    kit fork = {.now = k->now};
    kit_in_folder(k, "fork.book", path);
    assert_int_equal(mf_book_backup(k->book, path, NULL, &k->err), MF_OK);
    assert_int_equal(mf_book_open(&fork.book, path, &k->err), MF_OK);
    kit_reading(&fork, "2", "0.3");
    kit_reading(&fork, "3", "0.3");
    kit_reading(k, "2", "0.4");
    assert_int_equal(merge(k, path, &report), MF_INPUT);
    assert_non_null(strstr(k->err.what, "entry office/11 says something else in the two books"));
    assert_non_null(strstr(k->err.what, "here it goes on to office/11 ("));
    assert_non_null(strstr(k->err.what, "there to office/12 ("));
    assert_int_equal(report.added, 0);
    check_good(k, 11);
    mf_book_close(fork.book);
}

/* A restored backup takes its own later entries back from another device, when somebody says
 * that it was restored: which is logged, with the head from before. */
static void a_restored_book_catches_up(void **state)
{
    kit *k = *state;
    char path[128];
    mf_merge_report report;
    kit old = {.now = k->now};
    kit_in_folder(k, "old.book", path);
    assert_int_equal(mf_book_backup(k->book, path, NULL, &k->err), MF_OK);
    kit_reading(k, "2", "0.4");
    kit truck = copied(k, "truck");
    assert_int_equal(mf_book_open(&old.book, path, &k->err), MF_OK);
    assert_int_equal(mf_book_merge(old.book, truck.path, NULL, NULL, &report, &k->err), MF_INPUT);
    assert_string_equal(k->err.what,
                        "entry office/11 is under the name of this very device and is not here");
    assert_int_equal(report.added, 0);
    const char *const reasons[] = {NULL, "", "  ", "two\nlines", "the disk failed; copy of Friday"};
    for (size_t i = 0; i < 5; i++) {
        const mf_adopt adopt = {reasons[i], &k->now, NULL};
        assert_int_equal(mf_book_merge(old.book, truck.path, &adopt, NULL, &report, &k->err),
                         i < 4 ? MF_INPUT : MF_OK);
    }
    assert_int_equal(report.added, 1);
    assert_int_equal(report.own, 1);
    assert_string_equal(report.adoption, "office/12");
    kit_reading(&old, "3", "0.5");
    assert_string_equal(old.id, "office/13");
    mf_book_close(old.book);
    mf_book_close(truck.book);
}

typedef struct forgery {
    const char *name, *sql, *what;
} forgery;

static const forgery forgeries[] = {
    {"a new entry altered",
     "UPDATE entry SET body = replace(body, ':300', ':200') WHERE device = 'truck' AND seq = 1",
     "entry truck/1: it was altered: its text does not give its hash"},
    {"an old entry altered", "UPDATE entry SET who = 'ana' WHERE device = 'office' AND seq = 10",
     "entry office/10: it was altered: its text does not give its hash"},
    {"an entry taken out", "DELETE FROM entry WHERE device = 'truck' AND seq = 1",
     "entry truck/2: entry truck/1 before it is missing"},
    {"an unknown device", "UPDATE entry SET device = 'TRUCK' WHERE device = 'truck'",
     "entry TRUCK/1: its device has no name that a device can have"},
};

static void altered_books_are_refused(void **state)
{
    kit *k = *state;
    for (size_t i = 0; i < sizeof forgeries / sizeof forgeries[0]; i++) {
        char command[64];
        run_result result;
        mf_merge_report report;
        kit truck = copied(k, "truck");
        kit_reading(&truck, "2", "0.3");
        kit_reading(&truck, "3", "0.3");
        mf_book_close(truck.book);
        mf_book_close(k->book); /* so that no log is beside the file that is moved */
        run_shell(&result, k->folder, "mv firm.book keep && mv truck.book firm.book");
        assert_int_equal(result.status, 0);
        kit_force(k, forgeries[i].sql);
        run_shell(&result, k->folder, "mv firm.book truck.book && mv keep firm.book");
        assert_int_equal(result.status, 0);
        assert_int_equal(mf_book_open(&k->book, k->path, &k->err), MF_OK);
        assert_int_equal(merge(k, truck.path, &report), MF_INPUT);
        assert_string_equal(k->err.what, forgeries[i].what);
        check_good(k, 10);
        snprintf(command, sizeof command, "rm -f truck.book*");
        run_shell(&result, k->folder, command);
    }
}

/* Two houses of one id are listed in the order in which they were made. */
static bool add_job(const char *job, const char *address, mf_day start, void *data)
{
    (void)start;
    mf_buf_printf(data, "%s %s\n", job, address);
    return true;
}

static void open_house(kit *k, const char *address)
{
    kit_log(k, "house", "J-2", "id", "J-2", "address", address, "building", "dwelling",
            "owner-occupied", "yes", "work", "repair", "description", "x", "start", "2026-09-21");
}

static void listed_alike(void **state)
{
    kit *k = *state;
    mf_merge_report report;
    kit truck = copied(k, "truck");
    open_house(k, "1 Invented Street");
    open_house(&truck, "2 Invented Street");
    assert_int_equal(merge(k, truck.path, &report), MF_OK);
    assert_int_equal(merge(&truck, k->path, &report), MF_OK);
    for (int i = 0; i < 2; i++) {
        mf_buf all = {0}, found = {0};
        mf_book *book = i == 0 ? k->book : truck.book;
        assert_int_equal(mf_book_jobs(book, add_job, &all, NULL), MF_OK);
        assert_int_equal(mf_book_find(book, "j-2", add_job, &found, NULL), MF_OK);
        assert_string_equal(mf_buf_str(&found), "J-2 1 Invented Street\nJ-2 2 Invented Street\n");
        assert_non_null(strstr(mf_buf_str(&all), mf_buf_str(&found)));
        mf_buf_free(&all);
        mf_buf_free(&found);
    }
    mf_book_close(truck.book);
}

static mf_answer rule(kit *k)
{
    mf_job *job = NULL;
    mf_cover_answer cover;
    assert_int_equal(mf_book_job(k->book, "J-2", &job, &k->err), MF_OK);
    mf_cover_judge(job, &cover);
    mf_book_job_free(job);
    return cover.cover == MF_COVER_YES ? MF_ANSWER_YES : MF_ANSWER_NO;
}

static size_t houses(kit *k)
{
    mf_job *job = NULL;
    assert_int_equal(mf_book_job(k->book, "J-2", &job, &k->err), MF_OK);
    size_t n = job->n_house;
    mf_book_job_free(job);
    return n;
}

static void say_built(kit *k, const char *entry, const char *year)
{
    mf_draft *draft = kit_draft(k, "house", "year-built", year, NULL);
    assert_int_equal(mf_book_correct(k->book, entry, draft, "looked up", &k->now, NULL, &k->err),
                     MF_OK);
    mf_draft_free(draft);
}

/* The earlier of the two entries says 1990: it does not win, and correcting or withdrawing
 * either of them settles it. */
static void the_stricter_house_counts(void **state)
{
    kit *k = *state;
    char ours[MF_ENTRY_ID];
    mf_merge_report report;
    kit truck = copied(k, "truck");
    open_house(k, "1 Invented Street");
    open_house(&truck, "1 Invented Street");
    snprintf(ours, sizeof ours, "%s", k->id);
    say_built(k, ours, "1990");
    assert_int_equal(rule(k), MF_ANSWER_NO);
    say_built(&truck, truck.id, "1926");
    assert_int_equal(merge(k, truck.path, &report), MF_OK);
    assert_int_equal(houses(k), 2);
    assert_int_equal(rule(k), MF_ANSWER_YES);
    say_built(k, truck.id, "1991"); /* either may be corrected and keeps its id */
    assert_int_equal(rule(k), MF_ANSWER_NO);
    say_built(k, ours, "1926");
    assert_int_equal(rule(k), MF_ANSWER_YES);
    assert_int_equal(mf_book_correct(k->book, ours, NULL, "wrong", &k->now, NULL, &k->err), MF_OK);
    assert_int_equal(houses(k), 1);
    assert_int_equal(rule(k), MF_ANSWER_NO);
    mf_book_close(truck.book);
}

/* W01 is in two entries and a part names it: one of them may go, the other may not. */
static void one_of_two_may_be_withdrawn(void **state)
{
    kit *k = *state;
    char ours[MF_ENTRY_ID];
    mf_merge_report report;
    open_house(k, "1 Invented Street");
    kit truck = copied(k, "truck");
    kit_log(k, "opening", "J-2", "id", "W01", "kind", "window", "room", "kitchen", "elevation",
            "north");
    snprintf(ours, sizeof ours, "%s", k->id);
    kit_log(k, "component", "J-2", "id", "W01.sash", "opening", "W01", "type", "sash", "side",
            "interior", "substrate", "wood");
    kit_log(&truck, "opening", "J-2", "id", "W01", "kind", "window", "room", "bedroom", "elevation",
            "north");
    assert_int_equal(merge(k, truck.path, &report), MF_OK);
    assert_int_equal(mf_book_correct(k->book, ours, NULL, "wrong", &k->now, NULL, &k->err), MF_OK);
    assert_int_equal(mf_book_correct(k->book, truck.id, NULL, "wrong", &k->now, NULL, &k->err),
                     MF_INPUT);
    mf_book_close(truck.book);
}

static void what_is_no_book_is_refused(void **state)
{
    kit *k = *state;
    char path[128];
    run_result result;
    mf_merge_report report;
    kit_in_folder(k, "other", path);
    assert_int_equal(merge(k, path, &report), MF_INPUT);
    run_shell(&result, k->folder, "echo nothing of the kind here, only some text > other");
    assert_int_equal(merge(k, path, &report), MF_INPUT);
    run_shell(&result, k->folder, "rm other; sqlite3 other 'CREATE TABLE a (b)'");
    assert_int_equal(merge(k, path, &report), MF_INPUT);
    check_good(k, 10);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(copy_is_private_and_its_own_device),
        TEST(copy_refuses_a_device_that_is_there),
        TEST(copy_has_its_name_when_it_is_whole),
        TEST(backup_is_the_same_book),
        TEST(both_ways),
        TEST(contradicting_corrections_stay_and_are_told),
        TEST(same_id_twice_is_told),
        TEST(rewriting_history_is_refused),
        TEST(a_restored_book_catches_up),
        TEST(altered_books_are_refused),
        TEST(listed_alike),
        TEST(the_stricter_house_counts),
        TEST(one_of_two_may_be_withdrawn),
        TEST(what_is_no_book_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
