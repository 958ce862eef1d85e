/* mistfold/contain.h - the steps a work area needs, as rows.
 *
 * A step is one line of a checklist: before the work (signs and containment),
 * while it goes on, and at the end (waste, cleaning). Sources: 40 CFR
 * 745.85(a)(1)-(5), and for assisted housing 24 CFR 35.1345(b); each row names its paragraph. The
 * wording is in forms/ as "step.<id>" (what to do), "step.<id>.why" (the reason).
 */
#ifndef MISTFOLD_CONTAIN_H
#define MISTFOLD_CONTAIN_H

#include <mistfold/job.h>
#include <mistfold/limit.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_step_when { /* when a work area needs the step */
                            MF_WHEN_ALWAYS,
                            MF_WHEN_OBJECTS,    /* objects stay in the area, or it is not said */
                            MF_WHEN_DUCTS,      /* duct openings, or it is not said */
                            MF_WHEN_DOORS_USED, /* a door is used, or it is not said */
                            MF_WHEN_CARPET,     /* carpet, or it is not said */
                            MF_WHEN_NEAR_LINE,  /* property line within the limit */
                            MF_WHEN_STOREYS,    /* more than one storey, or it is not said */
                            MF_WHEN_ASSISTED, /* federally assisted housing under 24 CFR part 35 */
                            MF_WHEN_CHOSEN    /* never asked for; may be ticked when done */
} mf_step_when;

enum { MF_ON_INTERIOR = 1, MF_ON_EXTERIOR = 2 };

typedef struct mf_step {
    const char *id; /* "floor-sheet" */
    mf_phase phase;
    unsigned sides; /* MF_ON_* */
    mf_step_when when;
    int extent; /* mf_limit_id the measured extent must meet, or -1 */
    int number; /* mf_limit_id of the number that its words give, or -1: where a place is
                 * stricter the words are too lax, and its number must be said beside them */
    const char *citation;
    const char *record; /* paragraph of 745.86(b)(6) it is evidence for, or "" */
    mf_status_of_fact status;
    bool renovator_present; /* 745.90(b)(3): posting, containing, cleaning */
    bool not_needed_ok;     /* may be marked not needed, with a reason */
} mf_step;

/* All steps in the order a crew does them. */
MF_API const mf_step *mf_steps(size_t *count);
MF_API const mf_step *mf_step_named(const char *id);

/* The step of that number on the job's lists: by phase the rule's, then the firm's own
 * ones in force on the day the job starts. False past the last one. job NULL = the rule's
 * alone. *out points into job. */
MF_API bool mf_step_at(const mf_job *job, size_t number, mf_step *out);
/* The firm's own step of that id, in force or not; NULL when there is none. */
MF_API const mf_own_step *mf_own_step_named(const mf_job *job, const char *id);

/* Whether a work area needs the step, by the strictest limits of the job's places; job
 * NULL = by the federal ones alone. Unknown facts count as yes, but for the distance to the
 * property line: it is asked for "when it is near", and none given is far. */
MF_API bool mf_step_wanted(const mf_job *job, const mf_step *step, const mf_area *area);

/* The limit of the job's places where it is not the rule's that the words of the step give;
 * NULL = the words are right, or have no number. */
MF_API const mf_limit *mf_step_stricter(const mf_job *job, const mf_step *step, mf_day day);

typedef enum mf_step_state {
    MF_STEP_OPEN, /* nobody has ticked it */
    MF_STEP_DONE,
    MF_STEP_NOT_NEEDED,   /* with a reason */
    MF_STEP_SHORT,        /* ticked, but the measured extent falls short */
    MF_STEP_UNMEASURED,   /* ticked without the extent it needs */
    MF_STEP_NO_RENOVATOR, /* ticked, but no certified renovator was present on the day */
    MF_STEP_NO_REASON     /* marked not needed without a reason, or cannot be */
} mf_step_state;

/* The state by the last tick of the step in the area. *tick (may be NULL) is
 * that tick, or NULL. */
MF_API mf_step_state mf_step_judge(const mf_job *job, const mf_area *area, const mf_step *step,
                                   const mf_tick **tick);

/* Materials for one work area, by arithmetic from its dimensions. */
typedef struct mf_takeoff {
    int64_t sheet_sqft_100; /* floor or ground sheeting incl. the extent beyond the work */
    int64_t tape_ft_100;    /* all edges once */
    int64_t signs;          /* one an entrance, at least one */
    int64_t sections;       /* verification sections: cloths for one pass */
    /* Estimates of ours, from common practice; the rule asks for none of them. */
    int64_t cut_sqft_100; /* sheeting with the overlap where two runs of a roll meet */
    int64_t bags;         /* for the folded sheeting, one for each opening's old parts */
    int64_t wet_cloths;   /* two passes of every sill and section, should the first fail */
    int64_t dry_cloths;   /* one each, should both wet passes fail */
} mf_takeoff;
MF_API void mf_takeoff_of(const mf_job *job, const mf_area *area, mf_takeoff *out);

/* Whether a method as described is prohibited (745.85(a)(3)), by the strictest limits of
 * the job's places; job NULL = by the federal ones alone. */
MF_API bool mf_practice_refused(const mf_job *job, const mf_practice *practice);

#ifdef __cplusplus
}
#endif
#endif
