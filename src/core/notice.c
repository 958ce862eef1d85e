/* Pamphlet deliveries: which method serves for whom (signed for, mailed, refused, posted
 * signs), and how many days before the start. 40 CFR 745.84. */
#include <mistfold/notice.h>

#include "core/notice_paper.h"
#include "core/text.h"
#include <mistfold/place.h>

/* Methods that serve for a party, as bits. An owner acknowledges or is mailed
 * (745.84(a)(1), (b)(1), (c)(1)(i)); an adult occupant and the representative of
 * a facility may also have refused ((a)(2), (c)(1)(ii)); parents are told one by
 * one or by signs ((c)(2)), units by notices, also by post, or by signs ((b)(2)). */
#define METHOD(name) (1u << (MF_DELIVERY_##name))

static unsigned methods_for(mf_role role)
{
    switch (role) {
    case MF_ROLE_OWNER:
        return METHOD(ACKNOWLEDGED) | METHOD(MAILED);
    case MF_ROLE_OCCUPANT:
    case MF_ROLE_FACILITY:
        return METHOD(ACKNOWLEDGED) | METHOD(MAILED) | METHOD(SELF_CERTIFIED);
    case MF_ROLE_PARENTS:
        return METHOD(ACKNOWLEDGED) | METHOD(MAILED) | METHOD(POSTED) | METHOD(UNIT_NOTICE);
    case MF_ROLE_UNITS:
        return METHOD(MAILED) | METHOD(POSTED) | METHOD(UNIT_NOTICE);
    }
    return 0;
}

bool mf_role_of_many(mf_role role)
{
    return role == MF_ROLE_PARENTS || role == MF_ROLE_UNITS;
}

static bool needs_signature(mf_delivery method)
{
    return method == MF_DELIVERY_ACKNOWLEDGED || method == MF_DELIVERY_SELF_CERTIFIED;
}

/* 745.84(c)(2)(i) has parents told by mail or by hand, and leaves it at that (EPA
 * 23002-19753); the statement of (c)(3) says when. To units it is the written notice of
 * (b)(2)(i), by post with certificate and seven days (EPA 23002-32359). */
bool mf_notice_mailing_counts(mf_delivery method, mf_role role)
{
    return method == MF_DELIVERY_MAILED && role != MF_ROLE_PARENTS;
}

/* Days before the start that a method must leave. Signs stay up while the work
 * goes on and may go up on its first morning. */
static bool soon_enough(const mf_job *job, mf_delivery method, mf_role role, mf_day start,
                        int64_t before)
{
    if (mf_notice_mailing_counts(method, role))
        return mf_limit_holds(mf_limit_for(job, MF_LIMIT_MAILING_DAYS, start), before);
    return method == MF_DELIVERY_POSTED ? before >= 0 : before > 0;
}

static mf_notice_fault window(const mf_job *job, const mf_notice *notice, mf_role role,
                              mf_day start)
{
    int64_t before = (int64_t)start - notice->on;
    if (!soon_enough(job, notice->method, role, start, before))
        return MF_NOTICE_TOO_LATE;
    if (needs_signature(notice->method) && notice->signed_on >= start)
        return MF_NOTICE_TOO_LATE;
    if (!mf_limit_holds(mf_limit_for(job, MF_LIMIT_PAMPHLET_DAYS, start), before))
        return MF_NOTICE_TOO_EARLY;
    return MF_NOTICE_GOOD;
}

static unsigned gap_if(bool missing, mf_notice_gap gap)
{
    return missing ? 1u << gap : 0;
}

static unsigned signed_gaps(const mf_notice *notice)
{
    bool unsigned_ = !mf_given(notice->signer) || notice->signed_on == MF_DAY_NONE;
    return gap_if(!mf_given(notice->unit), MF_GAP_UNIT) | gap_if(unsigned_, MF_GAP_SIGNATURE);
}

static unsigned self_certified_gaps(const mf_notice *notice)
{
    return signed_gaps(notice) | gap_if(!mf_given(notice->reason), MF_GAP_REASON) |
           gap_if(!mf_given(notice->deliverers), MF_GAP_DELIVERERS) |
           gap_if(!mf_given(notice->how), MF_GAP_HOW);
}

mf_notice_fault mf_notice_check_for(const mf_job *job, const mf_notice *notice, mf_role role,
                                    mf_day start)
{
    if ((unsigned)notice->method > MF_DELIVERY_UNIT_NOTICE ||
        (methods_for(role) & 1u << notice->method) == 0)
        return MF_NOTICE_WRONG_METHOD;
    if (notice->on == MF_DAY_NONE || start == MF_DAY_NONE)
        return MF_NOTICE_INCOMPLETE;
    mf_notice_fault fault = window(job, notice, role, start);
    if (fault != MF_NOTICE_GOOD)
        return fault;
    if (needs_signature(notice->method) &&
        (!mf_given(notice->signer) || notice->signed_on == MF_DAY_NONE))
        return MF_NOTICE_UNSIGNED;
    if (needs_signature(notice->method) && notice->signed_on < notice->on)
        return MF_NOTICE_SIGNED_FIRST;
    if (notice->method == MF_DELIVERY_SELF_CERTIFIED && self_certified_gaps(notice) != 0)
        return MF_NOTICE_INCOMPLETE;
    if (mf_role_of_many(role) && notice->has_statement != MF_YES)
        return MF_NOTICE_NO_STATEMENT;
    return MF_NOTICE_GOOD;
}

/* ---- what the paper holds ------------------------------------------------------------ */

/* What units and parents read; how many are told is the same whether it hangs on
 * the wall or lies in the mailbox. */
static unsigned told_gaps(const mf_notice *notice)
{
    bool over = notice->work_until != MF_DAY_NONE && notice->work_until < notice->on;
    return gap_if(notice->tells_work != MF_YES, MF_GAP_WORK) |
           gap_if(notice->tells_dates != MF_YES || over, MF_GAP_DATES) |
           gap_if(notice->tells_pamphlet != MF_YES, MF_GAP_PAMPHLET) |
           gap_if(notice->tells_records != MF_YES, MF_GAP_RECORDS);
}

unsigned mf_notice_gaps(const mf_notice *notice, mf_role role)
{
    unsigned gaps = mf_role_of_many(role) ? told_gaps(notice) : 0;
    bool mailed = mf_notice_mailing_counts(notice->method, role);
    switch (notice->method) {
    case MF_DELIVERY_ACKNOWLEDGED:
        return gaps | signed_gaps(notice) |
               gap_if(notice->states_receipt != MF_YES, MF_GAP_STATEMENT);
    case MF_DELIVERY_SELF_CERTIFIED:
        return gaps | self_certified_gaps(notice);
    case MF_DELIVERY_MAILED:
        return gaps | gap_if(mailed && notice->receipt != MF_YES, MF_GAP_RECEIPT);
    case MF_DELIVERY_POSTED:
    case MF_DELIVERY_UNIT_NOTICE:
        break;
    }
    return gaps;
}

mf_day mf_notice_last_day(const mf_job *job, mf_delivery method, mf_role role, mf_day start)
{
    const mf_limit *days = mf_limit_for(job, MF_LIMIT_MAILING_DAYS, start);
    if (method == MF_DELIVERY_POSTED)
        return start;
    return mf_notice_mailing_counts(method, role) && days != NULL ? start - (mf_day)days->value
                                                                  : start - 1;
}

/* ---- the best of them ---------------------------------------------------------------- */

mf_notice_fault mf_notice_best(const mf_job *job, const mf_party *party, mf_day start,
                               const mf_notice **which)
{
    const mf_notice *latest = NULL, *good = NULL;
    for (size_t i = job->n_notice; i > 0; i--) {
        const mf_notice *notice = &job->notice[i - 1];
        if (!mf_same(notice->party, party->id))
            continue;
        if (latest == NULL)
            latest = notice;
        if (mf_notice_check_for(job, notice, party->role, start) != MF_NOTICE_GOOD)
            continue;
        bool whole =
            mf_notice_gaps(notice, party->role) == 0 && mf_paper_serves(job, party, notice);
        if (good == NULL || whole)
            good = notice;
        if (whole)
            break;
    }
    *which = good != NULL ? good : latest;
    if (good != NULL)
        return MF_NOTICE_GOOD;
    return latest == NULL ? MF_NOTICE_NONE : mf_notice_check_for(job, latest, party->role, start);
}
