/* record.h - a record read from its paper. */
#ifndef MF_CLI_RECORD_H
#define MF_CLI_RECORD_H

#include "cli/cli.h"

enum { MF_PAPER_FILE_MAX = 256 * 1024 * 1024 };

/* The record of a loaded job with its data attached, not sealed. */
mf_status mf_cli_record(mf_bytes *out, const mf_cli *cli, mf_job *job, const char *head,
                        mf_day today, mf_err *err);

/* Says what the book has that the record on the paper has not, and the other way
 * round. MF_NO when entries of the record are not in the book, or its findings do
 * not follow from its entries. */
mf_status mf_cli_compare(mf_cli *cli, const mf_bytes *pdf, mf_err *err);

#endif
