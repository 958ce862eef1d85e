/* The sealed record: whether one was made of the whole job, and nothing was corrected since. */
#include "core/audit_rows.h"

#include "core/text.h"
#include <stdlib.h>
#include <string.h>

/* The last entry of a device under the seal, 0 = it had none: "office/414 hash, truck/20 hash". */
static long long last_under(const char *chains, const char *device, size_t len)
{
    for (const char *at = chains; *at != '\0'; at += strcspn(at, " ,"), at += strspn(at, " ,"))
        if (strncmp(at, device, len) == 0 && at[len] == '/')
            return strtoll(at + len + 1, NULL, 10);
    return 0;
}

/* Of an old seal nobody said what is under it: then nothing is told of it. */
static bool came_later(const mf_sealed *seal, const char *entry)
{
    size_t len = strcspn(entry, "/");
    return mf_given(seal->chains) && entry[len] == '/' &&
           strtoll(entry + len + 1, NULL, 10) > last_under(seal->chains, entry, len);
}

static const mf_correction *corrected_since(const mf_job *job, const mf_sealed *seal)
{
    for (size_t i = 0; i < job->n_correction; i++)
        if (came_later(seal, mf_or_empty(job->correction[i].src.entry)))
            return &job->correction[i];
    return NULL;
}

static void judge_seal(const mf_asked *asked, const mf_sealed *seal, mf_finding *out)
{
    const mf_correction *since = corrected_since(asked->job, seal);
    const char *evidence = seal->src.entry;
    if (seal->on < asked->completed) {
        mf_say(out, MF_WARNING, "seal-early");
    } else if (since != NULL) {
        mf_say(out, MF_WARNING, "seal-corrected");
        evidence = since->src.entry;
    } else {
        mf_say(out, MF_MET, "seal-made");
    }
    mf_say_days(out, seal->on, asked->completed);
    out->evidence = mf_or_empty(evidence);
}

/* A seal is no duty of the rule: its lack is told, not counted. One that serves is enough. */
void mf_show_sealed(const mf_asked *asked, const mf_subject *subject, mf_finding *out)
{
    const mf_job *job = asked->job;
    (void)subject;
    mf_say(out, MF_WARNING, "seal-none");
    for (size_t i = 0; i < job->n_sealed && out->verdict != MF_MET; i++)
        if (mf_same(job->sealed[i].paper, "record"))
            judge_seal(asked, &job->sealed[i], out);
}
