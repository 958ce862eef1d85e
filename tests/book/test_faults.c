/* Every allocation and every system call of a run of the program fails once, and then
 * once for good: it and all after it (tests/preload/fault.c). Each run ends well with its entry in
 * the book, or with exit 4, one clear line, nothing written and nothing leaked. "make check" tries
 * some of them, "make torture" all of them for a logged entry and many for the
 * other commands. To look at one: MF_TORTURE=1 MF_FAULTS="seal alloc", and
 * MF_TORTURE=500 tries no more than 500 of each. */
#include "book_kit.h"
#include "support/torture.h"
#include <sqlite3.h>
#include <unistd.h>

typedef struct command {
    const char *name, *words;
    int entries; /* that it writes */
    bool all;    /* torture leaves none out */
    bool over;   /* it puts a paper in the place of record.pdf */
} command;

static const command commands[] = {
    {"log", "component add J-1 --id n1 --type wall --side interior --substrate plaster", 1, true,
     false},
    {"correct", "entry correct office/11 --set result=0.4 --reason misread", 1, false, false},
    {"import", "component import J-1 rows.csv", 3, false, false},
    {"straight", "test import J-1 long.csv", 3, false, false}, /* as straight.h, by its size */
    {"attach", "attach add J-1 photo.png --about office/11 --note sill", 1, false, false},
    {"merge", "book merge truck.book", 2, false, false},
    {"check", "book check", 0, false, false},
    {"check-large", "--book large.book book check", 0, false, false}, /* in two threads */
    {"show", "job show J-1 --quiet", 0, false, false},                /* "next:" may be left out */
    {"show-json", "job show J-1 --json", 0, false, false},
    {"bundle", "job bundle J-1 --out bundle", 0, false, false},
    {"record", "paper record J-1 --out bundle", 0, false, false}, /* fonts, and the photo */
    {"seal", "paper seal keep/record.pdf --key rosa.p12 --out bundle --passphrase-fd 3 3<words", 1,
     false, false},
    {"seal-over", "paper seal record.pdf --key rosa.p12 --passphrase-fd 3 3<words", 1, false, true},
    {"record-over", "paper record J-1 --out record.pdf --key rosa.p12 --passphrase-fd 3 3<words", 1,
     false, true},
};

static const char setup[] =
    "set -e\n"
    "printf 'id,type,side,room,substrate\\na,wall,interior,k,wood\\nb,wall,interior,k,wood\\n"
    "c,wall,interior,k,wood\\n' > rows.csv\n"
    "{ echo number,instrument,operator,date,time,opening,component,side,substrate,result\n"
    "for i in 11 12; do echo $i,X-100,rosa,2026-09-14,08:00,W01,sash,interior,wood,0.3; done\n"
    "head -c 1100000 /dev/zero | tr '\\0' '\\n'; } > long.csv\n"
    "cp " MF_SAMPLE "/bagged-waste.png photo.png\n"
    "$MISTFOLD --book firm.book book copy --no-key truck.book --device truck\n"
    "for i in 1 2; do $MISTFOLD --book truck.book --by rosa person add --id t$i --name 'T T'; "
    "done\n"
    "sqlite3 truck.book 'PRAGMA wal_checkpoint(TRUNCATE)'\n"
    "cp firm.book large.book && { echo id,type,side,room,substrate; "
    "seq -f 'l%.0f,wall,interior,k,wood' 5000; } > many.csv\n"
    "$MISTFOLD --book large.book --by rosa component import J-1 many.csv\n"
    "mkdir keep && cp firm.book truck.book keep/\n"
    "echo 'invented words' > words\n"
    /* A key by the openssl program, its passphrase hashed once and not two thousand times: every
     * turn allocates. */
    "openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -subj '/CN=Rosa "
    "Invented' "
    "-days 9 -keyout key.pem -out cert.pem\n"
    "openssl pkcs12 -export -inkey key.pem -in cert.pem -iter 1 -passout file:words -out rosa.p12\n"
    "$MISTFOLD --book firm.book --by rosa paper record J-1 --out keep/record.pdf\n";

static int start(void **state)
{
    static kit k;
    run_result result;
    kit_start(&k);
    kit_chain(&k);
    mf_book_close(k.book);
    k.book = NULL;
    run_shell(&result, k.folder, setup);
    if (result.status != 0)
        print_error("%s", result.err);
    *state = &k;
    return result.status;
}

typedef struct outcome {
    run_result run;
    long count, live; /* as fault.c says */
} outcome;

static bool bundle_is_there(kit *k)
{
    char path[128];
    snprintf(path, sizeof path, "%s/bundle", k->folder);
    return access(path, F_OK) == 0;
}

static void as_before(kit *k)
{
    run_result result;
    char before[128];
    kit_copy_back(k, "firm.book");
    kit_copy_back(k, "truck.book");
    kit_copy_back(k, "record.pdf");
    snprintf(before, sizeof before, "%s/record.pdf.before", k->folder);
    unlink(before);
    if (bundle_is_there(k))
        run_shell(&result, k->folder, "rm -rf bundle");
    assert_false(bundle_is_there(k));
}

/* kind "alloc", "call", or one of them and " FAULT_LASTS=1" */
static void run_with(kit *k, const command *c, const char *kind, long at, outcome *out)
{
    char line[900], path[128];
    as_before(k);
    snprintf(
        line, sizeof line,
        "export FAULT_KIND=%s FAULT_AT=%ld FAULT_SAYS=says LD_PRELOAD=%s/tests/preload/fault.so\n"
        "exec $MISTFOLD --book firm.book --by rosa %s",
        kind, at, getenv("MF_BUILD"), c->words);
    run_shell(&out->run, k->folder, line);
    snprintf(path, sizeof path, "%s/says", k->folder);
    FILE *file = fopen(path, "r"); /* none when it crashed, which its status tells */
    char text[64] = "", *rest = text;
    if (file == NULL || fgets(text, sizeof text, file) == NULL)
        text[0] = '\0';
    if (file != NULL)
        fclose(file);
    unlink(path);
    out->count = strtol(text, &rest, 10);
    out->live = strtol(rest, NULL, 10);
}

static bool is_there(kit *k, const char *name)
{
    char path[128];
    snprintf(path, sizeof path, "%s/%s", k->folder, name);
    return access(path, F_OK) == 0;
}

/* The paper that was there: untouched after a failure, replaced after a success, and no
 * second one beside it. Of calls that fail neither name can be taken away sometimes: then
 * it is whole under one of the two. */
static bool paper_is_good(kit *k, const command *c, const char *kind, int status)
{
    run_result same, kept;
    if (!c->over)
        return true;
    run_shell(&same, k->folder, "cmp -s record.pdf keep/record.pdf");
    run_shell(&kept, k->folder, "cmp -s record.pdf.before keep/record.pdf");
    bool beside = is_there(k, "record.pdf.before");
    if (strncmp(kind, "alloc", 5) == 0)
        return !beside && (status == 0) == (same.status != 0);
    if (status == 0)
        return same.status != 0 && (!beside || kept.status == 0);
    return same.status == 0 || (strcmp(kind, "call FAULT_LASTS=1") == 0 && kept.status == 0);
}

static int64_t entries_in(kit *k)
{
    mf_book *book = NULL;
    mf_book_report report = {0};
    mf_err err = {0};
    mf_status status = mf_book_open(&book, k->path, &err);
    if (status == MF_OK)
        status = mf_book_check(book, &report, &err);
    mf_book_close(book);
    if (status != MF_OK)
        print_error("%s\n", err.what);
    return status == MF_OK ? report.entries : -1;
}

static bool one_clear_line(const char *text)
{
    const char *end = strchr(text, '\n');
    bool begins = strncmp(text, "mistfold: ", 10) == 0 || strncmp(text, "{\"error\":{", 10) == 0;
    return begins && strlen(text) > 20 && end != NULL && end[1] == '\0';
}

static bool is_good(kit *k, const command *c, const char *kind, long at, const outcome *calm)
{
    outcome o;
    run_with(k, c, kind, at, &o);
    int64_t entries = entries_in(k);
    bool ended = o.run.status == 0 || o.run.status == 4;
    bool told = o.run.status == 0 || one_clear_line(o.run.err);
    bool whole = entries == 14 + c->entries || (o.run.status == 4 && entries == 14);
    /* The last fsync may fail after the bytes are on the disk: then an entry that
     * was not acknowledged may be there, whole. An allocation has no such excuse. */
    if (strncmp(kind, "alloc", 5) == 0 && o.run.status == 4)
        whole = entries == 14;
    /* What calls that fail for good keep from being taken away may stay. */
    bool bundle_whole = o.run.status != 4 || strcmp(kind, "call FAULT_LASTS=1") == 0;
    bundle_whole = bundle_whole || !bundle_is_there(k);
    bool paper = paper_is_good(k, c, kind, o.run.status);
    /* What is shown is all of it or an error, never a part that looks whole. */
    bool shown = strncmp(c->name, "show", 4) != 0 || o.run.status != 0 ||
                 strcmp(o.run.out, calm->run.out) == 0;
    bool good = ended && told && whole && bundle_whole && paper && shown && o.live <= calm->live;
    if (!good)
        print_error("%s, %s %ld: exit %d, %lld entries, %ld blocks more%s: %s\n", c->name, kind, at,
                    o.run.status, (long long)entries, o.live - calm->live,
                    !shown         ? ", a part is shown"
                    : !paper       ? ", the paper"
                    : bundle_whole ? ""
                                   : ", half a bundle",
                    o.run.err);
    return good;
}

static void each_fails_once(kit *k, const command *c, const char *kind)
{
    outcome calm;
    const char *most = getenv("MF_TORTURE");
    run_with(k, c, kind, 0, &calm);
    if (calm.run.status != 0)
        print_error("%s\n", calm.run.err);
    assert_int_equal(calm.run.status, 0);
    assert_true(calm.count > 0);
    assert_int_equal(entries_in(k), 14 + c->entries);
    long tries = torture(1, c->all ? (int)calm.count : 300), n = 0, bad = 0;
    if (most != NULL && strtol(most, NULL, 10) > 1)
        tries = strtol(most, NULL, 10);
    long step = calm.count / tries < 1 ? 1 : calm.count / tries;
    for (long at = 1 + step / 2; at <= calm.count; at += step, n++)
        bad += !is_good(k, c, kind, at, &calm);
    print_message("%s: %ld of %ld of kind %s failed\n", c->name, n, calm.count, kind);
    assert_int_equal(bad, 0);
}

/* MF_FAULTS="seal alloc" leaves out the other commands and kinds. */
static bool is_asked(const command *c, const char *kind)
{
    const char *asked = getenv("MF_FAULTS");
    char both[64];
    snprintf(both, sizeof both, "%s %s", c->name, kind);
    return asked == NULL || strcmp(asked, both) == 0;
}

static void all_commands(kit *k, const char *kind)
{
#if defined(__SANITIZE_ADDRESS__) /* it has an allocator of its own */
    skip();
#endif
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++)
        if (is_asked(&commands[i], kind))
            each_fails_once(k, &commands[i], kind);
}

static void allocations(void **state)
{
    all_commands(*state, "alloc");
}

static void system_calls(void **state)
{
    all_commands(*state, "call");
}

static void allocations_for_good(void **state)
{
    all_commands(*state, "alloc FAULT_LASTS=1");
}

static void system_calls_for_good(void **state)
{
    all_commands(*state, "call FAULT_LASTS=1");
}

/* ---- trouble that has a name -------------------------------------------------------------------
 */

/* The folder goes away while the book is open. */
static void vanished_folder(void **state)
{
    kit *k = *state;
    run_result result;
    mf_err err = {0};
    kit c = {.now = k->now};
    run_shell(&result, k->folder, "mkdir gone; cp keep/firm.book gone/");
    char path[128];
    snprintf(path, sizeof path, "%s/gone/firm.book", k->folder);
    assert_int_equal(mf_book_open(&c.book, path, &err), MF_OK);
    run_shell(&result, k->folder, "rm -rf gone");
    mf_status status = kit_try(&c, "person", "", "id", "x", "name", "X X", NULL);
    mf_book_close(c.book);
    assert_true(status == MF_SYSTEM || status == MF_OK); /* the open file may still be written */
    run_shell(&result, k->folder, "$MISTFOLD --book gone/firm.book --by rosa person list");
    assert_int_equal(result.status, 3);
    assert_true(one_clear_line(result.err));
}

static void locked_book(void **state)
{
    kit *k = *state;
    run_result result;
    sqlite3 *other = NULL;
    run_shell(&result, k->folder, "rm -f firm.book-*; cp keep/firm.book .");
    assert_int_equal(sqlite3_open(k->path, &other), SQLITE_OK);
    assert_int_equal(sqlite3_exec(other, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
    run_shell(&result, k->folder,
              "$MISTFOLD --book firm.book --by rosa person add --id x --name 'X X'");
    sqlite3_close(other);
    assert_int_equal(result.status, 4);
    assert_true(one_clear_line(result.err));
    assert_non_null(strstr(result.err, "in use"));
    assert_int_equal(entries_in(k), 14);
}

/* A disk that is full after so many blocks, by a limit on the length of files and, for
 * those who may mount one, on a disk of 1 MiB that something else has filled. */
static void full_disks(void **state)
{
    static const char disk[] =
        "rm -rf firm.book-* bundle; cp keep/firm.book keep/record.pdf .; truncate -s 0 full; "
        "mkdir -p disk && mount -t tmpfs -o size=1M none disk 2>full || exit 77; "
        "cp keep/firm.book disk/; cat /dev/zero > disk/filler 2>full; "
        "$MISTFOLD --book disk/firm.book --by rosa %s; status=$?; "
        "cp disk/firm.book firm.book; cp disk/firm.book-* . 2>full; "
        "umount disk; exit $status";
    static const char limit[] =
        "rm -rf firm.book-* bundle; cp keep/firm.book keep/record.pdf .; ulimit -f %d; "
        "$MISTFOLD --book firm.book --by rosa %s";
    static const int blocks[] = {1, 40, 700, 1500}; /* none: no message either */
    kit *k = *state;
    if (getenv("MF_COVERAGE") != NULL)
        skip(); /* the limit would meet the counters of "make coverage", and they complain */
    char line[900];
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        for (size_t b = 0; b <= sizeof blocks / sizeof blocks[0]; b++) {
            run_result r;
            if (torture(b != i % 5, 0))
                continue; /* a check takes one disk for each command */
            if (b == sizeof blocks / sizeof blocks[0])
                snprintf(line, sizeof line, disk, commands[i].words);
            else
                snprintf(line, sizeof line, limit, blocks[b], commands[i].words);
            if (strcmp(commands[i].name, "merge") == 0 && b == sizeof blocks / sizeof blocks[0])
                continue; /* it reads a second book beside the first */
            run_shell(&r, k->folder, line);
            int64_t entries = entries_in(k);
            bool whole = r.status == 0 ? entries == 14 + commands[i].entries : entries == 14;
            if (r.status != 77 && ((r.status != 0 && r.status != 4) || !whole ||
                                   (r.status == 4 && !one_clear_line(r.err))))
                fail_msg("%s: exit %d, %lld entries: %s", line, r.status, (long long)entries,
                         r.err);
        }
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(locked_book),          TEST(vanished_folder), TEST(full_disks),
        TEST(system_calls),         TEST(allocations),     TEST(system_calls_for_good),
        TEST(allocations_for_good),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
