/* audit_changes_clear.h - as audit_changes.h, of cleaning verification, clearance samples and
 * assisted housing. */
#ifndef MF_TESTS_CORE_AUDIT_CHANGES_CLEAR_H
#define MF_TESTS_CORE_AUDIT_CHANGES_CLEAR_H

#include "core/audit_changes.h"

/* 745.227(e)(8)(iv): 60 minutes; the bedroom was cleaned until 08:00 on 09-14. */
static void sampled_after_59_minutes(fixture *fx)
{
    for (size_t i = 0; i < fx->job.n_dust_sample; i++) {
        fx->dust_sample[i].on = fx_day("2026-09-14");
        fx->dust_sample[i].at_minute = 539;
    }
}
static void assisted_seen_by_crew(fixture *fx) /* 24 CFR 35.1340(b)(2)(ii), (f) */
{
    fx->job.n_verification -= 2; /* Rosa's look of the verification is left */
}
static void assisted_not_approved(fixture *fx) /* 24 CFR 35.1340(b)(1)(iii) */
{
    for (size_t i = 0; i < fx->job.n_certificate; i++)
        if (strcmp(fx->certificate[i].holder, "ines") == 0)
            fx->certificate[i].discipline = MF_DISC_DUST_TECHNICIAN;
    fx->job.n_determination = 0;
    fx->component[3].affected = MF_NOT;
}
static void assisted_storm(fixture *fx) /* 24 CFR 35.115(a)(9) */
{
    fx_add_emergency(fx, MF_CAUSE_SUDDEN_EVENT, "pamphlet", "open to the rain");
}
static void assisted_no_sign(fixture *fx) /* 24 CFR 35.1345(b)(2) */
{
    fx_tick(fx, "A1", "signs-assisted")->state = MF_TICK_UNDONE;
}

/* ---- cleaning verification ------------------------------------------------------------ */

static void no_look_inside(fixture *fx) /* 745.85(b)(1)(i); a carpeted area without windows */
{
    fx->area[2].openings = "";
    fx->component[2].affected = MF_NOT;
    fx->opening[1].room = "hall";
    fx->job.n_dust_sample = 0;
    fx->job.n_verification = 4;
    for (size_t i = 0; i < fx->job.n_tick; i++)
        if (strcmp(fx->tick[i].area, "A3") == 0 &&
            strcmp(fx->tick[i].step, "windows-closed") == 0) {
            fx->tick[i].state = MF_TICK_NOT_NEEDED;
            fx->tick[i].ground = MF_GROUND_NONE_PRESENT;
        }
}
static void dirty_outside(fixture *fx) /* 745.85(b)(2) */
{
    fx->verification[3].event = MF_VER_LOOK_DIRTY;
}
static void no_floor(fixture *fx) /* 745.85(b)(1)(ii)(B) */
{
    fx->surface[1].kind = MF_SURFACE_COUNTERTOP;
}
static void floor_darker(fixture *fx)
{
    fx->verification[2].event = MF_VER_WET_DARKER;
}
static void wiped_after_pass(fixture *fx)
{
    mf_verification again = fx->verification[1];
    again.at_minute = 720;
    fx_add_verification(fx, again);
}
static void worker_looked(fixture *fx) /* 745.90(b)(1): in person */
{
    fx->verification[3].person = "lee";
}
static void nobody_looked(fixture *fx) /* 745.86(b)(6)(viii) */
{
    fx->verification[3].person = "";
}
static void voluntary_sample(fixture *fx) /* 745.85(c)(1) */
{
    mf_dust_sample sample = fx->dust_sample[0];
    sample.area = "A1";
    sample.place = "kitchen floor";
    sample.required = MF_NOT;
    fx_add_sample(fx, sample);
}
static void window_not_wiped(fixture *fx) /* 745.227(e)(8)(v) */
{
    fx->job.n_dust_sample = 1;
}
static void sampled_in_the_kitchen(fixture *fx) /* 745.227(e)(8)(v): A1 is the kitchen */
{
    mf_dust_sample more = fx->dust_sample[0];
    more.place = "kitchen";
    more.loading_ng_ft2 = 1000;
    fx_add_sample(fx, more);
}
static void wiped_30_by_30(fixture *fx) /* cm typed as inches; 2 ug */
{
    fx->dust_sample[0].loading_ng_ft2 = MF_NUM_NONE;
    fx->dust_sample[0].mass_ng = 2000;
    fx->dust_sample[0].length_in_1600 = fx->dust_sample[0].width_in_1600 = 30 * 1600;
}
static void dust_at_5(fixture *fx) /* 745.227(e)(8): below 5 from 2026-01-12 */
{
    fx->dust_sample[0].loading_ng_ft2 = 5000;
}
static void worker_sampled(fixture *fx) /* 745.85(c)(2) */
{
    fx->dust_sample[0].sampler = "lee";
}
static void dust_other_laboratory(fixture *fx) /* 745.90(c)(1) */
{
    fx->dust_sample[0].nllap = MF_NOT;
}

#endif
