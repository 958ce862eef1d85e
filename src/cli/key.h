/* key.h - opening the key that seals a paper. */
#ifndef MF_CLI_KEY_H
#define MF_CLI_KEY_H

#include "cli/cli.h"

/* Opens the PKCS #12 file at path, asking for its passphrase. */
mf_status mf_cli_key(const mf_args *args, const char *path, mf_key **out, mf_err *err);

#endif
