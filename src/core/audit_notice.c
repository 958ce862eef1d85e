/* Who must be told before the work, and was. 40 CFR 745.84. */
#include "core/audit_rows.h"

#include "core/begins.h"
#include "core/notice_paper.h"
#include "core/occupied_units.h"
#include "core/text.h"
#include <assert.h>
#include <mistfold/notice.h>

static const char *const missing_names[] = {
    [MF_ROLE_OWNER] = "party-no-owner",       [MF_ROLE_OCCUPANT] = "party-no-occupant",
    [MF_ROLE_FACILITY] = "party-no-facility", [MF_ROLE_PARENTS] = "party-no-parents",
    [MF_ROLE_UNITS] = "party-no-units",
};

/* Of a unit: somebody who lives there, unless it is said in time that nobody does. */
static void show_occupant_named(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_vacancy *vacancy = mf_vacancy_of(asked->job, subject->unit);
    if (subject->party != NULL) {
        mf_say(out, MF_MET, "party-named");
    } else if (subject->unit == NULL) {
        mf_say(out, MF_LACKING, "party-unit-unsaid");
    } else if (vacancy != NULL) {
        mf_say(out, MF_LACKING, "party-vacant-late");
        mf_say_days(out, vacancy->on, mf_begins_in_unit(asked, subject->unit));
        out->evidence = mf_or_empty(vacancy->src.entry);
    } else {
        mf_say(out, MF_LACKING, missing_names[MF_ROLE_OCCUPANT]);
    }
}

/* Somebody of the role must be on the list before anybody can be told. */
void mf_show_party_named(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    mf_say(out, MF_LACKING, missing_names[subject->role]);
    if (subject->role == MF_ROLE_OCCUPANT) {
        show_occupant_named(asked, subject, out);
        return;
    }
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
    const char *not_because = mf_not_owed(asked, subject);
    if (not_because == NULL && subject->party == NULL)
        return "unit-nobody-listed"; /* that row asks for somebody first */
    return not_because;              /* an emergency is looked at afterwards: mf_excuse */
}

static const char *const gap_names[] = {
    [MF_GAP_NONE] = "notice-whole",           [MF_GAP_STATEMENT] = "notice-no-receipt-statement",
    [MF_GAP_UNIT] = "notice-no-unit",         [MF_GAP_SIGNATURE] = "notice-unsigned",
    [MF_GAP_REASON] = "notice-no-reason",     [MF_GAP_DELIVERERS] = "notice-no-deliverers",
    [MF_GAP_HOW] = "notice-no-how",           [MF_GAP_RECEIPT] = "notice-no-mailing-receipt",
    [MF_GAP_WORK] = "notice-no-work",         [MF_GAP_DATES] = "notice-no-dates",
    [MF_GAP_PAMPHLET] = "notice-no-pamphlet", [MF_GAP_RECORDS] = "notice-no-records",
};
static_assert(sizeof gap_names / sizeof gap_names[0] == MF_GAP_RECORDS + 1,
              "a gap was added: give it a reason name");

/* The gaps of these bits, each of which is told. */
static void say_gaps(unsigned gaps, mf_finding *out)
{
    for (unsigned gap = MF_GAP_NONE + 1; gap < sizeof gap_names / sizeof gap_names[0]; gap++)
        mf_say_lack(out, (gaps & 1u << gap) != 0, gap_names[gap]);
}

/* Where the paper was signed by nobody, or says too little to count, it is told at once what
 * else is missing on it. */
static void say_missing(const mf_notice *notice, mf_role role, mf_notice_fault fault,
                        mf_finding *out)
{
    unsigned gaps = mf_notice_gaps(notice, role);
    if (fault == MF_NOTICE_UNSIGNED)
        gaps &= ~(1u << MF_GAP_SIGNATURE);
    bool self_certified = notice->method == MF_DELIVERY_SELF_CERTIFIED;
    if (fault == MF_NOTICE_INCOMPLETE && self_certified && gaps != 0 && notice->on != MF_DAY_NONE)
        mf_say(out, MF_MET, ""); /* what it lacks says it better */
    if (fault == MF_NOTICE_UNSIGNED || fault == MF_NOTICE_INCOMPLETE ||
        fault == MF_NOTICE_NO_STATEMENT)
        say_gaps(gaps, out);
}

static const char *fault_name(mf_notice_fault fault, const mf_notice *notice, mf_role role)
{
    bool mailed = notice != NULL && mf_notice_mailing_counts(notice->method, role);
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
    case MF_NOTICE_SIGNED_FIRST:
        return "notice-signed-first";
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
static void say_window(const mf_job *job, const mf_notice *notice, mf_role role,
                       mf_notice_fault fault, mf_day start, mf_finding *out)
{
    bool mailed_late =
        fault == MF_NOTICE_TOO_LATE && mf_notice_mailing_counts(notice->method, role);
    if (fault != MF_NOTICE_TOO_EARLY && fault != MF_NOTICE_GOOD && !mailed_late)
        return;
    mf_say_limit(out, job, mailed_late ? MF_LIMIT_MAILING_DAYS : MF_LIMIT_PAMPHLET_DAYS, start);
    mf_say_numbers(out, MF_UNIT_DAYS, out->limit == NULL ? MF_NUM_NONE : out->limit->value,
                   (int64_t)start - notice->on);
}

/* The start has slipped past what was delivered: there is still time to deliver
 * again, and the finding says by when. */
static void say_again(const mf_asked *asked, const mf_notice *notice, mf_role role, mf_day begins,
                      mf_finding *out)
{
    mf_day last = mf_notice_last_day(asked->job, notice->method, role, begins);
    if (asked->today > last)
        return;
    mf_say(out, MF_LACKING, "notice-again");
    mf_say_days(out, last, begins);
}

/* It serves for the planned day, and the question is asked before: who starts at once would
 * start too soon after a mailing. */
static bool not_yet(const mf_asked *asked, const mf_party *party, mf_day begins)
{
    const mf_notice *today = NULL;
    return asked->today < begins &&
           mf_notice_best(asked->job, party, asked->today, &today) == MF_NOTICE_TOO_LATE;
}

/* Lawful for parents, but the post may be slower than the work. */
static void say_close(const mf_asked *asked, const mf_notice *notice, mf_day begins,
                      mf_finding *out)
{
    const mf_limit *days = mf_limit_for(asked->job, MF_LIMIT_MAILING_DAYS, begins);
    int64_t before = (int64_t)begins - notice->on;
    if (notice->method != MF_DELIVERY_MAILED || mf_limit_holds(days, before))
        return;
    mf_say(out, MF_WARNING, "notice-mailed-close");
    mf_say_limit(out, asked->job, MF_LIMIT_MAILING_DAYS, begins);
    mf_say_numbers(out, MF_UNIT_DAYS, days == NULL ? MF_NUM_NONE : days->value, before);
}

/* How far the best delivery to a party serves for work that begins on a day. */
static int worth(const mf_asked *asked, const mf_party *party, mf_day begins)
{
    const mf_notice *notice = NULL;
    mf_notice_fault fault = mf_notice_best(asked->job, party, begins, &notice);
    if (notice == NULL)
        return 0;
    if (fault != MF_NOTICE_GOOD)
        return 1;
    bool whole =
        mf_notice_gaps(notice, party->role) == 0 && mf_paper_serves(asked->job, party, notice);
    return whole ? 3 : 2;
}

static void consider(const mf_asked *asked, const mf_party *owner, mf_day day, mf_day *worst)
{
    if (worth(asked, owner, day) < worth(asked, owner, *worst))
        *worst = day;
}

/* The beginning that decides of a party. Whoever owns the building owns each unit of it and the
 * common areas, and is told before each of them (745.84(a)(1), (b)(1)): the one for which the best
 * delivery serves least. */
static mf_day decides(const mf_asked *asked, const mf_party *party, const char *unit)
{
    const char *each;
    mf_day worst = asked->begins;
    if (party == NULL || party->role != MF_ROLE_OWNER)
        return mf_begins_for(asked, party == NULL ? MF_ROLE_OCCUPANT : party->role, unit);
    for (size_t i = 0; i < mf_units_most(asked->job); i++)
        if (mf_unit_at(asked->job, i, &each))
            consider(asked, party, mf_begins_in_unit(asked, each), &worst);
    if (mf_common_worked(asked->job))
        consider(asked, party, asked->begins_common, &worst);
    return worst;
}

/* Whose notice decides: the party itself; of a unit the occupant who was told best, as one
 * adult is enough (745.84(a)(2)). */
static const mf_party *told_best(const mf_asked *asked, const mf_subject *subject, mf_day begins)
{
    const mf_party *best = subject->party;
    for (size_t i = 0; i < asked->job->n_party; i++) {
        const mf_party *party = &asked->job->party[i];
        if (mf_stands_for(asked->job, subject, party) &&
            worth(asked, party, begins) > worth(asked, best, begins))
            best = party;
    }
    return best;
}

void mf_show_notice(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_notice *notice = NULL;
    mf_day begins = decides(asked, subject->party, subject->unit);
    const mf_party *party = told_best(asked, subject, begins);
    mf_notice_fault fault = mf_notice_best(asked->job, party, begins, &notice);
    out->subject = mf_or_empty(party->id);
    mf_say(out, fault == MF_NOTICE_GOOD ? MF_MET : MF_LACKING,
           fault_name(fault, notice, subject->role));
    mf_say_days(out, notice == NULL ? MF_DAY_NONE : notice->on, begins);
    out->evidence = notice == NULL ? "" : mf_or_empty(notice->src.entry);
    if (notice != NULL)
        say_window(asked->job, notice, subject->role, fault, begins, out);
    if (notice != NULL)
        say_missing(notice, subject->role, fault, out);
    if (fault == MF_NOTICE_TOO_EARLY)
        say_again(asked, notice, subject->role, begins, out);
    if (fault == MF_NOTICE_GOOD)
        say_close(asked, notice, begins, out);
    if (fault == MF_NOTICE_GOOD && not_yet(asked, party, begins))
        mf_say(out, MF_WARNING, "notice-not-yet");
}

/* ---- what its paper holds ------------------------------------------------------------ */

/* Of the delivery that serves: one that does not is told by its own row. */
const mf_notice *mf_serving_notice(const mf_asked *asked, const mf_subject *subject)
{
    const mf_notice *notice = NULL;
    mf_day begins = decides(asked, subject->party, subject->unit);
    const mf_party *party = told_best(asked, subject, begins);
    mf_notice_fault fault = mf_notice_best(asked->job, party, begins, &notice);
    return fault == MF_NOTICE_GOOD ? notice : NULL;
}

const char *mf_if_served_by(const mf_asked *asked, const mf_subject *subject, unsigned methods)
{
    const char *not_because = mf_not_owed(asked, subject);
    if (not_because != NULL)
        return not_because;
    const mf_notice *notice = mf_serving_notice(asked, subject);
    if (notice == NULL)
        return "notice-not-serving";
    return (methods & 1u << notice->method) != 0 ? NULL : "notice-other-method";
}

const char *mf_if_acknowledged(const mf_asked *asked, const mf_subject *subject)
{
    return mf_if_served_by(asked, subject, 1u << MF_DELIVERY_ACKNOWLEDGED);
}

const char *mf_if_mailed(const mf_asked *asked, const mf_subject *subject)
{
    if (subject->role == MF_ROLE_PARENTS)
        return "mailing-to-parents";
    return mf_if_served_by(asked, subject, 1u << MF_DELIVERY_MAILED);
}

const char *mf_if_told_many(const mf_asked *asked, const mf_subject *subject)
{
    return mf_role_of_many(subject->role) ? mf_if_served_by(asked, subject, ~0u) : "party-one";
}

/* What is written to many is asked for by a row of its own. */
static void say_gap(const mf_asked *asked, const mf_subject *subject, mf_role as, mf_finding *out)
{
    const mf_notice *notice = mf_serving_notice(asked, subject);
    unsigned gaps = notice == NULL ? 0 : mf_notice_gaps(notice, as);
    if (mf_role_of_many(as))
        gaps &= ~((1u << MF_GAP_WORK) - 1); /* the gaps from there on are those of many */
    mf_say(out, MF_MET, gap_names[MF_GAP_NONE]);
    say_gaps(gaps, out);
    if (notice == NULL)
        return;
    mf_say_days(out, notice->on, MF_DAY_NONE);
    out->subject = mf_or_empty(notice->party);
    out->evidence = mf_or_empty(notice->src.entry);
}

void mf_show_contents(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say_gap(asked, subject, MF_ROLE_OCCUPANT, out);
}

void mf_show_told_many(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    say_gap(asked, subject, subject->role, out);
}

/* ---- its language ---------------------------------------------------------------------- */

const char *mf_if_language_set(const mf_asked *asked, const mf_subject *subject)
{
    (void)subject;
    return mf_given(asked->house->language) ? NULL : "language-not-set";
}

/* In housing in which the owner does not live the acknowledgment may also be in the language of the
 * lease or the pamphlet; everywhere else, and the owner's, it follows the contract. */
static bool follows_contract(const mf_asked *asked, const mf_party *party, const mf_notice *notice)
{
    bool let = mf_is_housing(asked->house) && asked->house->owner_occupied != MF_YES;
    return party->role == MF_ROLE_OWNER ||
           (!let && notice->method == MF_DELIVERY_ACKNOWLEDGED && !mf_role_of_many(party->role));
}

/* Of the delivery that serves, and of no other. */
static bool must_follow(const mf_asked *asked, const mf_notice *notice)
{
    const mf_party *party = mf_job_party(asked->job, notice->party);
    const mf_notice *best = NULL;
    if (party == NULL || !follows_contract(asked, party, notice))
        return false;
    const char *unit = party->role == MF_ROLE_OCCUPANT ? mf_unit_of(asked->job, party) : "";
    mf_notice_best(asked->job, party, decides(asked, party, unit), &best);
    return best == notice;
}

void mf_show_language(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const char *language = subject->notice->language;
    mf_say_days(out, subject->notice->on, MF_DAY_NONE);
    if (!mf_given(language))
        mf_say(out, MF_WARNING, "language-unsaid");
    else if (!mf_same(language, asked->house->language))
        mf_say(out, must_follow(asked, subject->notice) ? MF_LACKING : MF_WARNING,
               "language-differs");
    else
        mf_say(out, MF_MET, "language-same");
}
