/* How a place is written, and which place lies in which. ISO 3166-2 has "US-" and two letters
 * for states and territories, and no other than these may follow "US-": a slip would leave out
 * the limits of the one that was meant. The ids of tribes, cities and jobs are for whoever
 * writes a row. */
#include <mistfold/place.h>

#include "core/places.h"
#include "core/text.h"

static char capital(char c)
{
    return c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
}

/* ISO 3166-2:US: the states, the District of Columbia, and the outlying areas. */
static const char *const states[] = {
    "US-AK", "US-AL", "US-AR", "US-AS", "US-AZ", "US-CA", "US-CO", "US-CT", "US-DC", "US-DE",
    "US-FL", "US-GA", "US-GU", "US-HI", "US-IA", "US-ID", "US-IL", "US-IN", "US-KS", "US-KY",
    "US-LA", "US-MA", "US-MD", "US-ME", "US-MI", "US-MN", "US-MO", "US-MP", "US-MS", "US-MT",
    "US-NC", "US-ND", "US-NE", "US-NH", "US-NJ", "US-NM", "US-NV", "US-NY", "US-OH", "US-OK",
    "US-OR", "US-PA", "US-PR", "US-RI", "US-SC", "US-SD", "US-TN", "US-TX", "US-UM", "US-UT",
    "US-VA", "US-VI", "US-VT", "US-WA", "US-WI", "US-WV", "US-WY"};

const char *const *mf_place_states(size_t *count)
{
    *count = sizeof states / sizeof states[0];
    return states;
}

bool mf_place_names_state(const char *item, size_t len)
{
    return len > 2 && item[2] == '-' && capital(item[0]) == 'U' && capital(item[1]) == 'S';
}

/* What follows a dash is not left out: "US-IA-" was to go on. */
static bool goes_on(const char *item, size_t len)
{
    for (size_t i = 0; i < len; i++)
        if (item[i] == '-' && (i + 1 == len || item[i + 1] == '-'))
            return false;
    return true;
}

bool mf_place_is_state(const char *item, size_t len)
{
    bool is = false;
    for (size_t i = 0; i < sizeof states / sizeof states[0]; i++)
        is = is || mf_place_lies_in(item, len, states[i]);
    return is && goes_on(item, len);
}

const char *mf_places_no_state(const char *places, size_t *len)
{
    for (*len = strcspn(places, ","); *places != '\0'; *len = strcspn(places, ",")) {
        if (mf_place_names_state(places, *len) && !mf_place_is_state(places, *len))
            break;
        places += *len + (places[*len] == ',');
    }
    return places;
}

bool mf_place_lies_in(const char *item, size_t len, const char *wide)
{
    size_t n = strlen(wide);
    if (n == 0 || n > len)
        return false;
    for (size_t i = 0; i < n; i++)
        if (capital(wide[i]) != capital(item[i]))
            return false;
    return n == len || (item[n] == '-' && n + 1 < len);
}

void mf_places_write(char *places)
{
    while (*places != '\0') {
        size_t len = strcspn(places, ",");
        bool whole = len == 2 && mf_place_lies_in(places, len, "US");
        for (size_t i = 0; (whole || mf_place_is_state(places, len)) && i < len; i++)
            places[i] = capital(places[i]);
        places += len + (places[len] == ',');
    }
}

bool mf_place_among(const char *places, const char *wide)
{
    while (*places != '\0') {
        size_t len = strcspn(places, ",");
        if (mf_place_lies_in(places, len, wide))
            return true;
        places += len + (places[len] == ',');
    }
    return false;
}

static bool named_by_a_row(const mf_job *job, const char *item, size_t len)
{
    for (size_t i = 0; i < job->n_local_limit; i++)
        if (mf_place_lies_in(item, len, mf_or_empty(job->local_limit[i].row.place)))
            return true;
    return false;
}

bool mf_place_unread(const mf_job *job)
{
    const char *at = job->n_house == 0 ? "" : mf_or_empty(job->house[0].place);
    while (*at != '\0') {
        size_t len = strcspn(at, ",");
        if (len > 0 && !mf_place_is_state(at, len) && !named_by_a_row(job, at, len))
            return true;
        at += len + (at[len] == ',');
    }
    return false;
}
