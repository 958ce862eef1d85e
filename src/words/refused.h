/* refused.h - what core will not have logged, as an error in words: a step left out on a ground
 * that it does not have, a cloth out of its order. */
#ifndef MF_WORDS_REFUSED_H
#define MF_WORDS_REFUSED_H

#include <mistfold/contain.h>
#include <mistfold/words.h>

/* Whether the tick may be logged: MF_INPUT for a step that is marked not needed where it has no
 * such ground, the job says otherwise, or the words are missing that its ground needs; and for one
 * that is undone without a word why. */
mf_status mf_tick_check(mf_lang lang, const mf_job *job, const mf_area *area, const mf_step *step,
                        const mf_tick *tick, mf_err *err);
/* Whether the event may follow what is in the job (clean.h). */
mf_status mf_verification_check(mf_lang lang, const mf_job *job, const mf_verification *event,
                                mf_err *err);
/* The step of that id on the lists of the job, for a work area on that side of the house;
 * MF_INPUT when there is none. */
mf_status mf_step_on_list(const mf_job *job, const mf_area *area, const char *id, mf_step *out,
                          mf_err *err);

#endif
