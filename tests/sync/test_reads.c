/* How a sync reads what stands in a store: each text that is new once, also one that is tried
 * again, and of a store that did not change none; and where a folder does not tell of a file, it
 * says so. The firm is invented (book_kit.h). */
#include "book/book_kit.h"
#include <errno.h>
#include <mistfold/heads.h>
#include <mistfold/sync.h>
#include <sys/stat.h>

typedef struct meeting {
    kit office, truck;
    mf_store folder, counted; /* counted is the folder, and says how often a text is read */
    mf_bytes seen;            /* by the office */
    int reads;
    int spoils; /* which reading gives another text; 0 = none */
    int strange;
    int64_t added, contents_sent;
    int told; /* how often it is said how far the reading is */
} meeting;

static meeting m;
static int stat_fault; /* what the system says of each file of a folder; 0 = how it is */

/* The linker sends the calls of the store here (Makefile). */
extern int __real_fstatat(int folder, const char *name, struct stat *out, int flags);
int __wrap_fstatat(int folder, const char *name, struct stat *out, int flags);
int __wrap_fstatat(int folder, const char *name, struct stat *out, int flags)
{
    if (stat_fault == 0)
        return __real_fstatat(folder, name, out, flags);
    errno = stat_fault;
    return -1;
}

static mf_status count(void *data, const char *name, mf_bytes *out, mf_err *err)
{
    m.reads++;
    mf_status status = m.folder.read(data, name, out, err);
    if (status == MF_OK && m.reads == m.spoils)
        out->data[0] ^= 1;
    return status;
}

static void tell(const char *what, int64_t done, int64_t all, void *data)
{
    m.told += strcmp(what, "files") == 0 && done <= all && data == NULL;
}

static void hand_out(const kit *k)
{
    mf_sync_report report;
    mf_bytes seen;
    const mf_sync_ask ask = {.book = k->book, .store = &m.folder, .now = &k->now, .seen = ""};
    assert_int_equal(mf_sync(&ask, &report, &seen, NULL), MF_OK);
    mf_sync_report_free(&report);
    mf_bytes_free(&seen);
}

static mf_sync_item last; /* of what is told of a chain */

static void look(const mf_sync_report *report)
{
    m.strange = 0;
    m.added = report->merged.added;
    m.contents_sent = report->contents_sent;
    for (size_t i = 0; i < report->n_items; i++) {
        const mf_sync_item *it = &report->items[i];
        m.strange += it->state == MF_SYNC_STRANGE;
        if (it->what[0] != '\0')
            last = *it;
    }
}

/* The office meets there; how often it read. */
static int office_reads(mf_status answer)
{
    mf_sync_report report;
    mf_bytes before = m.seen;
    const mf_watch watch = {.progress = tell};
    const mf_sync_ask ask = {.watch = &watch,
                             .book = m.office.book,
                             .store = &m.counted,
                             .now = &m.office.now,
                             .accept = "truck",
                             .seen = (const char *)before.data};
    m.reads = 0;
    assert_int_equal(mf_sync(&ask, &report, &m.seen, NULL), MF_OK);
    assert_int_equal(mf_sync_answer(&report), answer);
    look(&report);
    mf_sync_report_free(&report);
    mf_bytes_free(&before);
    return m.reads;
}

static int start(void **state)
{
    (void)state;
    char truck[160];
    m = (meeting){.reads = 0};
    kit_start(&m.office);
    kit_house(&m.office);
    snprintf(truck, sizeof truck, "%s/truck.book", m.office.folder);
    assert_int_equal(mf_book_copy(m.office.book, truck, "truck", NULL, NULL), MF_OK);
    m.truck = (kit){.now = kit_time()};
    assert_int_equal(mf_book_open(&m.truck.book, truck, NULL), MF_OK);
    run_result r;
    run_shell(&r, m.office.folder, "mkdir share");
    snprintf(truck, sizeof truck, "%s/share", m.office.folder);
    assert_int_equal(mf_store_folder(&m.folder, truck, NULL), MF_OK);
    m.counted = m.folder;
    m.counted.read = count;
    return 0;
}

static int stop(void **state)
{
    (void)state;
    mf_bytes_free(&m.seen);
    m.folder.close(m.folder.data);
    mf_book_close(m.truck.book);
    kit_stop(&m.office);
    return 0;
}

static void each_new_text_once(void **state)
{
    (void)state;
    kit_reading(&m.truck, "1", "1.4");
    hand_out(&m.truck);
    kit_reading(&m.truck, "2", "1.4");
    hand_out(&m.truck);
    /* of the chain of the office, and twice of the truck's */
    assert_int_equal(office_reads(MF_OK), 3);
    /* what the office itself wrote there, whole as it stands */
    assert_int_equal(office_reads(MF_OK), 1);
    assert_int_equal(office_reads(MF_OK), 0);
}

/* A head that the truck noted wrongly: refused, and taken over with what withdraws it. */
static void also_one_that_is_tried_again(void **state)
{
    (void)state;
    static const char hash[] = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";
    char heads[120], wrong[MF_ENTRY_ID];
    size_t awaited = 0;
    snprintf(heads, sizeof heads, "office/99 %s", hash);
    const mf_witness_ask ask = {"office", "", heads, "read off its screen"};
    assert_int_equal(
        mf_book_witness(m.truck.book, &ask, &m.truck.now, wrong, &awaited, &m.truck.err), MF_OK);
    hand_out(&m.truck);
    assert_int_equal(office_reads(MF_INPUT), 2);
    assert_int_equal(mf_book_correct(m.truck.book, wrong, NULL, "typed wrong", &m.truck.now,
                                     m.truck.id, &m.truck.err),
                     MF_OK);
    hand_out(&m.truck);
    assert_int_equal(office_reads(MF_OK), 2);
    assert_int_equal(office_reads(MF_OK), 1);
    assert_int_equal(office_reads(MF_OK), 0);
}

/* 4 MiB of texts are kept: the second of these is read again as it comes in. */
static void what_is_too_much_to_keep(void **state)
{
    (void)state;
    static char note[3901];
    memset(note, 'n', sizeof note - 1);
    for (int piece = 0; piece < 2; piece++) {
        assert_int_equal(mf_book_begin(m.truck.book, &m.truck.err), MF_OK);
        for (int i = 0; i < 600; i++) {
            char serial[32];
            snprintf(serial, sizeof serial, "X-%d-%d", piece, i);
            kit_log(&m.truck, "instrument", "", "serial", serial, "film", "1.04", "cal-low", "0.94",
                    "cal-high", "1.14", "note", note);
        }
        assert_int_equal(mf_book_commit(m.truck.book, &m.truck.err), MF_OK);
        hand_out(&m.truck);
    }
    m.spoils = 4; /* the second time */
    assert_int_equal(office_reads(MF_INPUT), 4);
    run_contains(last.what, "it was changed while it was being read");
    run_contains(last.mend, "sync again");
    m.spoils = 0;
    assert_int_equal(office_reads(MF_OK), 2); /* that one, and what it wrote itself */
    assert_true(m.told > 0);
}

/* It says how far it has chains which are none, that it has attachments under names which are none,
 * and more of the truck than it hands out: told, and the rest comes in and goes out. */
static mf_status list_lies(void *data, const mf_store_listener *to, mf_err *err)
{
    static const char hash[] = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";
    assert_int_equal(to->chain("No Device", 1, hash, to->data), 1);
    assert_int_equal(to->chain("truck", 0, hash, to->data), 0);
    assert_int_equal(to->chain("paul", 2, "short", to->data), 2);
    assert_int_equal(to->chain("truck", 99, hash, to->data), 0);
    return m.folder.list(data, to, err);
}

static mf_status contents_lie(void *data, const char (*sha256)[MF_HASH_HEX], size_t n,
                              mf_store_fn *fn, void *to, mf_err *err)
{
    static const char *const names[] = {
        "no name", "zed/0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef.bytes"};
    (void)data;
    (void)err;
    assert_true(n > 0 && strlen(sha256[0]) == MF_HASH_HEX - 1);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const mf_store_item item = {.name = names[i], .size = 1};
        fn(&item, to);
    }
    return MF_OK;
}

static void a_store_that_lies(void **state)
{
    (void)state;
    static const char pdf[] = "%PDF-1.4\ninvented\n%%EOF\n";
    const mf_attach_ask ask = {"J-1", "", pdf, sizeof pdf - 1, "report.pdf", ""};
    kit_reading(&m.truck, "1", "1.4");
    hand_out(&m.truck);
    assert_int_equal(mf_book_attach(m.office.book, &ask, &m.office.now, NULL, NULL, NULL), MF_OK);
    m.counted.list = list_lies;
    m.counted.contents = contents_lie;
    assert_int_equal(office_reads(MF_NO), 2);
    assert_int_equal(m.strange, 3);
    assert_int_equal(m.added, 1);
    assert_int_equal(m.contents_sent, 1);
    run_contains(last.what, "the store says that it has this entry, and does not hand it out");
}

/* Not looked at is not the same as not there. */
static void a_file_that_cannot_be_looked_at(void **state)
{
    (void)state;
    mf_err err = {0};
    mf_sync_report report;
    mf_bytes seen;
    const mf_sync_ask ask = {.book = m.office.book, .store = &m.folder, .now = &m.office.now};
    kit_reading(&m.truck, "1", "1.4");
    hand_out(&m.truck);
    stat_fault = EIO;
    mf_status status = mf_sync(&ask, &report, &seen, &err);
    stat_fault = 0;
    mf_sync_report_free(&report);
    mf_bytes_free(&seen);
    assert_int_equal(status, MF_SYSTEM);
    run_contains(err.why, "the disk reports an error");
    run_contains(err.where, "/share");
    stat_fault = ENOENT; /* they went in this moment */
    assert_int_equal(office_reads(MF_OK), 0);
    stat_fault = 0;
    assert_int_equal(office_reads(MF_OK), 3); /* what it wrote itself, too */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(each_new_text_once, start, stop),
        cmocka_unit_test_setup_teardown(also_one_that_is_tried_again, start, stop),
        cmocka_unit_test_setup_teardown(what_is_too_much_to_keep, start, stop),
        cmocka_unit_test_setup_teardown(a_store_that_lies, start, stop),
        cmocka_unit_test_setup_teardown(a_file_that_cannot_be_looked_at, start, stop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
