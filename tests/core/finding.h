/* finding.h - what the audit says of one constructed job. */
#ifndef MF_TESTS_CORE_FINDING_H
#define MF_TESTS_CORE_FINDING_H

#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <string.h>

enum { MAX_FINDINGS = 400 };
static fixture fx;
static mf_finding found[MAX_FINDINGS];

/* All that is found on that day in an area, "" = in all of the job; how many. */
static inline size_t find_on(const char *today, const char *area)
{
    mf_audit_ask question = {.job = &fx.job, .today = fx_day(today), .area = area};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    assert_true(n <= MAX_FINDINGS);
    return n;
}

/* The first finding of the requirement, of that subject unless it is NULL. */
static inline const mf_finding *finding_on(const char *today, const char *id, const char *subject)
{
    size_t n = find_on(today, "");
    for (size_t i = 0; i < n; i++) {
        bool it = subject == NULL || strcmp(found[i].subject, subject) == 0;
        if (it && strcmp(found[i].requirement->id, id) == 0)
            return &found[i];
    }
    fail_msg("no finding %s", id);
    abort();
}

static inline const mf_finding *finding(const char *id, const char *subject)
{
    return finding_on(FX_TODAY, id, subject);
}

#endif
