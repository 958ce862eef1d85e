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

/* A file that was sealed; the book is open. id may be NULL. */
typedef struct mf_cli_sealed {
    const char *job; /* NULL: of no job in the book, nothing is logged */
    const char *fingerprint, *head;
    const char *capacity; /* "renovator", "firm", "owner" or "" */
    const mf_bytes *file;
} mf_cli_sealed;
/* Writes the file to path and logs it: both or neither. */
mf_status mf_cli_keep_sealed(mf_cli *cli, const mf_cli_sealed *it, const char *path,
                             char id[MF_ENTRY_ID], mf_err *err);

/* The job of that id; *out NULL when there is no book, or none with this job. */
mf_status mf_cli_job_if_known(mf_cli *cli, const char *id, mf_job **out, mf_err *err);

/* Says of each seal which entry logged it, and returns how many were logged. */
int mf_cli_seals_logged(const mf_cli *cli, const mf_job *job, const mf_bytes *pdf,
                        const mf_seal_check *check);

#endif
