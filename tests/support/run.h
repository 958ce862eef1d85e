/* run.h - running a program from a test and keeping what it said. */
#ifndef TESTS_SUPPORT_RUN_H
#define TESTS_SUPPORT_RUN_H

typedef struct run_result {
    int status;      /* exit status; 128 + signal when it was killed */
    char out[65536]; /* standard output, cut when longer */
    char err[16384]; /* standard error, cut when longer */
} run_result;

/* Runs a shell command line in folder ("" = here). Aborts the test when the shell
 * cannot be started. */
void run_shell(run_result *result, const char *folder, const char *command);

/* Fails the test where part is not in text, and shows both. */
void run_contains(const char *text, const char *part);

/* A new folder under the temporary directory; remove it with run_remove. */
void run_folder(char out[64]);
void run_remove(const char *folder);

#endif
