/* mistfold/schedule.h - the opening schedule: what each opening holds and needs;
 * and testing combinations with the rule for walls.
 */
#ifndef MISTFOLD_SCHEDULE_H
#define MISTFOLD_SCHEDULE_H

#include <mistfold/paint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* How a unit is taken out. Which components it disturbs is common practice, no
 * source: within the old frame sash, stops, trough, slab and threshold; full frame
 * everything at the opening, with the wall and the baseboard beside it. */
typedef enum mf_removal {
    MF_REMOVAL_AS_LOGGED, /* by what each component says: affected, unknown = yes */
    MF_REMOVAL_WITHIN_FRAME,
    MF_REMOVAL_FULL_FRAME
} mf_removal;

typedef enum mf_need {
    MF_NEED_NOTHING,    /* nothing painted is disturbed on this side */
    MF_NEED_NONE,       /* all that is disturbed was shown free */
    MF_NEED_CONTAINMENT /* lead, or presumed lead, is disturbed; or no part is listed */
} mf_need;

typedef struct mf_opening_need {
    mf_need need;
    int disturbed;            /* painted components that are disturbed on this side */
    mf_paint_finding decided; /* the worst of them; component NULL when there is none */
} mf_opening_need;

MF_API void mf_opening_needs(const mf_job *job, const char *opening, mf_side side,
                             mf_removal removal, mf_opening_need *out);

/* The same from findings that the caller has: judged[i] is that of component i.
 * NULL = they are made here. */
MF_API void mf_opening_needs_judged(const mf_job *job, const mf_paint_finding *judged,
                                    const char *opening, mf_side side, mf_removal removal,
                                    mf_opening_need *out);

/* One cell: the worst finding among the components of a type on a side of an
 * opening; or, opening "", of a room or elevation. */
typedef struct mf_schedule_cell {
    int components;
    mf_paint_finding worst;    /* component NULL when there is none */
    const mf_reading *highest; /* reading of the worst class, then the highest; or NULL */
    bool disturbed;            /* any of them */
} mf_schedule_cell;

MF_API void mf_schedule_cell_of(const mf_job *job, const char *opening, const char *room,
                                mf_component_type type, mf_side side, mf_removal removal,
                                mf_schedule_cell *out);

/* Room equivalent of a component, its elevation outside: its own or its opening's. */
MF_API const char *mf_place_of(const mf_job *job, const mf_component *component);

/* Testing combination: room equivalent, component type, substrate (and side).
 * Color is noted with the readings and decides nothing. HUD Guidelines ch. 7 s. III. */
typedef struct mf_combination {
    const mf_component *first;
    const char *room;
    int components, tested; /* tested: with a paint reading of its own */
    int readings, positive, negative, inconclusive, saturated;
    /* The rule for walls (ch. 7 s. IV.B, from memory): of four or more tested walls
     * that agree, the mean, rounded to the decimals shown, classifies each untested
     * one; each tested wall keeps its own class. A saturated reading has no mean. */
    bool walls;          /* the rule speaks here: walls, at least four tested */
    bool agree;          /* all tested walls are of one class; else test each */
    int64_t mean_ug_cm2; /* rounded; MF_NUM_NONE = none */
    mf_paint_class untested;
} mf_combination;

/* Fills at most cap and returns how many there are. */
MF_API size_t mf_combinations(const mf_job *job, mf_combination *out, size_t cap);

#ifdef __cplusplus
}
#endif
#endif
