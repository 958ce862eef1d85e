#include "support/run.h"

#include "support/cmocka_all.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static void stop(const char *what)
{
    perror(what);
    abort();
}

static void slurp(FILE *file, char *out, size_t size)
{
    rewind(file);
    size_t len = fread(out, 1, size - 1, file);
    out[len] = '\0';
    fclose(file);
}

void run_shell(run_result *result, const char *folder, const char *command)
{
    FILE *out = tmpfile(), *err = tmpfile();
    if (out == NULL || err == NULL)
        stop("tmpfile");
    fflush(NULL);
    pid_t child = fork();
    if (child == -1)
        stop("fork");
    if (child == 0) {
        if ((folder[0] != '\0' && chdir(folder) != 0) || dup2(fileno(out), 1) < 0 ||
            dup2(fileno(err), 2) < 0)
            _exit(126);
        execl("/bin/sh", "sh", "-c", command, (char *)NULL);
        _exit(127);
    }
    int status = 0;
    if (waitpid(child, &status, 0) != child)
        stop("waitpid");
    result->status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    slurp(out, result->out, sizeof result->out);
    slurp(err, result->err, sizeof result->err);
}

void run_contains(const char *text, const char *part)
{
    if (strstr(text, part) == NULL)
        fail_msg("\"%s\" is not in:\n%s", part, text);
}

void run_folder(char out[64])
{
    snprintf(out, 64, "/tmp/mistfold-test-XXXXXX");
    if (mkdtemp(out) == NULL)
        stop("mkdtemp");
}

void run_remove(const char *folder)
{
    run_result result;
    char command[128];
    snprintf(command, sizeof command, "chmod -R u+w '%s' && rm -rf '%s'", folder, folder);
    run_shell(&result, "", command);
}
