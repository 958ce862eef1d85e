#include "core/named.h"

#include "core/text.h"
#include <mistfold/kind.h>

static bool is_id(const char *text, const char *id, size_t len)
{
    return strncmp(mf_or_empty(text), id, len) == 0 && mf_or_empty(text)[len] == '\0';
}

static bool one_names(const mf_kind *kind, const void *item, const char *ref, const char *id,
                      size_t len)
{
    for (size_t i = 0; i < kind->n_fields; i++) {
        const char *text;
        const mf_field *field = &kind->fields[i];
        if (field->type != MF_F_ID || !mf_same(field->ref, ref))
            continue;
        memcpy(&text, (const unsigned char *)item + field->offset, sizeof text);
        if (is_id(text, id, len))
            return true;
    }
    return false;
}

bool mf_job_names(const mf_job *job, const char *ref, const char *id, size_t len)
{
    size_t n_kinds = 0, count;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    for (size_t k = 0; k < n_kinds; k++) {
        const unsigned char *items = mf_kind_items(job, &kinds[k], &count);
        for (size_t i = 0; !kinds[k].of_firm && i < count; i++)
            if (one_names(&kinds[k], items + i * kinds[k].size, ref, id, len))
                return true;
    }
    return false;
}
