#include "journal/seen.h"

#include "base/fail.h"
#include <stdlib.h>
#include <string.h>

typedef struct end {
    char device[MF_DEVICE_MAX + 1];
    int64_t seq;
} end;

typedef struct ends {
    end *at;
    size_t n, cap;
} ends;

static bool note(ends *all, const char *entry)
{
    end one;
    if (!mf_entry_id_split(entry, one.device, &one.seq))
        return true;
    for (size_t i = 0; i < all->n; i++)
        if (strcmp(all->at[i].device, one.device) == 0) {
            all->at[i].seq = one.seq > all->at[i].seq ? one.seq : all->at[i].seq;
            return true;
        }
    end *grown = mf_grown(all->at, all->n, &all->cap, sizeof *grown);
    if (grown == NULL)
        return false;
    all->at = grown;
    grown[all->n++] = one;
    return true;
}

static int by_device(const void *a, const void *b)
{
    return strcmp(((const end *)a)->device, ((const end *)b)->device);
}

/* Entries and corrections, whether withdrawn or not: they were there to read. */
static bool write_ends(mf_buf *out, const mf_job_fold *fold)
{
    ends all = {0};
    bool good = true;
    for (size_t i = 0; good && i < fold->n_seen; i++)
        good = fold->seen[i].firm || note(&all, fold->seen[i].id);
    for (size_t i = 0; good && i < fold->n_corrections; i++)
        good = fold->corrections[i].firm || note(&all, fold->corrections[i].said.src.entry);
    if (all.n > 0)
        qsort(all.at, all.n, sizeof *all.at, by_device);
    for (size_t i = 0; i < all.n; i++)
        mf_buf_printf(out, "%s%s/%lld", i > 0 ? " " : "", all.at[i].device,
                      (long long)all.at[i].seq);
    free(all.at);
    return good && !out->failed;
}

static bool replace(json_t **body, const mf_field *field, const char *text)
{
    json_t *copy = json_object(); /* json_copy() tells of no member that it left out */
    if (copy == NULL || json_object_update(copy, *body) != 0 ||
        json_object_set_new(copy, field->name, json_string(text)) != 0) {
        json_decref(copy);
        return false;
    }
    json_decref(*body);
    *body = copy;
    return true;
}

mf_status mf_seen_put(json_t **body, const mf_kind *kind, const mf_folds *folds, const char *job,
                      mf_err *err)
{
    size_t i = 0;
    mf_buf text = {0};
    const mf_job_fold *fold = NULL;
    while (i < kind->n_fields && (kind->fields[i].flags & MF_F_BOOK) == 0)
        i++;
    if (i == kind->n_fields)
        return MF_OK;
    mf_status status = folds->of(&fold, folds->data, job, err);
    if (status == MF_OK &&
        (!write_ends(&text, fold) || !replace(body, &kind->fields[i], mf_buf_str(&text))))
        status = mf_fail_memory(err);
    mf_buf_free(&text);
    return status;
}
