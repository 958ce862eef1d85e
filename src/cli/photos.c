#include "cli/photos.h"

#include "base/fail.h"

#include <stdlib.h>

mf_status mf_cli_photos(mf_paper_photo **out, size_t *n, const mf_job *job, mf_err *err)
{
    *n = 0;
    *out = calloc(job->n_attachment + 1, sizeof **out);
    if (*out == NULL)
        return mf_fail_memory(err);
    for (size_t i = 0; i < job->n_attachment; i++) {
        const mf_attachment *it = &job->attachment[i];
        if (it->media == MF_MEDIA_PDF)
            continue;
        (*out)[(*n)++] = (mf_paper_photo){.name = it->name,
                                          .caption = *it->note == '\0' ? it->name : it->note,
                                          .sha256 = it->sha256,
                                          .entry = it->src.entry,
                                          .about = it->about};
    }
    return MF_OK;
}

mf_status mf_cli_fetch_photo(void *book, const mf_paper_photo *photo, mf_bytes *out, mf_err *err)
{
    return mf_book_attached(book, photo->sha256, out, err);
}
