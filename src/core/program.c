/* The authorized programs: who runs one, and which certificate counts under it. */
#include <mistfold/program.h>

#include "core/places.h"
#include "core/text.h"

#define CITATION "40 CFR 745.81(a), part 745 subpart Q"

/* Days since 1970-01-01, as a table cannot call mf_day_from. */
enum { DAY_2022_10_01 = 19266 };

#define LISTED(place)                                                                              \
    {                                                                                              \
        place, MF_DAY_NONE, MF_DAY_NONE, CITATION, MF_SECONDARY,                                   \
            "On EPA's list of 2012-02-28 as a trade page quotes it, and on two national lists, "   \
            "undated and of 2015. Check the state."                                                \
    }
#define UNCONFIRMED(place)                                                                         \
    {                                                                                              \
        place, MF_DAY_NONE, MF_DAY_NONE, CITATION, MF_SECONDARY,                                   \
            "Unconfirmed: on two national lists, undated and of 2015, and not on EPA's of "        \
            "2012-02-28. Check the state."                                                         \
    }

static const mf_program rows[] = {
    LISTED("US-AL"),
    UNCONFIRMED("US-DE"),
    LISTED("US-GA"),
    LISTED("US-IA"),
    LISTED("US-KS"),
    LISTED("US-MA"),
    LISTED("US-MS"),
    LISTED("US-NC"),
    UNCONFIRMED("US-OK"),
    LISTED("US-OR"),
    LISTED("US-RI"),
    LISTED("US-UT"),
    {"US-VT", DAY_2022_10_01, MF_DAY_NONE, "FR Doc. 2022-24541; " CITATION, MF_VERIFIED,
     "Deemed authorized on 2022-10-01."},
    LISTED("US-WA"),
    LISTED("US-WI"),
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
