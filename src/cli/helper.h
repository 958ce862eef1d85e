/* helper.h - programs of others, run for what this one does not do: turning a page into a
 * picture, opening a file on the screen. None gets more than a paper's bytes or a file's name. */
#ifndef MF_CLI_HELPER_H
#define MF_CLI_HELPER_H

#include <mistfold/err.h>

/* What the program writes when it reads in; argv[0] is looked for in PATH, argv ends in NULL.
 * out is the caller's to free. MF_SYSTEM when it is not there, fails, or writes nothing. need:
 * what to do then, for the error. */
mf_status mf_helper_filter(mf_bytes *out, const char *const *argv, const mf_bytes *in,
                           const char *need, mf_err *err);

/* Has the desktop open a file in the program it takes for it; comes back at once. MF_SYSTEM when
 * there is no xdg-open. */
mf_status mf_helper_open(const char *path, mf_err *err);

#endif
