/* basis.c - what the verdicts of settled rest on beside the jobs: this version of the
 * program, and the entries of the firm. One about a person or an instrument bears on
 * the jobs that name them; core asks for a certificate by its holder and for a
 * calibration by its instrument, and takes both from a job's own fields. */
#include "book/settled.h"

#include "base/fail.h"
#include "book/room.h"
#include "book/schema.h"
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- whom a job names ------------------------------------------------------------------------ */

static bool names_somebody(const mf_field *field)
{
    return field->ref != NULL && field->type == MF_F_ID &&
           (strcmp(field->ref, "person") == 0 || strcmp(field->ref, "instrument") == 0);
}

static void add_name(mf_buf *out, mf_buf *line, const char *id)
{
    mf_buf_clear(line);
    mf_buf_printf(line, "\n%s\n", id);
    if (id[0] == '\0' || strstr(mf_buf_str(out), mf_buf_str(line)) != NULL)
        return;
    mf_buf_text(out, mf_buf_str(line) + (out->len > 0)); /* one line end serves two */
}

static void add_names(mf_buf *out, mf_buf *line, const mf_job *job, const mf_kind *kind)
{
    const char *id;
    size_t count;
    const unsigned char *items = mf_kind_items(job, kind, &count);
    for (size_t at = 0; at < kind->n_fields; at++)
        for (size_t i = 0; names_somebody(&kind->fields[at]) && i < count; i++) {
            memcpy(&id, items + i * kind->size + kind->fields[at].offset, sizeof id);
            add_name(out, line, id);
        }
}

void mf_basis_names(mf_buf *out, const mf_job *job)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_buf line = {0};
    for (size_t i = 0; i < count; i++)
        if (!kinds[i].of_firm)
            add_names(out, &line, job, &kinds[i]);
    out->failed = out->failed || line.failed;
    mf_buf_free(&line);
}

/* ---- what came in since ---------------------------------------------------------------------- */

enum { BASIS_MAX = 80 };

/* A head of an export, whose key seals, what a merge brought back and what others have seen
 * of the book bear on no verdict. */
#define OF_FIRM                                                                                    \
    " FROM entry WHERE job = '' AND kind NOT IN"                                                   \
    " ('column_map', 'known_key', 'adoption', 'witness', 'device_key', 'vouched')"

static mf_status basis_now(mf_db *db, char out[BASIS_MAX], int64_t *firm, mf_err *err)
{
    mf_status status = mf_db_int(db, "SELECT max(rowid)" OF_FIRM, firm, err);
    snprintf(out, BASIS_MAX, "%s after %" PRId64, MF_VERSION, *firm);
    return status;
}

/* The entry of the firm up to which it was judged; -1 when another version did. */
static int64_t judged_after(const char *was)
{
    static const char begin[] = MF_VERSION " after ";
    char *end = NULL;
    if (strncmp(was, begin, sizeof begin - 1) != 0)
        return -1;
    const char *number = was + sizeof begin - 1;
    long long firm = strtoll(number, &end, 10);
    return end == number || *end != '\0' || firm < 0 ? -1 : (int64_t)firm;
}

static mf_status forget_all(mf_db *db, mf_err *err)
{
    return mf_db_exec(db, "UPDATE settled SET stage = '' WHERE stage <> ''", err);
}

/* Whom each new entry of the firm is about; NULL = whatever there is. */
static const char news[] = "SELECT CASE WHEN NOT json_valid(body) THEN NULL"
                           " WHEN kind = 'person' THEN body ->> '$.id'"
                           " WHEN kind = 'certificate' THEN nullif(body ->> '$.holder', 'firm')"
                           " WHEN kind = 'instrument' THEN body ->> '$.serial'"
                           " WHEN kind = 'profile_row' THEN body ->> '$.instrument' END" OF_FIRM
                           " AND rowid > ?1 GROUP BY 1";

static mf_status forget_named(mf_db *db, int64_t after, mf_err *err)
{
    static const char those[] = "UPDATE settled SET stage = '' WHERE stage <> ''"
                                " AND instr(names, char(10) || ?1 || char(10)) > 0";
    mf_stmt stmt;
    mf_status status = mf_stmt_get(&stmt, db, news, err);
    if (status == MF_OK)
        mf_stmt_int(&stmt, 1, after);
    while (mf_stmt_next(&stmt, &status, err)) {
        const char *id = mf_stmt_column(&stmt, 0);
        status = id[0] == '\0' ? forget_all(db, err) : mf_db_run(db, those, &id, 1, err);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_basis_forget(mf_book *book, mf_err *err)
{
    char was[BASIS_MAX] = "", is[BASIS_MAX] = "";
    int64_t now = 0;
    mf_status status = basis_now(&book->db, is, &now, err);
    if (status == MF_OK)
        status = mf_meta_get(&book->db, "judged", was, sizeof was, err);
    if (status != MF_OK || strcmp(was, is) == 0)
        return status;
    int64_t after = judged_after(was);
    status = mf_db_begin(&book->db, err);
    if (status == MF_OK)
        status = after < 0 || after > now ? forget_all(&book->db, err)
                                          : forget_named(&book->db, after, err);
    if (status == MF_OK)
        status = mf_meta_set(&book->db, "judged", is, err);
    if (status == MF_OK)
        status = mf_db_commit(&book->db, err);
    if (status != MF_OK)
        mf_db_rollback(&book->db);
    return status;
}
