/* merge_tell.c - what two devices said of one thing without knowing of each other.
 * Both stay; a person decides. */
#include "book/merge.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

static void note(const mf_merge *m, const char *line)
{
    if (m->watch->note != NULL)
        m->watch->note(line, m->watch->data);
}

/* ---- corrections that contradict ------------------------------------------------------------- */

/* Entries with two corrections that no other replaces and that end in different
 * words, where at least one came in with this merge. */
static const char contradiction_sql[] =
    "SELECT target, min(entry), max(entry) FROM correction AS c"
    " WHERE NOT EXISTS (SELECT 1 FROM correction AS d WHERE d.target = c.target"
    "                   AND d.replaces = c.entry AND d.entry <> c.entry)"
    "   AND target IN (SELECT target FROM entry JOIN correction AS n"
    "                  ON n.entry = entry.device || '/' || entry.seq"
    "                  WHERE entry.rowid > ?1 AND entry.kind = 'correction')"
    " GROUP BY target HAVING count(DISTINCT after) > 1 ORDER BY target";

static mf_status tell_contradictions(mf_merge *m, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    char line[256];
    mf_status status = mf_stmt_get(&stmt, &m->book->db, contradiction_sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_int(&stmt, 1, m->book->group_from);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status != MF_OK || !row)
            break;
        m->out->contradictions++;
        snprintf(line, sizeof line,
                 "entry %.40s was corrected on two devices in two ways (%.40s, %.40s): both are "
                 "kept; correct it once more to say which is right",
                 mf_stmt_column(&stmt, 0), mf_stmt_column(&stmt, 1), mf_stmt_column(&stmt, 2));
        note(m, line);
    }
    mf_stmt_done(&stmt);
    return status;
}

/* ---- one id, two things -------------------------------------------------------------------- */

/* Rows of a kind that came in with this merge and share job and key (or, for a
 * kind that is once, the job) with another row. */
static mf_status select_doubles(mf_merge *m, mf_stmt *out, const mf_kind *kind, mf_err *err)
{
    mf_buf sql = {0};
    const mf_field *key = mf_kind_key(kind);
    mf_buf_text(&sql, "SELECT n.entry, o.entry, ");
    if (key == NULL)
        mf_buf_text(&sql, "''");
    else {
        mf_buf_text(&sql, "n.");
        mf_sql_name(&sql, key->name);
    }
    mf_buf_text(&sql, " FROM entry JOIN ");
    mf_sql_name(&sql, kind->name);
    mf_buf_text(&sql, " AS n ON n.seq = entry.seq AND n.entry = entry.device || '/' || entry.seq"
                      " JOIN ");
    mf_sql_name(&sql, kind->name);
    mf_buf_text(&sql, " AS o ON o.job = n.job AND o.entry <> n.entry");
    for (size_t i = 0; !kind->once && i < kind->n_fields; i++) {
        if ((kind->fields[i].flags & MF_F_KEY) == 0)
            continue;
        mf_buf_text(&sql, " AND o.");
        mf_sql_name(&sql, kind->fields[i].name);
        mf_buf_text(&sql, " IS n.");
        mf_sql_name(&sql, kind->fields[i].name);
    }
    mf_buf_text(&sql, " WHERE entry.rowid > ?1 AND entry.kind = ?2 GROUP BY n.entry");
    mf_status status = mf_stmt_take(out, &m->book->db, &sql, err);
    if (status == MF_OK) {
        mf_stmt_int(out, 1, m->book->group_from);
        mf_stmt_text(out, 2, kind->name);
    }
    return status;
}

static mf_status tell_doubles(mf_merge *m, const mf_kind *kind, mf_err *err)
{
    mf_stmt stmt = {0};
    bool row = true;
    char line[256];
    mf_status status = select_doubles(m, &stmt, kind, err);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status != MF_OK || !row)
            break;
        m->out->doubles++;
        snprintf(line, sizeof line,
                 "%.30s %.40s is in two entries (%.40s, %.40s): both are kept; withdraw or correct "
                 "one of them",
                 kind->name, mf_stmt_column(&stmt, 2), mf_stmt_column(&stmt, 1),
                 mf_stmt_column(&stmt, 0));
        note(m, line);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_merge_tell(mf_merge *m, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_status status = m->out->added == 0 ? MF_OK : tell_contradictions(m, err);
    for (size_t i = 0; status == MF_OK && m->out->added > 0 && i < count; i++)
        if (mf_kind_key(&kinds[i]) != NULL || kinds[i].once)
            status = tell_doubles(m, &kinds[i], err);
    return status;
}
