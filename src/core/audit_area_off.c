/* A work area that was called off before any work in it. Nothing may be torn out there, as in one
 * that was not contained (745.85(a)(2)); its signs may come down, as nothing is to be cleaned; and
 * where its entry says so beside work that was logged, or is still to be done there, all is asked
 * as of any area, and demo and inspection are no until one of the two is corrected (745.86(a)). */
#include "core/audit_rows.h"

#include "core/area_off.h"
#include "core/called_off.h"
#include "core/text.h"

const char *mf_if_area_off(const mf_asked *asked, const mf_subject *subject)
{
    const mf_day on = subject->area->called_off;
    return on == MF_DAY_NONE || on > asked->today ? "area-not-called-off" : NULL;
}

/* Containment that nobody needs any more is to come down, and disturbs nothing while it stands.
 * doubted: where something that was logged says otherwise. */
static void say(const mf_asked *asked, const mf_subject *subject, mf_verdict off,
                mf_verdict doubted, mf_finding *out)
{
    const char *own = mf_or_empty(subject->area->src.entry), *why = NULL;
    const char *against = mf_area_worked_by(asked->whole, subject->id, asked->today, &why);
    const char *stands = mf_area_contained_by(asked->whole, subject->id);
    out->evidence = own;
    if (mf_area_off(asked->whole, subject->id, asked->today)) {
        mf_say(out, stands != NULL && off == MF_MET ? MF_WARNING : off,
               stands != NULL ? "area-off-contained" : "area-off");
        against = stands;
    } else {
        mf_say(out, doubted, against == NULL ? "area-off-doubted" : why);
    }
    if (against != NULL) {
        out->evidence = against;
        out->other = own;
    }
    mf_say_days(out, subject->area->called_off, MF_DAY_NONE);
}

/* Who asks whether demo may start there hears that it may not; who asks of the job, that it goes on
 * without this area. Of two words that contradict each other the stricter one holds: nothing may be
 * torn out there. */
void mf_show_area_off_demo(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    bool here = mf_given(asked->area) && mf_same(asked->area, subject->id);
    say(asked, subject, here ? MF_LACKING : MF_MET, MF_LACKING, out);
}

/* Signs that came down once all was clean do no harm, whichever of the two words is true. */
void mf_show_area_off_signs(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say(asked, subject, MF_MET, MF_WARNING, out);
}

/* Records that contradict each other show nothing, whoever certified them (745.86(a)); where the
 * rule does not ask for records it is told. */
void mf_show_area_off(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say(asked, subject, MF_MET, asked->cover.cover == MF_COVER_YES ? MF_LACKING : MF_WARNING, out);
}
