/* pick.h - which jobs a command for the whole firm goes through: by their state, and by the days
 * of their work. */
#ifndef MF_CLI_PICK_H
#define MF_CLI_PICK_H

#include "cli/cli.h"

#include <mistfold/stage.h>

typedef struct mf_pick {
    mf_stage stage;      /* MF_STAGE_COUNT = any */
    mf_day since, until; /* days between which the work went on; MF_DAY_NONE = any */
    bool mark;           /* each is checked as a gate does, and marked (integrity) where it was
                            altered; where a state is asked for it is in any case */
    size_t n;            /* how many were picked so far */
    size_t left_out;     /* entries dated after the day that was asked about, of any job */
} mf_pick;
#define MF_PICK_ALL ((mf_pick){MF_STAGE_COUNT, MF_DAY_NONE, MF_DAY_NONE, false, 0, 0})

/* From --state, --since and --until. MF_INPUT when one cannot be, or the days are turned round. */
mf_status mf_pick_read(mf_pick *out, const mf_args *args, mf_err *err);
/* Whether one of these was given. */
bool mf_pick_asked(const mf_args *args);
/* By the name of a state, the words that are shown for it, or the first of these, in any language.
 */
mf_status mf_pick_state(const char *text, mf_stage *out, mf_err *err);
/* The words of a state; they begin with what --state takes. */
const char *mf_stage_words(mf_lang lang, mf_stage stage);

/* MF_SYSTEM when the id of a job can name no file in the folder: a book from elsewhere may say
 * anything, and what is written must not leave the folder. */
mf_status mf_pick_names_file(const char *id, const char *folder, mf_err *err);
/* The first day of the work and the last, by what is planned and by what was logged of it. */
void mf_work_days(const mf_job *job, mf_day *from, mf_day *to);

/* Calls fn for each job that is picked, as it stood on cli->today, in the order of ids; the job is
 * fn's for the time of the call. One that cannot be read is told, and the others follow. */
typedef mf_status mf_pick_fn(mf_job *job, void *data, mf_err *err);
mf_status mf_pick_each(mf_cli *cli, mf_pick *pick, mf_pick_fn *fn, void *data, mf_err *err);

#endif
