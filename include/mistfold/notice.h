/* mistfold/notice.h - was the pamphlet delivered lawfully and in time?
 *
 * Sources: 40 CFR 745.84(a)-(d). Calendar days; the window for a start on day s
 * is s-60 <= d < s for a delivery and s-60 <= m <= s-7 for a certificate of
 * mailing. A self-certified delivery is never enough for an owner.
 */
#ifndef MISTFOLD_NOTICE_H
#define MISTFOLD_NOTICE_H

#include <mistfold/job.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_notice_fault {
    MF_NOTICE_GOOD,
    MF_NOTICE_TOO_EARLY,    /* more than 60 days before the start */
    MF_NOTICE_TOO_LATE,     /* on or after the start; mailed less than 7 days before */
    MF_NOTICE_WRONG_METHOD, /* the method does not serve for this party */
    MF_NOTICE_UNSIGNED,     /* no signature or no date of signature */
    MF_NOTICE_INCOMPLETE,   /* self-certification lacks reason, deliverers or unit; no day of
                               delivery, or no start day to judge it by */
    MF_NOTICE_NO_STATEMENT, /* common area or facility: no signed statement of steps */
    MF_NOTICE_NONE          /* no notice to this party at all */
} mf_notice_fault;

/* One notice to its party for a start day. */
/* By the strictest limits of the job's places; job NULL = the federal ones. */
MF_API mf_notice_fault mf_notice_check_for(const mf_job *job, const mf_notice *notice, mf_role role,
                                           mf_day start);
MF_API mf_notice_fault mf_notice_check(const mf_notice *notice, mf_role role, mf_day start);

/* The best notice to a party: MF_NOTICE_GOOD when one serves, else the fault of
 * the latest. *which is set to it, or NULL. */
MF_API mf_notice_fault mf_notice_best(const mf_job *job, const mf_party *party, mf_day start,
                                      const mf_notice **which);

#ifdef __cplusplus
}
#endif
#endif
