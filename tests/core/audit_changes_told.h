/* audit_changes_told.h - the same as audit_changes.h, of units and of the days told. */
#ifndef MF_TESTS_CORE_AUDIT_CHANGES_TOLD_H
#define MF_TESTS_CORE_AUDIT_CHANGES_TOLD_H

#include "support/fixture_job.h"

static void hours_ahead(fixture *fx) /* 745.86(a): by the clock here it is not yet that late */
{
    fx->job.clock = (mf_clock){"2026-09-14T10:00:00Z", -240};
}
static void chip_by_renovator(fixture *fx) /* 24 CFR 35.110: no inspector's testing */
{
    fx->chip[0].sampler = "rosa";
}
/* The work is in unit 2 alone, whose tenant was told. */
static void unit_2(fixture *fx)
{
    fx_good(fx);
    fx->house.building = MF_BUILDING_MULTI;
    fx_party(fx, "tenant")->unit = "2";
    for (size_t i = 0; i < fx->job.n_notice; i++)
        if (strcmp(fx->notice[i].party, "tenant") == 0)
            fx->notice[i].unit = "2 Test St, 2";
    for (size_t i = 0; i < fx->job.n_area; i++)
        fx->area[i].unit = "2";
}
static void kitchen_unsaid(fixture *fx) /* 745.84(a)(2) or (b) */
{
    fx->area[0].unit = "";
}
static void cousin_unsaid(fixture *fx) /* 745.84(a)(2): of which unit? */
{
    fx->party[fx->job.n_party] = *fx_party(fx, "tenant");
    fx->party[fx->job.n_party].id = "cousin";
    fx->party[fx->job.n_party++].unit = "";
}
static void vacant_but_tenant(fixture *fx) /* 745.84(a)(2) */
{
    fx->vacancy[0] = (mf_vacancy){.src = {"va/1", "2026-09-14T12:00:00Z", "rosa", ""},
                                  .unit = "",
                                  .on = fx_day("2026-09-01"),
                                  .said_by = "the owner"};
    fx->job.n_vacancy = 1;
}
static void told_until_13(fixture *fx) /* 745.84(b)(4): work from 09-14 */
{
    fx_notice(fx, "units")->work_from = fx_day("2026-09-10");
    fx_notice(fx, "units")->work_until = fx_day("2026-09-13");
}
static void sign_until_13(fixture *fx) /* 745.84(b)(2)(ii) */
{
    fx_notice(fx, "units")->method = MF_DELIVERY_POSTED;
    fx_notice(fx, "units")->work_until = fx_day("2026-09-13");
}

static void called_off_at_work(fixture *fx) /* 745.86(a): a house, and work */
{
    fx->house.called_off = fx_day("2026-09-10");
}
static void area_off_at_work(fixture *fx) /* 745.86(a): an area, and work in it */
{
    fx->area[2].called_off = fx_day("2026-09-10");
}
static void called_off_unbegun(fixture *fx) /* under the rule more would be lacking */
{
    mf_job *job = &fx->job;
    fx->house.called_off = fx_day("2026-09-10");
    fx->house.year_built = 1990;
    job->n_practice = job->n_tick = job->n_verification = job->n_dust_sample = 0;
    job->n_completion = job->n_invoice = job->n_certification = 0;
}

#endif
