/* mistfold/clean.h - cleaning verification as a small state machine.
 *
 * Source: 40 CFR 745.85(b)(1)(i)-(iii), (b)(2). Per windowsill, and per section
 * of an uncarpeted floor or countertop:
 *
 *   unwiped -wet-> clean | recleaning -recleaned-> second wet -wet-> clean
 *       | waiting -(60 minutes and dry, whichever is later), dry wipe-> clean
 *
 * There is no third wet wipe, and the dry wipe is not compared. A surface that
 * passed stays passed. A visual inspection that finds dust sends the area back
 * to the start. The second wet wipe needs a new cloth on a floor or countertop;
 * a fresh fold of the same cloth will do on a sill. The dry cloth is a new one.
 */
#ifndef MISTFOLD_CLEAN_H
#define MISTFOLD_CLEAN_H

#include <mistfold/job.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef enum mf_ver_state {
    MF_VS_UNWIPED,
    MF_VS_RECLEAN, /* first wet cloth was darker: clean it again */
    MF_VS_SECOND,  /* cleaned again: second wet cloth is due */
    MF_VS_WAITING, /* second wet cloth was darker: wait, then one dry cloth */
    MF_VS_CLEAN
} mf_ver_state;
/* "unwiped", "reclean", "second", "waiting", "clean". */
MF_API const char *mf_ver_state_name(mf_ver_state state);

typedef enum mf_ver_refusal {
    MF_VR_NONE,
    MF_VR_NOT_LOOKED, /* no clean visual inspection yet */
    MF_VR_ALREADY_CLEAN,
    MF_VR_RECLEAN_FIRST,   /* wet cloth again without cleaning again */
    MF_VR_NOT_DARKER,      /* re-cleaning or waiting without a darker cloth */
    MF_VR_NO_THIRD_WET,    /* a third wet cloth */
    MF_VR_DRY_TOO_SOON,    /* dry cloth before 60 minutes */
    MF_VR_NOT_DRY,         /* dry cloth before the surface was seen dry */
    MF_VR_DRY_UNWIPED,     /* dry cloth without two wet ones */
    MF_VR_NEEDS_NEW_CLOTH, /* fresh fold on a floor or countertop */
    MF_VR_CLOTH_UNSAID,    /* a wipe without saying which cloth */
    MF_VR_OUT_OF_ORDER,    /* earlier than the event before it */
    MF_VR_NO_TIME,         /* no time of day where the wait depends on it */
    MF_VR_NO_SECTION,      /* no such section */
    MF_VR_EXTERIOR,        /* wipes belong to interior areas only */
    MF_VR_CLOCKS_APART /* the wait holds by the clocks of two devices, not by when they logged */
} mf_ver_refusal;

/* How many sections a surface must have by the federal limits: 1 up to 40 sq ft, else
 * floor(size / 40) + 1, so that each is less than 40. Judged by the strictest limits of the
 * job's places; job NULL = by the federal ones alone. */
MF_API int64_t mf_sections_for(const mf_job *job, int64_t size_sqft_100);
/* Of a surface of the job: a sill is one, whatever its size. */
MF_API int64_t mf_sections_of(const mf_job *job, const mf_surface *surface);

/* Where one sill or section stands. */
typedef struct mf_ver_section {
    mf_ver_state state;
    int wet, dry;           /* cloths used, also where they show nothing: 745.86(b)(6)(viii) */
    int64_t wait_from;      /* minutes since 1970 of the second darker wet wipe, or of later water
                               on the same floor or countertop */
    const mf_src *wait_by;  /* its entry, or NULL */
    int64_t dry_seen;       /* minutes since 1970, or MF_NUM_NONE */
    int64_t last;           /* minutes since 1970 of the last event */
    int64_t since;          /* when the wiping that counts began, or MF_NUM_NONE */
    bool looked;            /* a clean visual inspection stands before it */
    bool looked_anew;       /* and one was made since it passed: it may be wiped anew */
    mf_ver_refusal refused; /* first event since then that could not have been */
    const char *refused_entry; /* that entry, or "" */
    const char *evidence;      /* last entry that counted, or "" */
} mf_ver_section;

/* Replays all events of the job that touch section of surface, in order of
 * time. Impossible events change nothing and are remembered in refused, until the section
 * passes after them. */
MF_API void mf_verification_replay(const mf_job *job, const mf_area *area,
                                   const mf_surface *surface, int64_t section, mf_ver_section *out);

/* Whether the event may follow what is in the job. For a visual inspection,
 * event->surface is "". */
MF_API mf_ver_refusal mf_verification_may(const mf_job *job, const mf_verification *event);

/* The whole area. */
typedef struct mf_ver_area {
    bool looked_clean; /* the last visual inspection found it clean, and no work came after */
    bool worked_since; /* paint was disturbed after that inspection, or may have been */
    mf_day looked_on;  /* day of that inspection; MF_DAY_NONE */
    /* Of the job: that inspection, and the work that came after it, or may have; or NULL. */
    const mf_verification *looked;
    const mf_practice *work;
    size_t n_sections, n_clean;
    int wet, dry; /* cloths used in all */
    /* Interior: looked clean, and all sections clean, of which there may be none where nothing is
     * to be wiped (carpet, and no windows); exterior: looked clean. */
    bool verified;
    mf_day verified_on; /* day of the last event that counted; MF_DAY_NONE */
    const char *evidence;
} mf_ver_area;
MF_API void mf_verification_area(const mf_job *job, const mf_area *area, mf_ver_area *out);

/* Whether what was done by the wrong hands was done once more since: the section was looked at and
 * wiped anew by a certified renovator, or outside looked at anew; or, where it is a clean look,
 * whether the verification shows the same without it. index is of job->verification. */
MF_API bool mf_verification_made_good(const mf_job *job, const mf_area *area, size_t index);

#ifdef __cplusplus
}
#endif
#endif
