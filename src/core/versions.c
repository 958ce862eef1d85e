/* One job as each of its contradicting entries has it; see versions.h. An emergency is none
 * of these kinds: what one entry does not waive is not waived (emergency.c). */
#include "core/versions.h"

#include <mistfold/kind.h>
#include <string.h>

static const char *const names[] = {"house", "completion", "invoice", "occupancy"};
enum { N_KINDS = sizeof names / sizeof names[0] };

/* The entries of one kind that say something else than those before them. */
typedef struct differing {
    const mf_kind *kind;
    const unsigned char *item[MF_VERSIONS + 1]; /* one more tells that there are more */
    size_t n;
} differing;

static bool is_new(const differing *list, const unsigned char *item)
{
    for (size_t i = 0; i < list->n; i++)
        if (mf_item_differs(list->kind, list->item[i], item) == NULL)
            return false;
    return true;
}

static void collect(const mf_job *job, const char *name, differing *out)
{
    size_t count;
    *out = (differing){.kind = mf_kind_named(name), .n = 0};
    const unsigned char *items = mf_kind_items(job, out->kind, &count);
    for (size_t i = 0; i < count && out->n <= MF_VERSIONS; i++)
        if (is_new(out, items + i * out->kind->size))
            out->item[out->n++] = items + i * out->kind->size;
}

static void choose(mf_job *job, const differing *list, size_t which)
{
    const size_t one = 1;
    const void *item = list->item[which];
    unsigned char *at = (unsigned char *)job + list->kind->list_offset;
    memcpy(at, &item, sizeof item);
    memcpy(at + sizeof item, &one, sizeof one);
}

size_t mf_versions_of(const mf_job *job, mf_job out[MF_VERSIONS])
{
    differing lists[N_KINDS];
    size_t total = 1;
    for (size_t k = 0; k < N_KINDS; k++) {
        collect(job, names[k], &lists[k]);
        total *= lists[k].n == 0 ? 1 : lists[k].n;
    }
    for (size_t v = 0; v < total && v < MF_VERSIONS; v++) {
        size_t rest = v;
        out[v] = *job;
        for (size_t k = 0; k < N_KINDS; k++) {
            if (lists[k].n == 0)
                continue;
            choose(&out[v], &lists[k], rest % lists[k].n);
            rest /= lists[k].n;
        }
    }
    return total;
}
