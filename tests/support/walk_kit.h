/* walk_kit.h - the walks at a pseudo-terminal of 80x24, as a person with single keys; what
 * they did is read back from the book with sqlite3. */
#ifndef TESTS_SUPPORT_WALK_KIT_H
#define TESTS_SUPPORT_WALK_KIT_H

#include "support/run.h"

extern char walk_folder[64]; /* where b.book is */
extern run_result r;         /* what the last command said */

/* Group setup and teardown: a job J with a window, an area A1, a sill and a floor of 90
 * square feet; rosa is a certified renovator, teo is not. */
int walk_start(void **state);
int walk_stop(void **state);

/* Types keys (words of drive.py) at "mistfold command"; every screen must fit 80x24. */
void walk(const char *keys, const char *command);
/* The last screen or line said part. */
void says(const char *part);
void says_not(const char *part);
/* What sqlite3 finds in b.book. */
void book_says(const char *sql, const char *expected);

#endif
