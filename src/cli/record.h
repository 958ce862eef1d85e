/* record.h - a record read from its paper. */
#ifndef MF_CLI_RECORD_H
#define MF_CLI_RECORD_H

#include "cli/cli.h"

enum { MF_PAPER_FILE_MAX = 256 * 1024 * 1024 };

/* The record of a job with its data attached, not sealed: of the job as the book has it now,
 * with the integrity of the one that was loaded. */
mf_status mf_cli_record(mf_bytes *out, const mf_cli *cli, const mf_job *job, mf_day today,
                        mf_err *err);

/* What every paper of a job says of where it comes from; ask points into it. */
typedef struct mf_cli_origin {
    char head[MF_HASH_HEX], when[32];
    mf_buf chains;
} mf_cli_origin;
/* Reads the head of the book; without a job nothing comes from a book. End it in any case. */
void mf_cli_origin_end(mf_cli_origin *origin);
mf_status mf_cli_print_origin(mf_cli_origin *out, const mf_cli *cli, mf_paper_ask *ask,
                              mf_err *err);

/* The record that is attached to a paper; MF_NO when there is none. Not trusted: see
 * mf_record_read, which says who frees it. */
mf_status mf_cli_record_of(mf_record **out, const mf_bytes *pdf, mf_err *err);

/* mf_seal_verify, and that no later seal is drawn over words: where the record that is
 * attached keeps places for seals they may be; on other papers nowhere. */
mf_status mf_cli_verify(mf_seal_check *check, const mf_bytes *pdf, mf_err *err);

/* "office/413 truck/20": the entries that the head on a paper is over. */
void mf_cli_chains(mf_buf *out, const mf_links *links);

/* A file that was sealed; the book is open. id may be NULL. */
typedef struct mf_cli_sealed {
    const char *job; /* NULL: of no job in the book, nothing is logged */
    const mf_key *key;
    const char *head;
    const mf_links *links; /* of the record; NULL: it has none */
    const char *capacity;  /* "renovator", "firm", "owner" or "" */
    const mf_bytes *file;
} mf_cli_sealed;
/* Writes the file to path and logs it: both or neither. */
mf_status mf_cli_keep_sealed(mf_cli *cli, const mf_cli_sealed *it, const char *path,
                             char id[MF_ENTRY_ID], mf_err *err);

/* The job of that id; *out NULL when there is no book, or none with this job. */
mf_status mf_cli_job_if_known(mf_cli *cli, const char *id, mf_job **out, mf_err *err);

/* The entry that logged the file as it was when the seal had just been put on; NULL when
 * this job of the book has none. */
const mf_sealed *mf_cli_seal_logged(const mf_job *job, const mf_bytes *pdf,
                                    const mf_seal_report *seal);

#endif
