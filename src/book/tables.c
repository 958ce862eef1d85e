#include "book/tables.h"

#include "base/digest.h"
#include "base/fail.h"
#include "book/held.h"
#include "book/index.h"
#include "book/schema.h"
#include <stdio.h>
#include <string.h>

/* ---- the SQL ------------------------------------------------------------------------ */

/* Appends "name" in SQL quotes. */
static void sql_name(mf_buf *out, const char *name)
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

/* ---- views ----------------------------------------------------------------------------- */

/* Of an entry e the correction in force: those that another one goes on from or settles are
 * out, of the rest the last that was made. The program reads no view; journal/in_force.c says
 * the same. */
static const char in_force_sql[] =
    "CREATE VIEW in_force AS -- every entry, with what is in force for it now\n"
    "  SELECT e.device || '/' || e.seq AS entry -- the entry as it was first made\n"
    "  , e.seq AS seq, e.kind AS kind, e.job AS job, e.logged_at AS logged_at, e.who AS who\n"
    "  , ifnull(c.device || '/' || c.seq, '') AS correction -- entry that corrected it last\n"
    "  , CASE WHEN c.seq IS NULL THEN e.body ELSE json_extract(c.body, '$.body') END AS body\n"
    "    -- NULL = withdrawn\n"
    "  FROM entry AS e LEFT JOIN entry AS c ON c.rowid =\n"
    "  (SELECT n.rowid FROM corrects AS k JOIN entry AS n ON n.device = k.device AND n.seq = "
    "k.seq\n"
    "   WHERE k.job = e.job AND k.target = e.device || '/' || e.seq\n"
    "   AND NOT EXISTS (SELECT 1 FROM corrects AS r WHERE r.job = k.job AND r.target = k.target\n"
    "     AND r.replaces = k.device || '/' || k.seq\n"
    "     AND r.device || '/' || r.seq <> k.device || '/' || k.seq)\n"
    "   ORDER BY n.logged_at DESC, n.device DESC, n.seq DESC LIMIT 1)\n"
    "  WHERE e.kind <> 'correction';\n";

#define REPLACES "json_extract(c.body, '$.replaces')"
static const char correction_sql[] =
    "CREATE VIEW correction AS -- entries that replace what an earlier entry says\n"
    "  SELECT c.device || '/' || c.seq AS entry -- the correction itself: device/seq\n"
    "  , c.job AS job -- '' for the firm\n"
    "  , c.logged_at AS logged_at -- UTC\n"
    "  , c.who AS who -- who corrected\n"
    "  , json_extract(c.body, '$.target') AS target -- the entry first made\n"
    "  , " REPLACES " AS replaces -- what it goes on from: the target or a correction of it\n"
    "  , ifnull(json_extract(c.body, '$.settles'), '') AS settles -- corrections that it saw "
    "beside "
    "that one\n"
    "  , json_extract(c.body, '$.kind') AS \"kind\" -- kind of the target\n"
    "  , json_extract(c.body, '$.reason') AS reason\n"
    "  , ifnull((SELECT CASE r.kind WHEN 'correction' THEN json_extract(r.body, '$.body') ELSE "
    "r.body END\n"
    "      FROM entry AS r WHERE r.device = substr(" REPLACES ", 1, instr(" REPLACES ", '/') - 1)\n"
    "      AND r.seq = CAST(substr(" REPLACES ", instr(" REPLACES ", '/') + 1) AS INTEGER)), '')\n"
    "    AS before -- body that it replaces\n"
    "  , ifnull(json_extract(c.body, '$.body'), '') AS after -- body from then on; '' = withdrawn\n"
    "  FROM entry AS c WHERE c.kind = 'correction';\n";

/* What is said of a field is said in the unit in which people give it. */
static const char *kept_as(const mf_field *field)
{
    switch (field->type) {
    case MF_F_LOADING:
        return "; here in micrograms per cm2";
    case MF_F_DUST:
        return "; here in nanograms per sq ft";
    case MF_F_HUNDREDTHS:
        return "; here in hundredths";
    case MF_F_INCHES:
        return "; here in 1/1600 of an inch";
    default:
        return "";
    }
}

static void add_field(mf_buf *out, const mf_field *field)
{
    char doc[400];
    mf_buf_printf(out, "  , json_extract(body, '$.%s') AS ", field->name);
    sql_name(out, field->name);
    snprintf(doc, sizeof doc, "%s%s", field->doc == NULL ? "" : field->doc, kept_as(field));
    add_comment(out, doc);
}

static void add_kind(mf_buf *out, const mf_kind *kind)
{
    mf_buf_text(out, "CREATE VIEW ");
    sql_name(out, kind->name);
    mf_buf_text(out, " AS");
    add_comment(out, kind->doc == NULL ? "" : kind->doc);
    mf_buf_text(out, "  SELECT entry -- the entry that says it: device/seq\n"
                     "  , seq -- number of that entry, as in entry\n"
                     "  , job -- '' for the firm\n"
                     "  , logged_at -- of the entry, UTC\n"
                     "  , who -- who logged the entry\n"
                     "  , correction -- entry that corrected it last, or ''\n");
    for (size_t i = 0; i < kind->n_fields; i++)
        add_field(out, &kind->fields[i]);
    mf_buf_printf(out, "  FROM in_force WHERE kind = '%s' AND job %s '' AND body IS NOT NULL;\n",
                  kind->name, kind->of_firm ? "=" : "<>");
}

void mf_tables_sql(mf_buf *out)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_buf_text(out, mf_held_sql);
    add_guards(out, "held");
    mf_buf_text(out, mf_index_sql);
    add_guards(out, "corrects");
    add_guards(out, "place");
    add_guards(out, "due");
    mf_buf_text(out, mf_settled_sql);
    add_guards(out, "settled");
    mf_buf_text(out, mf_find_sql);
    mf_buf_text(out, in_force_sql);
    mf_buf_text(out, correction_sql);
    for (size_t i = 0; i < count; i++)
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
    mf_buf_text(out, MF_KIND_CORRECTION " in_force" MF_HELD_TABLE MF_INDEX_TABLES);
    for (size_t i = 0; i < count; i++)
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

/* What is a view today was a table once. */
static mf_status is_view(mf_db *db, const char *name, bool *view, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, db,
                                   "SELECT 1 FROM sqlite_schema WHERE lower(type) = 'view'"
                                   " AND name = ?1 COLLATE NOCASE",
                                   err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, name);
    status = mf_stmt_step(&stmt, view, err);
    mf_stmt_done(&stmt);
    return status;
}

/* The name comes from the file: it is quoted, and it must not be one of ours. */
static mf_status drop(mf_db *db, const char *name, mf_err *err)
{
    static const char *const not_derived[] = {"entry", "entry_line", "content", "meta", "verified"};
    bool view = false;
    for (size_t i = 0; i < sizeof not_derived / sizeof not_derived[0]; i++)
        if (sqlite3_stricmp(name, not_derived[i]) == 0)
            return MF_OK;
    mf_buf sql = {0};
    mf_status status = is_view(db, name, &view, err);
    mf_buf_text(&sql, view ? "DROP VIEW IF EXISTS " : "DROP TABLE IF EXISTS ");
    sql_name(&sql, name);
    if (status == MF_OK)
        status = sql.failed ? mf_fail_memory(err) : mf_db_exec(db, sql.data, err);
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
