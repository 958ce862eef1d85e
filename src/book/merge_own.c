/* merge_own.c - entries under our own name that only the other book has. A device writes into
 * one book: they come of a copy that was gone on with beside it, of a book that was put back
 * to an earlier state, or of somebody who forged them. Whoever takes them over says why. */
#include "base/fail.h"
#include "base/mem.h"
#include "book/merge.h"
#include "book/write.h"
#include "journal/draft.h"

#include <mistfold/segment.h>
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
    if (!mf_merge_adopts(m, line->device, line->seq))
        return mf_failf(err, MF_INPUT, m->name,
                        "a copy was gone on with beside this book, this book was put back to an "
                        "earlier state, or somebody forged it; nothing was taken over",
                        m->other.handle == NULL
                            ? "find out which; what a copy of this book has comes in by \"book "
                              "merge\", which asks why"
                            : "find out which; to take them over say why: --adopt \"the reason\", "
                              "which is logged",
                        "entry %s is under the name of this very device and is not here", id);
    m->out->own++;
    return MF_OK;
}

/* ---- whose entries are adopted --------------------------------------------------------------- */

MF_API bool mf_device_is_listed(const char *list, const char *device)
{
    size_t len = strlen(device);
    for (const char *at = list; at != NULL && *at != '\0'; at += strcspn(at, ",")) {
        at += strspn(at, ", ");
        if (strcspn(at, ", ") == len && strncmp(at, device, len) == 0)
            return true;
    }
    return false;
}

static bool may_adopt(const mf_merge *m, const char *device)
{
    const char *of = m->adopt == NULL ? NULL : m->adopt->of;
    if (of != NULL && *of != '\0')
        return mf_device_is_listed(of, device);
    return m->adopt != NULL && strcmp(device, m->book->device) == 0;
}

static mf_contrary *contrary_of(mf_merge *m, const char *device, int64_t seq)
{
    for (size_t i = 0; i < m->n_contrary; i++)
        if (strcmp(m->contrary[i].device, device) == 0)
            return &m->contrary[i];
    mf_contrary *grown = mf_grown(m->contrary, m->n_contrary, &m->cap_contrary, sizeof *grown);
    if (grown == NULL)
        return NULL;
    m->contrary = grown;
    mf_contrary *it = &grown[m->n_contrary++];
    *it = (mf_contrary){.from = seq, .to = seq};
    snprintf(it->device, sizeof it->device, "%s", device);
    return it;
}

bool mf_merge_adopts(mf_merge *m, const char *device, int64_t seq)
{
    if (!may_adopt(m, device))
        return false;
    mf_contrary *it = contrary_of(m, device, seq);
    m->failed = m->failed || it == NULL;
    if (it != NULL && seq < it->from)
        it->from = seq;
    if (it != NULL && seq > it->to)
        it->to = seq;
    return true;
}

static mf_status log_adoption(mf_merge *m, const mf_contrary *it, char id[MF_ENTRY_ID], mf_err *err)
{
    char first[MF_ENTRY_ID], last[MF_ENTRY_ID];
    snprintf(first, sizeof first, "%s/%lld", it->device, (long long)it->from);
    snprintf(last, sizeof last, "%s/%lld", it->device, (long long)it->to);
    json_t *body = json_pack("{s:s, s:s, s:s, s:s}", "reason", m->adopt->reason, "head", m->head,
                             "first", first, "last", last);
    mf_status status = body == NULL
                           ? mf_fail_memory(err)
                           : mf_put_entry(m->book, "adoption", "", body, m->adopt->now, id, err);
    json_decref(body);
    return status;
}

mf_status mf_merge_adopted(mf_merge *m, mf_err *err)
{
    bool told = false;
    mf_status status = m->failed ? mf_fail_memory(err) : MF_OK;
    for (size_t i = 0; status == MF_OK && i < m->n_contrary; i++) {
        char id[MF_ENTRY_ID];
        status = log_adoption(m, &m->contrary[i], id, err);
        if (!told)
            snprintf(m->out->adoption, sizeof m->out->adoption, "%s", id);
        told = told || strcmp(m->contrary[i].device, m->book->device) == 0;
    }
    return status;
}
