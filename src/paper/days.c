#include "paper/days.h"

const char *mf_planned_days(mf_rec *rec)
{
    const mf_day from = rec->house.start, until = rec->house.end;
    if (until == MF_DAY_NONE && from != MF_DAY_NONE)
        return mf_fill(rec, "days-from", mf_day_words(rec, from), NULL, NULL);
    if (from == MF_DAY_NONE && until != MF_DAY_NONE)
        return mf_fill(rec, "until", mf_day_words(rec, until), NULL, NULL);
    if (from == MF_DAY_NONE)
        return mf_phrase(rec, "not-given");
    return mf_fill(rec, "days-from-to", mf_day_words(rec, from), mf_day_words(rec, until), NULL);
}
