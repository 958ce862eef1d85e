/* Every way in which a sync calls a server fails once, and every way in which it asks for memory:
 * it ends well, or says so in words; nothing is half there, and the next sync brings all. How
 * they are failed: book/each_call.h. "make check" tries some of the ways, "make coverage" and
 * "make torture" all. The firm is invented. */
#include "book/book_kit.h"
#include "book/each_call.h"
#include "support/torture.h"
#include "sync/pg_script.h"

#include <libpq-fe.h>
#include <mistfold/sync.h>

/* ---- calls to a server ------------------------------------------------------------------------
 */

#define EACH_ASKS(type, name, parameters, arguments, failed)                                       \
    EACH_WRAP(type, name, parameters, arguments, each_fails(EACH_OUTSIDE), failed)

EACH_ASKS(PQconninfoOption *, PQconninfoParse, (const char *text, char **said), (text, said), NULL)
EACH_ASKS(PGconn *, PQconnectdbParams,
          (const char *const *names, const char *const *values, int expand),
          (names, values, expand), NULL)
EACH_ASKS(PGresult *, PQexec, (PGconn * conn, const char *sql), (conn, sql), NULL)
EACH_ASKS(PGresult *, PQexecParams,
          (PGconn * conn, const char *sql, int n, const Oid *types, const char *const *values,
           const int *lens, const int *forms, int form),
          (conn, sql, n, types, values, lens, forms, form), NULL)
EACH_ASKS(int, PQputCopyData, (PGconn * conn, const char *bytes, int len), (conn, bytes, len), -1)
EACH_ASKS(int, PQputCopyEnd, (PGconn * conn, const char *why), (conn, why), -1)
EACH_ASKS(int, PQgetCopyData, (PGconn * conn, char **bytes, int async), (conn, bytes, async), -2)

/* ---- the books ----------------------------------------------------------------------------------
 */

static kit office, phone, truck;

static void open_copy(kit *k, const char *device)
{
    *k = (kit){.now = kit_time()};
    snprintf(k->path, sizeof k->path, "%s/%s.book", office.folder, device);
    assert_int_equal(mf_book_copy(office.book, k->path, device, NULL, NULL), MF_OK);
    assert_int_equal(mf_book_open(&k->book, k->path, NULL), MF_OK);
}

static int start(void **state)
{
    (void)state;
    pg_script("true\n");
    kit_start(&office);
    kit_house(&office);
    open_copy(&phone, "phone");
    open_copy(&truck, "truck");
    return 0;
}

static int stop(void **state)
{
    (void)state;
    mf_book_close(phone.book);
    mf_book_close(truck.book);
    kit_stop(&office);
    return 0;
}

/* An entry and an attachment of the office, and one of a phone, which the office hands on. */
static void log_more(void)
{
    static int turn;
    char id[20], pdf[60];
    mf_merge_report report;
    snprintf(id, sizeof id, "p%d", ++turn);
    snprintf(pdf, sizeof pdf, "%%PDF-1.4\ninvented %d\n%%%%EOF\n", turn);
    const mf_attach_ask ask = {"J-1", "", pdf, strlen(pdf), "report.pdf", ""};
    kit_log(&office, "person", "", "id", id, "name", "Pat Invented");
    assert_int_equal(mf_book_attach(office.book, &ask, &office.now, NULL, NULL, NULL), MF_OK);
    kit_log(&phone, "instrument", "", "serial", id, "film", "1.04", "cal-low", "0.94", "cal-high",
            "1.14");
    assert_int_equal(mf_book_merge(office.book, phone.path, NULL, NULL, &report, NULL), MF_OK);
}

/* ---- what is done there -------------------------------------------------------------------------
 */

typedef struct outcome {
    mf_status status, answer;
    mf_err err;
    int64_t added;
    bool both; /* each chain is there as far as it is here */
} outcome;

static void look(const mf_sync_report *report, outcome *out)
{
    out->answer = mf_sync_answer(report);
    out->added = report->merged.added;
    out->both = report->n_chains > 0;
    for (size_t i = 0; i < report->n_chains; i++)
        out->both = out->both && report->chains[i].here == report->chains[i].there;
}

static const char *before = ""; /* what was seen there */

static void meet(kit *k, const char *device, mf_sync_way way, outcome *out)
{
    char address[200];
    mf_store store;
    mf_bytes seen = {0};
    mf_sync_report report = {.items = NULL};
    const mf_sync_ask ask = {.seen = before,
                             .book = k->book,
                             .store = &store,
                             .way = way,
                             .now = &k->now,
                             .accept = k == &truck ? "office,phone" : ""};
    snprintf(address, sizeof address, "postgresql://%s@/firm?host=%s", device, pg_folder);
    out->status = mf_store_postgresql(&store, address, device, &out->err);
    if (out->status == MF_OK)
        out->status = mf_sync(&ask, &report, &seen, &out->err);
    if (out->status == MF_OK)
        look(&report, out);
    mf_sync_report_free(&report);
    mf_bytes_free(&seen);
    mf_store_close(&store);
}

static void hand_out(outcome *out)
{
    meet(&office, "office", MF_SYNC_DO, out);
}

static void take_over(outcome *out)
{
    meet(&truck, "truck", MF_SYNC_TRY, out);
}

static void read_all(outcome *out)
{
    meet(&office, "office", MF_SYNC_STATE, out);
}

static bool count(const char *line, bool missing, void *data)
{
    (void)missing;
    ++*(int64_t *)data;
    return line[0] != '\0';
}

static void compare(outcome *out)
{
    char address[200];
    snprintf(address, sizeof address, "postgresql://office@/firm?host=%s", pg_folder);
    out->status = mf_store_postgresql_check(address, count, &out->added, &out->err);
}

/* ---- each way
 * ------------------------------------------------------------------------------------
 */

typedef void op_fn(outcome *out);

static outcome run_op(op_fn *op, each_kind kind, long fails_at)
{
    outcome out = {.status = MF_OK};
    each_begin(kind, fails_at, 0);
    op(&out);
    each_end();
    return out;
}

static bool is_same(const outcome *a, const outcome *b)
{
    return a->status == b->status && a->answer == b->answer && a->added == b->added &&
           a->both == b->both;
}

static bool is_told(const outcome *it)
{
    return it->status == MF_SYSTEM && it->err.status == MF_SYSTEM && it->err.what[0] != '\0' &&
           it->err.mend[0] != '\0';
}

static long first[EACH_WAYS];

/* writes: there is something new to be handed out each time */
static void each_way_fails(op_fn *op, each_kind kind, bool writes, const outcome *wanted)
{
    size_t step = getenv("MF_COVERAGE") != NULL ? 1 : (size_t)torture(15, 1);
    if (writes)
        log_more();
    outcome calm = run_op(op, kind, 0);
    size_t n = each.n;
    memcpy(first, each.first, n * sizeof first[0]);
    if (!is_same(&calm, wanted))
        fail_msg("status %d, answer %d, %lld added: %s", calm.status, calm.answer,
                 (long long)calm.added, calm.err.what);
    for (size_t i = 0; i < n; i += step) {
        if (writes)
            log_more();
        outcome it = run_op(op, kind, first[i]);
        if (!is_same(&it, &calm) && !is_told(&it))
            fail_msg("kind %d, call %ld: status %d, answer %d, %lld added: %s; %s", kind, first[i],
                     it.status, it.answer, (long long)it.added, it.err.what, it.err.mend);
        it = run_op(op, EACH_NONE, 0);
        if (!is_same(&it, &calm))
            fail_msg("after call %ld of kind %d: status %d, answer %d, %lld added: %s", first[i],
                     kind, it.status, it.answer, (long long)it.added, it.err.what);
    }
    print_message("%zu of %zu ways failed\n", (n + step - 1) / step, n);
}

static void what_is_handed_out(void **state)
{
    const outcome wanted = {.both = true};
    (void)state;
    each_way_fails(hand_out, EACH_OUTSIDE, true, &wanted);
    each_way_fails(hand_out, EACH_MEMORY, true, &wanted);
}

/* 2 entries of the office and one of the phone; 9 are in the copy. */
static void what_is_taken_over(void **state)
{
    outcome out = {.status = MF_OK};
    const outcome wanted = {.added = 3};
    (void)state;
    log_more();
    hand_out(&out);
    assert_int_equal(out.status, MF_OK);
    each_way_fails(take_over, EACH_OUTSIDE, false, &wanted);
    each_way_fails(take_over, EACH_MEMORY, false, &wanted);
}

/* A chain that went further, and one that is gone. */
static void what_stood_there(void **state)
{
    outcome out = {.status = MF_OK};
    const outcome wanted = {.answer = MF_NO, .both = true};
    (void)state;
    log_more();
    hand_out(&out);
    assert_int_equal(out.status, MF_OK);
    before = "mistfold sync 1\nhead/office 99 0 ab\nhead/van 3 0 ab\n";
    each_way_fails(read_all, EACH_OUTSIDE, false, &wanted);
    each_way_fails(read_all, EACH_MEMORY, false, &wanted);
    before = "";
}

static void what_stands_there(void **state)
{
    outcome out = {.status = MF_OK};
    const outcome wanted = {.both = true}, none = {.status = MF_OK};
    (void)state;
    log_more();
    hand_out(&out);
    assert_int_equal(out.status, MF_OK);
    each_way_fails(read_all, EACH_OUTSIDE, false, &wanted);
    each_way_fails(read_all, EACH_MEMORY, false, &wanted);
    each_way_fails(compare, EACH_OUTSIDE, false, &none);
    each_way_fails(compare, EACH_MEMORY, false, &none);
}

/* ---- what is not there, and lines too many ------------------------------------------------------
 */

#define SHA "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"

static void what_is_not_there(void **state)
{
    static const char *const names[] = {"no name", "truck/truck.7-7." SHA ".entries",
                                        "truck/" SHA ".bytes"};
    char address[200];
    mf_store store;
    mf_err err = {0};
    (void)state;
    snprintf(address, sizeof address, "postgresql://office@/firm?host=%s", pg_folder);
    assert_int_equal(mf_store_postgresql(&store, address, "office", &err), MF_OK);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        mf_bytes bytes = {0};
        err = (mf_err){0};
        assert_int_equal(store.read(store.data, names[i], &bytes, &err), MF_INPUT);
        assert_true(bytes.len == 0 && err.what[0] != '\0');
        mf_bytes_free(&bytes);
    }
    assert_int_equal(store.write(store.data, "no name", "x", 1, &err), MF_INPUT);
    mf_store_close(&store);
}

static bool count_two(const char *line, bool missing, void *data)
{
    return count(line, missing, data) && *(int64_t *)data < 2;
}

/* Whoever is told of lines that a store has too many stops when it is enough; the last of them
 * stands behind all of ours. */
static void lines_too_many(void **state)
{
    char address[200];
    int64_t all = 0, two = 0;
    (void)state;
    run(PG_KITS " > s; echo \"admin 'CREATE VIEW mistfold_office.zzz AS SELECT 1; ALTER TABLE "
                "mistfold.entry "
                "ADD a text, ADD b text, ADD c text'\" >> s; sh -eu s");
    assert_int_equal(r.status, 0);
    snprintf(address, sizeof address, "postgresql://office@/firm?host=%s", pg_folder);
    assert_int_equal(mf_store_postgresql_check(address, count, &all, NULL), MF_OK);
    assert_true(all >= 4);
    assert_int_equal(mf_store_postgresql_check(address, count_two, &two, NULL), MF_OK);
    assert_int_equal(two, 2);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, stop)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(what_is_handed_out), TEST(what_is_taken_over),
                                       TEST(what_stands_there),  TEST(what_stood_there),
                                       TEST(what_is_not_there),  TEST(lines_too_many)};
    return cmocka_run_group_tests(tests, pg_start, pg_stop);
}
