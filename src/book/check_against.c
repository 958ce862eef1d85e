/* check_against.c - the book against heads that were noted at an earlier time, on a
 * printed record, in another place, or as witnesses in the book. Whoever rebuilds a chain
 * makes every hash right but these. */
#include "base/fail.h"
#include "book/check.h"
#include "book/replay.h"
#include <stdio.h>
#include <stdlib.h>

/* ---- what is said of one that does not stand --------------------------------------------------
 */

enum { PART = 190 };

static void say_what(const mf_head_seen *it, char out[PART])
{
    switch (it->state) {
    case MF_HEAD_GONE:
        snprintf(out, PART, "it was there when its hash was noted, and is missing");
        break;
    case MF_HEAD_AWAITED:
        snprintf(out, PART, "%.16s%s", it->entry[0] == '\0' ? it->head : "it",
                 it->entry[0] == '\0'
                     ? "... is no head that this book knows: it may be of one that is ahead"
                     : " is not here: it has not come in yet, or was cut off here");
        break;
    case MF_HEAD_REWRITTEN:
        snprintf(out, PART,
                 "its hash was noted as %.16s... and is %.16s...: the chain was made anew", it->was,
                 it->is);
        break;
    case MF_HEAD_UNFIT:
        snprintf(out, PART,
                 "%.16s... is not that of the entries it names: the journal was made anew, or the "
                 "head is of another copy",
                 it->head);
        break;
    case MF_HEAD_UNREADABLE:
        snprintf(out, PART, "what it names are not entries");
        break;
    case MF_HEAD_NEVER_HAD:
        snprintf(out, PART,
                 "%.16s... is not a head that this book ever had: the journal was made anew, or "
                 "the head is of another copy",
                 it->head);
        break;
    default:
        out[0] = '\0';
        break;
    }
}

static void name_it(const mf_head_seen *it, char out[PART])
{
    snprintf(out, PART, "%.120s%s%.40s", it->by, it->entry[0] == '\0' ? "head" : "entry ",
             it->entry);
}

MF_API void mf_head_words(const mf_head_seen *it, char out[MF_HEAD_WORDS])
{
    char where[PART], what[PART];
    name_it(it, where);
    say_what(it, what);
    snprintf(out, MF_HEAD_WORDS, "%s: %s", where, what);
}

void mf_head_fault(mf_checker *c, const mf_head_seen *it)
{
    char where[PART], what[PART];
    name_it(it, where);
    say_what(it, what);
    if (what[0] != '\0' && it->state != MF_HEAD_AWAITED)
        mf_fault(c, true, where, "%s", what);
}

/* ---- heads that were written down --------------------------------------------------------------
 */

static mf_status take(const mf_head_line *line, void *data, mf_err *err)
{
    mf_heads_seen *all = data;
    const mf_head_seen seen = {
        .head = line->head, .heads = line->heads, .awaited = MF_AWAITS_OTHERS, .by = ""};
    return mf_heads_seen_add(all, &seen, err);
}

mf_status mf_check_against(mf_checker *c, const char *against, mf_err *err)
{
    mf_heads_seen all = {0};
    mf_status status = mf_head_lines(against, take, &all, err);
    if (status == MF_OK)
        status = mf_book_replay(c->book, all.at, all.n, err);
    for (size_t i = 0; status == MF_OK && i < all.n; i++) {
        c->out->unheld += all.at[i].state == MF_HEAD_AWAITED;
        mf_head_fault(c, &all.at[i]);
    }
    mf_heads_seen_free(&all);
    return status;
}
