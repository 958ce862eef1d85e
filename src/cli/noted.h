/* noted.h - what was noted or handed over at an earlier time, for "book check --against". */
#ifndef MF_CLI_NOTED_H
#define MF_CLI_NOTED_H

#include "cli/json.h"

typedef struct mf_noted {
    mf_buf heads;       /* of all files that are no papers, one after the other */
    const char **paper; /* files that are */
    size_t n_papers, n_files;
    size_t contradict; /* papers that the book contradicts */
    json_t *json;      /* array, one object a paper; NULL = lines are printed */
} mf_noted;

/* Reads the file of --against and those behind it. Free it in any case. */
mf_status mf_noted_read(mf_noted *out, const mf_args *args, mf_err *err);
/* Holds each paper against the book: a line each. MF_NO when it contradicts one. */
mf_status mf_noted_papers(mf_noted *all, mf_cli *cli, mf_err *err);
void mf_noted_free(mf_noted *all);

#endif
