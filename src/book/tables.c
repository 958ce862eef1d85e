#include "book/tables.h"

#include "base/digest.h"
#include "base/fail.h"
#include "book/index.h"
#include "book/schema.h"
#include <stdio.h>
#include <string.h>

/* ---- the SQL ------------------------------------------------------------------------ */

void mf_sql_name(mf_buf *out, const char *name)
{
    mf_buf_text(out, "\"");
    if (strchr(name, '"') == NULL) {
        mf_buf_text(out, name);
        name = "";
    }
    for (; *name != '\0'; name++)
        mf_buf_add(out, *name == '"' ? "\"\"" : name, *name == '"' ? 2 : 1);
    mf_buf_text(out, "\"");
}

/* A comment ends at the line end: none may be in it. */
static void add_comment(mf_buf *out, const char *text)
{
    mf_buf_text(out, " -- ");
    while (*text != '\0') {
        size_t len = strcspn(text, "\r\n");
        mf_buf_add(out, text, len);
        text += len + (text[len] != '\0');
        mf_buf_text(out, *text == '\0' ? "" : " ");
    }
    mf_buf_text(out, "\n");
}

/* Only the words of the last column go without a comma; which is why the fixed
 * columns come first and the fields after them bring the comma along. */
static void add_field(mf_buf *out, const mf_field *field)
{
    mf_buf_text(out, "  , ");
    mf_sql_name(out, field->name);
    bool number = field->type == MF_F_YESNO || mf_field_is_number(field->type);
    mf_buf_text(out, number ? " INTEGER" : " TEXT");
    add_comment(out, field->doc == NULL ? "" : field->doc);
}

static void add_guard(mf_buf *out, const char *table, const char *event)
{
    mf_buf_printf(out, "CREATE TRIGGER \"%s_guard_%s\" BEFORE %s ON \"%s\"\n", table, event, event,
                  table);
    mf_buf_text(out, "WHEN NOT only_mistfold_may_change_this_table() BEGIN\n"
                     "  SELECT raise(ABORT, 'this table is made from the journal');\n"
                     "END;\n");
}

static void add_guards(mf_buf *out, const char *table)
{
    add_guard(out, table, "INSERT");
    add_guard(out, table, "UPDATE");
    add_guard(out, table, "DELETE");
}

/* What every logged row looks up: an id, and a reading by its number. The rows of a job
 * are found by either as well: a second index of the job would be written for nothing. */
mf_table_ways mf_ways_of_table(const char *name)
{
    const mf_kind *kind = mf_kind_named(name);
    mf_table_ways ways = {.key = kind == NULL ? NULL : mf_kind_key(kind),
                          .number = strcmp(name, "reading") == 0};
    ways.job = ways.key == NULL && !ways.number;
    return ways;
}

static void add_indexes(mf_buf *out, const char *table)
{
    mf_table_ways ways = mf_ways_of_table(table);
    if (ways.key != NULL)
        mf_buf_printf(out, "CREATE INDEX \"%s_key\" ON \"%s\" (job, \"%s\");\n", table, table,
                      ways.key->name);
    if (ways.number)
        mf_buf_printf(out, "CREATE INDEX %s_number ON %s (job, number, instrument);\n", table,
                      table);
    if (ways.job)
        mf_buf_printf(out, "CREATE INDEX \"%s_job\" ON \"%s\" (job);\n", table, table);
}

/* seq comes first in the key: what is logged lies at the end of the index, where it costs
 * least. By the text of entry alone, x/10 lies before x/9. */
static void add_kind(mf_buf *out, const mf_kind *kind)
{
    mf_buf_text(out, "CREATE TABLE ");
    mf_sql_name(out, kind->name);
    mf_buf_text(out, " (");
    add_comment(out, kind->doc == NULL ? "" : kind->doc);
    mf_buf_text(out, "  entry TEXT NOT NULL -- the entry that says it: device/seq\n"
                     "  , seq INTEGER NOT NULL -- number of that entry, as in entry\n"
                     "  , job TEXT NOT NULL -- '' for the firm\n"
                     "  , logged_at TEXT NOT NULL -- of the entry, UTC\n"
                     "  , who TEXT NOT NULL -- who logged the entry\n"
                     "  , correction TEXT NOT NULL DEFAULT '' -- entry that corrected it last\n");
    for (size_t i = 0; i < kind->n_fields; i++)
        add_field(out, &kind->fields[i]);
    mf_buf_text(out, "  , PRIMARY KEY (seq, entry)\n) STRICT;\n");
    add_guards(out, kind->name);
    add_indexes(out, kind->name);
}

static const char correction_sql[] =
    "CREATE TABLE correction ( -- entries that replace what an earlier entry says\n"
    "  entry TEXT PRIMARY KEY NOT NULL -- the correction itself: device/seq\n"
    "  , job TEXT NOT NULL -- '' for the firm\n"
    "  , logged_at TEXT NOT NULL -- UTC\n"
    "  , who TEXT NOT NULL -- who corrected\n"
    "  , target TEXT NOT NULL -- the entry first made\n"
    "  , replaces TEXT NOT NULL -- what was in force then: the target or a correction of it\n"
    "  , \"kind\" TEXT NOT NULL -- kind of the target\n"
    "  , reason TEXT NOT NULL\n"
    "  , before TEXT NOT NULL -- body that it replaces\n"
    "  , after TEXT NOT NULL -- body from then on; '' = withdrawn\n"
    ") STRICT;\n"
    "CREATE INDEX correction_target ON correction (target);\n"
    "CREATE INDEX correction_replaces ON correction (replaces);\n";

void mf_tables_sql(mf_buf *out)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_buf_text(out, correction_sql);
    add_indexes(out, MF_KIND_CORRECTION);
    add_guards(out, MF_KIND_CORRECTION);
    mf_buf_text(out, mf_index_sql);
    add_guards(out, "place");
    add_guards(out, "due");
    mf_buf_text(out, mf_settled_sql);
    add_guards(out, "settled");
    mf_buf_text(out, mf_find_sql);
    for (size_t i = 0; i < count; i++)
        if (strcmp(kinds[i].name, MF_KIND_CORRECTION) != 0)
            add_kind(out, &kinds[i]);
}

/* FNV-1a: it tells one SQL of ours from another, at every opening, and proves
 * nothing; that the tables are as they should be the check compares word by word. */
static void hash_text(const mf_buf *text, char hash[MF_TABLES_HASH])
{
    uint64_t value = 14695981039346656037U;
    for (size_t i = 0; i < text->len; i++)
        value = (value ^ (unsigned char)text->data[i]) * 1099511628211U;
    snprintf(hash, MF_TABLES_HASH, "%016llx", (unsigned long long)value);
}

mf_status mf_tables_hash(char out[MF_TABLES_HASH], mf_err *err)
{
    mf_buf sql = {0};
    mf_tables_sql(&sql);
    mf_status status = sql.failed ? mf_fail_memory(err) : MF_OK;
    if (status == MF_OK)
        hash_text(&sql, out);
    mf_buf_free(&sql);
    return status;
}

/* ---- in a book --------------------------------------------------------------------------- */

/* meta has the SHA-256 under derived, and under quick both hashes: so a program that
 * knows the SHA-256 alone makes quick void by what it writes. */
static void quick_of(char out[MF_TABLES_QUICK], const char *hash, const char *sha256)
{
    snprintf(out, MF_TABLES_QUICK, "%.23s %.64s", hash, sha256);
}

mf_status mf_tables_current(mf_db *db, const char *hash, bool *current, mf_err *err)
{
    char sha256[MF_DIGEST_HEX], stored[MF_TABLES_QUICK], want[MF_TABLES_QUICK] = "";
    mf_status status = mf_meta_get(db, "derived", sha256, sizeof sha256, err);
    if (status == MF_OK)
        status = mf_meta_get(db, "quick", stored, sizeof stored, err);
    if (status == MF_OK)
        quick_of(want, hash, sha256);
    *current = status == MF_OK && strcmp(want, stored) == 0;
    return status;
}

static mf_status set_hashes(mf_db *db, const mf_buf *sql, mf_err *err)
{
    char hash[MF_TABLES_HASH], sha256[MF_DIGEST_HEX], quick[MF_TABLES_QUICK];
    if (!mf_digest_hex(sql->data, sql->len, sha256))
        return mf_fail_memory(err);
    hash_text(sql, hash);
    quick_of(quick, hash, sha256);
    mf_status status = mf_meta_set(db, "derived", sha256, err);
    return status == MF_OK ? mf_meta_set(db, "quick", quick, err) : status;
}

static void list_names(mf_buf *out)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_buf_text(out, MF_KIND_CORRECTION MF_INDEX_TABLES);
    for (size_t i = 0; i < count; i++)
        if (strcmp(kinds[i].name, MF_KIND_CORRECTION) != 0)
            mf_buf_printf(out, " %s", kinds[i].name);
}

mf_status mf_tables_make(mf_db *db, mf_err *err)
{
    mf_buf sql = {0}, names = {0};
    mf_tables_sql(&sql);
    list_names(&names);
    mf_status status = sql.failed || names.failed ? mf_fail_memory(err) : MF_OK;
    if (status == MF_OK)
        status = mf_db_exec(db, sql.data, err);
    if (status == MF_OK)
        status = set_hashes(db, &sql, err);
    if (status == MF_OK)
        status = mf_meta_set(db, "tables", names.data, err);
    mf_buf_free(&sql);
    mf_buf_free(&names);
    return status;
}

/* The name comes from the file: it is quoted, and it must not be one of ours. */
static mf_status drop(mf_db *db, const char *name, mf_err *err)
{
    static const char *const not_derived[] = {"entry", "content", "meta", "verified"};
    for (size_t i = 0; i < sizeof not_derived / sizeof not_derived[0]; i++)
        if (sqlite3_stricmp(name, not_derived[i]) == 0)
            return MF_OK;
    mf_buf sql = {0};
    mf_buf_text(&sql, "DROP TABLE IF EXISTS ");
    mf_sql_name(&sql, name);
    mf_status status = sql.failed ? mf_fail_memory(err) : mf_db_exec(db, sql.data, err);
    mf_buf_free(&sql);
    return status;
}

static mf_status drop_listed(mf_db *db, char *names, mf_err *err)
{
    mf_status status = MF_OK;
    for (char *at = names; status == MF_OK && *at != '\0';) {
        size_t len = strcspn(at, " ");
        bool last = at[len] == '\0';
        at[len] = '\0';
        status = drop(db, at, err);
        at += last ? len : len + 1;
    }
    return status;
}

mf_status mf_tables_drop(mf_db *db, mf_err *err)
{
    char old[2048] = "";
    mf_buf ours = {0};
    list_names(&ours); /* also those that somebody took off the list */
    mf_buf_text(&ours, " sqlite_stat1 sqlite_stat2 sqlite_stat3 sqlite_stat4"); /* ANALYZE */
    mf_status status =
        ours.failed ? mf_fail_memory(err) : mf_meta_get(db, "tables", old, sizeof old, err);
    if (status == MF_OK)
        status = drop_listed(db, old, err);
    if (status == MF_OK)
        status = drop_listed(db, ours.data, err);
    mf_buf_free(&ours);
    return status;
}
