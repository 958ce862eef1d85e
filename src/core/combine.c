/* Testing combinations, and what the tested walls say of the untested ones. */
#include <mistfold/schedule.h>

#include "core/reach.h"
#include "core/reading_order.h"
#include "core/text.h"

enum { WALLS = 4 /* TC13, TC16: the four largest, or each side of the house */ };

static bool same_combination(const mf_job *job, const mf_component *a, const mf_component *b)
{
    return a->type == b->type && a->substrate == b->substrate && a->side == b->side &&
           mf_same_room(mf_place_of(job, a), mf_place_of(job, b));
}

static bool seen_before(const mf_job *job, size_t at)
{
    for (size_t i = 0; i < at; i++)
        if (same_combination(job, &job->component[i], &job->component[at]))
            return true;
    return false;
}

static void count_reading(const mf_job *job, const mf_reading *it, mf_combination *out)
{
    mf_paint_class found = mf_reading_class_in(job, it);
    out->readings++;
    out->positive += found == MF_CLASS_POSITIVE;
    out->negative += found == MF_CLASS_NEGATIVE;
    out->inconclusive += found == MF_CLASS_INCONCLUSIVE;
    out->saturated += it->qualifier != MF_QUAL_EXACT;
}

/* The finest step that all readings are multiples of: 0.1, 0.01 or 0.001. */
static int64_t step_shown(int64_t step, int64_t ug_cm2)
{
    while (step > 1 && ug_cm2 % step != 0)
        step /= 10;
    return step;
}

/* num / den to the nearest multiple of step, halves away from zero. */
static int64_t to_step(int64_t num, int64_t den, int64_t step)
{
    int64_t unit = den * step;
    int64_t half = num < 0 ? -(unit / 2) : unit / 2;
    return (num + half) / unit * step;
}

typedef struct readings {
    int64_t sum, step;
    bool usable;  /* each can be averaged */
    size_t first; /* in the order of entry; SIZE_MAX = none */
} readings;

static void add_readings(const mf_job *job, const mf_component *of, readings *all)
{
    for (size_t i = mf_reading_first(job, of->id); i != SIZE_MAX;
         i = mf_reading_next(job, of->id, i)) {
        const mf_reading *it = &job->reading[i];
        if (it->purpose != MF_READ_PAINT)
            continue;
        all->first = i < all->first ? i : all->first;
        all->usable = all->usable && mf_loading_usable(it->loading_ug_cm2);
        if (!all->usable)
            return;
        all->sum += it->loading_ug_cm2;
        all->step = step_shown(all->step, it->loading_ug_cm2);
    }
}

/* The mean of the tested walls, as the instrument would have shown it, classified
 * as a reading of the first of them. */
static void weigh_walls(const mf_job *job, mf_combination *out)
{
    readings all = {0, 100, true, SIZE_MAX};
    for (size_t c = 0; c < job->n_component; c++) {
        const mf_component *wall = &job->component[c];
        /* A reading is of the last wall that has its id. */
        if (same_combination(job, wall, out->first) && mf_job_component(job, wall->id) == wall)
            add_readings(job, wall, &all);
    }
    if (all.first == SIZE_MAX || out->saturated > 0 || !all.usable)
        return;
    mf_reading mean = job->reading[all.first];
    mean.loading_ug_cm2 = to_step(all.sum, out->readings, all.step);
    out->mean_ug_cm2 = mean.loading_ug_cm2;
    out->untested = mf_reading_class_in(job, &mean);
}

static void fill(const mf_job *job, const mf_component *first, mf_combination *out)
{
    *out = (mf_combination){.first = first,
                            .room = mf_place_of(job, first),
                            .mean_ug_cm2 = MF_NUM_NONE,
                            .untested = MF_CLASS_INCONCLUSIVE};
    for (size_t c = 0; c < job->n_component; c++) {
        const mf_component *it = &job->component[c];
        int before = out->readings;
        if (!same_combination(job, it, first))
            continue;
        out->components++;
        for (size_t i = mf_reading_first(job, it->id); i != SIZE_MAX;
             i = mf_reading_next(job, it->id, i))
            if (job->reading[i].purpose == MF_READ_PAINT)
                count_reading(job, &job->reading[i], out);
        out->tested += out->readings > before;
    }
    out->walls = first->type == MF_COMP_WALL && out->tested >= WALLS;
    out->agree =
        out->readings > 0 && (out->positive == out->readings || out->negative == out->readings);
    if (out->walls && out->agree)
        weigh_walls(job, out);
}

size_t mf_combinations(const mf_job *job, mf_combination *out, size_t cap)
{
    size_t count = 0;
    for (size_t i = 0; i < job->n_component; i++) {
        if (seen_before(job, i))
            continue;
        if (count < cap)
            fill(job, &job->component[i], &out[count]);
        count++;
    }
    return count;
}
