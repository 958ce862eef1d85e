/* A job that was called off before any work. The rule does not speak of it: nothing may be torn out
 * in a job that nobody is to do, as in one that is over (745.85(a)(2)), until its house says
 * otherwise; and a house that says so beside work that was logged shows nothing (745.86(a)), where
 * records are owed. */
#include "core/audit_rows.h"

#include "core/called_off.h"
#include "core/text.h"

const char *mf_if_called_off(const mf_asked *asked, const mf_subject *subject)
{
    const mf_day on = asked->house->called_off;
    (void)subject;
    return on == MF_DAY_NONE || on > asked->today ? "not-called-off" : NULL;
}

/* What was logged of work is believed, all is due as in any job, and whoever asks is told; and so
 * is the word that nobody is to do it, until one of the two is corrected. Where containment stands
 * nothing was disturbed yet, and nothing is to be. */
static void say(const mf_asked *asked, mf_verdict unbegun, mf_verdict begun, mf_finding *out)
{
    const char *work = mf_begun_by(asked->job), *stands = mf_contained_by(asked->job);
    const char *against = work != NULL ? work : stands;
    out->evidence = mf_or_empty(asked->house->src.entry);
    if (work != NULL)
        mf_say(out, begun, "called-off-begun");
    else if (stands != NULL)
        mf_say(out, unbegun, "called-off-contained");
    else
        mf_say(out, unbegun, "called-off");
    if (against != NULL) {
        out->other = out->evidence;
        out->evidence = against;
    }
    mf_say_days(out, asked->house->called_off, MF_DAY_NONE);
}

/* Of a job that nobody is to do nothing else is asked, and nobody may read that as a yes. */
const char *mf_if_stopped(const mf_asked *asked, const mf_subject *subject)
{
    const char *not_so = mf_if_called_off(asked, subject);
    return not_so != NULL ? not_so : asked->off ? NULL : "called-off-not-so";
}

void mf_show_stopped(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say(asked, MF_NOT_NOW, MF_WARNING, out);
    if (mf_contained_by(asked->job) == NULL)
        out->why = "called-off-nothing-due";
}

void mf_show_called_off(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say(asked, MF_LACKING, MF_LACKING, out);
}

void mf_show_called_off_agrees(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say(asked, MF_MET, asked->cover.cover == MF_COVER_YES ? MF_LACKING : MF_WARNING, out);
}
