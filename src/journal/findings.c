/* findings.c - the answer of core as a list: core itself has no memory to keep one in. */
#include <mistfold/audit.h>
#include <stdlib.h>

enum { GUESS = 512 }; /* most jobs have fewer: then core is asked once */

MF_API bool mf_findings(const mf_audit_ask *ask, mf_finding **out, size_t *n)
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
