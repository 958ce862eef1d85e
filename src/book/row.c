#include "book/row.h"

#include "base/fail.h"
#include "book/tables.h"

void mf_row_bind(mf_stmt *stmt, int at, const mf_field *field, const json_t *body)
{
    const json_t *value = json_object_get(body, field->name);
    if (mf_field_is_number(field->type)) {
        if (json_is_integer(value))
            mf_stmt_int(stmt, at, json_integer_value(value));
    } else if (field->type == MF_F_YESNO) {
        if (json_is_boolean(value))
            mf_stmt_int(stmt, at, json_is_true(value));
    } else {
        mf_stmt_text(stmt, at, json_string_value(value));
    }
}

void mf_row_insert_head(mf_buf *sql, const mf_kind *kind)
{
    mf_buf_text(sql, "INSERT INTO ");
    mf_sql_name(sql, kind->name);
    mf_buf_text(sql, " (entry, job, logged_at, who, correction");
    for (size_t i = 0; i < kind->n_fields; i++) {
        mf_buf_text(sql, ", ");
        mf_sql_name(sql, kind->fields[i].name);
    }
    mf_buf_text(sql, ", seq) VALUES ");
}

static void add_insert_sql(mf_buf *sql, const mf_kind *kind)
{
    mf_row_insert_head(sql, kind);
    mf_buf_text(sql, "(?1");
    for (size_t i = 1; i < kind->n_fields + MF_COL_FIRST_FIELD; i++)
        mf_buf_printf(sql, ", ?%zu", i + 1);
    mf_buf_text(sql, ", " MF_SEQ_OF_1 ")");
}

mf_status mf_row_insert(mf_db *db, const mf_kind *kind, const mf_row_head *head, const json_t *body,
                        mf_err *err)
{
    mf_buf sql = {0};
    mf_stmt stmt = {0};
    add_insert_sql(&sql, kind);
    mf_status status = mf_stmt_take(&stmt, db, &sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, MF_COL_ENTRY + 1, head->entry);
    mf_stmt_text(&stmt, MF_COL_JOB + 1, head->job);
    mf_stmt_text(&stmt, MF_COL_AT + 1, head->at);
    mf_stmt_text(&stmt, MF_COL_WHO + 1, head->who);
    mf_stmt_text(&stmt, MF_COL_CORRECTION + 1, head->correction);
    for (size_t i = 0; i < kind->n_fields; i++)
        mf_row_bind(&stmt, MF_COL_FIRST_FIELD + 1 + (int)i, &kind->fields[i], body);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_row_delete(mf_db *db, const mf_kind *kind, const char *entry, mf_err *err)
{
    mf_buf sql = {0};
    mf_stmt stmt = {0};
    mf_buf_text(&sql, "DELETE FROM ");
    mf_sql_name(&sql, kind->name);
    mf_buf_text(&sql, MF_WHERE_ENTRY);
    mf_status status = mf_stmt_take(&stmt, db, &sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, entry);
    status = mf_stmt_run(&stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

const mf_field *mf_field_at(const mf_kind *kind, size_t offset)
{
    for (size_t i = 0; i < kind->n_fields; i++)
        if (kind->fields[i].offset == offset)
            return &kind->fields[i];
    return NULL;
}
