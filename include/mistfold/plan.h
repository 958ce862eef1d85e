/* mistfold/plan.h - a work area drawn to scale: where everything lies, in numbers.
 *
 * Whole hundredths of a foot. Inside: the room from above, north up; x runs from
 * the west wall to the east, y from the north wall to the south. Outside: the
 * ground from above with the wall along y = 0; x runs along the wall from its left
 * end, facing the house; y away from the house. Extents come from the limit rows
 * (40 CFR 745.85(a)(2), (a)(5)(ii)); what nobody measured is marked as assumed.
 */
#ifndef MISTFOLD_PLAN_H
#define MISTFOLD_PLAN_H

#include <mistfold/job.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct mf_box {
    int64_t x, y, w, h;
} mf_box;

/* In the order they are drawn. */
typedef enum mf_plan_part {
    MF_PLAN_FLOOR,   /* inside: the floor of the room; outside: the wall's run, h = 0 */
    MF_PLAN_BAND,    /* cleaned around the sheeting */
    MF_PLAN_SHEET,   /* plastic on the floor or the ground */
    MF_PLAN_ZONE,    /* outside: doors and windows closed along this run, h = 0 */
    MF_PLAN_OPENING, /* window or door in the wall */
    MF_PLAN_WORKED,  /* the same, with paint that the work disturbs */
    MF_PLAN_LINE,    /* property line, h = 0 */
    MF_PLAN_BARRIER, /* vertical containment */
    MF_PLAN_FLAP,    /* way in with a flap */
    MF_PLAN_DUCT,
    MF_PLAN_SIGN
} mf_plan_part;

typedef struct mf_plan_item {
    mf_plan_part part;
    mf_wall wall; /* it stands in or by; north outside */
    mf_box box;
    const char *name; /* id of the opening, or "" */
    bool assumed;     /* nobody measured where it is */
} mf_plan_item;

enum { MF_PLAN_MAX = 192, MF_PLAN_SHEETS = 64, MF_PLAN_STOREYS = 16 };

typedef struct mf_plan {
    bool outside;
    int64_t storey;      /* inside: of the openings shown; MF_NUM_NONE = all of them */
    bool barrier_due;    /* outside: the property line is, or may be, so near that one is needed */
    mf_box floor;        /* inside: the room; outside: the run of wall */
    mf_box all;          /* holds every item */
    int64_t wall_ft_100; /* outside: height of the wall worked on; 0 = not said */
    int64_t sheet_sqft_100; /* ground covered: overlapping sheets count once */
    size_t n;
    mf_plan_item item[MF_PLAN_MAX]; /* further ones are left out */
} mf_plan;

/* False when the area has no measures to draw from. What is longer than 1,000,000 ft, as
 * nothing can be logged, is drawn as that long. Allocates nothing. */
MF_API bool mf_plan_of(const mf_job *job, const mf_area *area, mf_plan *out);

/* The stories on which openings of the area are, lowest first, at most MF_PLAN_STOREYS; those
 * that nobody said count with the lowest. Returns how many there are. */
MF_API size_t mf_plan_storeys(const mf_job *job, const mf_area *area, int64_t out[MF_PLAN_STOREYS]);
/* The same of the openings of one story alone; MF_NUM_NONE = of all. */
MF_API bool mf_plan_of_storey(const mf_job *job, const mf_area *area, int64_t storey, mf_plan *out);

/* Takes a part of what boxes cover together. */
typedef void mf_plan_box_fn(void *user, const mf_box *box);
/* What n boxes cover together, in boxes that do not lie on one another; and its outline, in
 * boxes without width or without height. At most MF_PLAN_SHEETS boxes are looked at. */
MF_API void mf_plan_pieces(const mf_box *boxes, size_t n, mf_plan_box_fn *take, void *user);
MF_API void mf_plan_outline(const mf_box *boxes, size_t n, mf_plan_box_fn *take, void *user);

/* The ground that n boxes cover together, hundredths of a square foot, rounded up;
 * at most MF_PLAN_SHEETS boxes are looked at. */
MF_API int64_t mf_plan_covered(const mf_box *boxes, size_t n);

#ifdef __cplusplus
}
#endif
#endif
