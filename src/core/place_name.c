/* How a place is written, and which place lies in which. ISO 3166-2 has "US-" and two letters
 * for states and territories; the ids of tribes, cities and jobs are for whoever writes a row. */
#include <mistfold/place.h>

#include "core/places.h"
#include "core/text.h"

static char capital(char c)
{
    return c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
}

static bool is_letter(char c)
{
    return capital(c) >= 'A' && capital(c) <= 'Z';
}

bool mf_place_is_state(const char *item, size_t len)
{
    enum { STATE = 5 }; /* "US-IA" */
    return len >= STATE && capital(item[0]) == 'U' && capital(item[1]) == 'S' && item[2] == '-' &&
           is_letter(item[3]) && is_letter(item[4]) &&
           (len == STATE || (item[STATE] == '-' && len > STATE + 1));
}

bool mf_place_lies_in(const char *item, size_t len, const char *wide)
{
    size_t n = strlen(wide);
    if (n == 0 || n > len)
        return false;
    for (size_t i = 0; i < n; i++)
        if (capital(wide[i]) != capital(item[i]))
            return false;
    return n == len || item[n] == '-';
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
