/* settings.h - what may be set once instead of typed each time: by a small file
 * under the XDG folder, by the environment, by an option; the later wins. */
#ifndef MF_CLI_SETTINGS_H
#define MF_CLI_SETTINGS_H

#include "cli/cli.h"

/* Fills cli from defaults, the settings file and the environment; the options
 * come later and say so with mf_settings_option. A wrong line of the file is
 * reported (MF_INPUT) after all else was read. Text lives in cli->ids. */
mf_status mf_settings_read(mf_cli *cli, mf_err *err);

/* The row of a setting, for manuals: static. */
typedef struct mf_setting {
    const char *name, *env, *otherwise, *doc;
} mf_setting;
const mf_setting *mf_setting_row(mf_setting_id id);

/* By the name it has in the file; -1 = there is none. */
int mf_setting_named(const char *name);
#define MF_SETTINGS_NAMES                                                                          \
    "they are book, by, lang, quiet, page, place, steps, tsa, tsa-roots, tsa-wait"
/* Whether its value is the path of a file. */
bool mf_setting_is_file(int id);
/* MF_INPUT when it cannot be the value of that setting; where is where it was read. */
mf_status mf_setting_check(int id, const char *value, const char *where, mf_err *err);
/* The settings file, whether it is there or not. */
enum { MF_SETTINGS_PATH = 512 };
void mf_settings_path(char out[MF_SETTINGS_PATH]);

/* Notes that an option of that name was given. */
void mf_settings_option(mf_cli *cli, const char *name);

#endif
