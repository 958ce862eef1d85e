/* rate.c - how often a caller may ask: who guesses at tokens gets few tries. */
#include "serve/judge.h"

#include <stdio.h>
#include <string.h>

static mf_rate_caller *place_of(mf_rate *rate, const char *caller, int64_t seconds)
{
    mf_rate_caller *over = NULL;
    for (size_t i = 0; i < MF_RATE_CALLERS; i++) {
        mf_rate_caller *c = &rate->caller[i];
        if (strcmp(c->name, caller) == 0)
            return c;
        if (c->name[0] == '\0' || seconds - c->since >= MF_RATE_SECONDS)
            over = c;
    }
    if (over == NULL)
        return &rate->caller[MF_RATE_CALLERS];
    *over = (mf_rate_caller){.since = seconds};
    snprintf(over->name, sizeof over->name, "%s", caller);
    return over;
}

/* Its counts begin anew when their time is over. A clock that was put back begins them, too. */
static mf_rate_caller *counted(mf_rate *rate, const char *caller, int64_t seconds)
{
    mf_rate_caller *c = place_of(rate, caller, seconds);
    if (seconds - c->since >= MF_RATE_SECONDS || seconds < c->since) {
        c->since = seconds;
        c->requests = c->bad = 0;
    }
    return c;
}

bool mf_rate_may(mf_rate *rate, const char *caller, int64_t seconds)
{
    mf_rate_caller *c = counted(rate, caller, seconds);
    if (c->requests >= MF_RATE_REQUESTS || c->bad >= MF_RATE_BAD)
        return false;
    c->requests++;
    return true;
}

void mf_rate_bad(mf_rate *rate, const char *caller, int64_t seconds)
{
    mf_rate_caller *c = counted(rate, caller, seconds);
    if (c->bad < MF_RATE_BAD)
        c->bad++;
}
