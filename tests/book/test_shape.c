/* Every version of the book is known by its text: without it opening is slow; no outcome
 * differs. And no step that books have been through is ever written anew. */
#include "base/digest.h"
#include "base/mem.h"
#include "book/schema.h"
#include "book/schema_text.h"
#include "book/shape.h"
#include "book/tables.h"
#include "support/cmocka_all.h"
#include <string.h>

static void every_version_is_known(void **state)
{
    (void)state;
    for (int version = 1; version <= mf_schema_version(); version++) {
        mf_db db = {0};
        bool known = false;
        assert_int_equal(mf_db_open(&db, ":memory:", "fresh", NULL), MF_OK);
        assert_int_equal(mf_schema_make(&db, version, NULL), MF_OK);
        assert_int_equal(mf_shape_known(&known, &db, version, NULL), MF_OK);
        assert_true(known);
        assert_int_equal(mf_shape_check(&db, version, NULL), MF_OK);
        assert_int_equal(mf_db_exec(&db, "CREATE INDEX odd ON meta (value)", NULL), MF_OK);
        assert_int_equal(mf_shape_known(&known, &db, version, NULL), MF_OK);
        assert_false(known);
        assert_int_equal(mf_shape_check(&db, version, NULL), MF_INPUT);
        mf_db_close(&db);
    }
}

/* SHA-256 of type, name and sql of the permanent tables and their indexes, each ended by
 * a NUL: taken when books of that version were first made. */
static const char *const made_with[] = {
    "3fc528af36f4fe5b8eb4b11791814ce92eb8bbdf0d169385b6b7c1e85a37ad37",
    "240c3fc84f12ea8df44d4d304c8f9e3f0bb85a5ca78f494ac49fd545de69a8b1",
    "240c3fc84f12ea8df44d4d304c8f9e3f0bb85a5ca78f494ac49fd545de69a8b1",
};

static void steps_stay_as_they_were(void **state)
{
    (void)state;
    const size_t versions = sizeof made_with / sizeof made_with[0];
    assert_int_equal(mf_schema_version(), versions);
    for (size_t at = 0; at < versions; at++) {
        char hash[MF_DIGEST_HEX] = "";
        mf_buf text = {0};
        size_t count = 0;
        const mf_schema_part *parts = mf_schema_parts(&count);
        for (size_t i = 0; i < count; i++) {
            const char *const three[] = {parts[i].type, parts[i].name, parts[i].sql};
            for (size_t j = 0; parts[i].since <= (int)at + 1 && j < 3; j++)
                mf_buf_add(&text, three[j], strlen(three[j]) + 1);
        }
        assert_true(mf_digest_hex(text.data, text.len, hash));
        assert_string_equal(hash, made_with[at]);
        mf_buf_free(&text);
    }
}

/* ---- the whole schema by its text: without it every gate is slow -------------------------- */

static bool same(const char *change)
{
    mf_db db = {0};
    bool is = true;
    assert_int_equal(mf_db_open(&db, ":memory:", "fresh", NULL), MF_OK);
    assert_int_equal(mf_schema_migrate(&db, 0, NULL), MF_OK);
    assert_int_equal(mf_tables_make(&db, NULL), MF_OK);
    /* Somebody with a program of their own is not held by what a book refuses. */
    sqlite3_db_config(db.handle, SQLITE_DBCONFIG_DEFENSIVE, 0, NULL);
    assert_int_equal(sqlite3_exec(db.handle, change, NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(mf_schema_same(&db, &is, NULL), MF_OK);
    mf_db_close(&db);
    return is;
}

/* What SQLite itself says of a book just made is the outside source. */
static void a_new_book_is_the_same(void **state)
{
    (void)state;
    assert_true(same(""));
    assert_true(same("INSERT INTO meta (key, value) VALUES ('a', 'b')"));
}

static void any_change_shows(void **state)
{
    (void)state;
#define SCHEMA "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET "
    static const char *const changes[] = {
        "DROP TRIGGER entry_no_update",
        "DROP INDEX place_key",
        "DROP VIEW entry_line",
        "DROP TABLE find",
        "CREATE VIEW a AS SELECT 1",
        "CREATE TABLE zz (a TEXT)",
        "CREATE INDEX own ON entry (who)",
        "CREATE TRIGGER zz BEFORE INSERT ON entry BEGIN SELECT 1; END",
        "ALTER TABLE settled ADD COLUMN a TEXT",
        SCHEMA "sql = sql || ' ' WHERE name = 'entry_no_update'",
        SCHEMA "sql = substr(sql, 1, length(sql) - 1) WHERE name = 'entry_line'",
        SCHEMA "sql = CAST(sql AS BLOB) WHERE name = 'entry_no_update'",
        SCHEMA "sql = replace(sql, 'ABORT', 'IGNORE') WHERE name = 'entry_no_delete'",
        SCHEMA "type = 'TRIGGER' WHERE name = 'entry_no_delete'",
        SCHEMA "name = 'a' WHERE name = 'entry_no_delete'",
        SCHEMA "sql = NULL WHERE name = 'entry_no_delete'",
    };
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++)
        if (same(changes[i]))
            fail_msg("not seen: %s", changes[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_version_is_known), cmocka_unit_test(a_new_book_is_the_same),
        cmocka_unit_test(any_change_shows), cmocka_unit_test(steps_stay_as_they_were)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
