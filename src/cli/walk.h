/* walk.h - what the walks share: the people, the head of every screen with the
 * answer of the gate. Each answer of a walk is an entry at once, so a walk
 * can be left at any key and goes on where the book says it stands. */
#ifndef MF_CLI_WALK_H
#define MF_CLI_WALK_H

#include "cli/batch.h"
#include "cli/term.h"

enum { MF_WALK_ID = 48, MF_WALK_LINE = 300, MF_WALK_COMMAND = 900 };

typedef struct mf_walk {
    mf_cli *cli;
    const mf_cmd *cmd;
    mf_term term;
    mf_job *job; /* loaded anew after each entry: keep ids, not pointers into it */
    mf_gate gate;
    char job_id[MF_WALK_ID], area[MF_WALK_ID];
    char person[MF_WALK_ID], renovator[MF_WALK_ID]; /* renovator "" = none is here */
    char said[640];                                 /* what came of the last key */
    char photo[MF_WALK_LINE];                       /* goes with the next answer */
    char unfinished[MF_WALK_COMMAND]; /* a command that goes on with what was not enough */
    char not_opened[MF_WALK_COMMAND]; /* one that opens what was said to be no other job */
    bool gate_open, more;             /* more: an opening was just listed, there may be another */
    int logged;                       /* entries made in this walk */
} mf_walk;

/* Opens terminal, book and job ("" = none yet) for a walk that has its cli, cmd and gate, and
 * asks who is at the keyboard when nobody said so. instead is the command for use without a
 * terminal. MF_NO = left. */
mf_status mf_walk_begin(mf_walk *walk, const char *job_id, const char *instead, mf_err *err);
/* The same from nothing, and asks for the work area where there are several. */
mf_status mf_walk_open(mf_walk *walk, mf_cli *cli, const mf_cmd *cmd, const mf_args *args,
                       mf_gate gate, const char *instead, mf_err *err);
/* Closes all of it; when status is MF_OK says what was logged and what is next. */
mf_status mf_walk_close(mf_walk *walk, mf_status status, mf_err *err);

/* Asks for a person of the book: who is at the keyboard first, then who is assigned, then the
 * rest. False = left. */
bool mf_walk_person(mf_walk *walk, const char *title_id, char id[MF_WALK_ID]);
/* Asks who does the work and which certified renovator is there (or, for
 * verification, who the certified renovator is). False = left. */
bool mf_walk_who(mf_walk *walk, bool renovator_only);

/* Loads the job anew. */
mf_status mf_walk_reload(mf_walk *walk, mf_err *err);
/* Asks the gate for the work area, into gate_open; returns how much is lacking. */
size_t mf_walk_ask(mf_walk *walk);

/* The first three lines of a screen: job, area, person, time; the gate's answer;
 * what is left, which is printed by the caller's text. */
void mf_walk_head(mf_walk *walk, const char *left);
/* The column behind the word before a reason. */
int mf_walk_why_column(const mf_walk *walk);
/* Who does it, as the last line before those. */
void mf_walk_by(const char *text);
/* The last lines: what came of the last key, then the keys of this screen. */
void mf_walk_foot(mf_walk *walk, const char *keys_id);

/* Prints what line i of a menu is of, and ends the line. */
typedef void mf_walk_line(const mf_walk *walk, const char *const *of, int i);
/* A menu, nine lines a page, keys 1 to 9, + for the next page, and 0 for none_id unless
 * that is NULL. Returns the index, -1 for none, MF_KEY_LEAVE. */
int mf_walk_menu(mf_walk *walk, const char *title, mf_walk_line *line, const char *const *of, int n,
                 const char *none_id);

/* The next screen says that the key of just now does nothing there. */
void mf_walk_no_key(mf_walk *walk, int key);

const char *mf_walk_word(const mf_walk *walk, const char *id);
/* Begins the options of an entry of this walk: job, area, day and time of now. */
typedef struct mf_walk_entry {
    mf_args args;
    char day[MF_DAY_TEXT], time[MF_MINUTE_TEXT];
} mf_walk_entry;
void mf_walk_entry_begin(mf_walk *walk, mf_walk_entry *entry);
/* Takes what a mf_log_ call came to: a refusal is shown on the next screen and
 * the walk goes on; a failure of the book ends it. Loads the job anew. */
mf_status mf_walk_logged(mf_walk *walk, mf_status status, const char *what, mf_err *err);
/* Writes the rows of a batch, all or none, tells by those words and the number what was kept, and
 * frees the batch. */
mf_status mf_walk_log_batch(mf_walk *walk, mf_batch *batch, const char *words_id, mf_err *err);

#endif
