/* vouched.h - people who vouch for the key of a device by a seal of their own. */
#ifndef MF_CLI_VOUCHED_H
#define MF_CLI_VOUCHED_H

#include "cli/cli.h"

/* Who stands behind a key, of those whose key the book knows. */
typedef struct mf_voucher {
    char name[128];                       /* in the certificate; "" = nobody */
    char fingerprint[MF_FINGERPRINT_HEX]; /* of it */
} mf_voucher;

/* Looks through the entries of kind vouched. MF_NO when the signature of one is not right. */
mf_status mf_vouched_by(mf_voucher *out, mf_cli *cli, const mf_job *firm, const char *device,
                        const char *key, mf_err *err);

#endif
