/* pg_entries.c - a piece of a chain as rows of entries, and back: the text that comes out is the
 * one that went in, byte for byte, which its SHA-256 tells. */
#include "base/digest.h"
#include "base/fail.h"
#include "base/hex.h"
#include "journal/entries_file.h"
#include "journal/fork.h"
#include "sync/pg.h"
#include "sync/pg_rows.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COLUMNS = 7, CHUNK = 1 << 18 };

#define PIECE_MAX (MF_ENTRIES_FILE_MAX + 1024)

/* What the server says at the end of a COPY. Where memory ran out in libpq the connection is still
 * in its midst, and says so each time it is asked: what is asked of the server next ends it. */
static mf_status end_copy(mf_pg *pg, mf_status status, mf_err *err)
{
    PGresult *result = NULL;
    bool midst = false;
    while (!midst && (result = PQgetResult(pg->conn)) != NULL) {
        ExecStatusType said = PQresultStatus(result);
        if (status == MF_OK && said != PGRES_COMMAND_OK)
            status = mf_pg_fail(pg, result, err);
        midst = said == PGRES_COPY_IN || said == PGRES_COPY_OUT;
        PQclear(result);
    }
    return status;
}

/* ---- out of the store -------------------------------------------------------------------------
 */

typedef struct giving {
    const mf_sync_named *piece;
    mf_pg_rows rows;
    mf_arena arena; /* texts of one row, ended by a NUL */
    char prev[MF_HASH_HEX];
    int64_t next;
    mf_buf out;
} giving;

/* Whether a text of the store is one: what has a NUL in it is none. */
static const char *text_of(giving *g, const mf_pg_field *field)
{
    if (field->data == NULL || memchr(field->data, '\0', field->len) != NULL)
        return "";
    const char *text = mf_arena_piece(&g->arena, field->data, field->len);
    g->out.failed = g->out.failed || text == NULL;
    return text == NULL ? "" : text;
}

/* seq, at, who, kind, job, body, hash. The row before the first one gives its hash alone. */
static bool put_row(giving *g, const mf_pg_field *f)
{
    char hash[MF_HASH_HEX];
    const int64_t seq = mf_pg_int64_of(&f[0]);
    if (f[6].data == NULL || f[6].len != 32 || seq != g->next)
        return false;
    mf_hex(f[6].data, f[6].len, hash);
    if (seq >= g->piece->from) {
        const mf_line line = {g->piece->device,
                              seq,
                              text_of(g, &f[1]),
                              text_of(g, &f[2]),
                              text_of(g, &f[3]),
                              text_of(g, &f[4]),
                              text_of(g, &f[5]),
                              g->prev,
                              hash};
        mf_entries_put_line(&g->out, &line);
    }
    mf_hash_copy(g->prev, hash);
    g->next++;
    mf_arena_free(&g->arena);
    return true;
}

/* What does not fit is left out: the whole has another SHA-256 then. */
static mf_status put_rows(mf_pg *pg, giving *g, mf_err *err)
{
    bool row = true, good = true;
    while (good && row) {
        mf_pg_field fields[COLUMNS];
        good = mf_pg_rows_next(&g->rows, fields, COLUMNS, &row);
        if (good && row)
            good = put_row(g, fields);
    }
    if (g->rows.at == g->rows.bytes.len) {
        mf_buf_clear(&g->rows.bytes);
        g->rows.at = 0;
    }
    if (g->out.failed || g->rows.bytes.failed)
        return mf_fail_memory(err);
    if (good && g->out.len <= PIECE_MAX && g->rows.bytes.len <= PIECE_MAX)
        return MF_OK;
    return mf_failf(err, MF_INPUT, pg->name, "it was altered there", "",
                    "what stands there of %s/%" PRId64 " is no entry of a chain", g->piece->device,
                    g->next);
}

/* To its end, also when nothing more is wanted: else the connection is not free again. */
static mf_status take_rows(mf_pg *pg, giving *g, mf_err *err)
{
    char *bytes = NULL;
    int len = 0;
    mf_status status = MF_OK;
    while ((len = PQgetCopyData(pg->conn, &bytes, 0)) > 0) {
        if (status == MF_OK) {
            mf_buf_add(&g->rows.bytes, bytes, (size_t)len);
            status = put_rows(pg, g, err);
        }
        PQfreemem(bytes);
    }
    return end_copy(pg, status, err);
}

/* A device's name has no letter that would have to be quoted; COPY takes no values beside it. */
static mf_status copy_rows(mf_pg *pg, giving *g, mf_err *err)
{
    char sql[500];
    g->next = g->piece->from > 1 ? g->piece->from - 1 : 1;
    mf_hash_copy(g->prev, mf_zero_hash);
    snprintf(sql, sizeof sql,
             "COPY (SELECT seq, at, who, kind, job, body, hash FROM mistfold.entry"
             " WHERE firm = (SELECT mistfold.my_firm()) AND device = '%s'"
             " AND seq BETWEEN %" PRId64 " AND %" PRId64 " ORDER BY seq) TO STDOUT (FORMAT binary)",
             g->piece->device, g->next, g->piece->to);
    mf_status status = mf_pg_ask(pg, sql, NULL, 0, NULL, err);
    return status == MF_OK ? take_rows(pg, g, err) : status;
}

static mf_status find_lines(mf_pg *pg, const mf_sync_named *piece, PGresult **out, mf_err *err)
{
    char from[24], to[24];
    snprintf(from, sizeof from, "%" PRId64, piece->from);
    snprintf(to, sizeof to, "%" PRId64, piece->to);
    const char *const values[] = {piece->device, from, to, piece->writer, piece->sha256};
    mf_status status =
        mf_pg_ask(pg,
                  "SELECT first_line, last_line FROM mistfold.segment WHERE firm = (SELECT"
                  " mistfold.my_firm()) AND device = $1 AND from_seq = $2 AND to_seq = $3"
                  " AND writer = $4 AND sha256 = decode($5, 'hex')",
                  values, 5, out, err);
    if (status == MF_OK && PQntuples(*out) != 1)
        status = mf_fail(err, MF_INPUT, pg->name, "it is not there any more", "", "sync again");
    return status;
}

mf_status mf_pg_read_piece(mf_pg *pg, const mf_sync_named *piece, mf_bytes *out, mf_err *err)
{
    PGresult *lines = NULL;
    giving g = {.piece = piece};
    mf_status status = find_lines(pg, piece, &lines, err);
    if (status == MF_OK) {
        mf_buf_text(&g.out, PQgetvalue(lines, 0, 0));
        status = copy_rows(pg, &g, err);
    }
    if (status == MF_OK) {
        mf_buf_text(&g.out, PQgetvalue(lines, 0, 1));
        status = g.out.failed ? mf_fail_memory(err) : MF_OK;
    }
    PQclear(lines);
    if (status == MF_OK)
        mf_buf_take(&g.out, out);
    mf_buf_free(&g.out);
    mf_buf_free(&g.rows.bytes);
    mf_arena_free(&g.arena);
    return status;
}

/* ---- into the store ---------------------------------------------------------------------------
 */

typedef struct taking {
    mf_pg *pg;
    const mf_sync_named *piece;
    const char *text;
    size_t len, first_len, last_at;
    mf_buf rows, again; /* what goes on its way, and the text made anew */
} taking;

static mf_status flush(taking *t, size_t least, mf_err *err)
{
    if (t->rows.len < least || t->rows.len == 0)
        return MF_OK;
    if (t->rows.failed)
        return mf_fail_memory(err);
    int done = PQputCopyData(t->pg->conn, t->rows.data, (int)t->rows.len);
    mf_buf_clear(&t->rows);
    return done == 1 ? MF_OK : mf_pg_fail(t->pg, NULL, err);
}

static mf_pg_field text_field(const char *text)
{
    return (mf_pg_field){text, strlen(text)};
}

static mf_status put_line(taking *t, const mf_line *line, mf_err *err)
{
    char seq[8], bytes[32];
    mf_pg_int64(seq, line->seq);
    mf_hex_bytes(line->hash, bytes, sizeof bytes); /* whoever read the line looked at it */
    const mf_pg_field fields[COLUMNS] = {{seq, sizeof seq},     text_field(line->at),
                                         text_field(line->who), text_field(line->kind),
                                         text_field(line->job), text_field(line->body),
                                         {bytes, sizeof bytes}};
    mf_pg_row(&t->rows, fields, COLUMNS);
    mf_entries_put_line(&t->again, line);
    return flush(t, CHUNK, err);
}

static mf_status put_lines(taking *t, mf_err *err)
{
    mf_entries_part part = MF_PART_LINE;
    mf_entries_reader r = {0};
    mf_digest *digest = mf_digest_begin();
    const mf_sha256 by = {mf_digest_of, digest};
    mf_status status = digest == NULL
                           ? mf_fail_memory(err)
                           : mf_entries_file_begin(&r, t->pg->name, t->text, t->len, &by, err);
    t->first_len = r.at;
    mf_buf_add(&t->again, t->text, status == MF_OK ? r.at : 0);
    mf_pg_rows_begin(&t->rows);
    while (status == MF_OK && part != MF_PART_END) {
        t->last_at = r.at;
        status = mf_entries_file_next(&r, &part, err);
        if (status == MF_OK && part == MF_PART_LINE)
            status = put_line(t, &r.line, err);
    }
    mf_pg_rows_end(&t->rows);
    mf_entries_file_free(&r);
    mf_digest_end(digest, NULL);
    return status == MF_OK ? flush(t, 0, err) : status;
}

/* What the rows give must be what was to be kept: else nobody could ever take it over. */
static mf_status compare(taking *t, mf_err *err)
{
    mf_buf_add(&t->again, t->text + t->last_at, t->len - t->last_at);
    if (t->again.failed)
        return mf_fail_memory(err);
    if (t->again.len == t->len && memcmp(t->again.data, t->text, t->len) == 0)
        return MF_OK;
    return mf_fail(err, MF_SYSTEM, t->pg->name, "a segment is not the same as rows", "",
                   "tell whoever wrote this program");
}

/* By way of a table of our own: COPY does not go into one with rights by row. */
static mf_status copy_in(taking *t, mf_err *err)
{
    mf_status status =
        mf_pg_ask(t->pg,
                  "COPY pg_temp.mistfold_in (seq, at, who, kind, job, body, hash) FROM STDIN"
                  " (FORMAT binary)",
                  NULL, 0, NULL, err);
    if (status != MF_OK)
        return status;
    status = put_lines(t, err);
    if (status == MF_OK)
        status = compare(t, err);
    if (PQputCopyEnd(t->pg->conn, status == MF_OK ? NULL : "it is not whole") != 1 &&
        status == MF_OK)
        status = mf_pg_fail(t->pg, NULL, err);
    return end_copy(t->pg, status, err);
}

/* The one history that stands there already, and ours. */
static mf_status look_for_fork(taking *t, mf_err *err)
{
    PGresult *result = NULL;
    const char *const values[] = {t->piece->device};
    mf_status status = mf_pg_ask(
        t->pg,
        "SELECT t.seq, encode(e.hash, 'hex'), encode(t.hash, 'hex') FROM pg_temp.mistfold_in t,"
        " LATERAL (SELECT hash FROM mistfold.entry WHERE firm = (SELECT mistfold.my_firm())"
        " AND device = $1 AND seq = t.seq OFFSET 0) e WHERE e.hash <> t.hash ORDER BY t.seq LIMIT "
        "1",
        values, 1, &result, err);
    if (status == MF_OK && PQntuples(result) > 0)
        status = mf_failf(
            err, MF_NO, t->pg->name, "one device has two histories", MF_FORK_WAY_OUT,
            "entry %s/%.20s says something else there: its hash is %.16s..., and here %.16s...",
            t->piece->device, PQgetvalue(result, 0, 0), PQgetvalue(result, 0, 1),
            PQgetvalue(result, 0, 2));
    PQclear(result);
    return status;
}

/* What a trigger, a right or a constraint refuses is no failure of the place. */
static mf_status change(taking *t, const char *sql, const char *const *values, int n, mf_err *err)
{
    PGresult *result = NULL;
    mf_status status = mf_pg_ask(t->pg, sql, values, n, &result, err);
    if (status != MF_OK && mf_pg_is_refused(result))
        status = MF_NO;
    PQclear(result);
    return status;
}

static mf_status put_segment(taking *t, mf_err *err)
{
    char from[24], to[24], size[24];
    char *first = strndup(t->text, t->first_len);
    char *last = strndup(t->text + t->last_at, t->len - t->last_at);
    snprintf(from, sizeof from, "%" PRId64, t->piece->from);
    snprintf(to, sizeof to, "%" PRId64, t->piece->to);
    snprintf(size, sizeof size, "%zu", t->len);
    const char *const values[] = {t->piece->device, from, to,    t->piece->writer,
                                  t->piece->sha256, size, first, last};
    mf_status status =
        first == NULL || last == NULL
            ? mf_fail_memory(err)
            : change(t,
                     "INSERT INTO mistfold.segment (firm, device, from_seq, to_seq, writer, sha256,"
                     " size, first_line, last_line) VALUES ((SELECT mistfold.my_firm()), $1, $2,"
                     " $3, $4, decode($5, 'hex'), $6, $7, $8) ON CONFLICT DO NOTHING",
                     values, 8, err);
    free(first);
    free(last);
    return status;
}

static mf_status put_all(taking *t, mf_err *err)
{
    const char *const values[] = {t->piece->device};
    mf_status status = copy_in(t, err);
    if (status == MF_OK)
        status = look_for_fork(t, err);
    if (status == MF_OK)
        status = change(t,
                        "INSERT INTO mistfold.entry (firm, device, seq, at, who, kind, job, body,"
                        " hash) SELECT (SELECT mistfold.my_firm()), $1, seq, at, who, kind, job,"
                        " body, hash FROM pg_temp.mistfold_in ORDER BY seq ON CONFLICT DO NOTHING",
                        values, 1, err);
    if (status == MF_OK) /* somebody else may have been there in this moment */
        status = look_for_fork(t, err);
    return status == MF_OK ? put_segment(t, err) : status;
}

static mf_status make_ready(mf_pg *pg, mf_err *err)
{
    if (pg->ready_to_write)
        return MF_OK;
    mf_status status =
        mf_pg_ask(pg,
                  "CREATE TEMPORARY TABLE mistfold_in (seq bigint, at text, who text, kind text,"
                  " job text, body text, hash bytea) ON COMMIT DELETE ROWS",
                  NULL, 0, NULL, err);
    pg->ready_to_write = status == MF_OK;
    return status;
}

mf_status mf_pg_write_piece(mf_pg *pg, const mf_sync_named *piece, const void *bytes, size_t len,
                            mf_err *err)
{
    mf_err why = {0};
    taking t = {.pg = pg, .piece = piece, .text = bytes, .len = len};
    mf_status status = make_ready(pg, &why);
    if (status == MF_OK)
        status = mf_pg_ask(pg, "BEGIN", NULL, 0, NULL, &why);
    if (status == MF_OK)
        status = put_all(&t, &why);
    if (status == MF_OK)
        status = mf_pg_ask(pg, "COMMIT", NULL, 0, NULL, &why);
    else
        mf_pg_ask(pg, "ROLLBACK", NULL, 0, NULL, NULL);
    mf_buf_free(&t.rows);
    mf_buf_free(&t.again);
    if (status != MF_OK && err != NULL)
        *err = why;
    return status;
}
