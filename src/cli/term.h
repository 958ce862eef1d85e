/* term.h - the terminal a person sits at: single keys, one screen at a time, one
 * line of typing. Escape sequences only, no library: a screen is written whole and
 * only when something changed, which a slow link can carry. */
#ifndef MF_CLI_TERM_H
#define MF_CLI_TERM_H

#include "cli/cli.h"

#include <signal.h>
#include <termios.h>

typedef struct mf_term {
    bool open;
    bool plain; /* TERM=dumb: no escape sequences, one screen below the other */
    struct termios before;
    sigset_t signals_before;
    struct sigaction size_before; /* of a change of size */
    char of[48];                  /* the job whose screens these are; "" = none */
} mf_term;

enum {
    MF_KEY_NONE = -1, /* nothing was pressed in time, or the size changed: draw anew */
    MF_KEY_LEAVE = -2 /* q, Ctrl-C, Ctrl-D, a hang-up or a request to end */
};

/* MF_USAGE when input or output is no terminal; instead names the command that
 * does the same without one. */
mf_status mf_term_check(const char *instead, mf_err *err);
/* Takes the terminal, after a check. */
mf_status mf_term_open(mf_term *term, mf_err *err);
/* Gives it back as it was. Harmless when it is not open. */
void mf_term_close(mf_term *term);

/* A key in lower case; MF_KEY_NONE after seconds (< 0 = wait for ever), and when the size changed.
 */
int mf_term_key(mf_term *term, int seconds);
/* A new empty screen; what is printed to stdout then stands on it. */
void mf_term_page(const mf_term *term);
/* A title in bold over lines as wide as it, and its line end. */
void mf_term_title(const char *text);
/* An empty line, where the terminal is high enough to spend one. */
void mf_term_gap(void);
/* Whether it is lower than 24 lines. */
bool mf_term_low(void);
/* A line across it. */
void mf_term_rule(void);
/* The same under a title: the job that the terminal is of stands in it. */
void mf_term_rule_of(const mf_term *term);
/* Text in bold where the terminal can and NO_COLOR is not set. */
void mf_term_bold(const char *text);
/* Keys with what they do, parted by " | ", wrapped at a bar after an indent, so that no
 * key stands away from its words. */
void mf_term_keys(const char *text, int indent);
/* Lets a person type one line of UTF-8 after a prompt. What stands in out is an earlier answer:
 * Enter keeps it, Backspace edits it, and the first letter that is typed takes its place. An
 * empty line is a line. */
typedef enum mf_typed {
    MF_TYPED_BACK, /* Escape */
    MF_TYPED_LEAVE,
    MF_TYPED_LINE,
    MF_TYPED_SIZED,   /* mf_term_line_sized: the size changed, nothing was typed yet */
    MF_TYPED_SIZED_ON /* the same; out holds what was typed so far */
} mf_typed;
mf_typed mf_term_line(mf_term *term, const char *prompt, char *out, size_t size);
/* The same for a screen that is drawn anew when the size changes; on: as below. */
mf_typed mf_term_line_sized(mf_term *term, const char *prompt, char *out, size_t size, bool on);
/* The same, going on behind what stands in out. */
mf_typed mf_term_line_on(mf_term *term, const char *prompt, char *out, size_t size);

#endif
