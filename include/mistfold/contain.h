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
                            MF_WHEN_STOREYS,    /* more than one story, or it is not said */
                            MF_WHEN_ASSISTED, /* federally assisted housing under 24 CFR part 35 */
                            MF_WHEN_CHOSEN    /* never asked for; may be ticked when done */
} mf_step_when;

enum { MF_ON_INTERIOR = 1, MF_ON_EXTERIOR = 2 };

/* A ground on which a step may be left out, and the paragraph that leaves it out. */
typedef struct mf_step_ground {
    mf_ground ground;
    const char *citation; /* NULL = no ground */
    mf_status_of_fact status;
} mf_step_ground;

enum { MF_STEP_GROUNDS = 2 };

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
    /* All grounds there are for leaving it out, the first ones of the array; none = it must
     * be done. Somebody's own words are a ground only where they are listed. */
    mf_step_ground ground[MF_STEP_GROUNDS];
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
    MF_STEP_NOT_NEEDED,   /* on one of its grounds, which nothing in the book contradicts */
    MF_STEP_SHORT,        /* ticked, but the measured extent falls short */
    MF_STEP_UNMEASURED,   /* ticked without the extent it needs */
    MF_STEP_NO_RENOVATOR, /* ticked, but no certified renovator was present on the day */
    MF_STEP_NO_REASON,    /* marked not needed without the words that its ground needs */
    MF_STEP_OWN_WORDS,    /* marked not needed by somebody's own words: nobody can check them */
    MF_STEP_NO_GROUND,    /* marked not needed, which it never is, or not on that ground */
    MF_STEP_CONTRADICTED  /* marked not needed, and the book says otherwise */
} mf_step_state;
/* "open", "done", "not-needed" ... */
MF_API const char *mf_step_state_name(mf_step_state state);
/* Whether nothing more is to be done for the step: done, or left out as it may be. */
MF_API bool mf_step_settled(mf_step_state state);

/* Whether the step is done anew on each day of work: 745.85(a)(2) keeps the barriers whole while
 * work goes on, (a)(4)(ii) asks for the end of each work day. */
MF_API bool mf_step_every_day(const mf_step *step);

/* "own-words", "none-present" ... */
MF_API const char *mf_ground_name(mf_ground ground);
/* Whether the reason must be written down as well. */
MF_API bool mf_ground_wants_words(mf_ground ground);
/* Whether there is any ground on which the step may be left out. */
MF_API bool mf_step_may_skip(const mf_step *step);
/* Whether somebody's own words may do in place of a ground: not for sheeting, which is excused
 * only where it is impossible, and whoever leaves it out must say that. */
MF_API bool mf_step_takes_words(const mf_step *step);
/* The grounds that may be given for leaving it out, own words last where they are no ground of the
 * step's own; how many. */
MF_API size_t mf_step_grounds(const mf_step *step, mf_ground out[MF_STEP_GROUNDS + 1]);
/* The row of that ground in the list of the step; NULL when it is not in it. */
MF_API const mf_step_ground *mf_step_ground_of(const mf_step *step, mf_ground ground);

/* What in the book says that a ground does not hold. */
typedef struct mf_against {
    const char *why;   /* reason name: words under "why.<name>" */
    const char *what;  /* id of what is there all the same; "" = the work area itself says so */
    const char *entry; /* the entry that says it */
    int64_t n;         /* a number it says, or MF_NUM_NONE */
} mf_against;

/* Whether anything that is logged of the job contradicts leaving out the step in the area
 * on that ground, no matter which was logged first; *out (may be NULL) is the first such
 * thing. Own words are contradicted where every ground of the step is. */
MF_API bool mf_step_contradicted(const mf_job *job, const mf_area *area, const mf_step *step,
                                 mf_ground ground, mf_against *out);

/* The state by the last tick of the step in the area. *tick (may be NULL) is
 * that tick, or NULL. */
MF_API mf_step_state mf_step_judge(const mf_job *job, const mf_area *area, const mf_step *step,
                                   const mf_tick **tick);
/* Whether a list of the area shows it: each step that it needs; of an area that was called off
 * (off), where none is open any more, what somebody said of one stays true. */
MF_API bool mf_step_listed(const mf_job *job, const mf_area *area, const mf_step *step, bool off);

/* As a crew finds it today: what is done anew on each day of work (mf_step_every_day) is open
 * again on the next one, as long as work goes on (the demo gate says yes); so is the waste of a day
 * on which debris or sheeting was taken up. */
MF_API mf_step_state mf_step_judge_today(const mf_job *job, const mf_area *area,
                                         const mf_step *step, mf_day today, bool working,
                                         const mf_tick **tick);

/* As it stood at the end of a day; MF_DAY_NONE = by all that is logged. */
MF_API mf_step_state mf_step_judge_by(const mf_job *job, const mf_area *area, const mf_step *step,
                                      mf_day day, const mf_tick **tick);

/* The state that a tick which marks the step not needed would give it. */
MF_API mf_step_state mf_step_judge_skipped(const mf_job *job, const mf_area *area,
                                           const mf_step *step, const mf_tick *tick);

/* Materials for one work area, by arithmetic from its dimensions. */
typedef struct mf_takeoff {
    int64_t sheet_sqft_100; /* floor or ground sheeting as planned (plan.h): once where it
                             * overlaps */
    int64_t tape_ft_100;    /* all edges once */
    int64_t signs;          /* one an entrance, at least one */
    int64_t sections;       /* verification sections: cloths for one pass */
    /* Estimates of ours, from common practice; the rule asks for none of them. */
    int64_t cut_sqft_100; /* sheeting with the overlap where two runs of a roll meet */
    int64_t bags;         /* for the folded sheeting, one for each opening's old parts */
    int64_t wet_cloths;   /* two passes of every sill and section, should the first fail */
    int64_t dry_cloths;   /* one each, should both wet passes fail */
    /* Vertical containment: the run that was placed, or outside what the property line asks
     * for; 0 = none. */
    int64_t barrier_ft_100;
    bool sections_assumed; /* no surface is listed: a sill a window, and the floor */
} mf_takeoff;
MF_API void mf_takeoff_of(const mf_job *job, const mf_area *area, mf_takeoff *out);

/* Whether a method as described is prohibited (745.85(a)(3)), by the strictest limits of
 * the job's places; job NULL = by the federal ones alone. */
MF_API bool mf_practice_refused(const mf_job *job, const mf_practice *practice);

#ifdef __cplusplus
}
#endif
#endif
