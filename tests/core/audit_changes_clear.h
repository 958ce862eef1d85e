/* audit_changes_clear.h - as audit_changes.h, of clearance samples and assisted housing. */
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

#endif
