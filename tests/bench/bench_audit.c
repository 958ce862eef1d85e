/* How long one question takes: the audit of a constructed job with 2,000 readings, and
 * of the same job with 32,000, in the order that a job from the book has.
 *   make bench
 * Prints microseconds a call (the best of several rounds, as other programs share
 * the machine) and fails over the bound, when one is given as the argument. */
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <mistfold/paint.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { N_READINGS = 2000, N_MANY = 32000, N_OPENINGS = 40, N_PARTS = 8, A_DAY = 480, CHECK = 3 };
enum { N_COMPONENTS = N_OPENINGS * N_PARTS, MAX_FINDINGS = 4000, ROUNDS = 40 };

typedef struct big_job {
    fixture fx;
    mf_reading reading[N_MANY];
    mf_opening opening[N_OPENINGS];
    mf_component component[N_COMPONENTS];
    char opening_id[N_OPENINGS][8];
    char component_id[N_COMPONENTS][16];
    char openings[N_OPENINGS * 8];
} big_job;

static big_job big;
static mf_finding found[MAX_FINDINGS];

static double now_us(void)
{
    struct timespec t;
    if (clock_gettime(CLOCK_MONOTONIC, &t) != 0)
        abort();
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec / 1e3;
}

/* Three readings on the film at both ends of each run of 240 minutes. */
static bool on_film(int i)
{
    return i % (A_DAY / 2) < CHECK || i % (A_DAY / 2) >= A_DAY / 2 - CHECK;
}

static void fill_readings(int n)
{
    for (int i = 0; i < n; i++) {
        mf_reading *it = &big.reading[i];
        *it = big.fx.reading[0];
        it->number = i + 1;
        it->on = fx_day("2026-08-10") + i / A_DAY;
        it->at_minute = 480 + i % A_DAY;
        bool film = on_film(i) || i >= n - CHECK;
        it->purpose = film ? MF_READ_CALIBRATION : MF_READ_PAINT;
        it->component = film ? "" : big.component_id[i % N_COMPONENTS];
        it->loading_ug_cm2 = film ? 1000 : i % 7 == 0 ? 2500 : 200;
    }
}

static void fill(void)
{
    fx_good(&big.fx);
    size_t at = 0;
    for (int o = 0; o < N_OPENINGS; o++) {
        snprintf(big.opening_id[o], sizeof big.opening_id[o], "W%02d", o + 1);
        big.opening[o] = big.fx.opening[0];
        big.opening[o].id = big.opening_id[o];
        at += (size_t)snprintf(big.openings + at, sizeof big.openings - at, "%s%s",
                               o == 0 ? "" : ",", big.opening_id[o]);
        for (int p = 0; p < N_PARTS; p++) {
            int c = o * N_PARTS + p;
            snprintf(big.component_id[c], sizeof big.component_id[c], "W%02d.part%d", o + 1, p);
            big.component[c] = big.fx.component[0];
            big.component[c].id = big.component_id[c];
            big.component[c].opening = big.opening_id[o];
        }
    }
    fill_readings(N_READINGS);
    big.fx.area[0].openings = big.openings;
    mf_job *job = &big.fx.job;
    job->reading = big.reading;
    job->opening = big.opening;
    job->component = big.component;
    job->n_reading = N_READINGS;
    job->n_opening = N_OPENINGS;
    job->n_component = N_COMPONENTS;
}

static double best_of(const mf_audit_ask *question, size_t *n)
{
    double best = 1e12;
    for (int round = 0; round < ROUNDS; round++) {
        double from = now_us();
        *n = mf_audit(question, found, MAX_FINDINGS);
        double took = now_us() - from;
        if (took < best)
            best = took;
    }
    return best;
}

static void many(void)
{
    size_t n = 0;
    mf_job *job = &big.fx.job;
    fill_readings(N_MANY);
    job->n_reading = N_MANY;
    void *room = malloc(mf_readings_room(job));
    if (room == NULL)
        abort();
    double from = now_us();
    mf_readings_order(job, room);
    double order = now_us() - from;
    mf_audit_ask question = {job, fx_day(FX_TODAY), 0, ""};
    double took = best_of(&question, &n);
    printf("order     %8.0f us  %d readings\n", order, N_MANY);
    printf("many      %8.0f us  the audit of %d readings, %zu findings\n", took, N_MANY, n);
    free(room);
}

int main(int argc, char **argv)
{
    static const char *const names[] = {"rule", "demo", "signs", "handover", "inspection"};
    double bound = argc > 1 ? strtod(argv[1], NULL) : 0;
    size_t n = 0;
    fill();
    mf_audit_ask question = {&big.fx.job, fx_day(FX_TODAY), 0, ""};
    double whole = best_of(&question, &n);
    printf("audit     %8.0f us  %d readings, %d components, %zu findings\n", whole, N_READINGS,
           N_COMPONENTS, n);
    for (unsigned gate = 0; gate < MF_GATE_COUNT; gate++) {
        question.gates = 1u << gate;
        double took = best_of(&question, &n);
        printf("%-10s%8.0f us  %.2f of the audit\n", names[gate], took, took / whole);
    }
    many();
    if (bound > 0 && whole > bound) {
        printf("over the bound of %.0f us\n", bound);
        return 1;
    }
    return 0;
}
