/* photos.h - the pictures that the book keeps, for the record's appendix. */
#ifndef MF_CLI_PHOTOS_H
#define MF_CLI_PHOTOS_H

#include "cli/cli.h"

/* The pictures among the job's attachments, without their bytes; the caller frees
 * *out before the job. */
mf_status mf_cli_photos(mf_paper_photo **out, size_t *n, const mf_job *job, mf_err *err);

/* A mf_paper_fetch_fn; user is the book. */
mf_status mf_cli_fetch_photo(void *book, const mf_paper_photo *photo, mf_bytes *out, mf_err *err);

#endif
