/* audit_changes_assisted.h - the same as audit_changes.h, of assisted housing. */
#ifndef MF_TESTS_CORE_AUDIT_CHANGES_ASSISTED_H
#define MF_TESTS_CORE_AUDIT_CHANGES_ASSISTED_H

#include "support/fixture_job.h"

static void assisted_2_sqft(fixture *fx) /* 24 CFR 35.1350(d)(2): 2.00 is not over */
{
    fx->house.assisted = MF_YES;
    fx->house.work = "repair";
    fx->component[0].disturbed_sqft_100 = 200;
    fx->component[1].disturbed_sqft_100 = 2000;
    fx->component[0].whole_sqft_100 = fx->component[2].whole_sqft_100 = 1000; /* (d)(3): a tenth */
    fx->component[1].whole_sqft_100 = fx->component[4].whole_sqft_100 = 10000;
}
static void assisted_dry_spot(fixture *fx) /* 24 CFR 35.140(e): up to 2 sq ft a room */
{
    fx->practice[0].method = MF_METHOD_DRY_SCRAPE;
    fx->practice[0].spot_sqft_100 = 201;
}
static void assisted_uncovered(fixture *fx) /* 24 CFR 35.1345(b) */
{
    fx_tick(fx, "A1", "floor-sheet")->state = MF_TICK_UNDONE;
}
static void assisted_covered_late(fixture *fx) /* 35.1345(b): five minutes after the work began */
{
    fx_tick(fx, "A1", "floor-sheet")->at_minute = fx->practice[0].began_minute + 5;
}
static void assisted_no_method(fixture *fx) /* 24 CFR 35.140: none of it can be judged */
{
    fx->job.n_practice--;
}
static void assisted_uncleaned(fixture *fx) /* 24 CFR 35.1350(c) */
{
    fx_tick(fx, "A1", "surfaces")->state = MF_TICK_UNDONE;
}
static void assisted_in_and_out(fixture *fx) /* 24 CFR 35.1345(a)(1) */
{
    fx->occupancy[0].kept_out = MF_UNKNOWN;
}
static void assisted_6_days(fixture *fx) /* 24 CFR 35.1345(a)(2)(iv): 5 calendar days */
{
    fx->occupancy[0].stay = MF_STAY_FEW_DAYS;
    fx->occupancy[0].margin_ft_100 = 1000;
    fx->occupancy[0].reachable = MF_YES;
    fx->occupancy[0].other_hazard = MF_NOT;
    fx->occupancy[0].until = fx_day("2026-09-19");
}
static void assisted_not_sampled(fixture *fx) /* 24 CFR 35.930(b)(3) */
{
    fx->job.n_dust_sample = 4; /* the bedroom; the kitchen was wiped for EPA */
    fx->job.n_verification--;  /* whoever samples looks as well */
}
static void assisted_resampled(fixture *fx) /* 24 CFR 35.1340(e): 7 ug/sq ft, and nobody mopped */
{
    mf_dust_sample failed = fx->dust_sample[0];
    failed.src.entry = "office/9";
    failed.loading_ng_ft2 = 7000;
    failed.on--;
    fx_add_sample(fx, failed);
}
static void assisted_own_work(fixture *fx) /* 24 CFR 35.1340(f) */
{
    fx->practice[0].person = "ines";
    fx->assignment[fx->job.n_assignment] = fx->assignment[2];
    fx->assignment[fx->job.n_assignment++].person = "ines";
    fx->training[fx->job.n_training] = fx->training[0];
    fx->training[fx->job.n_training++].worker = "ines";
}
static void assisted_blood_lead_34(fixture *fx) /* 90 FR 5975: 3.5 ug/dL */
{
    fx_add_emergency(fx, MF_CAUSE_BLOOD_LEAD, "pamphlet", "a child of the household");
    fx->emergency[0].blood_lead_100 = 340;
}

#endif
