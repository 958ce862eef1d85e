/* mistfold: finds the command, runs it, closes up. */
#include "cli/cli.h"
#include "cli/json.h"
#include "cli/man.h"
#include "cli/settings.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

static bool group_exists(const char *group)
{
    size_t count;
    const mf_cmd *cmds = mf_cmds(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(cmds[i].group, group) == 0)
            return true;
    return false;
}

/* The command of argv[0] (and argv[1]); *words is how many words name it. */
static const mf_cmd *find(int argc, char **argv, int *words)
{
    size_t count;
    const mf_cmd *cmds = mf_cmds(&count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(cmds[i].group, argv[0]) != 0)
            continue;
        *words = cmds[i].action[0] == '\0' ? 1 : 2;
        if (*words == 1 || (argc > 1 && strcmp(cmds[i].action, argv[1]) == 0))
            return &cmds[i];
    }
    return NULL;
}

static mf_status unknown(int argc, char **argv)
{
    bool group = group_exists(argv[0]);
    const char *word = group && argc > 1 ? argv[1] : argv[0];
    if (group && argc == 1) {
        mf_help_group(argv[0]);
        return MF_USAGE;
    }
    const char *near = mf_help_nearest(group ? argv[0] : NULL, word);
    fprintf(stderr, "mistfold: %s%s%s: no such command; ", group ? argv[0] : "", group ? " " : "",
            word);
    if (near != NULL)
        fprintf(stderr, "did you mean \"%s%s%s\"? ", group ? argv[0] : "", group ? " " : "", near);
    fprintf(stderr, "see \"mistfold %s%s--help\"\n", group ? argv[0] : "", group ? " " : "");
    return MF_USAGE;
}

/* After an answer; an error is one line, and that of a refusal says it itself. */
static void tell_of_book(const mf_cli *cli)
{
    if (cli->book == NULL)
        return;
    if (mf_book_is_read_only(cli->book))
        mf_cli_warn("the book is read-only here: it was read, and nothing can be logged");
    mf_cli_warn_mode(cli->book_path);
}

static mf_status run(mf_cli *cli, int argc, char **argv)
{
    int words = 0;
    const mf_cmd *cmd = find(argc, argv, &words);
    if (cmd == NULL) {
        bool asked = argc > 1 && strcmp(argv[1], "--help") == 0 && group_exists(argv[0]);
        if (asked)
            mf_help_group(argv[0]);
        return asked ? MF_OK : unknown(argc, argv);
    }
    mf_args args = {0};
    bool help = false;
    mf_status status = mf_args_read(cli, cmd, argc - words, argv + words, &args, &help);
    if (help) {
        mf_help_command(cmd);
        return MF_OK;
    }
    mf_err err = {0};
    if (status == MF_OK && mf_cli_check_lang(cli, &err) != MF_OK)
        return mf_cli_fail(&err);
    if (status == MF_OK && mf_resolve(cli, cmd, &args, &err) != MF_OK)
        return mf_cli_fail(&err);
    if (status == MF_OK)
        status = cmd->run(cli, cmd, &args);
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
    fputs("mistfold: standard output: could not be written to the end; is the disk full?\n",
          stderr);
    return MF_SYSTEM;
}

int main(int argc, char **argv)
{
    mf_cli cli = {0};
    mf_err wrong = {0};
    int first = 1;
    bool help = false, version = false;
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN); /* a file that may not grow is an error with words, EFBIG */
    mf_json_watch();
    mf_cli_clock(&cli);
    mf_status settings = mf_settings_read(&cli, &wrong);
    /* Asked by the build and by shells, not by people. */
    bool manual = argc == 3 && strcmp(argv[1], "--man") == 0;
    bool told = argc > 1 && strcmp(argv[1], "--complete-told") == 0;
    bool complete = told || (argc > 1 && strcmp(argv[1], "--complete") == 0);
    mf_status status = manual     ? mf_man(argv[2])
                       : complete ? mf_complete(&cli, told, argc - 2, argv + 2)
                                  : mf_args_globals(&cli, argc, argv, &first, &help, &version);
    if (manual || complete)
        first = argc;
    else if (status == MF_OK && version)
        puts("mistfold " MISTFOLD_VERSION);
    else if (status == MF_OK && help)
        mf_help_program();
    else if (status == MF_OK && first >= argc)
        mf_help_start();
    else if (status == MF_OK && settings != MF_OK)
        status = mf_cli_fail(&wrong);
    else if (status == MF_OK)
        status = run(&cli, argc - first, argv + first);
    mf_book_job_free(cli.spare);
    mf_book_close(cli.book);
    mf_arena_free(&cli.ids);
    return (int)close_stdout(status);
}
