/* record.h - a record read from its paper. */
#ifndef MF_CLI_RECORD_H
#define MF_CLI_RECORD_H

#include "cli/cli.h"

enum { MF_PAPER_FILE_MAX = 256 * 1024 * 1024 };

/* The record of a loaded job with its data attached, not sealed. */
mf_status mf_cli_record(mf_bytes *out, const mf_cli *cli, mf_job *job, const char *head,
                        mf_day today, mf_err *err);

/* Says what the book has that the record on the paper has not, and the other way
 * round, and which of its seals were logged. MF_NO when entries of the record are not in the book,
 * or its findings do not follow from its entries. */
mf_status mf_cli_compare(mf_cli *cli, const mf_bytes *pdf, const mf_seal_check *check, mf_err *err);

/* Logs that the file was sealed; the book is open. id may be NULL. */
typedef struct mf_cli_sealed {
    const char *job, *fingerprint, *head;
    const char *capacity; /* "renovator", "firm", "owner" or "" */
    const mf_bytes *file;
} mf_cli_sealed;
mf_status mf_cli_log_sealed(mf_cli *cli, const mf_cli_sealed *it, char id[MF_ENTRY_ID],
                            mf_err *err);

/* The job of that id; *out NULL when there is no book, or none with this job. */
mf_status mf_cli_job_if_known(mf_cli *cli, const char *id, mf_job **out, mf_err *err);

/* Says of each seal which entry logged it, and returns how many were logged. */
int mf_cli_seals_logged(const mf_cli *cli, const mf_job *job, const mf_bytes *pdf,
                        const mf_seal_check *check);

#endif
