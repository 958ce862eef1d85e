/* Cautions for workers by the method that was logged. 29 CFR 1926.62(d)(2): until
 * the air is measured these tasks are presumed over the limit: (i) above it and not in
 * excess of ten times it, (iii) in excess of 500, (iv) in excess of 2,500. A caution
 * only, the answer to no question. */
#include "core/audit_rows.h"

static const char *trigger_of(const mf_practice *practice)
{
    switch (practice->method) {
    case MF_METHOD_HAND:
    case MF_METHOD_HEAT_GUN:
    case MF_METHOD_DRY_SCRAPE:
    case MF_METHOD_DRY_SAND:
    case MF_METHOD_DEMOLITION:
        return "osha-over-50";
    case MF_METHOD_MACHINE:
        return practice->shroud_and_hepa == MF_YES ? "osha-over-50" : "osha-over-500";
    case MF_METHOD_OPEN_FLAME:
    case MF_METHOD_BLASTING:
        return "osha-over-2500";
    case MF_METHOD_STRIPPER:
        break;
    }
    return NULL;
}

const char *mf_if_trigger(const mf_asked *asked, const mf_subject *subject)
{
    (void)asked;
    return trigger_of(subject->practice) == NULL ? "osha-no-trigger" : NULL;
}

void mf_show_trigger(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)asked;
    mf_say(out, MF_WARNING, trigger_of(subject->practice));
    mf_say_days(out, subject->practice->on, MF_DAY_NONE);
}
