/* Is this house and this work under the rule? 40 CFR 745.82, 745.83, 745.103.
 * The answer is one finding; facts that nobody stated are warnings, as they were
 * read to the side of safety. */
#include "core/audit_rows.h"

#include "core/text.h"

static const char *const cover_names[] = {
    [MF_COVER_BUILT_BEFORE] = "cover-built-before",
    [MF_COVER_YEAR_UNKNOWN] = "cover-year-unknown",
    [MF_COVER_BUILT_LATER] = "cover-built-later",
    [MF_COVER_NOT_FOR_PAY] = "cover-not-for-pay",
    [MF_COVER_ELDER_HOUSING] = "cover-elder-housing",
    [MF_COVER_ZERO_BEDROOM] = "cover-zero-bedroom",
    [MF_COVER_NOTHING_PAINTED] = "cover-nothing-painted",
    [MF_COVER_ALL_FREE] = "cover-all-free",
    [MF_COVER_MINOR] = "cover-minor",
};

static bool by_year(mf_cover_why why)
{
    return why == MF_COVER_BUILT_BEFORE || why == MF_COVER_BUILT_LATER;
}

void mf_show_covered(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_cover_answer *cover = &asked->cover;
    (void)subject;
    mf_say(out, MF_MET, cover_names[cover->why]);
    out->evidence = mf_or_empty(asked->house->src.entry);
    if (by_year(cover->why)) {
        out->limit = mf_limit_on(MF_LIMIT_YEAR_BUILT, asked->house->start);
        mf_say_numbers(out, MF_UNIT_CALENDAR_YEAR, asked->house->year_built,
                       out->limit == NULL ? MF_NUM_NONE : out->limit->value);
        return;
    }
    mf_say_numbers(out, MF_UNIT_COUNT, (int64_t)cover->n_free, (int64_t)cover->n_affected);
    if (cover->why == MF_COVER_MINOR)
        out->limit = mf_limit_on(MF_LIMIT_MINOR_INTERIOR, asked->house->start);
}

/* ---- facts of the house ------------------------------------------------------------ */

static void say_fact(const mf_asked *asked, bool known, mf_finding *out)
{
    mf_say(out, known ? MF_MET : MF_WARNING, known ? "fact-stated" : "fact-unknown");
    out->evidence = mf_or_empty(asked->house->src.entry);
}

void mf_show_year(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->year_built != MF_NUM_NONE, out);
}

void mf_show_pay(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->for_compensation != MF_UNKNOWN, out);
}

void mf_show_owner_lives(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->owner_occupied != MF_UNKNOWN, out);
}

void mf_show_elder(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->elder_or_disabled != MF_UNKNOWN, out);
}

void mf_show_zero_bedroom(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->zero_bedroom != MF_UNKNOWN, out);
}

/* Whether a child lives there decides only where the housing might be exempt. */
const char *mf_if_child_matters(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    bool matters =
        asked->house->elder_or_disabled == MF_YES || asked->house->zero_bedroom == MF_YES;
    return matters ? NULL : "fact-not-asked";
}

void mf_show_child(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    say_fact(asked, asked->house->child_under_6 != MF_UNKNOWN, out);
}

/* ---- emergencies ---------------------------------------------------------------------- */

const char *mf_if_emergency(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    return asked->house->emergency == MF_YES ? NULL : "no-emergency";
}

/* Only the information duties are lifted here. How far the other reliefs reach
 * hangs on the event, so a person must judge them. */
void mf_show_emergency(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    mf_say(out, MF_WARNING, "emergency-by-hand");
    out->evidence = mf_or_empty(asked->house->src.entry);
}

void mf_show_emergency_notes(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    (void)subject;
    bool noted = mf_given(asked->house->note);
    mf_say(out, noted ? MF_MET : MF_LACKING, noted ? "emergency-noted" : "emergency-not-noted");
    out->evidence = mf_or_empty(asked->house->src.entry);
}
