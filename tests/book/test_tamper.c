/* Every change is found: fields and bytes of a book are changed at random, one at
 * a time, as a forger with sqlite3(1) or a disk that rots would. "make torture"
 * tries ten thousand. A change of a field is found and its entry named; one of a byte
 * is found, or all that sqlite3(1) reads is as before. All constructed. */
#include "book/room.h"
#include "book_kit.h"
#include "support/torture.h"
#include "tables_kit.h"
#include <unistd.h>

typedef struct tamper {
    kit k;
    uint64_t seed;
    char *good; /* the untouched file */
    size_t size;
    char want[MF_DIGEST_HEX];
} tamper;

static const unsigned char png[] = "\x89PNG\r\n\x1A\n\0\0\0\rIHDR\0\0\0\1\0\0\0\1\b\0\0\0\0"
                                   "picture, invented\0\0\0\0IEND\xAE\x42\x60\x82";

static void attach(kit *k, const char *about, const char *note)
{
    unsigned char bytes[sizeof png + 1000];
    memset(bytes, note[0], sizeof bytes);
    memcpy(bytes, png, 40);
    memcpy(bytes + sizeof bytes - 8, png + sizeof png - 9, 8);
    mf_attach_ask ask = {"J-1", about, bytes, sizeof bytes, "a.png", note};
    mf_status status = mf_book_attach(k->book, &ask, &k->now, k->id, NULL, &k->err);
    if (status != MF_OK)
        print_error("%s\n", k->err.what);
    assert_int_equal(status, MF_OK);
}

static void read_good(tamper *t)
{
    FILE *file = fopen(t->k.path, "rb");
    assert_non_null(file);
    assert_int_equal(fseek(file, 0, SEEK_END), 0);
    t->size = (size_t)ftell(file);
    t->good = malloc(t->size);
    assert_non_null(t->good);
    rewind(file);
    assert_int_equal(fread(t->good, 1, t->size, file), t->size);
    fclose(file);
}

static void write_file(const tamper *t, const char *bytes)
{
    char beside[128];
    FILE *file = fopen(t->k.path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, t->size, file), t->size);
    assert_int_equal(fclose(file), 0);
    snprintf(beside, sizeof beside, "%s-wal", t->k.path);
    unlink(beside);
    snprintf(beside, sizeof beside, "%s-shm", t->k.path);
    unlink(beside);
}

static int start(void **state)
{
    static tamper t;
    t = (tamper){.seed = 4242};
    kit_start(&t.k);
    kit_chain(&t.k);
    for (int i = 4; i < 12; i++) {
        char number[16];
        snprintf(number, sizeof number, "%d", i);
        kit_reading(&t.k, number, "0.7");
    }
    attach(&t.k, "office/12", "x");
    attach(&t.k, "", "y");
    mf_book_close(t.k.book); /* the last connection moves the log into the file */
    t.k.book = NULL;
    read_good(&t);
    *state = &t;
    return 0;
}

static int stop(void **state)
{
    tamper *t = *state;
    free(t->good);
    kit_stop(&t->k);
    return 0;
}

/* ---- the check ------------------------------------------------------------------------------- */

/* MF_OK when nothing was found. */
static mf_status check(tamper *t, mf_book_report *report)
{
    mf_book *book = NULL;
    mf_status status = mf_book_open(&book, t->k.path, &t->k.err);
    if (status == MF_OK)
        status = mf_book_check(book, report, &t->k.err);
    mf_book_close(book);
    return status;
}

/* Everything there is to read, by our own hand over SQLite alone. */
static void read_all(sqlite3 *db, const char *sql, mf_buf *out)
{
    sqlite3_stmt *stmt = NULL;
    if (sqlite3_prepare_v2(db, sql, -1, &stmt, NULL) != SQLITE_OK) {
        mf_buf_printf(out, "cannot read %s\n", sql);
        return;
    }
    while (sqlite3_step(stmt) == SQLITE_ROW)
        for (int i = 0; i < sqlite3_column_count(stmt); i++) {
            mf_buf_printf(out, "%d:", sqlite3_column_type(stmt, i));
            mf_buf_add(out, sqlite3_column_blob(stmt, i), (size_t)sqlite3_column_bytes(stmt, i));
            mf_buf_text(out, "|");
        }
    sqlite3_finalize(stmt);
}

static void hash_all(const char *path, char out[MF_DIGEST_HEX])
{
    sqlite3 *db = NULL;
    mf_buf text = {0};
    char sql[120];
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    if (sqlite3_open_v2(path, &db, SQLITE_OPEN_READONLY, NULL) == SQLITE_OK) {
        read_all(db, "SELECT rowid, * FROM entry ORDER BY rowid", &text);
        read_all(db, "SELECT * FROM content ORDER BY sha256", &text);
        read_all(db, "SELECT * FROM correction ORDER BY entry", &text);
        read_all(db, "SELECT * FROM corrects ORDER BY device, seq", &text);
        read_all(db, "SELECT * FROM held ORDER BY job", &text);
        read_all(db, "SELECT * FROM place ORDER BY job", &text);
        read_all(db, "SELECT * FROM due ORDER BY job, what, entry", &text);
        for (size_t i = 0; i < count; i++) {
            snprintf(sql, sizeof sql, "SELECT * FROM \"%s\" ORDER BY entry", kinds[i].name);
            read_all(db, sql, &text);
        }
    }
    sqlite3_close(db);
    assert_false(text.failed);
    assert_true(mf_digest_hex(mf_buf_str(&text), text.len, out));
    mf_buf_free(&text);
}

/* ---- bytes --------------------------------------------------------------------------------------
 */

static void bytes_at_random(void **state)
{
    tamper *t = *state;
    int n = torture(60, 5000), found = 0, harmless = 0;
    char want[MF_DIGEST_HEX], is[MF_DIGEST_HEX];
    mf_book_report report;
    char *bytes = malloc(t->size);
    assert_non_null(bytes);
    hash_all(t->k.path, want);
    while (found < n) {
        size_t at = torture_below(&t->seed, t->size);
        if (t->good[at] == 0) /* mostly empty room in a page */
            continue;
        memcpy(bytes, t->good, t->size);
        bytes[at] = (char)(bytes[at] ^ (1 << torture_below(&t->seed, 8)));
        write_file(t, bytes);
        hash_all(t->k.path, is);
        mf_status status = check(t, &report);
        found += status != MF_OK;
        harmless += status == MF_OK;
        if (status == MF_OK && strcmp(is, want) != 0)
            fail_msg("the change of byte %zu was not found", at);
    }
    print_message("%d changes of a byte found; %d more lay where the file holds nothing\n", found,
                  harmless);
    free(bytes);
}

/* ---- fields ------------------------------------------------------------------------------------
 */

/* A column of a row, of any table that counts. */
typedef struct spot {
    char table[40], column[40], entry[80];
    int64_t rowid;
} spot;

static void exec(sqlite3 *db, const char *sql)
{
    char *message = NULL;
    if (sqlite3_exec(db, sql, NULL, NULL, &message) != SQLITE_OK)
        fail_msg("%s: %s", sql, message);
}

static bool is_index(const char *table)
{
    return strstr(" place due corrects held ", table) != NULL;
}

static size_t list_spots(const char *path, spot **out)
{
    static const char sql[] =
        "SELECT m.name, i.name FROM sqlite_schema AS m JOIN pragma_table_info(m.name) AS i"
        " WHERE m.type = 'table' AND m.name NOT IN ('meta', 'verified', 'settled')"
        " AND m.name NOT LIKE 'find%'"; /* notes, and an index: test_settled.c */
    sqlite3 *db = NULL;
    sqlite3_stmt *columns = NULL, *rows = NULL;
    size_t n = 0, cap = 0;
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &columns, NULL), SQLITE_OK);
    while (sqlite3_step(columns) == SQLITE_ROW) {
        char query[240];
        const char *table = (const char *)sqlite3_column_text(columns, 0);
        const char *name = strcmp(table, "entry") == 0     ? "device || '/' || seq"
                           : strcmp(table, "content") == 0 ? "sha256"
                                                           : "job";
        snprintf(query, sizeof query, "SELECT rowid, %s FROM \"%s\"", name, table);
        assert_int_equal(sqlite3_prepare_v2(db, query, -1, &rows, NULL), SQLITE_OK);
        while (sqlite3_step(rows) == SQLITE_ROW) {
            if (n == cap) {
                cap = cap == 0 ? 256 : cap * 2;
                *out = realloc(*out, cap * sizeof **out);
                assert_non_null(*out);
            }
            spot *it = &(*out)[n++];
            *it = (spot){.rowid = sqlite3_column_int64(rows, 0)};
            snprintf(it->table, sizeof it->table, "%s", table);
            snprintf(it->column, sizeof it->column, "%s",
                     (const char *)sqlite3_column_text(columns, 1));
            snprintf(it->entry, sizeof it->entry, "%s", (const char *)sqlite3_column_text(rows, 1));
        }
        sqlite3_finalize(rows);
    }
    sqlite3_finalize(columns);
    sqlite3_close(db);
    assert_true(n > 0);
    return n;
}

/* The triggers away, the change, the triggers back, as they were. */
static void change(const char *path, const char *sql)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *stmt = NULL;
    mf_buf drop = {0}, make = {0};
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db,
                                        "SELECT name, sql FROM sqlite_schema"
                                        " WHERE type = 'trigger'",
                                        -1, &stmt, NULL),
                     SQLITE_OK);
    while (sqlite3_step(stmt) == SQLITE_ROW) {
        mf_buf_printf(&drop, "DROP TRIGGER \"%s\";", (const char *)sqlite3_column_text(stmt, 0));
        mf_buf_printf(&make, "%s;", (const char *)sqlite3_column_text(stmt, 1));
    }
    sqlite3_finalize(stmt);
    exec(db, "BEGIN");
    exec(db, drop.data);
    exec(db, sql);
    exec(db, make.data);
    exec(db, "COMMIT");
    mf_buf_free(&drop);
    mf_buf_free(&make);
    sqlite3_close(db);
}

/* How a value is changed, by what it is. %s is the column. */
static const char *const changes[] = {
    "CASE typeof(%1$s) WHEN 'integer' THEN %1$s + 1 WHEN 'null' THEN 1"
    " WHEN 'blob' THEN CAST(substr(%1$s, 1, length(%1$s) - 1) || x'00' AS BLOB) ELSE %1$s || 'x' "
    "END",
    "CASE typeof(%1$s) WHEN 'integer' THEN -%1$s - 7 WHEN 'null' THEN 0"
    " WHEN 'blob' THEN CAST(x'aa' || substr(%1$s, 2) AS BLOB) ELSE substr(%1$s, 2) || 'z' END",
    "CASE typeof(%1$s) WHEN 'integer' THEN %1$s * 10 + 3 WHEN 'null' THEN 7"
    " WHEN 'blob' THEN x'' ELSE 'q' || substr(%1$s, 2) END",
    "CASE typeof(%1$s) WHEN 'integer' THEN %1$s - 1 WHEN 'null' THEN 2"
    " WHEN 'blob' THEN CAST(%1$s || x'00' AS BLOB) ELSE %1$s || char(0) || 'x' END",
};

static void change_spot(tamper *t, const spot *it, size_t how)
{
    char value[600], column[44], sql[900];
    snprintf(column, sizeof column, "\"%s\"", it->column);
    snprintf(value, sizeof value, changes[how], column);
    snprintf(sql, sizeof sql, "UPDATE OR IGNORE \"%s\" SET %s = %s WHERE rowid = %lld", it->table,
             column, value, (long long)it->rowid);
    change(t->k.path, sql);
}

/* Its entry, or for the entry's own name its neighbor. */
static bool located(const spot *it, const mf_book_report *report)
{
    char whole[100];
    bool moved = strcmp(it->table, "entry") == 0 &&
                 (strcmp(it->column, "device") == 0 || strcmp(it->column, "seq") == 0);
    if (strcmp(it->table, "content") == 0)
        return strstr(report->first, "attachment") != NULL;
    if (is_index(it->table))
        return strncmp(report->first, "job ", 4) == 0;
    snprintf(whole, sizeof whole, "entry %s: ", it->entry);
    return moved || strncmp(report->first, whole, strlen(whole)) == 0;
}

static void fields_at_random(void **state)
{
    tamper *t = *state;
    spot *spots = NULL;
    int n = torture(100, 5000), changed = 0, impossible = 0, elsewhere = 0;
    mf_book_report report;
    char want[MF_DIGEST_HEX], is[MF_DIGEST_HEX];
    write_file(t, t->good);
    hash_all(t->k.path, want);
    size_t count = list_spots(t->k.path, &spots);
    write_file(t, t->good);
    while (changed < n) {
        const spot *it = &spots[torture_below(&t->seed, count)];
        change_spot(t, it, torture_below(&t->seed, sizeof changes / sizeof changes[0]));
        hash_all(t->k.path, is);
        if (strcmp(is, want) == 0) { /* a constraint of the table did not let it pass */
            impossible++;
            continue;
        }
        changed++;
        if (check(t, &report) != MF_NO)
            fail_msg("%s of %s in %s was changed and not found", it->column, it->entry, it->table);
        if (!located(it, &report)) {
            elsewhere++;
            if (strcmp(it->table, "entry") != 0)
                fail_msg("%s of %s in %s: %s", it->column, it->entry, it->table, report.first);
        }
        write_file(t, t->good);
    }
    print_message("%d fields changed and found, %d of them told first at a neighbor; %d changes "
                  "that the tables did not let pass\n",
                  changed, elsewhere, impossible);
    assert_true(elsewhere * 10 <= changed);
    free(spots);
}

/* ---- rows taken out, put in, exchanged ------------------------------------------------ */

static void key_change(const spot *it, char out[160])
{
    snprintf(out, 160, "%s",
             strcmp(it->table, "entry") == 0     ? "seq = seq + 1000"
             : strcmp(it->table, "content") == 0 ? "sha256 = substr(sha256, 2) || 'x'"
                                                 : "job = job || 'x'");
}

static void take_out(tamper *t, const spot *it)
{
    char sql[200];
    snprintf(sql, sizeof sql, "DELETE FROM \"%s\" WHERE rowid = %lld", it->table,
             (long long)it->rowid);
    change(t->k.path, sql);
}

static void put_in(tamper *t, const spot *it)
{
    char sql[700], key[160];
    key_change(it, key);
    snprintf(sql, sizeof sql,
             "CREATE TEMP TABLE x AS SELECT * FROM \"%s\" WHERE rowid = %lld;"
             "UPDATE x SET %s; INSERT INTO \"%s\" SELECT * FROM x",
             it->table, (long long)it->rowid, key, it->table);
    change(t->k.path, sql);
}

static size_t count_entries(const char *path)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *stmt = NULL;
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db, "SELECT count(*) FROM entry", -1, &stmt, NULL),
                     SQLITE_OK);
    assert_int_equal(sqlite3_step(stmt), SQLITE_ROW);
    size_t n = (size_t)sqlite3_column_int64(stmt, 0);
    sqlite3_finalize(stmt);
    sqlite3_close(db);
    return n;
}

/* Two entries change places in the file; nothing of what they say is changed. */
static void exchange(tamper *t)
{
    char sql[300];
    int64_t n = (int64_t)count_entries(t->k.path),
            a = 1 + (int64_t)torture_below(&t->seed, (size_t)n - 1);
    snprintf(sql, sizeof sql,
             "UPDATE entry SET rowid = -1 WHERE rowid = %lld;"
             "UPDATE entry SET rowid = %lld WHERE rowid = %lld;"
             "UPDATE entry SET rowid = %lld WHERE rowid = -1",
             (long long)a, (long long)a, (long long)a + 1, (long long)a + 1);
    change(t->k.path, sql);
}

static void rows_at_random(void **state)
{
    tamper *t = *state;
    spot *spots = NULL;
    mf_book_report report;
    int n = torture(60, 3000);
    write_file(t, t->good);
    size_t count = list_spots(t->k.path, &spots);
    assert_true(count > 0);
    for (int i = 0; spots != NULL && i < n; i++) {
        const spot *it = &spots[torture_below(&t->seed, count)];
        write_file(t, t->good);
        if (i % 3 == 0)
            take_out(t, it);
        else if (i % 3 == 1)
            put_in(t, it);
        else
            exchange(t);
        if (check(t, &report) != MF_NO)
            fail_msg("%s of %s in %s was not found",
                     i % 3 == 0   ? "the removal"
                     : i % 3 == 1 ? "a copy"
                                  : "an exchange beside",
                     it->entry, it->table);
    }
    print_message("%d rows taken out, put in or exchanged, and found\n", n);
    free(spots);
}

/* ---- chains that were made anew ------------------------------------------------------ */

/* The forger changes an early entry and gives all later ones right hashes. Only a
 * head that was noted elsewhere tells. */
static void a_rebuilt_chain_is_found_by_its_head(void **state)
{
    tamper *t = *state;
    run_result result;
    write_file(t, t->good);
    run_shell(&result, t->k.folder,
              "$MISTFOLD --book firm.book book head > head.txt &&"
              " $MISTFOLD --book firm.book book head | sed 1d > heads.txt &&"
              " $MISTFOLD --book firm.book book check --against head.txt &&"
              " $MISTFOLD --book firm.book book check --against heads.txt");
    assert_int_equal(result.status, 0);
    /* the same book logged anew with one number changed: all hashes are right */
    run_shell(
        &result, t->k.folder,
        "set -e; $MISTFOLD --book forged.book book new --no-key --device office > /dev/null\n"
        "sqlite3 firm.book \"SELECT sql || ';' FROM sqlite_schema WHERE type='trigger'\" > g\n"
        "sqlite3 firm.book \"SELECT 'DROP TRIGGER ' || quote(name) || ';' FROM sqlite_schema"
        " WHERE type = 'trigger'\" > d\n"
        "sqlite3 firm.book < d\n"
        "sqlite3 firm.book \"UPDATE entry SET body = replace(body, ':1400', ':400'); DELETE FROM "
        "verified\"\n"
        "n=$(sqlite3 firm.book 'SELECT max(seq) FROM entry'); i=1\n"
        "p=0000000000000000000000000000000000000000000000000000000000000000\n"
        "while [ $i -le $n ]; do\n"
        "  sqlite3 firm.book \"UPDATE entry SET prev = '$p' WHERE seq = $i\"\n"
        "  p=$(sqlite3 firm.book \"SELECT line FROM entry_line WHERE entry = 'office/$i'\" |"
        " tr -d '\\n' | sha256sum | cut -c1-64)\n"
        "  sqlite3 firm.book \"UPDATE entry SET hash = '$p' WHERE seq = $i\"\n"
        "  i=$((i + 1))\ndone\n"
        "sqlite3 firm.book < g\n$MISTFOLD --book firm.book book rebuild\n"
        "$MISTFOLD --book firm.book book check\n");
    if (result.status != 0)
        print_error("%s", result.err);
    assert_int_equal(result.status, 0); /* without the head nothing is to be found */
    run_shell(&result, t->k.folder, "$MISTFOLD --book firm.book book check --against head.txt");
    assert_int_equal(result.status, 1);
    assert_non_null(strstr(result.err, "is not a head that this book ever had"));
    run_shell(&result, t->k.folder, "$MISTFOLD --book firm.book book check --against heads.txt");
    assert_int_equal(result.status, 1);
    assert_non_null(strstr(result.err, "the chain was made anew"));
}

/* A head stays good while the book grows; nonsense is refused. */
static void an_old_head_is_known(void **state)
{
    tamper *t = *state;
    run_result result;
    write_file(t, t->good);
    run_shell(&result, t->k.folder,
              "set -e; m=\"$MISTFOLD --book firm.book --by rosa\"\n"
              "$m book head > head.txt; $m book head | sed 1d > heads.txt\n"
              "$m person add --id new --name 'New Invented'\n"
              "$m book check --against head.txt; $m book check --against heads.txt\n"
              "echo nonsense > n; $m book check --against n || echo \"exit $?\"\n"
              "echo 0000000000000000000000000000000000000000000000000000000000000000 > n\n"
              "$m book check --against n || echo \"exit $?\"\n"
              "rm n; $m book check --against n || echo \"exit $?\"\n");
    assert_int_equal(result.status, 0);
    assert_non_null(strstr(result.out, "exit 3\n"));
    assert_non_null(strstr(result.out, "exit 1\n"));
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, stop)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(bytes_at_random),      TEST(fields_at_random),
        TEST(rows_at_random),       TEST(a_rebuilt_chain_is_found_by_its_head),
        TEST(an_old_head_is_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
