/* The checks of an instrument are held against its tolerance about the value of its film (HUD
 * Guidelines ch. 7; 40 CFR 745.227(b)): one that lies elsewhere, or has its ends crossed, would
 * pass an instrument that reads wrong. */
#include "journal/band.h"

#include "base/fail.h"
#include <string.h>

mf_status mf_band_check(const mf_candidate *c, const mf_field **bad, mf_err *err)
{
    char where[MF_WHERE];
    if (strcmp(c->kind->name, "instrument") != 0)
        return MF_OK;
    const json_int_t film = json_integer_value(json_object_get(c->body, "film_ug_cm2"));
    const bool low = json_integer_value(json_object_get(c->body, "cal_low_ug_cm2")) > film;
    const bool high = json_integer_value(json_object_get(c->body, "cal_high_ug_cm2")) < film;
    if (film > 0 && !low && !high)
        return MF_OK;
    *bad = mf_field_named(c->kind, film <= 0 ? "film" : low ? "cal-low" : "cal-high");
    mf_candidate_where(where, c, *bad);
    mf_fail(err, MF_INPUT, where, "the film's value must be above 0 and lie in the tolerance", "",
            "copy all three from the film and the performance sheet");
    mf_fail_name(err, "band", NULL, NULL, NULL);
    return MF_INPUT;
}
