#include "base/fail.h"

#include <stdarg.h>
#include <stdio.h>

static void put(char *field, size_t size, const char *text)
{
    snprintf(field, size, "%s", text == NULL ? "" : text);
}

mf_status mf_fail(mf_err *err, mf_status status, const char *where, const char *what,
                  const char *why, const char *mend)
{
    if (err != NULL) {
        err->status = status;
        put(err->where, sizeof err->where, where);
        put(err->what, sizeof err->what, what);
        put(err->why, sizeof err->why, why);
        put(err->mend, sizeof err->mend, mend);
        mf_fail_name(err, "", NULL, NULL, NULL);
    }
    return status;
}

void mf_fail_name(mf_err *err, const char *name, const char *first, const char *second,
                  const char *third)
{
    if (err == NULL)
        return;
    put(err->name, sizeof err->name, name);
    put(err->part[0], sizeof err->part[0], first);
    put(err->part[1], sizeof err->part[1], second);
    put(err->part[2], sizeof err->part[2], third);
}

mf_status mf_failf(mf_err *err, mf_status status, const char *where, const char *why,
                   const char *mend, const char *format, ...)
{
    char what[sizeof err->what];
    va_list args;
    va_start(args, format);
    vsnprintf(what, sizeof what, format, args);
    va_end(args);
    return mf_fail(err, status, where, what, why, mend);
}

mf_status mf_fail_memory(mf_err *err)
{
    return mf_fail(err, MF_SYSTEM, "", "out of memory", "", "close other programs and try again");
}
