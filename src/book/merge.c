/* merge.c - taking over what another book has and this one has not.
 *
 * Entries name their device and are only ever added, so that the union of two
 * journals is a journal. Everything is read once and nothing is kept in memory;
 * the other book is believed only as far as its hashes go. */
#include "book/merge.h"
#include "base/fail.h"
#include "book/ahead.h"
#include "book/check.h"
#include "book/db_words.h"
#include "book/make.h"
#include "book/schema.h"
#include "book/signed.h"
#include "book/write.h"
#include "journal/fork.h"
#include <mistfold/segment.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define STRIDE 4096

static const mf_watch nobody = {0};

/* ---- reading the other journal ------------------------------------------------------------- */

static mf_status refuse_other(const mf_merge *m, mf_err *err)
{
    return mf_failf(err, MF_INPUT, m->name, m->altered, m->again, "%s", m->found.first);
}

mf_status mf_merge_head(mf_db *db, const char *device, char out[MF_MERGE_HEAD], mf_err *err)
{
    mf_journal_end end;
    mf_status status = mf_journal_last(&end, db, device, err);
    out[0] = '\0';
    if (end.seq > 0)
        snprintf(out, MF_MERGE_HEAD, "%.16s/%lld (%.16s...)", device, (long long)end.seq, end.hash);
    return status;
}

static mf_status refuse_fork(mf_merge *m, const mf_line *line, const char *their_head, mf_err *err)
{
    char here[MF_MERGE_HEAD], there[MF_MERGE_HEAD];
    mf_status status = mf_merge_head(&m->book->db, line->device, here, err);
    if (status == MF_OK && their_head == NULL)
        status = mf_merge_head(&m->other, line->device, there, err);
    if (status != MF_OK)
        return status;
    return mf_failf(err, MF_INPUT, m->name,
                    "one device has two histories, and what was logged is never rewritten; nothing "
                    "was taken over",
                    MF_FORK_WAY_OUT,
                    "entry %s/%lld says something else in the two books: here it goes on to %s, "
                    "there to %s",
                    line->device, (long long)line->seq, here,
                    their_head == NULL ? there : their_head);
}

/* Where a chain is to go on: behind ours when a part of it comes in. */
static mf_status begin_chain(mf_merge *m, mf_chain *before, const mf_line *line, mf_err *err)
{
    char prev[MF_HASH_HEX] = "";
    mf_status status = MF_OK;
    *before = (mf_chain){0};
    snprintf(before->device, sizeof before->device, "%s", line->device);
    mf_hash_copy(before->hash, mf_zero_hash);
    if (m->part && line->seq > 1)
        status = mf_journal_hash(&m->book->db, line->device, line->seq - 1, prev, err);
    if (prev[0] != '\0') {
        before->seq = line->seq - 1;
        mf_hash_copy(before->hash, prev);
    }
    return status;
}

static mf_status check_line(mf_merge *m, mf_chain *before, mf_stmt *stmt, const mf_line *line,
                            mf_err *err)
{
    char where[MF_ENTRY_WHERE];
    mf_body body = {.tree = NULL};
    mf_status status = MF_OK;
    mf_line_where(line, where);
    if (strcmp(before->device, line->device) != 0) {
        status = begin_chain(m, before, line, err);
        if (!mf_is_device(line->device))
            mf_fault(&m->checker, true, where, "its device has no name that a device can have");
    }
    if (status == MF_OK)
        status = mf_check_line(&m->checker, stmt, line, where, &body, err);
    mf_check_link(&m->checker, before, line, mf_stmt_number(stmt, MF_LINE_N_COLUMNS), where);
    mf_body_free(&body);
    return status == MF_OK && m->found.faults > 0 ? refuse_other(m, err) : status;
}

mf_status mf_merge_here(mf_merge *m, const mf_line *line, const char *their_head, bool *here,
                        mf_err *err)
{
    char ours[MF_HASH_HEX];
    mf_status status = mf_journal_hash(&m->book->db, line->device, line->seq, ours, err);
    *here = status == MF_OK && strcmp(ours, line->hash) == 0;
    m->out->read++;
    if (m->watch->progress != NULL && m->out->read % STRIDE == 0)
        m->watch->progress("entries", m->out->read, m->total, m->watch->data);
    return status == MF_OK && !*here && ours[0] != '\0' ? refuse_fork(m, line, their_head, err)
                                                        : status;
}

mf_status mf_merge_add(mf_merge *m, const mf_line *line, mf_err *err)
{
    mf_status status = MF_OK;
    if (strcmp(line->device, m->book->device) == 0)
        status = mf_merge_own(m, line, err);
    if (status == MF_OK && strcmp(line->kind, "device_key") == 0)
        status = mf_merge_key(m, line, err);
    m->out->added++;
    m->book->last_seq = 0; /* it may be ours, out of a copy */
    return status == MF_OK ? mf_journal_insert(m->book, line, err) : status;
}

static mf_status take_line(mf_merge *m, mf_chain *before, mf_stmt *stmt, mf_err *err)
{
    bool here = false;
    mf_line line = mf_line_of_row(stmt);
    mf_status status = check_line(m, before, stmt, &line, err);
    if (status == MF_OK)
        status = mf_merge_here(m, &line, NULL, &here, err);
    return status == MF_OK && !here ? mf_merge_add(m, &line, err) : status;
}

static mf_status take_entries(mf_merge *m, mf_err *err)
{
    mf_stmt stmt;
    mf_chain before = {0};
    mf_status status = mf_stmt_get(&stmt, &m->other, MF_LINE_SELECT " ORDER BY device, seq", err);
    while (mf_stmt_next(&stmt, &status, err))
        status = take_line(m, &before, &stmt, err);
    mf_stmt_done(&stmt);
    return status;
}

/* ---- the whole ---------------------------------------------------------------------------------
 */

/* Seals that came in must name heads that this book, or theirs, can have had: else our own
 * check would find a fault from now on. */
static mf_status merge_seals(mf_merge *m, mf_err *err)
{
    if (m->out->added == 0)
        return MF_OK;
    mf_status status = mf_db_int(&m->book->db, MF_WITH_DEVICES " SELECT count(device) FROM d",
                                 &m->found.devices, err);
    if (status == MF_OK)
        status = mf_check_seals(&m->checker, m->book->group_from, err);
    return status == MF_OK && m->found.faults > 0 ? refuse_other(m, err) : status;
}

mf_status mf_merge_stands(mf_merge *m, mf_err *err)
{
    mf_status status = merge_seals(m, err);
    if (status == MF_OK)
        status = mf_merge_corrections(m, err);
    if (status == MF_OK)
        status = mf_merge_signed(m, err);
    if (status == MF_OK)
        status = mf_merge_witnesses(m, err);
    return status;
}

static mf_status merge_inside(mf_merge *m, mf_err *err)
{
    mf_status status = mf_db_int(&m->other, "SELECT count(*) FROM entry", &m->total, err);
    if (status == MF_OK)
        status = mf_book_head(m->book, m->head, err);
    if (status == MF_OK)
        status = take_entries(m, err);
    if (status == MF_OK)
        status = mf_merge_stands(m, err);
    if (status == MF_OK)
        status = mf_merge_contents(m, err);
    if (status == MF_OK)
        status = mf_merge_adopted(m, err);
    if (status == MF_OK)
        status = mf_merge_tell(m, err);
    return status == MF_OK && !m->part ? mf_ahead_not_merge(m->book, err) : status;
}

/* What was refused may be what this book lacks of its own. The signature of this device says so;
 * a head that somebody noted may be mistyped. */
static void note_ahead(mf_merge *m)
{
    char hash[MF_HASH_HEX] = "";
    int64_t seq = 0;
    bool signs = m->other.handle != NULL &&
                 mf_signed_ahead(m->book, &m->other, &seq, hash, NULL) == MF_OK && seq > 0;
    if (!signs && m->checker.own_gone == 0)
        return;
    if (m->part)
        mf_book_note_ahead(m->book, signs ? seq : m->checker.own_gone, hash, NULL);
    else
        mf_ahead_note_merge(m->book, signs ? seq : m->checker.own_gone, hash, NULL);
}

static bool adopts(void *data, const char *device, int64_t seq)
{
    return mf_merge_adopts(data, device, seq);
}

mf_status mf_merge_open(mf_merge *m, mf_err *err)
{
    mf_part part = {0};
    m->checker = (mf_checker){
        .book = m->book, .out = &m->found, .watch = &nobody, .adopts = adopts, .data = m};
    mf_status status = mf_part_begin(&part, m->book, err);
    if (status == MF_OK)
        status = merge_inside(m, err);
    status = mf_part_end(&part, m->book, status, err);
    if (status == MF_INPUT)
        note_ahead(m);
    mf_checker_end(&m->checker);
    free(m->contrary);
    return status;
}

/* SQLite's own check of the other file's pages, before anything of it is read. */
static mf_status check_pages(mf_merge *m, mf_err *err)
{
    int code = 0;
    char words[100];
    mf_stmt stmt;
    bool row = false;
    mf_status status = mf_stmt_get(&stmt, &m->other, "PRAGMA quick_check(1)", err);
    if (status == MF_OK)
        status = mf_stmt_step(&stmt, &row, err);
    snprintf(words, sizeof words, "%s", row ? mf_stmt_column(&stmt, 0) : "ok");
    for (char *at = words; *at != '\0'; at++)
        *at = *at == '\n' ? ' ' : *at;
    if (status == MF_OK && mf_could_not_read(words, &code))
        status = mf_db_words(err, m->other.name, code, 0, "");
    else if (status == MF_OK && strcmp(words, "ok") != 0)
        status = mf_failf(err, MF_INPUT, m->other.name, "its file is not as SQLite wrote it",
                          "merge a good copy of it; nothing was taken over",
                          "the other book is damaged: %s", words);
    mf_stmt_done(&stmt);
    return status;
}

static mf_status open_other(mf_merge *m, const char *path, mf_err *err)
{
    mf_status status = mf_make_exists(path, err);
    if (status == MF_OK)
        status = mf_make_open_to_read(&m->other, path, err);
    if (status == MF_OK)
        status = mf_db_exec(&m->other, "PRAGMA query_only=ON", err);
    if (status == MF_OK) /* one state of the file is judged and read */
        status = mf_db_begin_read(&m->other, err);
    if (status == MF_OK)
        status = mf_make_identity(&m->other, &m->version, err);
    return status == MF_OK ? check_pages(m, err) : status;
}

MF_API mf_status mf_book_merge(mf_book *book, const char *path, const mf_adopt *adopt,
                               const mf_watch *watch, mf_merge_report *out, mf_err *err)
{
    *out = (mf_merge_report){0};
    mf_merge m = {.book = book,
                  .name = path,
                  .altered = "the other book was altered outside this program",
                  .again = "merge a good copy of it; nothing was taken over",
                  .out = out,
                  .watch = watch == NULL ? &nobody : watch,
                  .adopt = adopt};
    if (book->in_group)
        return mf_fail(err, MF_USAGE, book->db.name, "a group of entries is open", "", "");
    mf_status status = mf_merge_may(adopt, err);
    if (status == MF_OK)
        status = open_other(&m, path, err);
    if (status == MF_OK)
        status = mf_merge_open(&m, err);
    mf_db_rollback(&m.other);
    mf_db_close(&m.other);
    if (status != MF_OK)
        *out = (mf_merge_report){0};
    return status;
}
