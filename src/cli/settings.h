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

/* Notes that an option of that name was given. */
void mf_settings_option(mf_cli *cli, const char *name);

#endif
