/* mistfold/told.h - how people were told of the work: each delivery of the pamphlet
 * and what its paper holds, and changes that must be told anew. 40 CFR 745.84. The
 * lists of them are in job.h.
 */
#ifndef MISTFOLD_TOLD_H
#define MISTFOLD_TOLD_H

#include <mistfold/fact.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_delivery {
    MF_DELIVERY_ACKNOWLEDGED,   /* written acknowledgment of receipt */
    MF_DELIVERY_MAILED,         /* certificate of mailing */
    MF_DELIVERY_SELF_CERTIFIED, /* refused or no adult: the firm certifies the delivery */
    MF_DELIVERY_POSTED,         /* signs while the work goes on */
    MF_DELIVERY_UNIT_NOTICE     /* written notice to each affected unit */
} mf_delivery;

typedef struct mf_notice {
    mf_src src;
    const char *party; /* party id */
    mf_delivery method;
    mf_day on;              /* delivered or mailed */
    mf_day signed_on;       /* acknowledgment or self-certification */
    const char *signer;     /* who signed the acknowledgment or for the firm */
    const char *unit;       /* address of the unit */
    const char *language;   /* of the pamphlet and the acknowledgment */
    const char *reason;     /* self-certified: "refused" or "no adult available" ... */
    const char *deliverers; /* self-certified: who delivered */
    mf_tri has_statement;   /* common areas, facilities: signed, dated statement of steps */
    /* What the paper itself says or what is on file, 745.84(a)-(d). */
    mf_tri states_receipt; /* acknowledgment: the pamphlet came before the start */
    mf_tri receipt;        /* mailed: the certificate of mailing is on file */
    mf_tri tells_work;     /* nature and places of the work */
    mf_tri tells_dates;    /* expected start and end; signs: the anticipated end */
    mf_tri tells_pamphlet; /* the pamphlet itself, or how to get it free */
    mf_tri tells_records;  /* how to get the records of the job free */
    mf_tri of_change;      /* a new notice because scope, places or dates changed */
    const char *how;       /* self-certified: by hand, under the door ... */
    /* The expected first and last day of the work that it tells. */
    mf_day work_from, work_until;
} mf_notice;

/* Scope, places or dates of the work change after people were told (745.84(b)(4)). */
typedef struct mf_scope_change {
    mf_src src;
    const char *what; /* what changes, in words */
    mf_day on;        /* first day the work goes beyond what was told */
    mf_tri listed;    /* what it adds is on the list of components, or it adds no painted part */
} mf_scope_change;

#ifdef __cplusplus
}
#endif
#endif
