/* postgres.c - a database of PostgreSQL as a store: entries as rows, and beside them who handed
 * out which piece of a chain. What is taken over is read in one snapshot; each piece is written
 * whole or not at all. */
#include "base/fail.h"
#include "sync/pg.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- listing ------------------------------------------------------------------------------- */

/* An array of texts or numbers that need no quotes; there is one at least. */
static void put(mf_buf *array, const char *item)
{
    mf_buf_printf(array, "%s%s", array->len == 0 ? "{" : ",", item);
}

static mf_status end_array(mf_buf *array, mf_err *err)
{
    mf_buf_text(array, "}");
    return array->failed ? mf_fail_memory(err) : MF_OK;
}

/* Asks for names and sizes, and tells of each. *more false when whoever is told wants no more:
 * it says why itself. */
static mf_status tell(mf_pg *pg, const char *sql, const char *const *values, int n, mf_store_fn *fn,
                      void *to, bool *more, mf_err *err)
{
    PGresult *result = NULL;
    mf_status status = mf_pg_ask(pg, sql, values, n, &result, err);
    for (int i = 0; status == MF_OK && *more && i < PQntuples(result); i++) {
        const mf_store_item item = {.name = PQgetvalue(result, i, 0),
                                    .size = strtoll(PQgetvalue(result, i, 1), NULL, 10)};
        *more = fn(&item, to);
    }
    PQclear(result);
    return status;
}

/* Chains of which something is wanted, and from where on. */
typedef struct wanted {
    mf_buf devices, from;
} wanted;

static void want(wanted *w, const char *device, int64_t through)
{
    char number[24];
    snprintf(number, sizeof number, "%" PRId64, through);
    put(&w->devices, device);
    put(&w->from, number);
}

static mf_status ask_heads(mf_pg *pg, const mf_store_listener *to, wanted *w, bool *more,
                           mf_err *err)
{
    PGresult *result = NULL;
    mf_status status = mf_pg_ask(pg,
                                 "SELECT device, seq, encode(hash, 'hex') FROM mistfold.head"
                                 " WHERE firm = (SELECT mistfold.my_firm()) ORDER BY device",
                                 NULL, 0, &result, err);
    for (int i = 0; status == MF_OK && *more && i < PQntuples(result); i++) {
        const char *device = PQgetvalue(result, i, 0);
        const int64_t seq = strtoll(PQgetvalue(result, i, 1), NULL, 10);
        const int64_t through = to->chain(device, seq, PQgetvalue(result, i, 2), to->data);
        *more = through >= 0;
        if (*more && through < seq)
            want(w, device, through);
    }
    PQclear(result);
    return status;
}

static mf_status tell_segments(mf_pg *pg, const mf_store_listener *to, wanted *w, bool *more,
                               mf_err *err)
{
    if (w->devices.len == 0 && !w->devices.failed)
        return MF_OK;
    mf_status status = end_array(&w->devices, err);
    if (status == MF_OK)
        status = end_array(&w->from, err);
    if (status != MF_OK)
        return status;
    const char *const values[] = {w->devices.data, w->from.data};
    return tell(
        pg,
        "SELECT s.writer || '/' || s.device || '.' || s.from_seq || '-' || s.to_seq || '.' ||"
        " encode(s.sha256, 'hex') || '.entries', s.size"
        " FROM unnest($1::text[], $2::bigint[]) AS w (device, seq),"
        " LATERAL (SELECT * FROM mistfold.segment g WHERE g.firm = (SELECT mistfold.my_firm())"
        " AND g.device = w.device AND g.to_seq > w.seq) AS s",
        values, 2, to->item, to->data, more, err);
}

#define CONTENT                                                                                    \
    "SELECT device || '/' || encode(sha256, 'hex') || '.bytes', octet_length(bytes)"               \
    " FROM mistfold.content WHERE firm = (SELECT mistfold.my_firm())"

static mf_status list(void *data, const mf_store_listener *to, mf_err *err)
{
    mf_pg *pg = data;
    wanted w = {.devices = {0}};
    bool more = true;
    mf_status status =
        mf_pg_ask(pg, "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY", NULL, 0, NULL, err);
    pg->reading = status == MF_OK;
    if (status == MF_OK)
        status = ask_heads(pg, to, &w, &more, err);
    if (status == MF_OK && more)
        status = tell_segments(pg, to, &w, &more, err);
    if (status == MF_OK && more && to->all)
        status = tell(pg, CONTENT " ORDER BY sha256", NULL, 0, to->item, to->data, &more, err);
    mf_buf_free(&w.devices);
    mf_buf_free(&w.from);
    return status;
}

static mf_status contents(void *data, const char (*sha256)[MF_HASH_HEX], size_t n, mf_store_fn *fn,
                          void *to, mf_err *err)
{
    mf_buf hashes = {0};
    bool more = true;
    for (size_t i = 0; i < n; i++)
        put(&hashes, sha256[i]);
    mf_status status = end_array(&hashes, err);
    const char *const values[] = {hashes.data};
    if (status == MF_OK)
        status =
            tell(data, CONTENT " AND sha256 IN (SELECT decode(x, 'hex') FROM unnest($1::text[]) x)",
                 values, 1, fn, to, &more, err);
    mf_buf_free(&hashes);
    return status;
}

/* ---- reading and writing ------------------------------------------------------------------- */

static mf_status read_content(mf_pg *pg, const char *sha256, mf_bytes *out, mf_err *err)
{
    mf_buf bytes = {0};
    PGresult *result = PQexecParams(pg->conn,
                                    "SELECT bytes FROM mistfold.content WHERE firm = (SELECT"
                                    " mistfold.my_firm()) AND sha256 = decode($1, 'hex')",
                                    1, NULL, &sha256, NULL, NULL, 1);
    mf_status status = MF_OK;
    if (PQresultStatus(result) != PGRES_TUPLES_OK)
        status = mf_pg_fail(pg, result, err);
    else if (PQntuples(result) != 1)
        status = mf_fail(err, MF_INPUT, pg->name, "it is not there any more", "", "sync again");
    if (status == MF_OK) {
        mf_buf_add(&bytes, PQgetvalue(result, 0, 0), (size_t)PQgetlength(result, 0, 0));
        status = bytes.failed ? mf_fail_memory(err) : MF_OK;
    }
    PQclear(result);
    if (status == MF_OK)
        mf_buf_take(&bytes, out);
    mf_buf_free(&bytes);
    return status;
}

static mf_status read_one(void *data, const char *name, mf_bytes *out, mf_err *err)
{
    mf_sync_named named;
    mf_pg *pg = data;
    if (!mf_sync_name_split(name, &named))
        return mf_fail(err, MF_INPUT, pg->name, "there is no such thing", "", "");
    return named.device[0] == '\0' ? read_content(pg, named.sha256, out, err)
                                   : mf_pg_read_piece(pg, &named, out, err);
}

static mf_status write_content(mf_pg *pg, const char *sha256, const void *bytes, size_t len,
                               mf_err *err)
{
    const char *const values[] = {pg->device, sha256, bytes};
    const int lens[] = {0, 0, (int)len}, forms[] = {0, 0, 1};
    PGresult *result = PQexecParams(pg->conn,
                                    "INSERT INTO mistfold.content (firm, device, sha256, bytes)"
                                    " VALUES ((SELECT mistfold.my_firm()), $1, decode($2, 'hex'),"
                                    " $3) ON CONFLICT DO NOTHING",
                                    3, NULL, values, lens, forms, 0);
    mf_status status = MF_OK;
    if (PQresultStatus(result) != PGRES_COMMAND_OK)
        status = mf_pg_fail(pg, result, err);
    if (status != MF_OK && mf_pg_is_refused(result))
        status = MF_NO;
    PQclear(result);
    return status;
}

static mf_status write_one(void *data, const char *name, const void *bytes, size_t len, mf_err *err)
{
    mf_sync_named named;
    mf_pg *pg = data;
    mf_status status = pg->reading ? mf_pg_ask(pg, "COMMIT", NULL, 0, NULL, err) : MF_OK;
    pg->reading = false;
    if (status != MF_OK)
        return status;
    if (!mf_sync_name_split(name, &named))
        return mf_fail(err, MF_INPUT, pg->name, "there is no such thing", "", "");
    return named.device[0] == '\0' ? write_content(pg, named.sha256, bytes, len, err)
                                   : mf_pg_write_piece(pg, &named, bytes, len, err);
}

/* One's own chain, and as a relay those of devices that do not meet here by themselves. */
static mf_status may_write(void *data, const char *device, bool *may, mf_err *err)
{
    mf_pg *pg = data;
    PGresult *result = NULL;
    *may = strcmp(device, pg->device) == 0;
    if (*may)
        return MF_OK;
    mf_status status = mf_pg_ask(pg,
                                 "SELECT mistfold.is_relay() AND NOT EXISTS (SELECT FROM"
                                 " mistfold.device WHERE firm = (SELECT mistfold.my_firm()) AND"
                                 " device = $1 AND login IS NOT NULL)",
                                 &device, 1, &result, err);
    *may = status == MF_OK && PQntuples(result) == 1 && PQgetvalue(result, 0, 0)[0] == 't';
    PQclear(result);
    return status;
}

static void shut(void *data)
{
    mf_pg_close(data);
    free(data);
}

/* ---- opening -------------------------------------------------------------------------------- */

static mf_status is_device(mf_pg *pg, const char *device, mf_err *err)
{
    PGresult *result = NULL;
    mf_status status = mf_pg_ask(pg,
                                 "SELECT (SELECT version FROM mistfold.version),"
                                 " coalesce(mistfold.my_device(), '')",
                                 NULL, 0, &result, err);
    const char *state = PQresultErrorField(result, PG_DIAG_SQLSTATE);
    const char *is = status == MF_OK && PQntuples(result) == 1 ? PQgetvalue(result, 0, 1) : "";
    if (state != NULL && (strcmp(state, "3F000") == 0 || strcmp(state, "42P01") == 0))
        status = mf_fail(err, MF_INPUT, pg->name, "there is no store in this database", "",
                         "an administrator makes one: mistfold sync --init");
    else if (status == MF_OK && strtol(PQgetvalue(result, 0, 0), NULL, 10) != MF_PG_VERSION)
        status = mf_failf(err, MF_INPUT, pg->name, "", "use the program of that version",
                          "the store is of version %.10s, and this program knows version %d",
                          PQgetvalue(result, 0, 0), MF_PG_VERSION);
    else if ((state != NULL && strcmp(state, "42501") == 0) || (status == MF_OK && is[0] == '\0'))
        status = mf_fail(err, MF_INPUT, pg->name, "this login is no device of a firm",
                         "it was never one, or it was shut out",
                         "ask the administrator: docs/server.md, \"A device\"");
    else if (status == MF_OK && strcmp(is, device) != 0)
        status = mf_failf(err, MF_INPUT, pg->name, "each device meets there by a login of its own",
                          "name another login, or another book",
                          "this login is that of device %.16s, and the book is that of %.16s", is,
                          device);
    snprintf(pg->device, sizeof pg->device, "%s", device);
    PQclear(result);
    return status;
}

MF_API mf_status mf_store_postgresql(mf_store *out, const char *address, const char *device,
                                     mf_err *err)
{
    *out = (mf_store){.list = NULL};
    mf_pg *pg = calloc(1, sizeof *pg);
    if (pg == NULL)
        return mf_fail_memory(err);
    mf_status status = mf_pg_open(pg, address, err);
    if (status == MF_OK)
        status = is_device(pg, device, err);
    if (status != MF_OK) {
        shut(pg);
        return status;
    }
    *out = (mf_store){.list = list,
                      .read = read_one,
                      .write = write_one,
                      .contents = contents,
                      .may_write = may_write,
                      .close = shut,
                      .data = pg};
    snprintf(out->name, sizeof out->name, "%s", pg->name);
    return MF_OK;
}
