/* Progress of what takes long: one line on stderr, written over itself. */
#include "cli/cli.h"

#include <inttypes.h>
#include <stdio.h>
#include <unistd.h>

static void progress(const char *what, int64_t done, int64_t total, void *data)
{
    mf_cli *cli = data;
    int percent = total > 0 ? (int)(done * 100 / total) : 100;
    fprintf(stderr, "\r%s %" PRId64 " of %" PRId64 ", %d %%   ", what, done, total,
            percent > 100 ? 100 : percent);
    fflush(stderr);
    cli->told = true;
}

static void note(const char *line, void *data)
{
    mf_cli_watched(data);
    mf_cli_note(data, "%s", line);
}

mf_watch mf_cli_watch(mf_cli *cli, const mf_args *args)
{
    bool asked = mf_args_value(args, "progress") != NULL || (!cli->json && isatty(STDERR_FILENO));
    return (mf_watch){asked ? progress : NULL, note, cli};
}

void mf_cli_watched(const mf_cli *cli)
{
    if (cli->told)
        fputc('\n', stderr);
}
