/* Testing combinations, and what the tested walls say of the untested ones. */
#include <mistfold/schedule.h>

#include "core/text.h"

enum { WALLS = 4 /* TC13, TC16: the four largest, or each side of the house */ };

static bool same_combination(const mf_job *job, const mf_component *a, const mf_component *b)
{
    return a->type == b->type && a->substrate == b->substrate && a->side == b->side &&
           mf_same(mf_place_of(job, a), mf_place_of(job, b));
}

static bool seen_before(const mf_job *job, size_t at)
{
    for (size_t i = 0; i < at; i++)
        if (same_combination(job, &job->component[i], &job->component[at]))
            return true;
    return false;
}

static bool reads(const mf_reading *it, const mf_component *component)
{
    return it->purpose == MF_READ_PAINT && mf_same(it->component, component->id);
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

/* The mean of the tested walls, as the instrument would have shown it, classified
 * as a reading of the first of them. */
static void weigh_walls(const mf_job *job, mf_combination *out)
{
    int64_t sum = 0, step = 100;
    const mf_reading *like = NULL;
    for (size_t i = 0; i < job->n_reading; i++) {
        const mf_reading *it = &job->reading[i];
        const mf_component *wall = mf_job_component(job, it->component);
        if (wall == NULL || it->purpose != MF_READ_PAINT ||
            !same_combination(job, wall, out->first))
            continue;
        like = like == NULL ? it : like;
        sum += it->loading_ug_cm2;
        step = step_shown(step, it->loading_ug_cm2);
    }
    if (like == NULL || out->saturated > 0)
        return;
    mf_reading mean = *like;
    mean.loading_ug_cm2 = to_step(sum, out->readings, step);
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
        for (size_t i = 0; i < job->n_reading; i++)
            if (reads(&job->reading[i], it))
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
