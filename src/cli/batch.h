/* batch.h - several entries of one job, written together or not at all. What is wrong with
 * any of them is told of all of them at once. */
#ifndef MF_CLI_BATCH_H
#define MF_CLI_BATCH_H

#include "cli/cli.h"

typedef struct mf_batch_row {
    const mf_kind *kind;
    mf_args args;
    int line;                  /* of the file it stands in, from 1; 0 = in none */
    int at_line[MF_ARGS_OPTS]; /* of each option */
    bool wrong;                /* it is not written, nor is what names it judged */
} mf_batch_row;

typedef struct mf_batch_slip {
    int line;
    mf_err err;
} mf_batch_slip;

/* All zero before the first row; freed by mf_batch_free. */
typedef struct mf_batch {
    const char *file; /* its name, for messages; NULL = none */
    mf_arena text;
    mf_batch_row *row;
    size_t n, room;
    mf_batch_slip *fault; /* in the order of their lines */
    size_t n_fault, fault_room;
    bool failed; /* memory ran out */
} mf_batch;

/* A row of that kind, NULL without memory; the pointer holds until the next one is added. */
mf_batch_row *mf_batch_add(mf_batch *batch, const char *kind, int line);
/* An option of a row; the text is copied. */
void mf_batch_put(mf_batch *batch, mf_batch_row *row, const char *option, const char *value,
                  int line);
/* Keeps what is wrong in that line; where becomes "FILE:LINE", or stays without a file. */
void mf_batch_fault(mf_batch *batch, int line, const mf_err *fault);

/* Writes all rows as entries of job ("" = that of the house among them), or none: MF_INPUT when
 * there are faults, whose first is in err. dry_run: only looks whether it would. */
mf_status mf_batch_write(mf_cli *cli, mf_batch *batch, const char *job, bool dry_run, mf_err *err);

void mf_batch_free(mf_batch *batch);

#endif
