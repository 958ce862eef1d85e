/* Who must be told before the work, and was. 40 CFR 745.84. */
#include "core/audit_rows.h"

#include "core/text.h"
#include <mistfold/notice.h>

static const char *const missing_names[] = {
    [MF_ROLE_OWNER] = "party-no-owner",       [MF_ROLE_OCCUPANT] = "party-no-occupant",
    [MF_ROLE_FACILITY] = "party-no-facility", [MF_ROLE_PARENTS] = "party-no-parents",
    [MF_ROLE_UNITS] = "party-no-units",
};

const char *mf_if_role_due(const mf_asked *asked, const mf_subject *subject)
{
    return mf_party_due(asked->house, subject->role) ? NULL : "party-not-due";
}

/* Somebody of the role must be on the list before anybody can be told. */
void mf_show_party_named(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_say(out, MF_LACKING, missing_names[subject->role]);
    for (size_t i = 0; i < asked->job->n_party; i++) {
        const mf_party *party = &asked->job->party[i];
        if (party->role != subject->role)
            continue;
        mf_say(out, MF_MET, "party-named");
        out->subject = mf_or_empty(party->id);
        out->evidence = mf_or_empty(party->src.entry);
        return;
    }
}

/* ---- the pamphlet ------------------------------------------------------------------- */

const char *mf_if_notice_due(const mf_asked *asked, const mf_subject *subject)
{
    if (!mf_party_due(asked->house, subject->role))
        return "party-not-due";
    return NULL; /* an emergency is looked at afterwards: mf_excuse */
}

static const char *fault_name(mf_notice_fault fault, const mf_notice *notice)
{
    bool mailed = notice != NULL && notice->method == MF_DELIVERY_MAILED;
    switch (fault) {
    case MF_NOTICE_GOOD:
        return "notice-good";
    case MF_NOTICE_TOO_EARLY:
        return "notice-early";
    case MF_NOTICE_TOO_LATE:
        return mailed ? "notice-mailed-late" : "notice-late";
    case MF_NOTICE_WRONG_METHOD:
        return "notice-method";
    case MF_NOTICE_UNSIGNED:
        return "notice-unsigned";
    case MF_NOTICE_INCOMPLETE:
        return "notice-incomplete";
    case MF_NOTICE_NO_STATEMENT:
        return "notice-no-statement";
    case MF_NOTICE_NONE:
        break;
    }
    return "notice-none";
}

/* The limit that a fault of time broke, with what it asks and what was found. */
static void say_window(const mf_job *job, const mf_notice *notice, mf_notice_fault fault,
                       mf_day start, mf_finding *out)
{
    bool mailed_late = fault == MF_NOTICE_TOO_LATE && notice->method == MF_DELIVERY_MAILED;
    if (fault != MF_NOTICE_TOO_EARLY && fault != MF_NOTICE_GOOD && !mailed_late)
        return;
    mf_say_limit(out, job, mailed_late ? MF_LIMIT_MAILING_DAYS : MF_LIMIT_PAMPHLET_DAYS, start);
    mf_say_numbers(out, MF_UNIT_DAYS, out->limit == NULL ? MF_NUM_NONE : out->limit->value,
                   (int64_t)start - notice->on);
}

void mf_show_notice(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_notice *notice = NULL;
    mf_notice_fault fault = mf_notice_best(asked->job, subject->party, asked->start, &notice);
    mf_say(out, fault == MF_NOTICE_GOOD ? MF_MET : MF_LACKING, fault_name(fault, notice));
    mf_say_days(out, notice == NULL ? MF_DAY_NONE : notice->on, asked->start);
    out->evidence = notice == NULL ? "" : mf_or_empty(notice->src.entry);
    if (notice != NULL)
        say_window(asked->job, notice, fault, asked->start, out);
}

/* ---- its language ---------------------------------------------------------------------- */

const char *mf_if_language_set(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    return mf_given(asked->house->language) ? NULL : "language-not-set";
}

void mf_show_language(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const char *language = subject->notice->language;
    mf_say_days(out, subject->notice->on, MF_DAY_NONE);
    if (!mf_given(language))
        mf_say(out, MF_WARNING, "language-unsaid");
    else if (!mf_same(language, asked->house->language))
        mf_say(out, MF_WARNING, "language-differs");
    else
        mf_say(out, MF_MET, "language-same");
}
