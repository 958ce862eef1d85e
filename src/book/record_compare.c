/* A record against the job as the book has it now, entry by entry. */
#include "base/fail.h"
#include "book/record_json.h"

#include <mistfold/kind.h>

#include <string.h>

static const char *id_of(const json_t *entry)
{
    return mf_json_string_of(entry, "entry");
}

static const json_t *find(const json_t *list, const char *id)
{
    for (size_t i = 0; i < json_array_size(list); i++)
        if (strcmp(id_of(json_array_get(list, i)), id) == 0)
            return json_array_get(list, i);
    return NULL;
}

static void compare_lists(const char *kind, const json_t *then, const json_t *now,
                          mf_record_change_fn *fn, void *data)
{
    for (size_t i = 0; i < json_array_size(then); i++) {
        const json_t *entry = json_array_get(then, i);
        const json_t *other = find(now, id_of(entry));
        if (other == NULL)
            fn(MF_RECORD_GONE, kind, id_of(entry), data);
        else if (!json_equal(entry, other))
            fn(MF_RECORD_CHANGED, kind, id_of(entry), data);
    }
    for (size_t i = 0; i < json_array_size(now); i++)
        if (find(then, id_of(json_array_get(now, i))) == NULL)
            fn(MF_RECORD_ADDED, kind, id_of(json_array_get(now, i)), data);
}

mf_status mf_record_compare(const mf_record *record, const mf_job *job, mf_record_change_fn *fn,
                            void *data, mf_err *err)
{
    size_t n = 0;
    const mf_kind *kinds = mf_kinds(&n);
    json_t *then = mf_record_entries(record->job);
    json_t *now = mf_record_entries(job);
    mf_status status = then == NULL || now == NULL ? mf_fail_memory(err) : MF_OK;
    for (size_t i = 0; i < n && status == MF_OK; i++)
        if (strcmp(kinds[i].name, "sealed") != 0)
            compare_lists(kinds[i].name, json_object_get(then, kinds[i].name),
                          json_object_get(now, kinds[i].name), fn, data);
    json_decref(then);
    json_decref(now);
    return status;
}
