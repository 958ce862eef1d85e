#include "book/check.h"

#include "base/fail.h"
#include "book/index.h"
#include "book/signed.h"
#include "book/touched.h"
#include <stdarg.h>
#include <stdio.h>

void mf_fault(mf_checker *c, bool of_journal, const char *where, const char *format, ...)
{
    c->only_tables = c->only_tables && !of_journal;
    if (c->out->faults++ > 0)
        return;
    int n = snprintf(c->out->first, sizeof c->out->first, "%.100s: ", where);
    size_t used = n < 0 ? 0 : (size_t)n;
    va_list args;
    va_start(args, format);
    vsnprintf(c->out->first + used, sizeof c->out->first - used, format, args);
    va_end(args);
}

void mf_checker_begin(mf_checker *c)
{
    c->only_tables = true;
}

void mf_checker_end(mf_checker *c)
{
    mf_db_close(&c->noted);
}

mf_status mf_checker_verdict(const mf_checker *c, mf_err *err)
{
    if (c->out->faults == 0)
        return MF_OK;
    const char *mend =
        c->only_tables ? "the journal is whole: \"mistfold book rebuild\" makes the tables from it"
                       : "keep this file as it is; compare it with a copy and with printed heads";
    return mf_failf(err, MF_NO, c->book->db.name, "the book was altered outside this program", mend,
                    "%s", c->out->first);
}

/* All but the file itself. */
static mf_status check_rest(mf_checker *c, mf_err *err)
{
    mf_status status = mf_check_schema(c, err);
    if (status == MF_OK)
        status = mf_check_journal(c, err);
    if (status == MF_OK)
        status = mf_index_check(c, NULL, err);
    return status == MF_OK ? mf_check_contents(c, err) : status;
}

static mf_status check_all(mf_checker *c, const char *against, mf_err *err)
{
    mf_file_check file;
    mf_checker_begin(c);
    mf_status status = mf_db_roomy(&c->book->db, err);
    if (status == MF_OK)
        status = mf_db_int(&c->book->db, "SELECT max(rowid) FROM entry", &c->total, err);
    if (status != MF_OK)
        return status;
    mf_file_check_begin(&file, c);
    status = check_rest(c, err);
    status = mf_file_check_end(&file, c, status, err);
    if (status == MF_OK && c->out->faults == 0) /* nothing else tells of an end taken off */
        status = mf_check_marks(c, err);
    if (status == MF_OK && c->out->faults == 0) /* of a broken chain every head is another */
        status = mf_check_seals(c, 0, err);
    if (status == MF_OK && c->out->faults == 0)
        status = mf_check_signed(c, err);
    if (status == MF_OK && c->out->faults == 0)
        status = mf_check_witnesses(c, err);
    if (status == MF_OK && against != NULL)
        status = mf_check_against(c, against, err);
    return status == MF_OK ? mf_book_head(c->book, c->out->head, err) : status;
}

MF_API mf_status mf_book_check_against(mf_book *book, const char *against, const mf_watch *watch,
                                       mf_book_report *out, mf_err *err)
{
    static const mf_watch nobody = {0};
    *out = (mf_book_report){0};
    mf_checker c = {.book = book, .out = out, .watch = watch == NULL ? &nobody : watch};
    bool own = false;
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_snapshot_begin(&own, book, err);
    if (status == MF_OK)
        status = check_all(&c, against, err);
    mf_checker_end(&c);
    mf_snapshot_end(own, book);
    if (status == MF_OK && own && c.out->faults == 0)
        status = mf_settled_check(&c, err);
    mf_db_plain(&book->db);
    status = status == MF_OK ? mf_checker_verdict(&c, err) : status;
    if (status == MF_OK && out->unheld > 0)
        status = mf_failf(err, MF_NO, book->db.name, "nothing is proved of them",
                          "bring in what is ahead (book merge, sync), and check again",
                          "what was noted and is not here: %lld", (long long)out->unheld);
    return status;
}

MF_API mf_status mf_book_check(mf_book *book, mf_book_report *out, mf_err *err)
{
    return mf_book_check_against(book, NULL, NULL, out, err);
}
