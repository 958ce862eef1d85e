/* mend.h - the command that mends what is lacking, from one table (mend.inc). */
#ifndef MF_CLI_MEND_H
#define MF_CLI_MEND_H

#include "cli/cli.h"

/* A word of a template in capitals, and what stands for it; "" = nobody knows: "...". */
typedef struct mf_slot {
    const char *word, *value;
} mf_slot;

/* "mistfold " and the template with its words filled in. A value that a shell would not take as
 * one plain word is left as "...". */
void mf_command_of(char out[MF_COMMAND_MAX], const char *template, const mf_slot *slots, size_t n);

/* The command that does what a finding asks for (mf_verdict_asks), or what clears up a warning;
 * out is "" when none can. */
void mf_mend_of(char out[MF_COMMAND_MAX], const mf_job *job, const mf_finding *finding);

/* Whether by its reason there is nothing left to do: what came late stays late. */
bool mf_past_mending(const mf_finding *finding);

#endif
