/* The readings of a job in order: sorted by instrument and time, each tied to the
 * calibration readings around it and to the next reading of its component. */
#include "core/reading_index.h"

#include "core/text.h"

static uint16_t small(size_t n)
{
    return (uint16_t)n;
}

static size_t place(uint16_t at)
{
    return at == MF_INDEX_NONE ? SIZE_MAX : at;
}

/* ---- by instrument and time ------------------------------------------------------- */

static int text_order(const char *a, const char *b)
{
    return a == b ? 0 : strcmp(mf_or_empty(a), mf_or_empty(b));
}

static bool in_order(const mf_job *job, uint16_t a, uint16_t b)
{
    const mf_reading *ra = &job->reading[a], *rb = &job->reading[b];
    int instrument = text_order(ra->instrument, rb->instrument);
    return instrument != 0 ? instrument < 0 : mf_reading_order(ra, a, rb, b) <= 0;
}

/* Merges from[low..mid) and from[mid..high) into to. Halves that are in order
 * already, as exports mostly are, cost one comparison. */
static void merge(const mf_job *job, const uint16_t *from, uint16_t *to, size_t low, size_t mid,
                  size_t high)
{
    size_t left = low, right = mid;
    bool whole = mid >= high || in_order(job, from[mid - 1], from[mid]);
    for (size_t i = low; i < high; i++) {
        bool take_left =
            left < mid && (whole || right >= high || in_order(job, from[left], from[right]));
        to[i] = take_left ? from[left++] : from[right++];
    }
}

static void sort(mf_reading_index *index, size_t n)
{
    const mf_job *job = index->job;
    uint16_t *from = index->sorted, *to = index->next_of; /* next_of is filled later */
    for (size_t i = 0; i < n; i++)
        from[i] = small(i);
    for (size_t run = 1; run < n; run *= 2) {
        for (size_t low = 0; low < n; low += 2 * run) {
            size_t mid = low + run < n ? low + run : n;
            size_t high = low + 2 * run < n ? low + 2 * run : n;
            merge(job, from, to, low, mid, high);
        }
        uint16_t *other = from;
        from = to;
        to = other;
    }
    if (from != index->sorted)
        memcpy(index->sorted, from, n * sizeof *from);
    for (size_t i = 0; i < n; i++)
        index->rank[index->sorted[i]] = small(i);
}

static bool same_instrument(const mf_job *job, uint16_t a, uint16_t b)
{
    return text_order(job->reading[a].instrument, job->reading[b].instrument) == 0;
}

static bool timed_check(const mf_reading *reading)
{
    return reading->purpose == MF_READ_CALIBRATION && reading->on != MF_DAY_NONE &&
           reading->at_minute != MF_MINUTE_NONE;
}

/* One walk over the sorted readings, forward or back, leaves with each the last
 * calibration reading that was passed. */
static void tie(mf_reading_index *index, size_t n, bool forward)
{
    const mf_job *job = index->job;
    uint16_t *of = forward ? index->before : index->after;
    uint16_t last = MF_INDEX_NONE, previous = MF_INDEX_NONE;
    for (size_t i = 0; i < n; i++) {
        uint16_t at = index->sorted[forward ? i : n - 1 - i];
        if (previous != MF_INDEX_NONE && !same_instrument(job, previous, at))
            last = MF_INDEX_NONE;
        of[at] = last;
        if (timed_check(&job->reading[at]))
            last = at;
        previous = at;
    }
}

/* ---- by component ------------------------------------------------------------------ */

static size_t hash(const char *text)
{
    uint32_t h = 2166136261U; /* FNV-1a */
    for (; *text != '\0'; text++)
        h = (h ^ (unsigned char)*text) * 16777619U;
    return h ^ h >> 15;
}

/* The slot of an id: that of the component, or the free one it would take. */
static uint16_t *slot_of(mf_reading_index *index, const char *id)
{
    size_t at = hash(id);
    for (;; at++) {
        uint16_t *slot = &index->slot[at % MF_INDEX_SLOTS];
        if (*slot == MF_INDEX_NONE || mf_same(index->job->component[*slot].id, id))
            return slot;
    }
}

/* Components of one id share the chain of the first of them. */
static void chain(mf_reading_index *index)
{
    const mf_job *job = index->job;
    memset(index->slot, 0xFF, sizeof index->slot);
    for (size_t i = 0; i < job->n_component; i++) {
        uint16_t *slot = slot_of(index, mf_or_empty(job->component[i].id));
        index->first_of[i] = MF_INDEX_NONE;
        if (*slot == MF_INDEX_NONE)
            *slot = small(i);
    }
    for (size_t i = job->n_reading; i > 0; i--) { /* from the last, so chains run forward */
        uint16_t *slot = slot_of(index, mf_or_empty(job->reading[i - 1].component));
        index->next_of[i - 1] = MF_INDEX_NONE;
        if (*slot == MF_INDEX_NONE)
            continue;
        index->next_of[i - 1] = index->first_of[*slot];
        index->first_of[*slot] = small(i - 1);
    }
}

bool mf_index_readings(mf_reading_index *index, const mf_job *job)
{
    if (job->n_reading > MF_INDEX_READINGS || job->n_component > MF_INDEX_COMPONENTS)
        return false;
    index->job = job;
    memset(index->class_of, 0, job->n_reading);
    memset(index->enclosed, 0, job->n_reading);
    memset(index->check_at, 0xFF, sizeof index->check_at);
    memset(index->judged, 0, job->n_component);
    sort(index, job->n_reading);
    tie(index, job->n_reading, true);
    tie(index, job->n_reading, false);
    chain(index);
    return true;
}

/* ---- asking -------------------------------------------------------------------------- */

mf_reading_index *mf_index_of(const mf_job *job)
{
    mf_reading_index *index = job->index;
    bool own = index != NULL && index->job->reading == job->reading &&
               index->job->n_reading == job->n_reading && index->job->component == job->component &&
               index->job->n_component == job->n_component;
    return own ? index : NULL;
}

size_t mf_index_place(const mf_job *job, const mf_reading *reading)
{
    uintptr_t first = (uintptr_t)job->reading, at = (uintptr_t)reading;
    if (job->n_reading == 0 || at < first || (at - first) % sizeof *reading != 0)
        return SIZE_MAX;
    size_t i = (at - first) / sizeof *reading;
    return i < job->n_reading ? i : SIZE_MAX;
}

size_t mf_index_beside(const mf_reading_index *index, size_t at, int direction)
{
    size_t rank = index->rank[at];
    if (direction < 0 ? rank == 0 : rank + 1 >= index->job->n_reading)
        return SIZE_MAX;
    uint16_t other = index->sorted[direction < 0 ? rank - 1 : rank + 1];
    return same_instrument(index->job, small(at), other) ? other : SIZE_MAX;
}

size_t mf_index_calibration(const mf_reading_index *index, size_t at, int direction)
{
    return place(direction < 0 ? index->before[at] : index->after[at]);
}

size_t mf_index_first(mf_reading_index *index, const mf_component *component)
{
    uint16_t slot = *slot_of(index, mf_or_empty(component->id));
    return slot == MF_INDEX_NONE ? SIZE_MAX : place(index->first_of[slot]);
}

size_t mf_index_next(const mf_reading_index *index, size_t at)
{
    return place(index->next_of[at]);
}

mf_paint_finding *mf_index_finding(mf_reading_index *index, const mf_component *component,
                                   bool *known)
{
    const mf_job *job = index->job;
    uintptr_t first = (uintptr_t)job->component, at = (uintptr_t)component;
    size_t i = (at - first) / sizeof *component;
    if (at < first || (at - first) % sizeof *component != 0 || i >= job->n_component)
        return NULL;
    *known = index->judged[i] != 0;
    index->judged[i] = 1;
    return &index->finding[i];
}
