#include "paper/days.h"

#include <mistfold/stage.h>

static const char *planned(mf_rec *rec)
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

const char *mf_off_words(mf_rec *rec)
{
    if (rec->job == NULL || !mf_off_before_work(rec->job, rec->ask->today))
        return "";
    return mf_fill(rec, "called-off-on", mf_day_words(rec, rec->house.called_off), NULL, NULL);
}

/* Each paper that tells when the work is to be says here that there is to be none. */
const char *mf_planned_days(mf_rec *rec)
{
    return mf_join(rec, planned(rec), "\n", mf_off_words(rec));
}
