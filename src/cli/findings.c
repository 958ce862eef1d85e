/* The answer of core to one question, as a list. */
#include "cli/cli.h"

#include <stdlib.h>

enum { GUESS = 512 }; /* most jobs have fewer: then core is asked once */

bool mf_findings(const mf_audit_ask *ask, mf_finding **out, size_t *n)
{
    *out = malloc(GUESS * sizeof **out);
    *n = *out == NULL ? 0 : mf_audit(ask, *out, GUESS);
    if (*n <= GUESS)
        return *out != NULL;
    free(*out);
    *out = calloc(*n, sizeof **out);
    if (*out != NULL)
        *n = mf_audit(ask, *out, *n);
    return *out != NULL;
}
