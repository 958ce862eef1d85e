/* Books that somebody else made, and lists that are read into one. */
#include "fuzz/fuzz.h"

#include <mistfold/book.h>
#include <mistfold/record.h>
#include <sqlite3.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { BOOK_MAX = 1024 * 1024, STEPS = 200 };

static mf_book *ours;

static mf_now now(void)
{
    return (mf_now){mf_day_from(2026, 9, 15), "2026-09-15T14:00:00Z", "rosa", NULL};
}

static void close_ours(void)
{
    mf_book_close(ours);
    ours = NULL;
}

static void log_one(const char *kind, const char *job, const char *heads, const char *row)
{
    char csv[512];
    mf_import_report report = {0};
    mf_now at = now();
    int len = snprintf(csv, sizeof csv, "%s\n%s\n", heads, row);
    FUZZ_HOLDS(mf_import_kind(ours, job, mf_kind_named(kind), "seed", csv, (size_t)len, &at, false,
                              &report, NULL) == MF_OK);
}

/* A book with a firm, an instrument and a job; all invented. */
mf_book *fuzz_our_book(void)
{
    static bool asked;
    char path[160];
    if (ours != NULL)
        return ours;
    if (!asked)
        atexit(close_ours);
    asked = true;
    static const char *const ends[] = {"ours.book", "ours.book-wal", "ours.book-shm"};
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++)
        unlink(fuzz_path(path, ends[i]));
    FUZZ_HOLDS(mf_book_new(&ours, fuzz_path(path, "ours.book"), "home", NULL) == MF_OK);
    log_one("person", "", "id,name", "rosa,Rosa Invented");
    log_one("instrument", "", "serial,film,cal-low,cal-high", "X-100,1.04,0.94,1.14");
    log_one("house", "J-1", "id,address,year-built,building,owner-occupied,work,description,start",
            "J-1,12 Invented Street,1926,dwelling,yes,window-replacement,nine,2026-09-21");
    log_one("opening", "J-1", "id,kind,room,elevation", "W01,window,kitchen,north");
    log_one("component", "J-1", "id,opening,type,side,substrate",
            "W01.sash,W01,sash,interior,wood");
    return ours;
}

/* ---- lists --------------------------------------------------------------------------------- */

typedef struct piece {
    const char *text;
    size_t len, at;
} piece;

static mf_status read_piece(void *data, char *to, size_t cap, size_t *got, mf_err *err)
{
    piece *p = data;
    size_t left = p->len - p->at;
    (void)err;
    *got = left < cap ? left : cap;
    if (*got > 0)
        memcpy(to, p->text + p->at, *got);
    p->at += *got;
    return MF_OK;
}

static mf_status rewind_piece(void *data, mf_err *err)
{
    (void)err;
    ((piece *)data)->at = 0;
    return MF_OK;
}

static void ignore_fault(void *data, const mf_err *fault)
{
    FUZZ_HOLDS(fault->what[0] != '\0');
    ++*(int64_t *)data;
}

/* An instrument's export. A first line that begins with ! is the map of its heads. */
void fuzz_intake(const uint8_t *data, size_t len)
{
    char before[MF_HASH_HEX], after[MF_HASH_HEX];
    int64_t faults = 0;
    mf_err err = {0};
    mf_import_report report = {0};
    char *text = fuzz_text(data, len), *map = "";
    mf_now at = now();
    piece p = {text, len, 0};
    char *end = text[0] == '!' ? strchr(text, '\n') : NULL;
    if (end != NULL) {
        *end = '\0';
        map = text + 1;
        p = (piece){end + 1, len - (size_t)(end + 1 - text), 0};
    }
    mf_import_source source = {read_piece, rewind_piece, &p, 0};
    mf_import_ask ask = {.job = "J-1",
                         .name = "x.csv",
                         .source = &source,
                         .now = &at,
                         .dry_run = true,
                         .map = map,
                         .instrument = "",
                         .operator_id = "",
                         .decimal_comma = len % 2 == 1,
                         .day_first = len % 4 >= 2,
                         .fault = ignore_fault,
                         .data = &faults};
    FUZZ_HOLDS(mf_book_head(fuzz_our_book(), before, &err) == MF_OK);
    mf_status status = mf_import_readings_from(ours, &ask, &report, &err);
    FUZZ_HOLDS(status == MF_OK || status == MF_INPUT || status == MF_USAGE);
    FUZZ_HOLDS(status == MF_OK || err.what[0] != '\0');
    FUZZ_HOLDS(status != MF_OK || faults == 0);
    FUZZ_HOLDS(mf_book_head(ours, after, &err) == MF_OK && strcmp(before, after) == 0);
    free(text);
}

/* A list of the kind that the first line names: profiles of instruments, limits of
 * a place, people, openings and all the others. */
void fuzz_lists(const uint8_t *data, size_t len)
{
    char before[MF_HASH_HEX], after[MF_HASH_HEX];
    mf_err err = {0};
    mf_import_report report = {0};
    char *text = fuzz_text(data, len), *end = strchr(text, '\n');
    mf_now at = now();
    if (end != NULL)
        *end = '\0';
    const mf_kind *kind = mf_kind_named(text);
    if (end != NULL && kind != NULL) {
        FUZZ_HOLDS(mf_book_head(fuzz_our_book(), before, &err) == MF_OK);
        mf_status status = mf_import_kind(ours, kind->of_firm ? "" : "J-1", kind, "x.csv", end + 1,
                                          len - (size_t)(end + 1 - text), &at, true, &report, &err);
        FUZZ_HOLDS(status == MF_OK || status == MF_INPUT || status == MF_USAGE);
        FUZZ_HOLDS(status == MF_OK || err.what[0] != '\0');
        FUZZ_HOLDS(mf_book_head(ours, after, &err) == MF_OK && strcmp(before, after) == 0);
    }
    free(text);
}

/* ---- a book of somebody else's ----------------------------------------------------------------
 */

static size_t read_book(const char *path, unsigned char book[BOOK_MAX])
{
    FILE *file = fopen(path, "rb");
    FUZZ_HOLDS(file != NULL);
    size_t len = fread(book, 1, BOOK_MAX, file);
    fclose(file);
    return len;
}

/* What the jobs of the books of the seeds say, as records. */
enum { KNOWN_BOOKS = 2, KNOWN_JOBS = 4 };
typedef struct known_book {
    char head[MF_HASH_HEX];
    char job[KNOWN_JOBS][16];
    mf_bytes record[KNOWN_JOBS];
    size_t n;
} known_book;
static known_book known[KNOWN_BOOKS];

static void drop_known(void)
{
    for (size_t i = 0; i < KNOWN_BOOKS; i++)
        for (size_t k = 0; k < known[i].n; k++)
            mf_bytes_free(&known[i].record[k]);
}

/* False when the job cannot be loaded, or a text of it is none. */
static bool record_of(mf_book *book, const char *id, mf_bytes *out)
{
    mf_job *job = NULL;
    mf_record_ask ask = {.today = mf_day_from(2026, 9, 15), .head = "", .printed_at = ""};
    if (mf_book_job(book, id, &job, NULL) != MF_OK)
        return false;
    ask.job = job;
    mf_status status = mf_record_write(out, &ask, NULL);
    mf_book_job_free(job);
    return status == MF_OK;
}

typedef struct look {
    mf_book *book;
    known_book *is; /* the one it has the head of; NULL: it has other entries */
    bool faults;    /* of a job */
    bool other;     /* a job without a fault says something else than it did */
    size_t jobs;
} look;

static bool learn(const char *job, const char *address, mf_day start, void *data)
{
    look *l = data;
    (void)address;
    (void)start;
    FUZZ_HOLDS(l->is->n < KNOWN_JOBS);
    snprintf(l->is->job[l->is->n], sizeof l->is->job[0], "%s", job);
    FUZZ_HOLDS(record_of(l->book, job, &l->is->record[l->is->n]));
    l->is->n++;
    return true;
}

static void learn_all(void)
{
    static const char *const names[KNOWN_BOOKS] = {"good.book", "two.book"};
    static unsigned char bytes[BOOK_MAX];
    char path[160];
    if (known[0].n > 0)
        return;
    for (size_t i = 0; i < KNOWN_BOOKS; i++) {
        look l = {.is = &known[i]};
        snprintf(path, sizeof path, MF_TESTS "/fuzz/seeds/book/%s", names[i]);
        size_t len = read_book(path, bytes);
        fuzz_write(fuzz_path(path, "other.book"), bytes, len);
        FUZZ_HOLDS(mf_book_open(&l.book, path, NULL) == MF_OK);
        FUZZ_HOLDS(mf_book_head(l.book, known[i].head, NULL) == MF_OK);
        FUZZ_HOLDS(mf_book_jobs(l.book, learn, &l, NULL) == MF_OK);
        mf_book_close(l.book);
        unlink(path);
    }
    atexit(drop_known);
}

static bool says_the_same(const known_book *is, const char *job, const mf_bytes *record)
{
    size_t k = 0;
    while (k < is->n && strcmp(is->job[k], job) != 0)
        k++;
    return k < is->n && is->record[k].len == record->len &&
           memcmp(is->record[k].data, record->data, record->len) == 0;
}

static bool look_at_job(const char *job, const char *address, mf_day start, void *data)
{
    look *l = data;
    mf_book_report report;
    mf_bytes record = {0};
    mf_err err = {0};
    (void)address;
    (void)start;
    mf_status status = mf_book_check_job(l->book, job, &report, &err);
    FUZZ_HOLDS(status == MF_OK || (err.what[0] != '\0' && err.mend[0] != '\0'));
    l->faults = l->faults || status != MF_OK;
    bool written = record_of(l->book, job, &record);
    FUZZ_HOLDS(written || status != MF_OK);
    if (status == MF_OK && l->is != NULL && !says_the_same(l->is, job, &record))
        l->other = true;
    l->jobs++;
    mf_bytes_free(&record);
    return true;
}

/* It may be refused or read; nothing else may come of it. What is whole as a whole is
 * whole in each job. */
static void open_other(const char *path)
{
    char head[MF_HASH_HEX];
    look l = {0};
    mf_book_report report;
    mf_err err = {0};
    mf_status status = mf_book_open(&l.book, path, &err);
    FUZZ_HOLDS((status == MF_OK) == (l.book != NULL));
    FUZZ_HOLDS(status == MF_OK || (err.what[0] != '\0' && err.mend[0] != '\0'));
    if (status != MF_OK)
        return;
    if (mf_book_head(l.book, head, &err) == MF_OK)
        for (size_t i = 0; i < KNOWN_BOOKS; i++)
            if (strcmp(head, known[i].head) == 0)
                l.is = &known[i];
    mf_book_jobs(l.book, look_at_job, &l, &err);
    /* The entries are those of a known book: so is what its jobs say, or a fault is found.
     * That another job is at the same address no more its own check alone tells. */
    FUZZ_HOLDS(!l.other || l.faults || l.jobs != l.is->n);
    FUZZ_HOLDS(mf_book_check(l.book, &report, &err) != MF_OK || !l.faults);
    mf_book_close(l.book);
}

/* A merge that is refused changes nothing; one that is done leaves a good book. */
static void merge_other(const char *path)
{
    char before[MF_HASH_HEX], after[MF_HASH_HEX];
    mf_merge_report merged;
    mf_book_report report;
    mf_err err = {0};
    FUZZ_HOLDS(mf_book_head(fuzz_our_book(), before, &err) == MF_OK);
    mf_status status = mf_book_merge(ours, path, NULL, NULL, &merged, &err);
    FUZZ_HOLDS(mf_book_head(ours, after, NULL) == MF_OK);
    if (status != MF_OK) {
        FUZZ_HOLDS(err.what[0] != '\0' && err.mend[0] != '\0' && strcmp(before, after) == 0);
        return;
    }
    FUZZ_HOLDS(mf_book_check(ours, &report, &err) == MF_OK);
    if (strcmp(before, after) != 0)
        close_ours();
}

static void judge(const char *path)
{
    static const char *const ends[] = {"other.book-wal", "other.book-shm", "other.book-journal"};
    char beside[160];
    merge_other(path);
    open_other(path);
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++)
        unlink(fuzz_path(beside, ends[i]));
}

/* The file itself is made up. */
void fuzz_book(const uint8_t *data, size_t len)
{
    char path[160];
    if (len > BOOK_MAX)
        return;
    learn_all();
    fuzz_write(fuzz_path(path, "other.book"), data, len);
    judge(path);
}

/* ---- a sound file with another schema
 * ------------------------------------------------------------ */

static int stop_now(void *left)
{
    return --*(int *)left < 0;
}

/* Only changes of the schema and of rows: nothing that leaves the file. */
static int allow(void *data, int action, const char *a, const char *b, const char *c, const char *d)
{
    (void)data;
    (void)a;
    (void)b;
    (void)c;
    (void)d;
    return action == SQLITE_ATTACH || action == SQLITE_DETACH ? SQLITE_DENY : SQLITE_OK;
}

static void change(const char *path, const char *sql)
{
    sqlite3 *db = NULL;
    int left = STEPS;
    FUZZ_HOLDS(sqlite3_open(path, &db) == SQLITE_OK);
    sqlite3_exec(db, "PRAGMA synchronous=OFF; PRAGMA writable_schema=ON", NULL, NULL, NULL);
    /* A forger can go round the guards and leave them in place. */
    sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
    sqlite3_limit(db, SQLITE_LIMIT_LENGTH, BOOK_MAX);
    sqlite3_set_authorizer(db, allow, NULL);
    sqlite3_progress_handler(db, 1000, stop_now, &left);
    sqlite3_exec(db, sql, NULL, NULL, NULL);
    sqlite3_close(db);
}

/* The text is SQL that a forger runs over the good book of the seeds. Most made-up text
 * is no SQL and changes nothing: judging the good book anew would take most of the time. */
void fuzz_schema(const uint8_t *data, size_t len)
{
    static unsigned char good[BOOK_MAX], forged[BOOK_MAX];
    static size_t good_len;
    char path[160];
    learn_all();
    if (good_len == 0)
        good_len = read_book(MF_TESTS "/fuzz/seeds/book/two.book", good);
    char *sql = fuzz_text(data, len);
    fuzz_write(fuzz_path(path, "other.book"), good, good_len);
    change(path, sql);
    if (read_book(path, forged) != good_len || memcmp(forged, good, good_len) != 0)
        judge(path);
    free(sql);
}
