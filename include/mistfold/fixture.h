/* mistfold/fixture.h - where things stand in a work area, for the plan to scale. */
#ifndef MISTFOLD_FIXTURE_H
#define MISTFOLD_FIXTURE_H

#include <mistfold/fact.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_fixture_what {
    MF_FIXTURE_OPENING, /* a window or door of the opening schedule */
    MF_FIXTURE_FLAP,    /* the way in, with a flap */
    MF_FIXTURE_DUCT,    /* an opening of the air ducts */
    MF_FIXTURE_SIGN,
    MF_FIXTURE_BARRIER /* vertical containment */
} mf_fixture_what;

typedef enum mf_wall { MF_WALL_NORTH, MF_WALL_EAST, MF_WALL_SOUTH, MF_WALL_WEST } mf_wall;

/* Where something is in a work area, for the plan. Outside everything is measured
 * along the run of wall, facing the house, and wall is not looked at. */
typedef struct mf_fixture {
    mf_src src;
    const char *area;
    mf_fixture_what what;
    const char *opening; /* id, when it is one */
    mf_wall wall;
    int64_t at_ft_100;        /* from the wall's west or north end; outside from its left end */
    int64_t from_wall_ft_100; /* MF_NUM_NONE = at the wall */
    int64_t length_ft_100;    /* along the wall; MF_NUM_NONE = as wide as usual */
} mf_fixture;

#ifdef __cplusplus
}
#endif
#endif
