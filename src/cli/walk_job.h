/* walk_job.h - what the files of "job walk" share: the rounds of questions that can be asked,
 * what is offered next by what is known, and taking back. */
#ifndef MF_CLI_WALK_JOB_H
#define MF_CLI_WALK_JOB_H

#include "cli/ask.h"
#include "cli/walk.h"

/* One entry, asked for field by field. */
typedef struct mf_round {
    const char *kind, *title_id;
    const mf_ask *asks;
} mf_round;

enum { MF_ROUNDS = 7 };
/* By their keys in the menu, from 0. */
const mf_round *mf_round_at(int i);
const mf_round *mf_round_named(const char *kind);
size_t mf_round_count(const mf_job *job, int i);

/* What is known of an entry before it is asked for, or (asked = true) offered by Enter. */
typedef struct mf_preset {
    const char *option, *answer;
    bool asked;
} mf_preset;

/* Asks one round and logs it; broken off with all that is needed answered it is logged as well,
 * with less it is kept as a command. title NULL = that of the round. MF_NO = left. */
mf_status mf_round_run(mf_walk *walk, const mf_round *round, const char *title,
                       const mf_preset *presets, size_t n, mf_err *err);
/* Asks for the house until the book takes it. given: what was said on the command line.
 * MF_NO = left. */
mf_status mf_round_house(mf_walk *walk, const mf_args *given, mf_err *err);

/* Keeps what was answered so far as a command that goes on with it, told when the walk ends. */
void mf_walk_unfinish(char to[MF_WALK_COMMAND], const char *command, const mf_kind *kind,
                      const mf_args *args);

/* What follows from what is known, in words ("" = nothing more), and doing it: MF_NO = left.
 * *done is false when nothing follows. */
void mf_offer_words(mf_walk *walk, char out[MF_WALK_LINE]);
mf_status mf_offer_run(mf_walk *walk, bool *done, mf_err *err);
/* The first party that no notice is of; NULL = each has one. */
const mf_party *mf_offer_untold(const mf_job *job);

/* The usual parts of the openings that are alike and have none, kind, room and side of the
 * first; they are shown and each can be taken out. MF_NO = left. */
mf_status mf_walk_parts(mf_walk *walk, const mf_opening *first, mf_err *err);

/* Lists what was logged of the job, last first, and takes back the one that is chosen, with a
 * reason; last = only the last one, without the list. kind = only of that kind, NULL = what a
 * job is opened with. */
mf_status mf_walk_back(mf_walk *walk, bool last, const char *kind, mf_err *err);

#endif
