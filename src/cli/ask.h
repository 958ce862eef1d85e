/* ask.h - asking for the fields of a kind one at a time at a terminal. */
#ifndef MF_CLI_ASK_H
#define MF_CLI_ASK_H

#include "cli/term.h"

enum { MF_ASK_MAX = 20, MF_ASK_TEXT = 300 };

/* What was answered, as options of the command that logs the kind. All zero before the
 * first question. */
typedef struct mf_asked {
    mf_args args;
    char text[MF_ASK_MAX][MF_ASK_TEXT];
    int from;        /* the question to begin at; those before it have their answers */
    char wrong[700]; /* shown above it */
} mf_asked;

/* A field to ask for, and what Enter alone stands for ("" or NULL = nothing).
 * "=role owner:o occupant:t" goes by the answer to the option role; "?side exterior"
 * asks only where the answer to side was exterior ("?a b,c": b or c). */
typedef struct mf_ask {
    const char *option, *otherwise;
} mf_ask;

/* Asks for the fields in the list (ended by a NULL option). Choices and yes or no
 * take a single key, Escape goes back one question. What is typed is checked as
 * it is when it is logged. False = left; nothing was logged either way. */
bool mf_ask_fields(mf_cli *cli, mf_term *term, const mf_kind *kind, const char *title,
                   const mf_ask *asks, mf_asked *asked);

/* Whether to ask again, since the book refused what was answered (status): the answers stay,
 * the next call begins at the one that err is about and says why, and err is cleared.
 * False when it was taken or when the book itself failed. */
bool mf_ask_again(const mf_cli *cli, const mf_ask *asks, mf_asked *asked, mf_status status,
                  mf_err *err);

#endif
