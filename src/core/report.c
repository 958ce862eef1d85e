/* The laboratory's report behind a result: which attachment of the job it is. */
#include "core/text.h"
#include <mistfold/paint.h>

#define SHORT_HASH 8 /* of its SHA-256, as where an attachment is exported */

static bool named(const mf_attachment *it, const char *report)
{
    size_t len = strlen(report);
    if (mf_same(it->name, report) || mf_same(it->src.entry, report))
        return true;
    return len >= SHORT_HASH && strncmp(mf_or_empty(it->sha256), report, len) == 0;
}

const mf_attachment *mf_report_attached(const mf_job *job, const char *entry, const char *report)
{
    const mf_attachment *about = NULL;
    for (size_t i = 0; i < job->n_attachment; i++) {
        const mf_attachment *it = &job->attachment[i];
        if (mf_given(report) && named(it, report))
            return it;
        if (mf_given(entry) && mf_same(it->about, entry) && it->media == MF_MEDIA_PDF)
            about = it; /* a photo about a result shows the chip, not the report */
    }
    return about;
}
