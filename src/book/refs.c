#include "book/refs.h"

#include "base/fail.h"
#include "base/utf8.h"
#include "book/known.h"

mf_status mf_no_such_job(const char *job, const char *where, mf_err *err)
{
    char shown[60];
    mf_utf8_show(shown, sizeof shown, job);
    return mf_failf(err, MF_INPUT, where, "", "see the list of jobs, or open this one first",
                    "there is no job %s", shown);
}

mf_status mf_job_check(mf_book *book, const char *job, const char *where, mf_err *err)
{
    bool known = false;
    const mf_folds folds = mf_book_folds(book);
    if (job[0] == '\0')
        return MF_OK;
    mf_status status = mf_known(&folds, mf_kind_named("house"), job, job, &known, err);
    return status != MF_OK || known ? status : mf_no_such_job(job, where, err);
}
