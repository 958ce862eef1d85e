/* mistfold: finds the command, runs it, closes up. */
#include "base/fail.h"
#include "cli/cli.h"
#include "cli/json.h"
#include "cli/man.h"
#include "cli/screen.h"
#include "cli/settings.h"
#include <mistfold/segment.h>

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* After an answer; an error is one line, and that of a refusal says it itself. */
static void tell_of_ahead(const mf_cli *cli)
{
    mf_err why = {0};
    if (mf_book_goes_on(cli->book, &why) == MF_INPUT)
        mf_cli_warn("%s: nothing can be logged; %s", why.what, why.mend);
}

static void tell_of_key(const mf_cli *cli)
{
    mf_buf path = {0};
    mf_buf_printf(&path, "%s.%s.key", cli->book_path, mf_book_device(cli->book));
    if (!path.failed)
        mf_cli_warn_mode(path.data);
    mf_buf_free(&path);
}

static void tell_of_book(const mf_cli *cli)
{
    if (cli->book == NULL)
        return;
    tell_of_ahead(cli);
    if (mf_book_is_read_only(cli->book))
        mf_cli_warn("the book is read-only here: it was read, and nothing can be logged");
    mf_cli_warn_mode(cli->book_path);
    tell_of_key(cli);
}

/* What every command understands may stand between its two words as well: those of a group of
 * actions are read here, *argv begins after them. False: it was answered, with *status. */
static bool between_words(mf_cli *cli, int *argc, char ***argv, mf_status *status)
{
    int first = 1;
    bool help = false, version = false;
    char *group = (*argv)[0];
    *status = mf_args_globals(cli, *argc, *argv, &first, &help, &version);
    if (*status == MF_OK && help)
        mf_screen_hold(cli, NULL);
    if (*status == MF_OK && version)
        mf_help_version(cli);
    else if (*status == MF_OK && help && first >= *argc)
        mf_help_group(group);
    if (*status != MF_OK || version || (help && first >= *argc))
        return false;
    *argc -= first - 1;
    *argv += first - 1;
    (*argv)[0] = group;
    return true;
}

static mf_status run(mf_cli *cli, int argc, char **argv)
{
    mf_status early = MF_OK;
    if (argc > 1 && argv[1][0] == '-' && mf_cmd_group(argv[0]) &&
        mf_cmd_named(argv[0], NULL) == NULL && !between_words(cli, &argc, &argv, &early))
        return early;
    const mf_cmd *cmd = mf_cmd_named(argv[0], argc > 1 ? argv[1] : NULL);
    if (cmd == NULL) {
        mf_screen_hold(cli, NULL);
        return mf_help_unknown(cli, argv[0], argc > 1 ? argv[1] : NULL);
    }
    const int words = cmd->action[0] == '\0' ? 1 : 2;
    mf_args args = {0};
    bool help = false, version = false;
    mf_status status = mf_args_read(cli, cmd, argc - words, argv + words, &args, &help, &version);
    mf_screen_hold(cli, help ? NULL : cmd); /* help also of one that prints as it goes */
    if (version)
        mf_help_version(cli);
    else if (help)
        mf_help_command(cmd);
    if (version || help)
        return MF_OK;
    mf_err err = {0};
    if (status == MF_OK && mf_cli_check_settings(cli, &err) != MF_OK)
        return mf_cli_fail(&err);
    if (status == MF_OK && mf_resolve(cli, cmd, &args, &err) != MF_OK)
        return mf_cli_fail(&err);
    if (status == MF_OK)
        status = cmd->run(cli, cmd, &args);
    mf_screen_show();
    if (status == MF_OK && cli->lost)
        status = MF_SYSTEM;       /* the others were told, and why not all */
    mf_book_job_free(cli->spare); /* the command may have written since it was read */
    cli->spare = NULL;
    if (status == MF_OK || status == MF_NO) {
        mf_next_say(cli, cmd, &args);
        tell_of_book(cli);
    }
    return status;
}

/* A full disk shows only when the last bytes are written. */
static mf_status close_stdout(mf_status status)
{
    errno = 0;
    if ((fflush(stdout) == 0 && !ferror(stdout)) || errno == EPIPE)
        return status; /* a reader such as head(1) that has seen enough is no failure */
    struct pollfd reader = {.fd = STDOUT_FILENO}; /* it may have gone in the middle */
    if (poll(&reader, 1, 0) == 1 && (reader.revents & POLLERR) != 0)
        return status;
    mf_err err = {0};
    mf_fail(&err, MF_SYSTEM, "standard output", "could not be written to the end", "",
            "is the disk full?");
    return mf_cli_fail(&err);
}

int main(int argc, char **argv)
{
    mf_cli cli = {0};
    mf_err wrong = {0};
    int first = 1;
    bool help = false, version = false;
    /* Before anything can fail; an abbreviation is met when the options are read. */
    for (int i = 1; i < argc; i++)
        if (strcmp(argv[i], "--json") == 0)
            mf_cli_json_errors();
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN); /* a file that may not grow is an error with words, EFBIG */
    mf_json_watch();
    mf_screen_start();
    mf_cli_clock(&cli);
    mf_status settings = mf_settings_read(&cli, &wrong);
    /* Asked by the build and by shells, not by people. */
    bool manual = argc == 3 && strcmp(argv[1], "--man") == 0;
    bool told = argc > 1 && strcmp(argv[1], "--complete-told") == 0;
    bool complete = told || (argc > 1 && strcmp(argv[1], "--complete") == 0);
    mf_status status = manual     ? mf_man(argv[2])
                       : complete ? mf_complete(&cli, told, argc - 2, argv + 2)
                                  : mf_args_globals(&cli, argc, argv, &first, &help, &version);
    const bool helps = status == MF_OK && (version || help || first >= argc);
    if (!manual && !complete && helps)
        mf_screen_hold(&cli, NULL);
    if (manual || complete)
        first = argc;
    else if (status == MF_OK && version)
        mf_help_version(&cli);
    else if (status == MF_OK && help)
        mf_help_program();
    else if (status == MF_OK && first >= argc)
        mf_help_start();
    else if (status == MF_OK && settings != MF_OK)
        status = mf_cli_fail(&wrong);
    else if (status == MF_OK)
        status = run(&cli, argc - first, argv + first);
    mf_screen_show();
    mf_book_job_free(cli.spare);
    mf_book_close(cli.book);
    mf_arena_free(&cli.ids);
    return (int)close_stdout(status);
}
