/* Assisted housing, stricter limits and emergencies for the job of fixture_job.h. */
#include "support/fixture_job.h"

#include <mistfold/place.h>
#include <stdlib.h>

#define SRC(id)                                                                                    \
    {                                                                                              \
        id, "2026-09-14T12:00:00Z", "rosa", ""                                                     \
    }

static void must(bool holds)
{
    if (!holds)
        abort();
}

/* By hand: what it says of wet or dry would have to be known here. */
void fx_assisted(fixture *fx)
{
    fx_good(fx);
    fx->house.assisted = MF_YES;
    fx->practice[0].method = MF_METHOD_DEMOLITION;
    mf_dust_sample kitchen = fx->dust_sample[0];
    kitchen.area = "A1";
    kitchen.place = "kitchen floor";
    fx_add_sample(fx, kitchen);
    fx->job.n_occupancy = 1;
    fx->occupancy[0] = (mf_occupancy){.src = SRC("oc/1"),
                                      .stay = MF_STAY_RELOCATED,
                                      .kept_out = MF_YES,
                                      .from = fx_day("2026-09-14"),
                                      .until = fx_day("2026-09-16"),
                                      .minutes = MF_NUM_NONE,
                                      .margin_ft_100 = MF_NUM_NONE};
}

void fx_assisted_minor(fixture *fx)
{
    fx_assisted(fx);
    fx->house.work = MF_WORK_REPAIR;
    fx->practice[0].method = MF_METHOD_STRIPPER;
    fx->practice[0].ventilated = MF_YES;
    for (size_t i = 0; i < fx->job.n_component; i++)
        fx->component[i].disturbed_sqft_100 = 400;
    fx->component[3].disturbed_sqft_100 = 100; /* with the sash 5 in the kitchen */
}

mf_local_limit *fx_add_local(fixture *fx, mf_limit_id id, mf_local_cmp comparison,
                             const char *value)
{
    must(fx->job.n_local_limit < FX_FEW);
    mf_local_limit *it = &fx->local_limit[fx->job.n_local_limit++];
    *it = (mf_local_limit){.src = SRC("ll/1"),
                           .row = {.id = id,
                                   .from = MF_DAY_NONE,
                                   .until = MF_DAY_NONE,
                                   .place = "US-XX",
                                   .citation = "Invented Code 1.2",
                                   .status = MF_VERIFIED,
                                   .note = ""},
                           .comparison = comparison,
                           .value = value,
                           .built_before = MF_NUM_NONE};
    mf_local_limit_fill(it);
    fx->house.place = "US-XX";
    return it;
}

void fx_add_emergency(fixture *fx, mf_cause cause, const char *waived, const char *reason)
{
    must(fx->job.n_emergency < FX_FEW);
    fx->emergency[fx->job.n_emergency++] = (mf_emergency){.src = SRC("em/1"),
                                                          .nature = "a storm broke both windows",
                                                          .on = fx_day("2026-09-14"),
                                                          .cause = cause,
                                                          .waived = waived,
                                                          .reason = reason,
                                                          .blood_lead_100 = MF_NUM_NONE};
}
