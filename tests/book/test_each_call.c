/* Every way in which the library calls SQLite fails once, and every way in which it asks
 * for memory, for each thing that can be done with a book (each_ops.h): it ends well, or
 * it says so in words and nothing was written. How they are failed: each_call.h;
 * test_faults.c does it to the whole program from outside, SQLite's own memory and files
 * with it. "make check" tries some of the ways, "make coverage" and "make torture" all.
 * All books are constructed. */
#include "each_call.h"
#include "each_ops.h"
#include "support/torture.h"
#include <jansson.h>

enum { ENTRIES = 19 }; /* of the book that each run begins with */

/* ---- the books ------------------------------------------------------------------------------ */

/* The truck knows of its entry before either handed out anything: the two come in at once. */
static void van(kit *k, mf_book *truck)
{
    mf_merge_report report;
    kit v = {.now = k->now};
    assert_int_equal(mf_book_copy(k->book, in_folder(k, "van.book"), "van", NULL, NULL), MF_OK);
    assert_int_equal(mf_book_open(&v.book, in_folder(k, "van.book"), NULL), MF_OK);
    kit_log(&v, "person", "", "id", "eve", "name", "Eve Invented");
    mf_book_close(v.book);
    assert_int_equal(mf_book_merge(truck, in_folder(k, "van.book"), NULL, NULL, &report, NULL),
                     MF_OK);
}

/* Another device: what it says of office/12 contradicts us, it has our ids a second time
 * and an attachment of its own. */
static void truck(kit *k)
{
    kit t = {.now = k->now};
    const mf_attach_ask ask = {"J-1", "", PDF, sizeof(PDF) - 1, "truck.pdf", ""};
    assert_int_equal(mf_book_copy(k->book, in_folder(k, "truck.book"), "truck", NULL, NULL), MF_OK);
    assert_int_equal(mf_book_open(&t.book, in_folder(k, "truck.book"), NULL), MF_OK);
    assert_int_equal(correct_one(&t, "office/12", "reading", result, NULL), MF_OK);
    kit_log(&t, "person", "", "id", "bob", "name", "Bob Invented");
    kit_log(&t, "component", "J-1", "id", "twin", "type", "wall", "side", "interior", "substrate",
            "wood");
    assert_int_equal(mf_book_attach(t.book, &ask, &t.now, NULL, NULL, NULL), MF_OK);
    van(k, t.book);
    truck_meets(k, t.book);
    mf_book_close(t.book);
}

static void put_together(kit *k)
{
    const mf_attach_ask ask = {"J-1", "office/11", PNG, sizeof(PNG) - 1, "a.png", "sill"};
    kit_chain(k); /* office/1 to 14 */
    assert_int_equal(mf_book_attach(k->book, &ask, &k->now, NULL, photo, NULL), MF_OK);
    kit_log(k, "house", "J-2", "id", "J-2", "address", "12 Invented Street", "year-built", "1926",
            "building", "dwelling", "owner-occupied", "yes", "work", "window-replacement",
            "description", "one more window", "start", "2026-10-05");
    kit_log(k, "certificate", "", "holder", "rosa", "discipline", "renovator", "number", "I-1",
            "issuer", "invented", "issued", "2024-05-10", "expires", "2029-05-10");
    truck(k);
    mf_draft *draft = kit_draft(k, "reading", "result", "0.7", NULL);
    assert_int_equal(mf_book_correct(k->book, "office/12", draft, "misread", &k->now, NULL, NULL),
                     MF_OK);
    mf_draft_free(draft);
    kit_log(k, "component", "J-1", "id", "twin", "type", "wall", "side", "interior", "substrate",
            "plaster");
    assert_int_equal(mf_book_head(k->book, heads, NULL), MF_OK);
}

static void keep(const kit *k)
{
    run_result r;
    run_shell(&r, k->folder,
              "set -e; mkdir keep; cp firm.book truck.book keep/; gunzip -c '" MF_TESTS
              "/books/schema-1.book.gz' > keep/earlier.book; cp keep/earlier.book .");
    assert_int_equal(r.status, 0);
}

static int start(void **state)
{
    static kit k;
    kit_start(&k);
    put_together(&k);
    mf_book_close(k.book);
    k.book = NULL;
    keep(&k);
    *state = &k;
    return 0;
}

/* ---- one run --------------------------------------------------------------------------------- */

typedef struct outcome {
    mf_status status;
    mf_err err;
    int64_t entries; /* afterwards; -1 = the book is not whole */
} outcome;

static int64_t entries_in(const char *path)
{
    mf_book *book = NULL;
    mf_book_report report = {0};
    mf_err err = {0};
    mf_status status = mf_book_open(&book, path, &err);
    if (status == MF_OK)
        status = mf_book_check(book, &report, &err);
    mf_book_close(book);
    if (status != MF_OK)
        print_error("afterwards: %s\n", err.what);
    return status == MF_OK ? report.entries : -1;
}

static outcome run(kit *k, const op *o, each_kind kind, long fails_at, int code)
{
    outcome out = {0};
    kit_copy_back(k, "firm.book");
    if (o->run == op_earlier)
        kit_copy_back(k, "earlier.book");
    if (!o->closed)
        assert_int_equal(mf_book_open(&k->book, k->path, NULL), MF_OK);
    each_begin(kind, fails_at, code);
    out.status = o->run(k, &out.err);
    each_end();
    mf_book_close(k->book);
    k->book = NULL;
    out.entries = entries_in(k->path);
    return out;
}

/* What is told of a failure that is none of the input's: words, and no more. Damage may
 * be what a check found. */
static bool is_good(const op *o, const outcome *calm, const outcome *it, int code)
{
    if (it->status == calm->status)
        return it->entries == calm->entries;
    bool told = it->err.status == it->status && it->err.what[0] != '\0' && it->err.mend[0] != '\0';
    bool found = code == SQLITE_CORRUPT && it->status == MF_NO &&
                 strstr(it->err.what, "the book is damaged") != NULL;
    bool kept = it->entries == ENTRIES || (o->parts && it->entries > ENTRIES);
    return told && (it->status == MF_SYSTEM || found) && kept;
}

static const char *const kinds[] = {[EACH_SQLITE] = "call", [EACH_MEMORY] = "allocation"};

/* code: what SQLite says; for memory it does not matter */
static long each_way_fails(kit *k, const op *o, each_kind kind, int code)
{
    static long first[EACH_WAYS];
    bool all = getenv("MF_COVERAGE") != NULL;
    outcome calm = run(k, o, kind, 0, code);
    size_t n = each.n, step = all ? 1 : (size_t)torture(15, 1);
    memcpy(first, each.first, n * sizeof first[0]);
    if (calm.entries != ENTRIES + o->adds)
        fail_msg("%s: %s, %lld entries", o->name, calm.err.what, (long long)calm.entries);
    long bad = 0;
    for (size_t i = 0; i < n; i += step) {
        outcome it = run(k, o, kind, first[i], code);
        if (is_good(o, &calm, &it, code))
            continue;
        bad++;
        print_error("%s, %s %ld of code %d: status %d, %lld entries: %s: %s (%s; %s)\n", o->name,
                    kinds[kind], first[i], code, it.status, (long long)it.entries, it.err.where,
                    it.err.what, it.err.why, it.err.mend);
    }
    print_message("%s: %zu of %zu ways to one failed\n", o->name, (n + step - 1) / step, n);
    return bad;
}

/* MF_FAULTS="log allocation" leaves out all else. */
static bool is_asked(const op *o, each_kind kind)
{
    const char *asked = getenv("MF_FAULTS");
    char both[64];
    snprintf(both, sizeof both, "%s %s", o->name, kinds[kind]);
    return asked == NULL || strcmp(asked, both) == 0;
}

static void all_ops(kit *k, each_kind kind, int code)
{
    long bad = 0;
    for (size_t i = 0; i < sizeof ops / sizeof ops[0]; i++)
        bad += is_asked(&ops[i], kind) ? each_way_fails(k, &ops[i], kind, code) : 0;
    assert_int_equal(bad, 0);
}

static void the_disk(void **state)
{
    all_ops(*state, EACH_SQLITE, SQLITE_IOERR_WRITE);
}

static void damage(void **state)
{
    all_ops(*state, EACH_SQLITE, SQLITE_CORRUPT);
}

static void memory(void **state)
{
    all_ops(*state, EACH_MEMORY, 0);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(the_disk), TEST(damage), TEST(memory)};
    json_set_alloc_funcs(each_json, free);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
