#include "book/schema_text.h"

#include "base/fail.h"
#include "book/schema.h"
#include "book/tables.h"
#include <stdlib.h>
#include <string.h>

/* A piece of the SQL, of which there may be more behind it. */
typedef struct piece {
    const char *text;
    size_t len;
} piece;

/* A row of sqlite_schema. */
typedef struct object {
    piece type, name, sql;
} object;

/* Where FTS5 keeps the words of table find. Another SQLite may make them otherwise:
 * then nothing is the same here, and the comparison one by one decides. */
static const char find_tables[] =
    "CREATE TABLE 'find_config'(k PRIMARY KEY, v) WITHOUT ROWID;\n"
    "CREATE TABLE 'find_content'(id INTEGER PRIMARY KEY, c0, c1);\n"
    "CREATE TABLE 'find_data'(id INTEGER PRIMARY KEY, block BLOB);\n"
    "CREATE TABLE 'find_docsize'(id INTEGER PRIMARY KEY, sz BLOB);\n"
    "CREATE TABLE 'find_idx'(segid, term, pgno, PRIMARY KEY(segid, term)) WITHOUT ROWID;\n";

/* ---- statements of the SQL ------------------------------------------------------------- */

#define CREATE "CREATE "

/* The statement at text: a trigger has semicolons inside, so it ends where another one
 * is created, or the text does. */
static piece statement_at(const char *text)
{
    const char *end = strstr(text, ";\n" CREATE);
    size_t len = end == NULL ? strlen(text) : (size_t)(end - text);
    while (len > 0 && (text[len - 1] == '\n' || text[len - 1] == ';'))
        len--;
    return (piece){text, len};
}

/* The name at text, without its quotes. */
static piece name_at(const char *text)
{
    char quote = *text == '"' || *text == '\'' ? *text : '\0';
    text += quote != '\0';
    return (piece){text, strcspn(text, quote == '\0' ? " (" : quote == '"' ? "\"" : "'")};
}

static bool is_word(const char **at, const char *word)
{
    size_t len = strlen(word);
    bool is = strncmp(*at, word, len) == 0;
    *at += is ? len : 0;
    return is;
}

/* False when that is no statement of the kinds that the SQL of a book has. */
static bool read_object(object *out, piece sql)
{
    static const piece types[] = {{"table", 5}, {"index", 5}, {"trigger", 7}, {"view", 4}};
    static const char *const words[] = {"TABLE ", "INDEX ", "TRIGGER ", "VIEW "};
    const char *at = sql.text;
    if (!is_word(&at, CREATE))
        return false;
    (void)is_word(&at, "VIRTUAL ");
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (is_word(&at, words[i])) {
            *out = (object){types[i], name_at(at), sql};
            return true;
        }
    return false;
}

/* ---- all of them in the order of sqlite_schema ------------------------------------------ */

typedef struct objects {
    object at[512];
    size_t n;
    bool all; /* none was left out */
} objects;

static int compare_pieces(piece a, piece b)
{
    int order = memcmp(a.text, b.text, a.len < b.len ? a.len : b.len);
    return order != 0 ? order : (a.len > b.len) - (a.len < b.len);
}

static int by_type_and_name(const void *left, const void *right)
{
    const object *a = left, *b = right;
    int order = compare_pieces(a->type, b->type);
    return order != 0 ? order : compare_pieces(a->name, b->name);
}

static void list_objects(objects *out, const char *sql)
{
    out->all = true;
    while (out->all && *sql != '\0') {
        piece one = statement_at(sql);
        out->all =
            out->n < sizeof out->at / sizeof out->at[0] && read_object(&out->at[out->n], one);
        out->n += out->all;
        sql += one.len;
        sql += strspn(sql, ";\n");
    }
    qsort(out->at, out->n, sizeof out->at[0], by_type_and_name);
}

/* ---- against those of a file ------------------------------------------------------------ */

static bool is_piece(mf_stmt *stmt, int at, piece want)
{
    if (sqlite3_column_type(stmt->handle, at) != SQLITE_TEXT)
        return false;
    const char *text = mf_stmt_column(stmt, at);
    piece is = {text, (size_t)sqlite3_column_bytes(stmt->handle, at)};
    return compare_pieces(is, want) == 0;
}

static bool is_object(mf_stmt *stmt, const object *want)
{
    return is_piece(stmt, 0, want->type) && is_piece(stmt, 1, want->name) &&
           is_piece(stmt, 2, want->sql);
}

static mf_status compare(mf_db *db, const objects *want, bool *same, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    size_t at = 0;
    mf_status status = mf_stmt_get(&stmt, db,
                                   "SELECT type, name, sql FROM sqlite_schema"
                                   " WHERE sql IS NOT NULL ORDER BY type, name",
                                   err);
    while (status == MF_OK && row && *same) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            *same = at < want->n && is_object(&stmt, &want->at[at]);
        at += row;
    }
    mf_stmt_done(&stmt);
    *same = *same && status == MF_OK && at == want->n;
    return status;
}

mf_status mf_schema_same(mf_db *db, bool *same, mf_err *err)
{
    mf_buf sql = {0};
    objects want = {.n = 0};
    *same = false;
    mf_schema_sql(&sql);
    mf_tables_sql(&sql);
    mf_buf_text(&sql, find_tables);
    mf_status status = sql.failed ? mf_fail_memory(err) : MF_OK;
    if (status == MF_OK) {
        list_objects(&want, mf_buf_str(&sql));
        *same = want.all;
        status = compare(db, &want, same, err);
    }
    mf_buf_free(&sql);
    return status;
}
