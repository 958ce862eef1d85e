#include "book/schema.h"

#include <stdio.h>

/* Only ever add a step at the end: a book holds the number of steps it has been
 * through (PRAGMA user_version). Tables and views made from the journal are not here (tables.c).
 * The SQL comments stay in sqlite_master, so that the file explains itself. */

/* SQLite keeps these letter for letter, which is how a book is known again
 * (mf_schema_parts); hence no semicolon. */
static const char entry_table[] =
    "CREATE TABLE entry (\n"
    "  -- The journal, the only truth in this file. One row is one thing that somebody put in.\n"
    "  -- Rows are added, never changed: a correction is a new row. View entry_line gives the\n"
    "  -- text whose SHA-256 is hash. All other tables but meta can be rebuilt from this one.\n"
    "  device TEXT NOT NULL, -- the computer that wrote it; each device has its own chain\n"
    "  seq INTEGER NOT NULL CHECK (seq > 0), -- 1, 2, 3 ... without gaps on each device\n"
    "  logged_at TEXT NOT NULL, -- UTC by that device's clock, YYYY-MM-DDTHH:MM:SSZ\n"
    "  who TEXT NOT NULL, -- who wrote it\n"
    "  kind TEXT NOT NULL, -- what it is: the name of a derived table, or correction\n"
    "  job TEXT NOT NULL, -- the job it belongs to, '' for the firm\n"
    "  body TEXT NOT NULL, -- what it says: a JSON object in canonical form (RFC 8785)\n"
    "  prev TEXT NOT NULL CHECK (length(prev) = 64), -- hash of the device's entry before\n"
    "  hash TEXT NOT NULL CHECK (length(hash) = 64), -- SHA-256 of the line, lower-case hex\n"
    "  PRIMARY KEY (device, seq)\n"
    ") STRICT";

static const char entry_index[] = "CREATE INDEX entry_job ON entry (job)";

static const char meta_table[] =
    "CREATE TABLE meta (\n"
    "  -- Facts about this file itself.\n"
    "  key TEXT PRIMARY KEY NOT NULL, -- device: whose chain new entries continue;\n"
    "                                 -- derived: SHA-256 of the SQL of the derived tables;\n"
    "                                 -- tables: names of the derived tables\n"
    "  value TEXT NOT NULL\n"
    ") STRICT";

static const char content_table[] =
    "CREATE TABLE content (\n"
    "  -- The bytes of attachments, once each, under their own hash: sha256sum gives it again.\n"
    "  -- Not derived: entries of kind attachment name these bytes.\n"
    "  sha256 TEXT PRIMARY KEY NOT NULL CHECK (length(sha256) = 64), -- of bytes, lower-case hex\n"
    "  bytes BLOB NOT NULL\n"
    ") STRICT";

static const char step_1_rest[] =
    /* ---- a way to check the hashes with nothing but sqlite3 and sha256sum */
    "CREATE VIEW entry_line AS\n"
    "  -- line: the canonical line of each entry, without a line end. hash is its SHA-256.\n"
    "  SELECT device || '/' || seq AS entry,\n"
    "         '{\"at\":' || json_quote(logged_at) || ',\"body\":' || body ||\n"
    "         ',\"device\":' || json_quote(device) || ',\"job\":' || json_quote(job) ||\n"
    "         ',\"kind\":' || json_quote(kind) || ',\"prev\":' || json_quote(prev) ||\n"
    "         ',\"seq\":' || seq || ',\"who\":' || json_quote(who) || '}' AS line,\n"
    "         hash\n"
    "    FROM entry ORDER BY device, seq;\n"
    /* ---- guards */
    "CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry BEGIN\n"
    "  SELECT raise(ABORT, 'an entry is never changed; log a correction');\n"
    "END;\n"
    "CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry BEGIN\n"
    "  SELECT raise(ABORT, 'an entry is never deleted; log a correction');\n"
    "END;\n"
    /* INSERT OR REPLACE deletes without firing the trigger above. */
    "CREATE TRIGGER entry_no_replace BEFORE INSERT ON entry\n"
    "WHEN EXISTS (SELECT 1 FROM entry WHERE device = NEW.device AND seq = NEW.seq)\n"
    "  OR EXISTS (SELECT 1 FROM entry WHERE rowid = NEW.rowid) BEGIN\n"
    "  SELECT raise(ABORT, 'an entry is never replaced; log a correction');\n"
    "END;\n"
    "CREATE TRIGGER entry_in_chain BEFORE INSERT ON entry\n"
    "WHEN NEW.prev IS NOT CASE NEW.seq WHEN 1\n"
    "  THEN '0000000000000000000000000000000000000000000000000000000000000000'\n"
    "  ELSE (SELECT hash FROM entry WHERE device = NEW.device AND seq = NEW.seq - 1) END BEGIN\n"
    "  SELECT raise(ABORT, 'an entry must name the hash of the entry before it');\n"
    "END;\n";

static const char step_2_rest[] =
    "CREATE TRIGGER content_no_update BEFORE UPDATE ON content BEGIN\n"
    "  SELECT raise(ABORT, 'an attachment is never changed; attach the new one');\n"
    "END;\n"
    "CREATE TRIGGER content_no_delete BEFORE DELETE ON content BEGIN\n"
    "  SELECT raise(ABORT, 'an attachment is never deleted; withdraw its entry');\n"
    "END;\n"
    "CREATE TRIGGER content_no_replace BEFORE INSERT ON content\n"
    "WHEN EXISTS (SELECT 1 FROM content WHERE sha256 = NEW.sha256 OR rowid = NEW.rowid) BEGIN\n"
    "  SELECT raise(ABORT, 'an attachment is never replaced');\n"
    "END;\n"
    "CREATE TABLE verified (\n"
    "  -- How far this program has checked each device's chain: a note that saves time, no\n"
    "  -- proof. \"mistfold book check\" checks everything and does not read it.\n"
    "  device TEXT PRIMARY KEY NOT NULL,\n"
    "  seq INTEGER NOT NULL, -- entries up to this one were checked\n"
    "  hash TEXT NOT NULL -- of that entry\n"
    ") STRICT;\n";

/* One row a version: version n is what the rows 1 to n make. */
enum { STATEMENTS = 4 };
static const char *const steps[][STATEMENTS] = {
    {entry_table, entry_index, meta_table, step_1_rest},
    {content_table, step_2_rest},
    /* What was a table a kind is a view since (tables.c): an older program would not know. */
    {NULL},
};

/* In the order of type and name. */
static const mf_schema_part parts[] = {
    {"index", "entry_job", entry_index, 1},
    {"table", "content", content_table, 2},
    {"table", "entry", entry_table, 1},
    {"table", "meta", meta_table, 1},
};

const mf_schema_part *mf_schema_parts(size_t *count)
{
    *count = sizeof parts / sizeof parts[0];
    return parts;
}

int mf_schema_version(void)
{
    return (int)(sizeof steps / sizeof steps[0]);
}

void mf_schema_sql(mf_buf *out)
{
    for (int i = 0; i < mf_schema_version(); i++)
        for (int j = 0; j < STATEMENTS && steps[i][j] != NULL; j++)
            mf_buf_printf(out, "%s;\n", steps[i][j]);
}

static mf_status run_steps(mf_db *db, int from, int to, mf_err *err)
{
    mf_status status = MF_OK;
    for (int i = from; i < to; i++)
        for (int j = 0; status == MF_OK && j < STATEMENTS && steps[i][j] != NULL; j++)
            status = mf_db_exec(db, steps[i][j], err);
    return status;
}

mf_status mf_schema_make(mf_db *db, int version, mf_err *err)
{
    return run_steps(db, 0, version, err);
}

mf_status mf_schema_migrate(mf_db *db, int from, mf_err *err)
{
    mf_status status = run_steps(db, from, mf_schema_version(), err);
    char sql[96]; /* a pragma takes no parameter; both numbers are ours */
    snprintf(sql, sizeof sql, "PRAGMA application_id=%d; PRAGMA user_version=%d", MF_APPLICATION_ID,
             mf_schema_version());
    return status == MF_OK ? mf_db_exec(db, sql, err) : status;
}

mf_status mf_meta_get(mf_db *db, const char *key, char *out, size_t size, mf_err *err)
{
    return mf_db_text(db, "SELECT value FROM meta WHERE key = ?1", &key, 1, out, size, err);
}

mf_status mf_meta_set(mf_db *db, const char *key, const char *value, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, db,
                    "INSERT INTO meta (key, value) VALUES (?1, ?2)"
                    " ON CONFLICT (key) DO UPDATE SET value = excluded.value WHERE value IS NOT "
                    "excluded.value",
                    err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, key);
    mf_stmt_text(&stmt, 2, value);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_meta_unset(mf_db *db, const char *key, mf_err *err)
{
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, db, "DELETE FROM meta WHERE key = ?1", err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, key);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}
