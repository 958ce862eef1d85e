/* due.c - what is due, from the index. */
#include "base/fail.h"
#include "book/touched.h"

MF_API mf_status mf_book_due(mf_book *book, const char *what, mf_day until, mf_due_fn *fn,
                             void *data, mf_err *err)
{
    static const char of_one[] = "SELECT job, what, day, who, entry FROM due"
                                 " WHERE what = ?2 AND day <= ?1 ORDER BY day, job, entry";
    static const char of_all[] = "SELECT job, what, day, who, entry FROM due"
                                 " WHERE what IN ('start', 'handover', 'certificate') AND day <= ?1"
                                 " ORDER BY day, job, entry";
    char day[MF_DAY_TEXT];
    mf_stmt stmt;
    bool more = true;
    mf_day_text(until, day);
    mf_status status = mf_touched_settle(book, err);
    if (status == MF_OK)
        status = mf_stmt_get(&stmt, &book->db, what == NULL ? of_all : of_one, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, until == MF_DAY_NONE ? "9999-12-31" : day);
    if (what != NULL)
        mf_stmt_text(&stmt, 2, what);
    while (more && mf_stmt_next(&stmt, &status, err)) {
        mf_due_item item = {mf_stmt_column(&stmt, 0), mf_stmt_column(&stmt, 1),
                            mf_day_parse(mf_stmt_column(&stmt, 2), NULL), mf_stmt_column(&stmt, 3),
                            mf_stmt_column(&stmt, 4)};
        more = fn(&item, data);
    }
    mf_stmt_done(&stmt);
    return status;
}
