/* mistfold/notice.h - was the pamphlet delivered lawfully and in time?
 *
 * Sources: 40 CFR 745.84(a)-(d). Calendar days; the window for a start on day s
 * is s-60 <= d < s for a delivery and s-60 <= m <= s-7 for a certificate of
 * mailing; post to parents, (c)(2)(i), has neither the seven days nor the certificate. A
 * self-certified delivery is never enough for an owner.
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
    MF_NOTICE_SIGNED_FIRST, /* signed on a day before the delivery that it speaks of */
    MF_NOTICE_INCOMPLETE,   /* self-certification lacks reason, deliverers, method or unit; no day
                               of delivery, or no start day to judge it by */
    MF_NOTICE_NO_STATEMENT, /* common area or facility: no signed statement of steps */
    MF_NOTICE_NONE          /* no notice to this party at all */
} mf_notice_fault;

/* Whether those of the role are told as a group, in writing or by signs: affected units, parents.
 */
MF_API bool mf_role_of_many(mf_role role);

/* One notice to its party for a start day, by the strictest limits of the job's places;
 * job NULL = by the federal ones alone. */
MF_API mf_notice_fault mf_notice_check_for(const mf_job *job, const mf_notice *notice, mf_role role,
                                           mf_day start);

/* What the paper of a delivery must hold and what was not said of it. */
typedef enum mf_notice_gap {
    MF_GAP_NONE,
    MF_GAP_STATEMENT, /* acknowledgment: that the pamphlet came before the start (745.84(d)(1)) */
    MF_GAP_UNIT,      /* address of the unit (745.84(d)(1), (a)(2)(i)) */
    MF_GAP_SIGNATURE, /* signer or date of signature */
    MF_GAP_REASON,    /* self-certified: why there is no acknowledgment */
    MF_GAP_DELIVERERS,
    MF_GAP_HOW,      /* self-certified: by which method it was delivered */
    MF_GAP_RECEIPT,  /* mailed: the certificate of mailing */
    MF_GAP_WORK,     /* notice or sign: nature and places of the work */
    MF_GAP_DATES,    /* expected start and end; an end before the notice is none */
    MF_GAP_PAMPHLET, /* the pamphlet or how to get it free */
    MF_GAP_RECORDS   /* how to get the records of the job free */
} mf_notice_gap;

/* All gaps in a delivery's paper, as bits 1u << gap; 0 = it is whole. */
MF_API unsigned mf_notice_gaps(const mf_notice *notice, mf_role role);

/* The last day on which a delivery by this method to a party serves for a start; job (may be
 * NULL) for the limits of its place. */
MF_API mf_day mf_notice_last_day(const mf_job *job, mf_delivery method, mf_role role, mf_day start);

/* Whether a mailing to a party needs a certificate and its days before the start: not one to
 * parents and guardians. */
MF_API bool mf_notice_mailing_counts(mf_delivery method, mf_role role);

/* The best notice to a party: MF_NOTICE_GOOD when one serves (the one with nothing
 * missing from its paper, if there is one), else the fault of the latest. *which is set to it, or
 * NULL. */
MF_API mf_notice_fault mf_notice_best(const mf_job *job, const mf_party *party, mf_day start,
                                      const mf_notice **which);

#ifdef __cplusplus
}
#endif
#endif
