/* witness.c - heads of the book that were named from outside it: noting them, and holding the
 * book against them. Whoever rewrites a chain makes every hash in the book right; a witness
 * that stands in the chain of another device, or came by a paper, says otherwise. */
#include "base/fail.h"
#include "base/json.h"
#include "book/adopted.h"
#include "book/check.h"
#include "book/replay.h"
#include "book/write.h"
#include <mistfold/segment.h>
#include <stdio.h>
#include <string.h>

/* ---- holding the book against them ------------------------------------------------------------
 */

/* By the entries as they were logged: a correction of a head does not change what was named.
 * Only an entry that withdraws it, with its reason, lifts it; one of another device than noted it
 * does so once somebody here adopts what it contradicts. */
static const char witness_sql[] =
    "SELECT e.device || '/' || e.seq, e.body, " MF_IS_WITHDRAWN ", " MF_IS_WITHDRAWN_ANYWHERE
    " FROM entry AS e WHERE e.job = '' AND e.kind = 'witness' ORDER BY e.rowid";

static void name_of(char out[120], const char *id, const char *from)
{
    if (strlen(from) <= 30)
        snprintf(out, 120, "witness %.40s of %s, ", id, from);
    else
        snprintf(out, 120, "witness %.40s, ", id);
}

static mf_status take(mf_checker *c, mf_stmt *stmt, mf_heads_seen *all, mf_err *err)
{
    char by[120];
    mf_err why = {0};
    const char *text = mf_stmt_column(stmt, 1);
    if (mf_stmt_number(stmt, 2) != 0) {
        c->out->withdrawn++;
        return MF_OK;
    }
    json_t *body = mf_json_parse(text, strlen(text), &why);
    if (why.status == MF_SYSTEM)
        return mf_fail_memory(err);
    name_of(by, mf_stmt_column(stmt, 0), mf_json_string_of(body, "from_whom"));
    const mf_head_seen it = {.head = mf_json_string_of(body, "head"),
                             .heads = mf_json_string_of(body, "heads"),
                             .awaited = mf_json_string_of(body, "awaited"),
                             .by = by,
                             .of = mf_stmt_number(stmt, 3)};
    mf_status status = mf_heads_seen_add(all, &it, err);
    json_decref(body);
    return status;
}

static mf_status take_all(mf_checker *c, mf_heads_seen *all, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    mf_status status = mf_stmt_get(&stmt, &c->book->db, witness_sql, err);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = take(c, &stmt, all, err);
    }
    mf_stmt_done(&stmt);
    return status;
}

/* Of a head that names no entries a book of several devices, which came together in another
 * order, cannot tell. */
static bool untold(const mf_checker *c, const mf_head_seen *it)
{
    return it->state == MF_HEAD_AWAITED || (it->state == MF_HEAD_NEVER_HAD && c->out->devices > 1);
}

/* ---- what somebody took over all the same -------------------------------------------------- */

/* The entries that make it so: the one that does, or any that it names. */
static const char *culprits(const mf_head_seen *it)
{
    return it->entry[0] != '\0' ? it->entry : it->heads;
}

/* One that another device withdrew counts as withdrawn once somebody here says so, too. */
static void say_adopted(mf_book_report *out, const mf_head_seen *it, const mf_adopted *by)
{
    char what[60];
    const char *entry = it->entry[0] == '\0' ? "the head" : it->entry;
    if (it->of != 0) {
        out->witnesses--;
        out->withdrawn++;
        return;
    }
    if (out->adopted++ > 0)
        return;
    if (it->state == MF_HEAD_REWRITTEN)
        snprintf(what, sizeof what, "was noted as %.8s... and is %.8s...", it->was, it->is);
    else
        snprintf(what, sizeof what, "was noted otherwise");
    snprintf(out->adopted_first, sizeof out->adopted_first,
             "%s%s %s; taken over all the same by %s (%.40s, %s): %.90s", it->by, entry, what,
             by->entry, by->who, by->day, by->reason);
}

/* The entry that noted it, "witness office/416 of truck, ". */
static void witness_of(const mf_head_seen *it, char out[MF_ENTRY_ID])
{
    const char *at = it->by + strcspn(it->by, " ");
    at += strspn(at, " ");
    snprintf(out, MF_ENTRY_ID, "%.*s", (int)strcspn(at, " ,"), at);
}

/* By an entry of who noted the head, or of this very device, that says why, or in the merge that
 * goes on. Where nobody can tell which entry makes it so, all must be: a reason that was given for
 * one device does not do for another. */
static bool is_adopted(mf_checker *c, const mf_head_seen *it, const mf_adopted_list *adopted)
{
    mf_piece p;
    bool all = true, any = false;
    char noter[MF_ENTRY_ID];
    const char *const by[] = {noter, c->book->device};
    const mf_adopted *first = NULL;
    witness_of(it, noter);
    noter[strcspn(noter, "/")] = '\0';
    for (const char *rest = culprits(it); *rest != '\0' && mf_piece_next(&p, &rest); any = true) {
        const mf_adopted *found = mf_adopted_of(adopted, by, p.device, p.seq);
        first = first == NULL ? found : first;
        all = all && (found != NULL || (c->adopts != NULL && c->adopts(c->data, p.device, p.seq)));
    }
    if (any && all && first != NULL)
        say_adopted(c->out, it, first);
    return any && all;
}

static void note_gone(mf_checker *c, const mf_head_seen *it)
{
    mf_piece p;
    const char *rest = it->entry;
    if (it->state != MF_HEAD_GONE || !mf_piece_next(&p, &rest) ||
        strcmp(p.device, c->book->device) != 0)
        return;
    c->own_gone = p.seq > c->own_gone ? p.seq : c->own_gone;
}

/* Whose entries would have to be adopted. */
static void note_contrary(mf_checker *c, const mf_head_seen *it)
{
    mf_piece p;
    bool any = false;
    if (c->contrary_by[0] == '\0')
        witness_of(it, c->contrary_by);
    for (const char *rest = culprits(it); *rest != '\0' && mf_piece_next(&p, &rest); any = true) {
        size_t len = strlen(c->contrary);
        if (mf_device_is_listed(c->contrary, p.device))
            continue;
        int n = snprintf(c->contrary + len, sizeof c->contrary - len, "%s%s", len > 0 ? "," : "",
                         p.device);
        c->contrary_unsaid = c->contrary_unsaid || (size_t)n >= sizeof c->contrary - len;
    }
    c->contrary_unsaid = c->contrary_unsaid || !any;
}

static void judge(mf_checker *c, const mf_head_seen *it, const mf_adopted_list *adopted)
{
    if (untold(c, it))
        c->out->awaited++;
    else if (it->state != MF_HEAD_HELD && !is_adopted(c, it, adopted)) {
        mf_head_fault(c, it);
        note_gone(c, it);
        note_contrary(c, it);
    }
}

mf_status mf_check_witnesses(mf_checker *c, mf_err *err)
{
    mf_heads_seen all = {0};
    mf_adopted_list adopted = {0};
    mf_status status = take_all(c, &all, err);
    if (status == MF_OK)
        status = mf_adopted_read(&adopted, c->book, err);
    if (status == MF_OK)
        status = mf_book_replay(c->book, all.at, all.n, err);
    c->out->witnesses = (int64_t)all.n;
    for (size_t i = 0; i < all.n && status == MF_OK; i++)
        judge(c, &all.at[i], &adopted);
    mf_adopted_free(&adopted);
    mf_heads_seen_free(&all);
    return status;
}

/* ---- noting one ---------------------------------------------------------------------------- */

static mf_status awaited_of(mf_buf *out, size_t *n, mf_book *book, const char *heads, mf_err *err)
{
    mf_piece piece;
    mf_status status = MF_OK;
    for (const char *rest = heads;
         status == MF_OK && *rest != '\0' && mf_piece_next(&piece, &rest);) {
        mf_head_seen it = {.head = "", .heads = piece.id, .awaited = "*"};
        status = mf_book_replay(book, &it, 1, err);
        if (status != MF_OK || it.state != MF_HEAD_AWAITED ||
            strcmp(piece.device, book->device) == 0)
            continue;
        mf_buf_printf(out, "%s%s", out->len > 0 ? " " : "", piece.id);
        ++*n;
    }
    return status == MF_OK && out->failed ? mf_fail_memory(err) : status;
}

static mf_status hold(mf_book *book, const mf_witness_ask *ask, const char *awaited, mf_err *err)
{
    mf_book_report report = {0};
    mf_checker c = {.book = book, .out = &report};
    mf_head_seen it = {.head = ask->head, .heads = ask->heads, .awaited = awaited, .by = ""};
    mf_status status = mf_book_replay(book, &it, 1, err);
    if (status == MF_OK)
        status =
            mf_db_int(&book->db, "SELECT count(DISTINCT device) FROM entry", &report.devices, err);
    if (status != MF_OK || it.state == MF_HEAD_HELD || untold(&c, &it))
        return status;
    mf_head_fault(&c, &it);
    return mf_failf(err, MF_NO, book->db.name, "nothing was noted",
                    "keep both, this file and what you received, and find out which of them was "
                    "changed, or whether this book was put back to an earlier state",
                    "%s", report.first);
}

static mf_status is_new(mf_book *book, const mf_witness_ask *ask, mf_err *err)
{
    char id[MF_ENTRY_ID];
    const char *const values[] = {ask->head, ask->heads, ask->from};
    mf_status status = mf_db_text(&book->db,
                                  "SELECT device || '/' || seq FROM entry WHERE job = '' AND kind"
                                  " = 'witness' AND ifnull(body ->> '$.head', '') = ?1 AND"
                                  " ifnull(body ->> '$.heads', '') = ?2 AND"
                                  " body ->> '$.from_whom' = ?3",
                                  values, 3, id, sizeof id, err);
    if (status == MF_OK && id[0] != '\0')
        return mf_failf(err, MF_INPUT, "the head", "", "nothing needs to be done",
                        "it is noted already, entry %s", id);
    return status;
}

static mf_status write(mf_book *book, const mf_witness_ask *ask, const char *awaited,
                       const mf_now *now, char id[MF_ENTRY_ID], mf_err *err)
{
    mf_draft *draft = NULL;
    const char *const pairs[][2] = {{"from_whom", ask->from},
                                    {"head", ask->head},
                                    {"heads", ask->heads},
                                    {"awaited", awaited},
                                    {"note", ask->note}};
    mf_status status = mf_draft_of(&draft, MF_KIND_WITNESS, pairs, sizeof pairs / sizeof pairs[0],
                                   "", now->today, err);
    if (status == MF_OK)
        status = mf_book_write(book, draft, "", now, "the head", id, err);
    mf_draft_free(draft);
    return status;
}

MF_API mf_status mf_book_witness(mf_book *book, const mf_witness_ask *ask, const mf_now *now,
                                 char id[MF_ENTRY_ID], size_t *awaited, mf_err *err)
{
    mf_buf coming = {0};
    mf_part part = {0};
    *awaited = 0;
    if (*ask->head == '\0' && *ask->heads == '\0')
        return mf_fail(err, MF_INPUT, "the head", "it names none", "",
                       "give what \"book head\" printed, or a sealed record");
    mf_status status = mf_part_begin(&part, book, err);
    if (status == MF_OK)
        status = is_new(book, ask, err);
    if (status == MF_OK)
        status = awaited_of(&coming, awaited, book, ask->heads, err);
    if (status == MF_OK)
        status = hold(book, ask, mf_buf_str(&coming), err);
    if (status == MF_OK)
        status = write(book, ask, mf_buf_str(&coming), now, id, err);
    mf_buf_free(&coming);
    return mf_part_end(&part, book, status, err);
}

MF_API mf_status mf_book_is_noted(mf_book *book, const char *device, bool *noted, mf_err *err)
{
    mf_stmt stmt;
    mf_status status =
        mf_stmt_get(&stmt, &book->db,
                    "SELECT 1 FROM entry AS e WHERE e.job = '' AND e.kind = 'witness'"
                    " AND instr(', ' || (e.body ->> '$.heads'), ', ' || ?1 || '/') > 0"
                    " AND NOT " MF_IS_WITHDRAWN " LIMIT 1",
                    err);
    *noted = false;
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, device);
    status = mf_stmt_step(&stmt, noted, err);
    mf_stmt_done(&stmt);
    return status;
}
