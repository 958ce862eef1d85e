/* ask.h - asking for the fields of a kind one at a time at a terminal. */
#ifndef MF_CLI_ASK_H
#define MF_CLI_ASK_H

#include "cli/term.h"

enum { MF_ASK_MAX = 24, MF_ASK_TEXT = 300 };

/* What was answered, as options of the command that logs the kind. All zero before the
 * first question. */
typedef struct mf_asked {
    mf_args args;
    char text[MF_ASK_MAX][MF_ASK_TEXT];
    bool followed[MF_ASK_MAX]; /* text followed from another answer: nobody gave it */
    int from;                  /* the question to begin at; those before it have their answers */
    char wrong[700];           /* shown above it */
    bool broken_off; /* by q or Ctrl-C, not by going back: args has what was answered till then */
} mf_asked;

/* A field to ask for. otherwise is what Enter alone stands for ("" or NULL = nothing);
 * "=role owner:o occupant:t" goes by the answer to the option role. rule says when it is asked,
 * NULL = always; parts of it with ';' between them, the first that decides holds:
 *   ?side exterior,x    only where the answer to side is one of these
 *   |elder,zero         only where one of these was answered yes
 *   <                   only where the year built is not said or under the rule's limit
 *   >                   only where the start is today or was before
 *   !text               never: its answer is that text to its end, "" = not said
 *   !?rare no:yes yes:? by the answer to rare: that text, or ? = asked; none of them = not said
 *   =                   never: what stands there was given before
 * words is the id of the question's text, NULL = ask.<kind>.<option>. */
typedef struct mf_ask {
    const char *option, *otherwise, *rule, *words;
} mf_ask;

/* Options that are no fields but lead to some: they are answered, and not in args. */
#define MF_ASK_RARE  "rare"  /* yes or no: does any of what frees or burdens hold? */
#define MF_ASK_ALIKE "alike" /* how many are alike, in all */
#define MF_ASK_PAPER "paper" /* yes or no: does the paper say it all? */
#define MF_ASK_OTHER "other" /* yes or no: is it another job at an address where one is open? */

/* Of the kinds of work two that go together, in one key. */
#define MF_ASK_BOTH "window-replacement,door-replacement"

/* Asks for the fields in the list (ended by a NULL option). Choices and yes or no
 * take a single key, Escape goes back one question. What is typed is checked as
 * it is when it is logged; feet by feet make square feet. False = left; nothing was logged
 * either way. */
bool mf_ask_fields(mf_cli *cli, mf_term *term, const mf_kind *kind, const char *title,
                   const mf_ask *asks, mf_asked *asked);

/* Whether a key says yes: y, and s for "sí" in Spanish; in English it is the key that skips. */
bool mf_ask_yes(int key, mf_lang lang);

/* What a word of a list is called on the screen; NULL = it has no words of its own there. */
const char *mf_ask_choice(mf_lang lang, const char *word);

/* The answer to an option, "" = none. */
const char *mf_ask_answer(const mf_ask *asks, const mf_asked *asked, const char *option);
/* Whether all that the kind needs is among the args. */
bool mf_ask_enough(const mf_kind *kind, const mf_args *args);

/* Whether to ask again, since the book refused what was answered (status): the answers stay,
 * the next call begins at the one that err is about and says why, and err is cleared.
 * False when it was taken or when the book itself failed. */
bool mf_ask_again(const mf_cli *cli, const mf_ask *asks, mf_asked *asked, mf_status status,
                  mf_err *err);

#endif
