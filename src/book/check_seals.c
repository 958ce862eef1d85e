/* check_seals.c - the head that each logged seal names, as it was printed on the paper: the
 * book must have had it when that seal was logged. */
#include "base/fail.h"
#include "book/check.h"
#include "book/replay.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Those whose entry does not say over which entries the head is: they are looked for. */
typedef struct unsaid {
    mf_wanted *at;
    size_t n, cap;
} unsaid;

static void where_of(char out[MF_ENTRY_WHERE], const char *device, int64_t seq)
{
    const mf_line line = {.device = device, .seq = seq};
    mf_line_where(&line, out);
}

static mf_status check_named(mf_checker *c, const char *where, const char *head, const char *chains,
                             mf_err *err)
{
    char over[MF_HASH_HEX], missing[MF_ENTRY_ID] = "";
    mf_status found = MF_OK;
    mf_status status = mf_chains_head(&c->book->db, chains, over, &found, missing, err);
    if (status != MF_OK)
        return status;
    if (found == MF_NO) /* another device's, which may come with a merge */
        c->out->heads_untold++;
    else if (found != MF_OK || strcmp(over, head) != 0)
        mf_fault(c, true, where,
                 "the head %.16s... of its paper is not that of the entries it names: the journal "
                 "was made anew",
                 head);
    return MF_OK;
}

static mf_status look_for(unsaid *all, const char *head, int64_t rowid, mf_err *err)
{
    mf_wanted *grown = mf_grown(all->at, all->n, &all->cap, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    all->at = grown;
    all->at[all->n] = (mf_wanted){.had = 0, .of = rowid};
    snprintf(all->at[all->n++].head, MF_HASH_HEX, "%s", head);
    return MF_OK;
}

/* Device, seq, body and rowid of an entry of kind sealed. */
static mf_status check_seal(mf_checker *c, mf_stmt *stmt, unsaid *all, mf_err *err)
{
    char where[MF_ENTRY_WHERE];
    mf_err why = {0};
    const char *text = mf_stmt_column(stmt, 2);
    json_t *body = mf_json_parse(text, strlen(text), &why);
    if (why.status == MF_SYSTEM)
        return mf_fail_memory(err);
    const char *head = mf_json_string_of(body, "head"), *chains = mf_json_string_of(body, "chains");
    where_of(where, mf_stmt_column(stmt, 0), mf_stmt_number(stmt, 1));
    c->out->seals++;
    mf_status status = *chains == '\0' ? look_for(all, head, mf_stmt_number(stmt, 3), err)
                                       : check_named(c, where, head, chains, err);
    json_decref(body);
    return status;
}

/* In a book of several devices an earlier state may be one that only another book had. */
static mf_status tell_lost(mf_checker *c, const mf_wanted *it, mf_err *err)
{
    char where[MF_ENTRY_WHERE];
    mf_stmt stmt;
    bool row = false;
    if (c->out->devices > 1) {
        c->out->heads_untold++;
        return MF_OK;
    }
    mf_status status =
        mf_stmt_get(&stmt, &c->book->db, "SELECT device, seq FROM entry WHERE rowid = ?1", err);
    if (status != MF_OK)
        return status;
    mf_stmt_int(&stmt, 1, it->of);
    status = mf_stmt_step(&stmt, &row, err);
    if (row) {
        where_of(where, mf_stmt_column(&stmt, 0), mf_stmt_number(&stmt, 1));
        mf_fault(c, true, where,
                 "the head %.16s... of its paper is none that the book had before: the journal "
                 "was made anew",
                 it->head);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_check_seals(mf_checker *c, int64_t behind, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    unsaid all = {0};
    mf_status status = mf_stmt_get(
        &stmt, &c->book->db,
        "SELECT device, seq, body, rowid FROM entry WHERE kind = 'sealed' AND rowid > ?1"
        " ORDER BY rowid",
        err);
    if (status == MF_OK)
        mf_stmt_int(&stmt, 1, behind);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = check_seal(c, &stmt, &all, err);
    }
    mf_stmt_done(&stmt);
    if (status == MF_OK && all.n > 0)
        status = mf_replay(&c->book->db, all.at, all.n, err);
    for (size_t i = 0; i < all.n && status == MF_OK; i++)
        if (all.at[i].had == 0 || all.at[i].had >= all.at[i].of)
            status = tell_lost(c, &all.at[i], err);
    free(all.at);
    return status;
}
