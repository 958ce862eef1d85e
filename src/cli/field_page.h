/* field_page.h - the page a crew takes along on a phone. */
#ifndef MF_CLI_FIELD_PAGE_H
#define MF_CLI_FIELD_PAGE_H

#include "cli/cli.h"

/* Made by src/gen/page.sh from src/field: the page with @JOB@ and others to be filled in. */
extern const unsigned char mf_field_page_html[];
extern const size_t mf_field_page_len;

/* The page of a job, for the caller to free: entries is the bytes of its .entries file, person is
 * whose phone it is for ("" = not said). */
mf_status mf_cli_field_page(mf_lang lang, const char *name, const char *person,
                            const mf_bytes *entries, mf_bytes *out, mf_err *err);

#endif
