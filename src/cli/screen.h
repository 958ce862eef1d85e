/* screen.h - an answer at a terminal: as wide as that is, and its YES or NO in sight. Nothing of
 * it happens where output goes to a file or a program. */
#ifndef MF_CLI_SCREEN_H
#define MF_CLI_SCREEN_H

#include "cli/cli.h"

/* Looks at standard output; before anything is printed. */
void mf_screen_start(void);
/* Breaks text where that terminal ends as it is now; how many lines it has, 0 = not known. */
int mf_screen_fit(void);
/* Whether the terminal takes sequences that begin with Escape. */
bool mf_screen_escapes(void);
/* The same, and nobody said by NO_COLOR that bold and colors are not wanted. */
bool mf_screen_shades(void);

/* Holds back what a command prints, until the end; not of one that asks, goes on for long or
 * whose output is data. Every line is then broken at a blank where the terminal ends, but those
 * of a command to be copied; an answer that would be off the screen by then is said again. cmd
 * NULL = help. */
void mf_screen_hold(const mf_cli *cli, const mf_cmd *cmd);
/* Harmless when nothing is held. */
void mf_screen_show(void);

/* Text in bold and a color for an answer, "YES" or a mark of a finding, where the terminal can
 * and NO_COLOR is not set: the words stand without it too. */
typedef enum mf_shade { MF_SHADE_YES, MF_SHADE_NO, MF_SHADE_WAIT } mf_shade;
void mf_screen_shade(const char *text, mf_shade shade);
mf_shade mf_screen_shade_of(mf_answer answer);

/* "May demo start?  NO", a line of its own, remembered for when it is off the screen. */
void mf_screen_answer(const char *question, const char *word, mf_shade shade);

#endif
