/* book_kit.h - a book in a folder of its own, with an invented firm and house.
 * All names and values are constructed. */
#ifndef TESTS_BOOK_KIT_H
#define TESTS_BOOK_KIT_H

#include "support/cmocka_all.h"
#include "support/run.h"
#include <mistfold/book.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef struct kit {
    char folder[64];
    char path[96];
    mf_book *book;
    mf_now now;
    mf_err err;
    char id[MF_ENTRY_ID]; /* of the entry written last */
} kit;

static inline mf_now kit_time(void)
{
    return (mf_now){mf_day_from(2026, 9, 15), "2026-09-15T14:00:00Z", "rosa", NULL};
}

static inline void kit_start(kit *k)
{
    *k = (kit){.now = kit_time()};
    run_folder(k->folder);
    snprintf(k->path, sizeof k->path, "%s/firm.book", k->folder);
    assert_int_equal(mf_book_new(&k->book, k->path, "office", &k->err), MF_OK);
}

static inline void kit_stop(kit *k)
{
    mf_book_close(k->book);
    run_remove(k->folder);
}

/* A draft of kind with field, text pairs up to a NULL. */
static inline mf_draft *kit_draft_list(kit *k, const char *kind, va_list args)
{
    mf_draft *draft = NULL;
    assert_int_equal(mf_draft_new(&draft, mf_kind_named(kind), &k->err), MF_OK);
    for (const char *field = va_arg(args, const char *); field != NULL;
         field = va_arg(args, const char *)) {
        const char *text = va_arg(args, const char *);
        mf_status status = mf_draft_set(draft, field, text, "", "", k->now.today, &k->err);
        if (status != MF_OK)
            print_error("%s %s=%s: %s\n", kind, field, text, k->err.what);
        assert_int_equal(status, MF_OK);
    }
    return draft;
}

static inline mf_draft *kit_draft(kit *k, const char *kind, ...)
{
    va_list args;
    va_start(args, kind);
    mf_draft *draft = kit_draft_list(k, kind, args);
    va_end(args);
    return draft;
}

/* Writes such an entry and returns what mf_book_write says. */
static inline mf_status kit_try(kit *k, const char *kind, const char *job, ...)
{
    va_list args;
    va_start(args, job);
    mf_draft *draft = kit_draft_list(k, kind, args);
    va_end(args);
    k->err = (mf_err){0};
    mf_status status = mf_book_write(k->book, draft, job, &k->now, "", k->id, &k->err);
    mf_draft_free(draft);
    return status;
}

#define kit_log(k, ...)                                                                            \
    do {                                                                                           \
        mf_status kit_status = kit_try(k, __VA_ARGS__, NULL);                                      \
        if (kit_status != MF_OK)                                                                   \
            print_error("%s: %s\n", (k)->err.where, (k)->err.what);                                \
        assert_int_equal(kit_status, MF_OK);                                                       \
    } while (0)

/* office/1 to office/9: two persons, an instrument, the job J-1 with the opening
 * W01 and four components. */
static inline void kit_house(kit *k)
{
    kit_log(k, "person", "", "id", "rosa", "name", "Rosa Invented");
    kit_log(k, "person", "", "id", "ana", "name", "Ana Invented");
    kit_log(k, "instrument", "", "serial", "X-100", "film", "1.04", "cal-low", "0.94", "cal-high",
            "1.14");
    kit_log(k, "house", "J-1", "id", "J-1", "address", "12 Invented Street", "year-built", "1926",
            "building", "dwelling", "owner-occupied", "yes", "work", "window-replacement",
            "description", "replace nine windows", "start", "2026-09-21");
    kit_log(k, "opening", "J-1", "id", "W01", "kind", "window", "room", "kitchen", "elevation",
            "north");
    kit_log(k, "component", "J-1", "id", "W01.sash", "opening", "W01", "type", "sash", "side",
            "interior", "substrate", "wood");
    kit_log(k, "component", "J-1", "id", "W01.sill", "opening", "W01", "type", "interior-sill",
            "side", "interior", "substrate", "wood");
    kit_log(k, "component", "J-1", "id", "W01.sash-out", "opening", "W01", "type", "sash", "side",
            "exterior", "substrate", "wood");
    kit_log(k, "component", "J-1", "id", "wall-n", "type", "wall", "side", "interior", "room",
            "kitchen", "substrate", "plaster");
}

/* office/10 when it follows kit_house. */
static inline void kit_reading(kit *k, const char *number, const char *result)
{
    kit_log(k, "reading", "J-1", "number", number, "instrument", "X-100", "operator", "rosa",
            "purpose", "paint", "component", "W01.sash", "substrate", "wood", "result", result,
            "on", "2026-09-14", "time", "08:30");
}

/* Logs the positive test, a reading, kit_test or chip by rosa, of a part on plaster. */
static inline void kit_positive(kit *k, const char *kind, const char *job, const char *part)
{
    if (strcmp(kind, "reading") == 0)
        kit_log(k, kind, job, "number", "1", "instrument", "X-100", "operator", "rosa", "purpose",
                "paint", "component", part, "substrate", "plaster", "result", "1.1", "on",
                "2026-08-14");
    else if (strcmp(kind, "kit_test") == 0)
        kit_log(k, kind, job, "component", part, "tester", "rosa", "maker", "Invented", "model",
                "One", "recognized", "yes", "result", "positive", "on", "2026-08-14");
    else
        kit_log(k, "chip", job, "component", part, "sampler", "rosa", "laboratory", "Invented",
                "lab-address", "1 Invented Road", "nllap", "yes", "on", "2026-08-14", "result",
                "1.2");
}

/* The path of a file in its folder. */
static inline void kit_in_folder(const kit *k, const char *name, char out[128])
{
    snprintf(out, 128, "%.60s/%.60s", k->folder, name);
}

/* Of segments that name no attachment. */
static inline mf_status kit_no_content(void *data, const char *sha256, mf_bytes *out, mf_err *err)
{
    (void)data;
    (void)sha256;
    (void)out;
    (void)err;
    return MF_INPUT;
}

/* Commands of the shell in its folder, which must go well. */
static inline void kit_shell(const kit *k, const char *command)
{
    run_result result;
    run_shell(&result, k->folder, command);
    if (result.status != 0)
        print_error("%s", result.err);
    assert_int_equal(result.status, 0);
}

/* What the stock sqlite3 program says to an SQL text; the shell quotes it in "". */
static inline void kit_sqlite(kit *k, const char *sql, run_result *result)
{
    char command[4096];
    snprintf(command, sizeof command, "sqlite3 firm.book \"%s\"", sql);
    run_shell(result, k->folder, command);
}

/* As kit_sqlite for one value, which must be want. */
static inline void kit_sqlite_says(kit *k, const char *sql, const char *want)
{
    run_result result;
    kit_sqlite(k, sql, &result);
    if (result.status != 0)
        print_error("%s\n", result.err);
    assert_int_equal(result.status, 0);
    assert_string_equal(result.out, want);
}

static inline int64_t kit_count(kit *k)
{
    run_result result;
    kit_sqlite(k, "SELECT count(*) FROM entry", &result);
    return strtoll(result.out, NULL, 10);
}

/* kit_house, a name with quotes in it, readings 1 to 3 (office/11, 12, 14), the
 * second of them corrected by office/13. */
static inline void kit_chain(kit *k)
{
    kit_house(k);
    kit_log(k, "person", "", "id", "jose", "name", "Jos\xC3\xA9 \"el \\ Pintor\" Inventado");
    kit_reading(k, "1", "1.4"); /* office/11 */
    kit_reading(k, "2", "0.3");
    mf_draft *draft = kit_draft(k, "reading", "result", "0.4", NULL);
    assert_int_equal(mf_book_correct(k->book, "office/12", draft, "misread", &k->now, k->id, NULL),
                     MF_OK);
    mf_draft_free(draft);
    kit_reading(k, "3", "-0.1"); /* office/14 */
}

/* Of a test: a book of its own in *state, empty or as kit_house or kit_chain fills it,
 * and its end. There is room for one at a time. */
static inline int kit_with_book(void **state)
{
    static kit k;
    kit_start(&k);
    *state = &k;
    return 0;
}

static inline int kit_with_house(void **state)
{
    kit_with_book(state);
    kit_house(*state);
    return 0;
}

static inline int kit_with_chain(void **state)
{
    kit_with_book(state);
    kit_chain(*state);
    return 0;
}

static inline int kit_done(void **state)
{
    kit_stop(*state);
    return 0;
}

/* The file in the folder keep again in its place, without the logs of the one it takes
 * the place of. By the test itself: a shell for it would take longer than most runs. */
static inline void kit_copy_back(const kit *k, const char *name)
{
    static const char *const logs[] = {"-wal", "-shm", "-journal"};
    static char bytes[1 << 16];
    char from[160], to[160], log[176];
    size_t n;
    snprintf(from, sizeof from, "%s/keep/%s", k->folder, name);
    snprintf(to, sizeof to, "%s/%s", k->folder, name);
    for (size_t i = 0; i < sizeof logs / sizeof logs[0]; i++) {
        snprintf(log, sizeof log, "%s%s", to, logs[i]);
        unlink(log);
    }
    FILE *in = fopen(from, "rb"), *out = fopen(to, "wb");
    assert_true(in != NULL && out != NULL);
    while ((n = fread(bytes, 1, sizeof bytes, in)) > 0)
        assert_int_equal(fwrite(bytes, 1, n, out), n);
    fclose(in);
    assert_int_equal(fclose(out), 0);
}

/* What a forger does: takes the guards away, changes, puts them back. */
static inline void kit_force(kit *k, const char *sql)
{
    run_result result;
    char script[4096];
    snprintf(script, sizeof script,
             "set -e\n"
             "sqlite3 firm.book \"SELECT sql || ';' FROM sqlite_schema WHERE type = 'trigger'\" "
             "> guards.sql\n"
             "sqlite3 firm.book \"SELECT 'DROP TRIGGER ' || quote(name) || ';' FROM sqlite_schema "
             "WHERE type = 'trigger'\" > drop.sql\n"
             "sqlite3 firm.book < drop.sql\n"
             "sqlite3 firm.book \"%s\"\n"
             "sqlite3 firm.book < guards.sql\n",
             sql);
    run_shell(&result, k->folder, script);
    if (result.status != 0)
        print_error("%s", result.err);
    assert_int_equal(result.status, 0);
}

#endif
