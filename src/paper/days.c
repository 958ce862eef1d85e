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

bool mf_area_is_off(const mf_rec *rec, const mf_area *area)
{
    return rec->job != NULL && mf_area_off(rec->job, area->id, rec->ask->today);
}

const char *mf_area_off_words(mf_rec *rec, const mf_area *area)
{
    if (!mf_area_is_off(rec, area))
        return "";
    return mf_fill(rec, "area-off", mf_area_place(rec, area), mf_day_words(rec, area->called_off),
                   NULL);
}

bool mf_area_off_line(mf_rec *rec, const mf_area *area)
{
    const char *words = mf_area_off_words(rec, area);
    if (*words != '\0')
        mf_page_text(&rec->page, MF_ST_BODY, words);
    return *words != '\0';
}

/* Each paper that tells when the work is to be says here that there is to be none. */
const char *mf_planned_days(mf_rec *rec)
{
    return mf_join(rec, planned(rec), "\n", mf_off_words(rec));
}
