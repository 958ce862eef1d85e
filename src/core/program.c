/* The authorised programmes: who runs one, and which certificate counts under it. */
#include <mistfold/program.h>

#include "core/places.h"
#include "core/text.h"

#define CITATION  "40 CFR 745.81(a), part 745 subpart Q"
#define TWO_LISTS "On an undated national list and on one of 2015. Check the state."
#define ONE_LIST  "On an undated national list, not on one of 2015. Check the state."

#define LISTED(place, note)                                                                        \
    {                                                                                              \
        place, MF_DAY_NONE, MF_DAY_NONE, CITATION, MF_SECONDARY, note                              \
    }

static const mf_program rows[] = {
    LISTED("US-AL", TWO_LISTS), LISTED("US-DE", TWO_LISTS), LISTED("US-GA", TWO_LISTS),
    LISTED("US-IA", TWO_LISTS), LISTED("US-KS", TWO_LISTS), LISTED("US-MA", TWO_LISTS),
    LISTED("US-MS", TWO_LISTS), LISTED("US-NC", TWO_LISTS), LISTED("US-OK", TWO_LISTS),
    LISTED("US-OR", TWO_LISTS), LISTED("US-RI", TWO_LISTS), LISTED("US-UT", TWO_LISTS),
    LISTED("US-VT", ONE_LIST),  LISTED("US-WA", TWO_LISTS), LISTED("US-WI", TWO_LISTS),
};

enum { N_ROWS = sizeof rows / sizeof rows[0] };

const mf_program *mf_program_rows(size_t *count)
{
    *count = N_ROWS;
    return rows;
}

const mf_program *mf_program_at(const char *places, mf_day day)
{
    for (size_t i = 0; i < N_ROWS; i++) {
        if (mf_day_within(rows[i].from, rows[i].until, day) &&
            mf_place_among(mf_or_empty(places), rows[i].place))
            return &rows[i];
    }
    return NULL;
}

bool mf_certificate_counts(const mf_certificate *certificate, const char *program)
{
    if (!mf_given(certificate->programs))
        return mf_same(program, MF_PROGRAM_EPA);
    return mf_id_in_list(certificate->programs, program);
}
