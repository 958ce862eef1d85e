/* merge_own.c - entries under our own name that only the other book has. A device writes into
 * one book: they come of a copy that was gone on with beside it, of a book that was put back
 * to an earlier state, or of somebody who forged them. Whoever takes them over says why. */
#include "base/fail.h"
#include "book/merge.h"
#include "book/write.h"
#include "journal/draft.h"

#include <stdio.h>
#include <string.h>

mf_status mf_merge_may(const mf_adopt *adopt, mf_err *err)
{
    if (adopt == NULL)
        return MF_OK;
    mf_status status = mf_reason_check(adopt->reason, "the merge",
                                       "entries of this device that come from elsewhere want one",
                                       "say how they came to be there alone", err);
    return status == MF_OK ? mf_now_check(adopt->now, err) : status;
}

mf_status mf_merge_own(mf_merge *m, const mf_line *line, mf_err *err)
{
    char id[MF_ENTRY_ID];
    snprintf(id, sizeof id, "%s/%lld", line->device, (long long)line->seq);
    if (m->adopt == NULL)
        return mf_failf(err, MF_INPUT, m->name,
                        "a copy was gone on with beside this book, this book was put back to an "
                        "earlier state, or somebody forged it; nothing was taken over",
                        m->other.handle == NULL
                            ? "find out which; what a copy of this book has comes in by \"book "
                              "merge\", which asks why"
                            : "find out which; to take them over say why: --adopt \"the reason\", "
                              "which is logged",
                        "entry %s is under the name of this very device and is not here", id);
    if (m->out->own++ == 0)
        m->first[0] = '\0'; /* the others do not count beside them */
    return MF_OK;
}

void mf_merge_came(mf_merge *m, const mf_line *line)
{
    if (m->out->own > 0 && strcmp(line->device, m->book->device) != 0)
        return;
    mf_line_id(line, m->last);
    if (m->first[0] == '\0')
        mf_line_id(line, m->first);
}

mf_status mf_merge_adopted(mf_merge *m, mf_err *err)
{
    if (m->out->own == 0 && !m->contradicted)
        return MF_OK;
    json_t *body = json_pack("{s:s, s:s, s:s, s:s}", "reason", m->adopt->reason, "head", m->head,
                             "first", m->first, "last", m->last);
    mf_status status = body == NULL ? mf_fail_memory(err)
                                    : mf_put_entry(m->book, "adoption", "", body, m->adopt->now,
                                                   m->out->adoption, err);
    json_decref(body);
    return status;
}
