/* load_earlier.c - 40 CFR 745.83 counts jobs of the same room within 30 days as
 * one, emergencies excepted. Here all other jobs at what may be the same address and unit are
 * looked up; which of them are near enough in time core decides. */
#include "book/load_earlier.h"

#include "base/fail.h"
#include "base/mem.h"
#include "book/db.h"
#include "book/index.h"
#include <mistfold/address.h>
#include <string.h>

/* ---- the parts of other jobs ------------------------------------------------------- */

/* What is not said is read to the side of safety, as in core. A component without
 * a room is in that of its opening. One that was tested for lead is taken to have paint,
 * though it is logged as not painted: what its tests say is judged with its own job. */
static const char sql[] =
    "SELECT c.entry, c.logged_at, c.who, c.correction, h.job, h.address, h.unit, h.\"start\","
    "       coalesce(nullif(c.room, ''), o.room, ''), c.side,"
    "       CASE WHEN c.removed = 1"
    "                 AND c.whole_sqft_100 <= coalesce(c.disturbed_sqft_100, -1)"
    "            THEN c.disturbed_sqft_100"
    "            WHEN c.removed = 1 THEN c.whole_sqft_100 ELSE c.disturbed_sqft_100 END,"
    "       coalesce((SELECT max(d.day) FROM completion AS d WHERE d.job = h.job), h.\"end\", '')"
    "  FROM place AS p JOIN house AS h ON h.job = p.job JOIN component AS c ON c.job = h.job"
    "  LEFT JOIN opening AS o ON o.job = c.job AND o.id = c.opening"
    " WHERE p.key = ?2 AND h.job <> ?1"
    "   AND (coalesce(c.painted, 1) <> 0"
    "        OR EXISTS (SELECT 1 FROM reading AS t WHERE t.job = c.job AND t.component = c.id)"
    "        OR EXISTS (SELECT 1 FROM kit_test AS t WHERE t.job = c.job AND t.component = c.id)"
    "        OR EXISTS (SELECT 1 FROM chip AS t WHERE t.job = c.job AND t.component = c.id))"
    "   AND (coalesce(c.affected, 1) <> 0 OR c.removed = 1)"
    "   AND NOT EXISTS (SELECT 1 FROM emergency AS e WHERE e.job = h.job)"
    " ORDER BY h.job, c.entry";

enum { ENTRY, AT, WHO, CORRECTION, JOB, ADDRESS, UNIT, START, ROOM, SIDE, AREA, UNTIL };

static mf_status put(mf_earlier *out, mf_arena *arena, mf_stmt *stmt, mf_err *err)
{
    const char *text[SIDE];
    for (int i = 0; i < SIDE; i++) {
        text[i] = mf_arena_text(arena, mf_stmt_column(stmt, i));
        if (text[i] == NULL)
            return mf_fail_memory(err);
    }
    bool outside = strcmp(mf_stmt_column(stmt, SIDE), "exterior") == 0;
    *out = (mf_earlier){.src = {text[ENTRY], text[AT], text[WHO], text[CORRECTION]},
                        .job = text[JOB],
                        .room = text[ROOM],
                        .side = outside ? MF_SIDE_EXTERIOR : MF_SIDE_INTERIOR,
                        .on = mf_day_parse(text[START], NULL),
                        .until = mf_day_parse(mf_stmt_column(stmt, UNTIL), NULL),
                        .disturbed_sqft_100 =
                            mf_stmt_is_null(stmt, AREA) ? MF_NUM_NONE : mf_stmt_number(stmt, AREA)};
    return MF_OK;
}

static bool here(const mf_house *house, mf_stmt *stmt)
{
    return mf_may_be_one_place(house->address, house->unit, mf_stmt_column(stmt, ADDRESS),
                               mf_stmt_column(stmt, UNIT));
}

/* Counts with out NULL, else fills it. */
static mf_status walk(mf_book *book, const mf_job *job, const char *key, mf_earlier *out,
                      mf_arena *arena, size_t *count, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    size_t n = 0;
    mf_status status = mf_stmt_get(&stmt, &book->db, sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job->id);
    mf_stmt_text(&stmt, 2, key);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status != MF_OK || !row || !here(&job->house[0], &stmt))
            continue;
        if (out != NULL && n < *count)
            status = put(&out[n], arena, &stmt, err);
        n++;
    }
    mf_stmt_done(&stmt);
    if (out == NULL)
        *count = n;
    return status;
}

mf_status mf_load_earlier(mf_book *book, mf_job *job, mf_arena *arena, mf_err *err)
{
    size_t count = 0;
    mf_buf key = {0};
    mf_earlier *items = NULL;
    if (job->n_house == 0)
        return MF_OK;
    mf_place_key(&key, job->house[0].address);
    mf_status status = key.failed ? mf_fail_memory(err)
                                  : walk(book, job, mf_buf_str(&key), NULL, arena, &count, err);
    if (status == MF_OK && count > 0) {
        items = mf_arena_alloc(arena, count * sizeof *items);
        status = items == NULL ? mf_fail_memory(err)
                               : walk(book, job, mf_buf_str(&key), items, arena, &count, err);
    }
    mf_buf_free(&key);
    job->earlier = items;
    job->n_earlier = status == MF_OK ? count : 0;
    return status;
}
