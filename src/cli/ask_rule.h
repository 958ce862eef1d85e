/* ask_rule.h - the rules of questions (mf_ask, cli/ask.h), held against the answers before them. */
#ifndef MF_CLI_ASK_RULE_H
#define MF_CLI_ASK_RULE_H

#include "cli/ask.h"

/* The questions and what was answered so far. */
typedef struct mf_ask_given {
    const mf_cli *cli;
    const mf_ask *asks;
    const mf_asked *asked;
} mf_ask_given;

/* Whether question at is of no use after what was answered; then its answer is in out. */
bool mf_ask_passed_over(const mf_ask_given *a, int at, char out[MF_ASK_TEXT]);
/* What Enter alone stands for at question at, by an earlier answer where it says so. */
const char *mf_ask_otherwise(const mf_ask_given *a, int at, char out[MF_ASK_TEXT]);

#endif
