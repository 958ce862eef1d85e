/* man.h - what the build and the shell ask of the program: manual pages and the
 * candidates of completion. */
#ifndef MF_CLI_MAN_H
#define MF_CLI_MAN_H

#include "cli/cli.h"

/* Prints a manual page by its name ("mistfold-job-open"), or, for "names", the
 * names of all pages. MF_USAGE when there is none. */
mf_status mf_man(const char *page);

/* Prints what may stand in place of the last of the words after the program's
 * name, a line each; told: each with what it is after a tab. */
mf_status mf_complete(mf_cli *cli, bool told, int argc, char **argv);

#endif
