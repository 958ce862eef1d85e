/* noted.h - what was noted or handed over at an earlier time, for "book check --against". */
#ifndef MF_CLI_NOTED_H
#define MF_CLI_NOTED_H

#include "cli/json.h"

/* A file with heads, one a line. */
typedef struct mf_noted_list {
    const char *path;
    mf_bytes text;
    mf_err why; /* why it could not be read: a list, or whatever it is; else its status is MF_OK */
} mf_noted_list;

typedef struct mf_noted {
    mf_buf heads; /* of all lists, one after the other */
    mf_noted_list *list;
    size_t n_lists;
    const char **paper; /* the other files */
    size_t n_papers;
    size_t contradict, no_record, unsealed; /* papers: unsealed where the book logged a seal */
    size_t not_good;                        /* papers that were altered themselves */
    mf_err unreadable;                      /* of the first file that could not be read */
    json_t *json, *json_lists; /* arrays, one object a file; NULL = lines are printed */
} mf_noted;

/* MF_INPUT when the file is no text, or too long, for a list of heads. */
mf_status mf_cli_is_list(const char *path, const mf_bytes *file, mf_err *err);
/* Reads the file of --against and those behind it. One that cannot be read, or a list in which no
 * head is, is kept with what is wrong, and told with the others; an error when it is so of all.
 * Free it in any case. */
mf_status mf_noted_read(mf_noted *out, const mf_args *args, mf_err *err);
/* Tells of each list whether the book holds its heads. What it does not hold the check of the book
 * counts, as a fault or as unheld. */
mf_status mf_noted_lists(const mf_noted *all, mf_cli *cli, mf_err *err);
/* Holds each paper against the book: a line each. MF_NO when it contradicts one, when one has no
 * record to hold, or no seal where the book logged one; what a file that could not be read fails
 * with comes after a contradiction. */
mf_status mf_noted_papers(mf_noted *all, mf_cli *cli, mf_err *err);
void mf_noted_free(mf_noted *all);

#endif
