/* How papers tell of the check: the summary and the record say the same. */
#include "paper/checked.h"

const char *mf_cloths_words(mf_rec *rec, const mf_ver_area *area)
{
    return mf_fill(rec, "area-cloths", mf_print(rec, "%d", area->wet),
                   mf_print(rec, "%d", area->dry), NULL);
}

const char *mf_dust_amount_words(mf_rec *rec, const mf_dust_sample *sample)
{
    static const char *const sign[] = {
        [MF_QUAL_EXACT] = "", [MF_QUAL_OVER] = ">", [MF_QUAL_UNDER] = "<"};
    int64_t loading = mf_dust_loading(sample);
    if (loading == MF_NUM_NONE)
        return mf_phrase(rec, "not-given");
    return mf_print(rec, "%s%s", sign[sample->qualifier],
                    mf_number_words(rec, loading, MF_UNIT_NG_FT2));
}

const char *mf_dust_level_words(mf_rec *rec, const mf_dust_sample *sample, const mf_limit *level)
{
    return mf_fill(rec, "below",
                   mf_number_words(rec, mf_dust_level(rec->job, sample, level), level->unit), NULL,
                   NULL);
}
