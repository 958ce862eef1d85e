/* shell_kit.h - the program in a folder of the test's own: run a command line, look at
 * what it said. For tests of one file each; folder is made by run_folder. */
#ifndef TESTS_SUPPORT_SHELL_KIT_H
#define TESTS_SUPPORT_SHELL_KIT_H

#include "support/cmocka_all.h"
#include "support/run.h"
#include <stdlib.h>
#include <string.h>

static char folder[64];
static run_result r;

static inline int shell_stop(void **state)
{
    (void)state;
    run_remove(folder);
    return 0;
}

/* A folder with the papers of the sample job in out/ and its book (without the key of a device:
 * a copy of it can be written to), which is the book that is
 * asked. */
static inline int shell_demo(void **state)
{
    (void)state;
    run_folder(folder);
    setenv("MISTFOLD_BY", "rosa", 1);
    unsetenv("MISTFOLD_QUIET");
    setenv("XDG_CONFIG_HOME", "/nonexistent", 1);
    run_shell(&r, folder,
              "DEMO_NO_KEY=1 sh " MF_SAMPLE "/demo.sh out > demo.log 2>&1 && tail -3 demo.log");
    setenv("MISTFOLD_BOOK", "out/demo.book", 1);
    return r.status;
}

/* The same with a second job, J-2000, which starts on 2026-11-02; the book is b.book. */
static inline int shell_office(void **state)
{
    if (shell_demo(state) != 0)
        return r.status;
    run_shell(&r, folder,
              "cp out/demo.book b.book && "
              "$MISTFOLD --book b.book job open --id J-2000 --address '3 Calle Número' --building "
              "dwelling --owner-occupied no --year-built 1950 --work repair --description stairs "
              "--start 2026-11-02");
    setenv("MISTFOLD_BOOK", "b.book", 1);
    return r.status;
}

static inline void run(const char *command)
{
    run_shell(&r, folder, command);
}

static inline void says(const char *part)
{
    if (strstr(r.out, part) == NULL)
        fail_msg("\"%s\" is not in:\n%s%s", part, r.out, r.err);
}

/* The exit status, too. */
static inline void answers(int status, const char *part)
{
    if (r.status != status || strstr(r.out, part) == NULL)
        fail_msg("wanted %d and \"%s\", got %d:\n%s%s", status, part, r.status, r.out, r.err);
}

/* In one line on standard error. */
static inline void refuses(int status, const char *part)
{
    const char *line = strchr(r.err, '\n');
    if (r.status != status || strstr(r.err, part) == NULL || line == NULL || line[1] != '\0' ||
        strncmp(r.err, "mistfold: ", 10) != 0)
        fail_msg("wanted %d and one line \"%s\", got %d:\n%s%s", status, part, r.status, r.out,
                 r.err);
}

static inline void says_not(const char *part)
{
    if (strstr(r.out, part) != NULL)
        fail_msg("\"%s\" is in:\n%s", part, r.out);
}

/* On standard error. */
static inline void notes(const char *part)
{
    if (strstr(r.err, part) == NULL)
        fail_msg("\"%s\" is not in:\n%s", part, r.err);
}

#endif
