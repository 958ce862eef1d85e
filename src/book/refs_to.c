/* refs_to.c - who names an id: a thing that others name cannot go away. */
#include "base/fail.h"
#include "book/refs.h"
#include "book/tables.h"
#include <stdio.h>
#include <string.h>

/* Rows of other that name key in field. Things of the firm may be named in any
 * job. A list of ids is searched with a comma at both ends. */
static void add_sql(mf_buf *sql, const mf_kind *other, const mf_field *field, bool anywhere)
{
    mf_buf_text(sql, "SELECT entry FROM ");
    mf_sql_name(sql, other->name);
    mf_buf_text(sql, " WHERE entry <> ?1 AND instr(',' || ");
    mf_sql_name(sql, field->name);
    mf_buf_text(sql, " || ',', ',' || ?2 || ',') > 0");
    if (!anywhere)
        mf_buf_text(sql, " AND job = ?3");
    mf_buf_text(sql, " LIMIT 1");
}

static mf_status find_ref(mf_book *book, const mf_kind *other, const mf_field *field,
                          const char *job, const char *key, const char *entry,
                          char found[MF_ENTRY_ID], mf_err *err)
{
    mf_buf sql = {0};
    mf_stmt stmt = {0};
    bool row = false;
    add_sql(&sql, other, field, job == NULL);
    mf_status status = mf_stmt_take(&stmt, &book->db, &sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, entry);
    mf_stmt_text(&stmt, 2, key);
    if (job != NULL)
        mf_stmt_text(&stmt, 3, job);
    status = mf_stmt_step(&stmt, &row, err);
    if (row)
        snprintf(found, MF_ENTRY_ID, "%s", mf_stmt_column(&stmt, 0));
    mf_stmt_done(&stmt);
    return status;
}

static mf_status refuse(const mf_kind *kind, const char *key, const mf_kind *other,
                        const char *found, mf_err *err)
{
    char where[160], mend[160];
    snprintf(where, sizeof where, "%.40s %.60s", kind->name, key);
    snprintf(mend, sizeof mend, "correct or withdraw entry %s first", found);
    return mf_failf(err, MF_INPUT, where, "what others name cannot change its id or go away", mend,
                    "entry %s (%s) names it", found, other->name);
}

/* Every entry of a job hangs on its house. */
static bool hangs_on(const mf_kind *kind, const mf_kind *other)
{
    return strcmp(kind->name, "house") == 0 && !other->of_firm && other != kind;
}

static mf_status find_in_job(mf_book *book, const mf_kind *other, const char *job,
                             char found[MF_ENTRY_ID], mf_err *err)
{
    mf_buf sql = {0};
    mf_stmt stmt = {0};
    bool row = false;
    mf_buf_text(&sql, "SELECT entry FROM ");
    mf_sql_name(&sql, other->name);
    mf_buf_text(&sql, " WHERE job = ?1 LIMIT 1");
    mf_status status = mf_stmt_take(&stmt, &book->db, &sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    status = mf_stmt_step(&stmt, &row, err);
    if (row)
        snprintf(found, MF_ENTRY_ID, "%s", mf_stmt_column(&stmt, 0));
    mf_stmt_done(&stmt);
    return status;
}

static mf_status find_in_kind(mf_book *book, const mf_kind *kind, const mf_kind *other,
                              const char *job, const char *key, const char *entry,
                              char found[MF_ENTRY_ID], mf_err *err)
{
    if (hangs_on(kind, other))
        return find_in_job(book, other, job, found, err);
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && found[0] == '\0' && i < other->n_fields; i++) {
        const mf_field *field = &other->fields[i];
        if (field->ref != NULL && strcmp(field->ref, kind->name) == 0)
            status =
                find_ref(book, other, field, kind->of_firm ? NULL : job, key, entry, found, err);
    }
    return status;
}

mf_status mf_free_of_refs(mf_book *book, const mf_kind *kind, const char *job, const char *key,
                          const char *entry, mf_err *err)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < count; i++) {
        char found[MF_ENTRY_ID] = "";
        if (strcmp(kinds[i].name, MF_KIND_CORRECTION) == 0)
            continue;
        status = find_in_kind(book, kind, &kinds[i], job, key, entry, found, err);
        if (status == MF_OK && found[0] != '\0')
            return refuse(kind, key, &kinds[i], found, err);
    }
    return status;
}
