/* mistfold/audit.h - the questions asked of a job, and every finding behind the
 * answer.
 *
 * A requirement is a row: which paragraph, which question it bears on, whether
 * it applies to this job (or to this work area, person, component ... of it),
 * and whether the entries show it. The audit walks the rows and returns
 * findings: ids and numbers, no words. The words are in forms/ as
 *   req.<requirement id>       the requirement in plain words
 *   next.<requirement id>      what to do when it is lacking
 *   why.<reason name>          what was found, with {s} the subject, {u} its unit, {t} what is
 *                              quoted or named beside it, {d1} {d2} days, {n1} {n2} numbers in
 *                              the finding's unit, {e} {o} the entries evidence and other, {f}
 *                              the field; of a correction {k} the kind of entry, {c} what it
 *                              changed from what to what, {w} by whom
 * Sources: 40 CFR 745.82-745.90, each row naming its own.
 */
#ifndef MISTFOLD_AUDIT_H
#define MISTFOLD_AUDIT_H

#include <mistfold/job.h>
#include <mistfold/limit.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The questions. A requirement may bear on several. */
typedef enum mf_gate {
    MF_GATE_RULE,       /* is this house and this work under the rule? */
    MF_GATE_DEMO,       /* may demo start? */
    MF_GATE_SIGNS,      /* may the signs come down? */
    MF_GATE_HANDOVER,   /* has everybody got what is due to them, in time? */
    MF_GATE_INSPECTION, /* would this file stand up? */
    MF_GATE_COUNT
} mf_gate;

/* "rule", "demo", "signs", "handover", "inspection". */
MF_API const char *mf_gate_name(mf_gate gate);
/* MF_GATE_COUNT when there is none of that name. */
MF_API mf_gate mf_gate_named(const char *name);

typedef enum mf_verdict {
    MF_MET,     /* shown */
    MF_LACKING, /* not shown: the answer is no */
    MF_WARNING, /* does not block, should be known */
    MF_NOT_DUE, /* does not apply, or not yet */
    MF_PENDING, /* owed, not given yet, and its last day (d2) has not passed: the answer is not
                   yet. MF_DAY_NONE in d2 = that day is not known yet */
    /* Nothing is missing, but at the time asked the answer to its question is no: before the
     * planned start, or when the work is over. An audit of all questions goes on beside it. */
    MF_NOT_NOW,
    MF_VERDICT_COUNT
} mf_verdict;

/* "met", "lacking", "warning", "not-due", "pending", "not-now". */
MF_API const char *mf_verdict_name(mf_verdict verdict);
/* Whether something is to be done or waited for: lacking, pending, not now. */
MF_API bool mf_verdict_asks(mf_verdict verdict);

typedef struct mf_requirement {
    const char *id;       /* "pamphlet-owner" */
    const char *citation; /* "40 CFR 745.84(a)(1)" */
    unsigned gates;       /* bits 1u << mf_gate */
    mf_status_of_fact status;
} mf_requirement;

enum { MF_ALSO = 6 }; /* a paper can lack so much beside the first */

typedef struct mf_finding {
    const mf_requirement *requirement;
    mf_verdict verdict;
    const char *why;           /* reason name: words under "why.<name>" */
    const char *also[MF_ALSO]; /* names of the further reasons, n_also of them */
    size_t n_also;
    const char *subject;  /* id of the work area, person, component ...; "" = the job */
    const char *evidence; /* entry id, "" when nothing was found */
    const char *told;     /* words somebody wrote, or the id of a second thing; "" = none */
    const char *other;    /* entry id of a second entry of the same thing, "" = none */
    const char *field;    /* option of the first field in which the two differ, "" = none */
    const char *in_unit;  /* unit of a multi-unit building that it is about; "" = of none */
    mf_day d1, d2;
    int64_t n1, n2;        /* MF_NUM_NONE when not used */
    mf_unit unit;          /* of n1 and n2 */
    const mf_limit *limit; /* the limit that decided, or NULL */
    /* The federal row where a stricter local one decided, or the row on the other
     * side of a date that the job straddles; NULL = none. */
    const mf_limit *beside;
    const mf_correction *fix; /* the correction that it tells of, or NULL */
    const void *was;          /* what its entry said before, as an item of its kind; NULL = it tells
                                 of a withdrawal, or of none */
} mf_finding;

/* One that says nothing yet: not due, no texts, days or numbers. */
MF_API mf_finding mf_finding_blank(void);

typedef struct mf_audit_ask {
    const mf_job *job;
    mf_day today;     /* all of the job counts, also what is dated later: mf_book_job_until */
    unsigned gates;   /* bits; 0 = all */
    const char *area; /* only this work area; "" or NULL = all */
} mf_audit_ask;

enum { MF_AUDIT_STACK = 400 * 1024 };

/* Writes at most cap findings, in the order of the requirements, and returns how
 * many there are. Allocates nothing, and uses up to MF_AUDIT_STACK bytes of stack. Rows that do not
 * apply give one NOT_DUE finding each. When the rule does not cover the job, only the rows that
 * hold all the same (the records of why it is not covered, and where all paint was shown free their
 * handover) can be lacking or pending. */
MF_API size_t mf_audit(const mf_audit_ask *ask, mf_finding *out, size_t cap);
/* The same as a list, which the caller frees with free(). False: there was no memory, and *out
 * is NULL. */
MF_API bool mf_findings(const mf_audit_ask *ask, mf_finding **out, size_t *n);

typedef enum mf_answer {
    MF_ANSWER_NO,      /* something is lacking */
    MF_ANSWER_NOT_NOW, /* nothing is lacking, and yet no, for the time alone */
    MF_ANSWER_NOT_YET, /* nothing is lacking, something is pending */
    MF_ANSWER_YES
} mf_answer;

/* Whether the answer to the question is yes, by which a checklist says that work goes on: nothing
 * is lacking, pending or too early or late. Allocates nothing. *lacking (may be NULL) is how many
 * findings lack. */
MF_API bool mf_gate_open(const mf_audit_ask *ask, size_t *lacking);

/* "no", "no", "not-yet", "yes". */
MF_API const char *mf_answer_name(mf_answer answer);
/* What the findings of a question come to; gates as they were asked for, 0 = an audit of all,
 * which asks no question that can be out of time. */
MF_API mf_answer mf_audit_answer(const mf_finding *findings, size_t count, unsigned gates);
/* The earliest last day among what is pending; MF_DAY_NONE = none is, or none is known yet. */
MF_API mf_day mf_audit_due(const mf_finding *findings, size_t count);

/* ---- the renovator's certification, 40 CFR 745.86(b)(6) ------------------------------------- */

/* Whether a certification is one of the work that the job holds: fills what a finding says of it,
 * MF_MET, or MF_LACKING with the reason; requirement and the rest of *out stay. */
MF_API void mf_certification_judge(const mf_job *job, const mf_certification *it, mf_finding *out);
MF_API bool mf_certification_stands(const mf_job *job, const mf_certification *it);
/* Whether one of the job stands. */
MF_API bool mf_job_certified(const mf_job *job);
/* How many entries of what it certifies were logged after it; writes the sources of the first cap
 * of them. */
MF_API size_t mf_certification_after(const mf_job *job, const mf_certification *it,
                                     const mf_src **out, size_t cap);
/* Whether the tick is of a task of 745.85(a) that was done, and the person, a renovator assigned
 * by its day, is named as the one who did it or directed it. */
MF_API bool mf_task_directed_by(const mf_job *job, const mf_tick *tick, const char *person);
/* Whether that is so of any tick. */
MF_API bool mf_directed_any(const mf_job *job, const char *person);

/* All requirements; *count is set. */
MF_API const mf_requirement *const *mf_requirements(size_t *count);

/* Dates the office must keep. */
typedef struct mf_due {
    mf_day handover;   /* earlier of final invoice and completion + 30 days; MF_DAY_NONE = neither
                          invoiced nor completed */
    mf_day keep_until; /* records kept through this day; MF_DAY_NONE = not completed */
} mf_due;
MF_API void mf_due_dates(const mf_job *job, mf_due *out);

#ifdef __cplusplus
}
#endif
#endif
