/* noted.h - what was noted or handed over at an earlier time, for "book check --against". */
#ifndef MF_CLI_NOTED_H
#define MF_CLI_NOTED_H

#include "cli/json.h"

/* A file with heads, one a line. */
typedef struct mf_noted_list {
    const char *path;
    mf_bytes text;
} mf_noted_list;

typedef struct mf_noted {
    mf_buf heads; /* of all lists, one after the other */
    mf_noted_list *list;
    size_t n_lists;
    const char **paper; /* the other files */
    size_t n_papers;
    size_t contradict, no_record, unsealed; /* papers: unsealed where the book logged a seal */
    json_t *json, *json_lists; /* arrays, one object a file; NULL = lines are printed */
} mf_noted;

/* MF_INPUT when the file is no text, or too long, for a list of heads. */
mf_status mf_cli_is_list(const char *path, const mf_bytes *file, mf_err *err);
/* Reads the file of --against and those behind it; MF_INPUT for a list in which no head is. Free
 * it in any case. */
mf_status mf_noted_read(mf_noted *out, const mf_args *args, mf_err *err);
/* Tells of each list whether the book holds its heads. What it does not hold is a fault that the
 * check of the book counts. */
mf_status mf_noted_lists(const mf_noted *all, mf_cli *cli, mf_err *err);
/* Holds each paper against the book: a line each. MF_NO when it contradicts one, when one has no
 * record to hold, or no seal where the book logged one. */
mf_status mf_noted_papers(mf_noted *all, mf_cli *cli, mf_err *err);
void mf_noted_free(mf_noted *all);

#endif
