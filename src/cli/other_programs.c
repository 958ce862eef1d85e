#include "cli/other_programs.h"

#include "base/fail.h"

#include <errno.h>
#include <fcntl.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

static mf_status absent(const char *name, const char *need, mf_err *err)
{
    return mf_failf(err, MF_SYSTEM, name,
                    "this is done by another program, which is not part of mistfold", need,
                    "the program %s cannot be run", name);
}

/* Starts it with those files as its input and output; what it says goes to nobody. */
static bool start(pid_t *pid, const char *const *argv, int in, int out)
{
    posix_spawn_file_actions_t files;
    if (posix_spawn_file_actions_init(&files) != 0)
        return false;
    /* posix_spawnp takes no const for reasons of age; it changes nothing. */
    char *const *words = (char *const *)(uintptr_t)argv;
    bool started =
        posix_spawn_file_actions_adddup2(&files, in, STDIN_FILENO) == 0 &&
        posix_spawn_file_actions_adddup2(&files, out, STDOUT_FILENO) == 0 &&
        posix_spawn_file_actions_addopen(&files, STDERR_FILENO, "/dev/null", O_WRONLY, 0) == 0 &&
        posix_spawnp(pid, argv[0], &files, NULL, words, environ) == 0;
    posix_spawn_file_actions_destroy(&files);
    return started;
}

static bool ended_well(pid_t pid)
{
    int state = 0;
    while (waitpid(pid, &state, 0) < 0)
        if (errno != EINTR)
            return false;
    return WIFEXITED(state) && WEXITSTATUS(state) == 0;
}

/* A whole stream from its beginning. */
static bool take(mf_bytes *out, FILE *from)
{
    long size = fseek(from, 0, SEEK_END) == 0 ? ftell(from) : -1;
    rewind(from);
    out->data = size <= 0 ? NULL : malloc((size_t)size);
    out->len = out->data == NULL ? 0 : (size_t)size;
    return out->data != NULL && fread(out->data, 1, out->len, from) == out->len;
}

/* Files without a name, not pipes: neither side can wait for the other. */
static mf_status run(mf_bytes *out, const char *const *argv, const mf_bytes *in, FILE *input,
                     FILE *output, const char *need, mf_err *err)
{
    pid_t pid = 0;
    if (fwrite(in->data, 1, in->len, input) != in->len || fflush(input) != 0 ||
        fseek(input, 0, SEEK_SET) != 0)
        return mf_fail(err, MF_SYSTEM, argv[0], "its input could not be kept for the moment", "",
                       "see whether the disk of the temporary files is full");
    if (!start(&pid, argv, fileno(input), fileno(output)))
        return absent(argv[0], need, err);
    if (ended_well(pid) && take(out, output))
        return MF_OK;
    mf_bytes_free(out);
    return mf_failf(err, MF_SYSTEM, argv[0], "it was given what it takes, and gave nothing back",
                    need, "the program %s did not do it", argv[0]);
}

mf_status mf_other_filter(mf_bytes *out, const char *const *argv, const mf_bytes *in,
                          const char *need, mf_err *err)
{
    FILE *input = tmpfile(), *output = tmpfile();
    *out = (mf_bytes){0};
    mf_status status =
        input == NULL || output == NULL
            ? mf_fail(err, MF_SYSTEM, argv[0], "there is no room for a temporary file", "",
                      "see whether the disk of the temporary files is full")
            : run(out, argv, in, input, output, need, err);
    if (input != NULL)
        fclose(input);
    if (output != NULL)
        fclose(output);
    return status;
}

mf_status mf_other_open(const char *path, mf_err *err)
{
    const char *const argv[] = {"xdg-open", path, NULL};
    pid_t pid = 0;
    int nothing = open("/dev/null", O_RDWR | O_CLOEXEC);
    bool started = nothing >= 0 && start(&pid, argv, nothing, nothing);
    if (nothing >= 0)
        close(nothing);
    return started ? MF_OK : absent(argv[0], "install xdg-utils, or open the file by hand", err);
}
