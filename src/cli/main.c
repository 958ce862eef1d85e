/* mistfold: finds the command, runs it, closes up. */
#include "cli/cli.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *setting(const char *name, const char *otherwise)
{
    const char *value = getenv(name);
    return value == NULL || value[0] == '\0' ? otherwise : value;
}

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
    fprintf(stderr, "see \"mistfold %s--help\"\n", group ? argv[0] : "");
    return MF_USAGE;
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
    return status == MF_OK ? cmd->run(cli, cmd, &args) : status;
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
    mf_cli cli = {.book_path = setting("MISTFOLD_BOOK", "mistfold.book"),
                  .who = setting("MISTFOLD_BY", ""),
                  .lang = mf_lang_of(setting("MISTFOLD_LANG", "en"))};
    int first = 1;
    bool help = false, version = false;
    signal(SIGPIPE, SIG_IGN);
    mf_cli_clock(&cli);
    mf_status status = mf_args_globals(&cli, argc, argv, &first, &help, &version);
    if (status == MF_OK && version)
        puts("mistfold " MISTFOLD_VERSION);
    else if (status == MF_OK && (help || first >= argc))
        mf_help_program();
    else if (status == MF_OK)
        status = run(&cli, argc - first, argv + first);
    mf_book_close(cli.book);
    return (int)close_stdout(status);
}
