/* check_seals.c - the head that each logged seal names, as it was printed on the paper: the
 * book must have had it when that seal was logged. */
#include "base/fail.h"
#include "book/check.h"
#include "book/replay.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void where_of(char out[MF_ENTRY_WHERE], const char *device, int64_t seq)
{
    const mf_line line = {.device = device, .seq = seq};
    mf_line_where(&line, out);
}

/* Entries of another device may come with a merge. */
static mf_status check_named(mf_checker *c, mf_head_seen *it, mf_err *err)
{
    mf_status status = mf_book_replay(c->book, it, 1, err);
    if (status == MF_OK && it->state == MF_HEAD_AWAITED)
        c->out->heads_untold++;
    else if (status == MF_OK && it->state != MF_HEAD_HELD)
        mf_fault(c, true, it->by,
                 "the head %.16s... of its paper is not that of the entries it names: the journal "
                 "was made anew",
                 it->head);
    return status;
}

/* Device, seq, body and rowid of an entry of kind sealed. Those that do not say over which
 * entries the head is are looked for together, as that takes a way through the journal. */
static mf_status check_seal(mf_checker *c, mf_stmt *stmt, mf_heads_seen *unsaid, mf_err *err)
{
    char where[MF_ENTRY_WHERE];
    mf_err why = {0};
    const char *text = mf_stmt_column(stmt, 2);
    json_t *body = mf_json_parse(text, strlen(text), &why);
    if (why.status == MF_SYSTEM)
        return mf_fail_memory(err);
    where_of(where, mf_stmt_column(stmt, 0), mf_stmt_number(stmt, 1));
    mf_head_seen it = {.head = mf_json_string_of(body, "head"),
                       .heads = mf_json_string_of(body, "chains"),
                       .awaited = "*",
                       .by = where,
                       .of = mf_stmt_number(stmt, 3)};
    c->out->seals++;
    mf_status status =
        *it.heads == '\0' ? mf_heads_seen_add(unsaid, &it, err) : check_named(c, &it, err);
    json_decref(body);
    return status;
}

/* In a book of several devices an earlier state may be one that only another book had. */
static void tell_lost(mf_checker *c, const mf_head_seen *it)
{
    if (c->out->devices > 1)
        c->out->heads_untold++;
    else
        mf_fault(c, true, it->by,
                 "the head %.16s... of its paper is none that the book had before: the journal "
                 "was made anew",
                 it->head);
}

mf_status mf_check_seals(mf_checker *c, int64_t behind, mf_err *err)
{
    mf_stmt stmt;
    mf_heads_seen all = {0};
    mf_status status = mf_stmt_get(
        &stmt, &c->book->db,
        "SELECT device, seq, body, rowid FROM entry WHERE kind = 'sealed' AND rowid > ?1"
        " ORDER BY rowid",
        err);
    if (status == MF_OK)
        mf_stmt_int(&stmt, 1, behind);
    while (mf_stmt_next(&stmt, &status, err))
        status = check_seal(c, &stmt, &all, err);
    mf_stmt_done(&stmt);
    if (status == MF_OK && all.n > 0)
        status = mf_book_replay(c->book, all.at, all.n, err);
    for (size_t i = 0; i < all.n && status == MF_OK; i++)
        if (all.at[i].row == 0 || all.at[i].row >= all.at[i].of)
            tell_lost(c, &all.at[i]);
    mf_heads_seen_free(&all);
    return status;
}
