/* The readings of a job in order: sorted by instrument and time, each tied to the
 * calibration readings around it and to the next reading of its component. */
#include "core/reading_order.h"

#include "core/text.h"

enum { LEAST_SLOTS = 64 };

static uint32_t small(size_t n)
{
    return (uint32_t)n;
}

static size_t place(uint32_t at)
{
    return at == MF_ORDER_NONE ? SIZE_MAX : at;
}

/* ---- the room ---------------------------------------------------------------------- */

static bool special(const mf_reading *it)
{
    return it->purpose == MF_READ_SUBSTRATE || it->purpose == MF_READ_RETEST;
}

static size_t count_special(const mf_job *job)
{
    size_t n = 0;
    for (size_t i = 0; i < job->n_reading; i++)
        n += special(&job->reading[i]);
    return n;
}

/* A power of two, well over the components. */
static size_t slots_for(size_t components)
{
    size_t slots = LEAST_SLOTS;
    while (slots < components * 4)
        slots *= 2;
    return slots;
}

/* How long the lists are together. */
static size_t numbers(const mf_job *job, size_t n_special)
{
    return job->n_reading * 7 + n_special + job->n_component + slots_for(job->n_component);
}

size_t mf_readings_room(const mf_job *job)
{
    return sizeof(mf_reading_order) + numbers(job, count_special(job)) * sizeof(uint32_t);
}

static uint32_t *take(uint32_t **from, size_t n)
{
    uint32_t *list = *from;
    *from += n;
    return list;
}

static void lay_out(mf_reading_order *out, uint32_t *from)
{
    out->sorted = take(&from, out->n_reading);
    out->rank = take(&from, out->n_reading);
    out->before = take(&from, out->n_reading);
    out->after = take(&from, out->n_reading);
    out->own_before = take(&from, out->n_reading);
    out->own_after = take(&from, out->n_reading);
    out->next_of = take(&from, out->n_reading);
    out->special = take(&from, out->n_special);
    out->first_of = take(&from, out->n_component);
    out->slot = take(&from, out->n_slots);
}

/* ---- by instrument and time ------------------------------------------------------- */

/* Sorted and tied twice: within an instrument, and within an operator of one. */
typedef struct sorting {
    const mf_reading_order *order;
    bool own;
} sorting;

static int text_order(const char *a, const char *b)
{
    return a == b ? 0 : strcmp(mf_or_empty(a), mf_or_empty(b));
}

/* Readings of one group can be tied to each other. */
static int group_order(const sorting *by, uint32_t a, uint32_t b)
{
    const mf_reading *ra = &by->order->reading[a], *rb = &by->order->reading[b];
    int group = text_order(ra->instrument, rb->instrument);
    return group != 0 || !by->own ? group : text_order(ra->operator_id, rb->operator_id);
}

static bool in_order(const sorting *by, uint32_t a, uint32_t b)
{
    const mf_reading *reading = by->order->reading;
    int group = group_order(by, a, b);
    return group != 0 ? group < 0 : mf_reading_taken(&reading[a], a, &reading[b], b) <= 0;
}

/* Merges from[low..mid) and from[mid..high) into to. Halves that are in order
 * already, as exports mostly are, cost one comparison. */
static void merge(const sorting *by, const uint32_t *from, uint32_t *to, size_t low, size_t mid,
                  size_t high)
{
    size_t left = low, right = mid;
    bool whole = mid >= high || in_order(by, from[mid - 1], from[mid]);
    for (size_t i = low; i < high; i++) {
        bool take_left =
            left < mid && (whole || right >= high || in_order(by, from[left], from[right]));
        to[i] = take_left ? from[left++] : from[right++];
    }
}

static void sort(mf_reading_order *order, bool own)
{
    const sorting by = {order, own};
    size_t n = order->n_reading;
    uint32_t *from = order->sorted, *to = order->next_of; /* next_of is filled later */
    for (size_t i = 0; i < n; i++)
        from[i] = small(i);
    for (size_t run = 1; run < n; run *= 2) {
        for (size_t low = 0; low < n; low += 2 * run) {
            size_t mid = low + run < n ? low + run : n;
            size_t high = low + 2 * run < n ? low + 2 * run : n;
            merge(&by, from, to, low, mid, high);
        }
        uint32_t *other = from;
        from = to;
        to = other;
    }
    if (n > 0 && from != order->sorted)
        memcpy(order->sorted, from, n * sizeof *from);
}

/* One walk over the sorted readings, forward or back, leaves with each the last
 * calibration reading that was passed. */
static void tie(mf_reading_order *order, bool own, bool forward)
{
    const sorting by = {order, own};
    size_t n = order->n_reading;
    uint32_t *of = own       ? forward ? order->own_before : order->own_after
                   : forward ? order->before
                             : order->after;
    uint32_t last = MF_ORDER_NONE, previous = MF_ORDER_NONE;
    for (size_t i = 0; i < n; i++) {
        uint32_t at = order->sorted[forward ? i : n - 1 - i];
        if (previous != MF_ORDER_NONE && group_order(&by, previous, at) != 0)
            last = MF_ORDER_NONE;
        of[at] = last;
        if (mf_reading_timed_calibration(&order->reading[at]))
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
static uint32_t *slot_of(const mf_reading_order *order, const char *id)
{
    size_t at = hash(id);
    for (;; at++) {
        uint32_t *slot = &order->slot[at & (order->n_slots - 1)];
        if (*slot == MF_ORDER_NONE || mf_same(order->component[*slot].id, id))
            return slot;
    }
}

/* Components of one id share the chain of the last of them. */
static void chain(mf_reading_order *order)
{
    memset(order->slot, 0xFF, order->n_slots * sizeof *order->slot);
    for (size_t i = order->n_component; i > 0; i--) {
        uint32_t *slot = slot_of(order, mf_or_empty(order->component[i - 1].id));
        order->first_of[i - 1] = MF_ORDER_NONE;
        if (*slot == MF_ORDER_NONE)
            *slot = small(i - 1);
    }
    for (size_t i = order->n_reading; i > 0; i--) { /* from the last, so chains run forward */
        uint32_t *slot = slot_of(order, mf_or_empty(order->reading[i - 1].component));
        uint32_t *first = *slot == MF_ORDER_NONE ? &order->first_other : &order->first_of[*slot];
        order->next_of[i - 1] = *first;
        *first = small(i - 1);
    }
}

void mf_order_make(mf_reading_order *out, const mf_job *job, void *room)
{
    size_t n = 0;
    *out = (mf_reading_order){.reading = job->reading,
                              .component = job->component,
                              .n_reading = job->n_reading,
                              .n_component = job->n_component,
                              .first_other = MF_ORDER_NONE,
                              .n_special = count_special(job),
                              .n_slots = slots_for(job->n_component)};
    lay_out(out, room);
    for (size_t i = 0; i < job->n_reading; i++)
        if (special(&job->reading[i]))
            out->special[n++] = small(i);
    for (int own = 1; own >= 0; own--) { /* what stays in sorted goes by instrument alone */
        sort(out, own == 1);
        tie(out, own == 1, true);
        tie(out, own == 1, false);
    }
    for (size_t i = 0; i < job->n_reading; i++)
        out->rank[out->sorted[i]] = small(i);
    chain(out);
}

void mf_readings_order(mf_job *job, void *room)
{
    mf_reading_order *order = room;
    job->order = NULL;
    if (job->n_reading >= MF_ORDER_NONE || job->n_component >= MF_ORDER_NONE)
        return;
    mf_order_make(order, job, order + 1);
    job->order = order;
}

/* ---- asking -------------------------------------------------------------------------- */

const mf_reading_order *mf_order_of(const mf_job *job)
{
    const mf_reading_order *order = job->order;
    bool own = order != NULL && order->reading == job->reading &&
               order->n_reading == job->n_reading && order->component == job->component &&
               order->n_component == job->n_component;
    return own ? order : NULL;
}

size_t mf_reading_place(const mf_job *job, const mf_reading *reading)
{
    uintptr_t first = (uintptr_t)job->reading, at = (uintptr_t)reading;
    if (job->n_reading == 0 || at < first || (at - first) % sizeof *reading != 0)
        return SIZE_MAX;
    size_t i = (at - first) / sizeof *reading;
    return i < job->n_reading ? i : SIZE_MAX;
}

size_t mf_order_beside(const mf_reading_order *order, size_t at, int direction)
{
    size_t rank = order->rank[at];
    if (direction < 0 ? rank == 0 : rank + 1 >= order->n_reading)
        return SIZE_MAX;
    uint32_t other = order->sorted[direction < 0 ? rank - 1 : rank + 1];
    const sorting by = {order, false};
    return group_order(&by, small(at), other) == 0 ? other : SIZE_MAX;
}

size_t mf_order_calibration(const mf_reading_order *order, size_t at, int direction, bool own)
{
    if (own)
        return place(direction < 0 ? order->own_before[at] : order->own_after[at]);
    return place(direction < 0 ? order->before[at] : order->after[at]);
}

size_t mf_order_component(const mf_reading_order *order, const char *id)
{
    return place(*slot_of(order, mf_or_empty(id)));
}

/* The first of this component from a place on: of the chain, or of all. */
static size_t reading_from(const mf_job *job, const char *component, size_t from)
{
    const mf_reading_order *order = mf_order_of(job);
    while (from < job->n_reading && !mf_same(job->reading[from].component, component))
        from = order != NULL ? place(order->next_of[from]) : from + 1;
    return from < job->n_reading ? from : SIZE_MAX;
}

size_t mf_reading_first(const mf_job *job, const char *component)
{
    const mf_reading_order *order = mf_order_of(job);
    if (order == NULL)
        return reading_from(job, component, 0);
    size_t at = mf_order_component(order, component);
    return reading_from(job, component,
                        place(at == SIZE_MAX ? order->first_other : order->first_of[at]));
}

size_t mf_reading_next(const mf_job *job, const char *component, size_t at)
{
    const mf_reading_order *order = mf_order_of(job);
    return reading_from(job, component, order != NULL ? place(order->next_of[at]) : at + 1);
}

const mf_reading *mf_reading_special(const mf_job *job, size_t *from)
{
    const mf_reading_order *order = mf_order_of(job);
    size_t end = order == NULL ? job->n_reading : order->n_special, at = *from;
    if (at >= end)
        return NULL;
    *from = at + 1;
    return &job->reading[order == NULL ? at : order->special[at]];
}
