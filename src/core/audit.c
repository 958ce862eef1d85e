/* The walker: every requirement, asked of every subject it has. */
#include "core/audit_rows.h"

#include "core/reading_index.h"
#include "core/text.h"
#include "core/worked.h"

static const char *const gate_names[MF_GATE_COUNT] = {"rule", "demo", "signs", "handover",
                                                      "inspection"};

const char *mf_gate_name(mf_gate gate)
{
    return (size_t)gate < MF_GATE_COUNT ? gate_names[gate] : "";
}

mf_gate mf_gate_named(const char *name)
{
    size_t gate = 0;
    while (gate < MF_GATE_COUNT && !mf_same(gate_names[gate], name))
        gate++;
    return (mf_gate)gate;
}

/* ---- due dates ------------------------------------------------------------------- */

void mf_due_dates(const mf_job *job, mf_due *out)
{
    mf_day completed = mf_completed_on(job);
    *out = (mf_due){MF_DAY_NONE, MF_DAY_NONE};
    if (completed == MF_DAY_NONE)
        return;
    const mf_limit *days = mf_limit_for(job, MF_LIMIT_HANDOVER_DAYS, completed);
    const mf_limit *years = mf_limit_for(job, MF_LIMIT_RETENTION_YEARS, completed);
    out->handover = completed + (days == NULL ? 0 : (mf_day)days->value);
    out->keep_until = mf_day_add_years(completed, years == NULL ? 0 : (int)years->value);
    mf_day invoiced = job->n_invoice == 0 ? MF_DAY_NONE : job->invoice[job->n_invoice - 1].on;
    if (invoiced != MF_DAY_NONE && invoiced < out->handover)
        out->handover = invoiced;
}

/* ---- the question -------------------------------------------------------------------- */

/* Stands in for a job without its house, so that no predicate need ask. */
static const mf_house no_house = {.src = {"", "", "", ""},
                                  .id = "",
                                  .address = "",
                                  .unit = "",
                                  .year_built = MF_NUM_NONE,
                                  .building = MF_BUILDING_DWELLING,
                                  .work = "other",
                                  .description = "",
                                  .start = MF_DAY_NONE,
                                  .end = MF_DAY_NONE,
                                  .language = "",
                                  .note = ""};

/* Notices are counted to the day on which work really began. As long as nothing was
 * disturbed it cannot begin before today, whatever was planned. */
static mf_day beginning(const mf_asked *asked)
{
    mf_day worked = mf_worked_first(asked->job, "");
    if (worked != MF_DAY_NONE)
        return worked;
    bool over = asked->completed != MF_DAY_NONE || asked->job->n_verification > 0;
    return over || asked->today < asked->start ? asked->start : asked->today;
}

mf_day mf_later(mf_day a, mf_day b)
{
    return a > b ? a : b; /* MF_DAY_NONE lies before every day */
}

/* Before that day nobody can say in writing that all of it was done. */
static mf_day all_shown(const mf_job *job)
{
    mf_day last = mf_worked_last(job, "");
    for (size_t i = 0; i < job->n_verification; i++)
        last = mf_later(last, job->verification[i].on);
    for (size_t i = 0; i < job->n_dust_sample; i++)
        last = mf_later(last, job->dust_sample[i].on);
    return last;
}

static void prepare(const mf_audit_ask *ask, const mf_job *job, mf_asked *out)
{
    *out = (mf_asked){.job = job, .area = mf_or_empty(ask->area), .today = ask->today};
    out->house = job->n_house == 0 ? &no_house : &job->house[0];
    out->start = out->house->start == MF_DAY_NONE ? ask->today : out->house->start;
    out->completed = mf_completed_on(job);
    out->begins = beginning(out);
    out->shown = all_shown(job);
    bool over = out->completed != MF_DAY_NONE && out->completed < ask->today;
    out->last = over ? out->completed : ask->today;
    mf_facility_judge(job, &out->visits);
    mf_due_dates(job, &out->due);
    mf_cover_judge(job, &out->cover);
    mf_assisted_judge(job, &out->assisted);
}

/* ---- the walk --------------------------------------------------------------------------- */

typedef struct findings {
    mf_finding *out;
    size_t cap, count;
} findings;

static mf_finding blank(const mf_audit_row *row, const char *subject, const char *evidence)
{
    return (mf_finding){.requirement = &row->requirement,
                        .verdict = MF_NOT_DUE,
                        .why = "nothing-to-ask",
                        .subject = subject,
                        .evidence = evidence,
                        .in_unit = "",
                        .d1 = MF_DAY_NONE,
                        .d2 = MF_DAY_NONE,
                        .n1 = MF_NUM_NONE,
                        .n2 = MF_NUM_NONE,
                        .unit = MF_UNIT_COUNT};
}

static void add(findings *all, const mf_finding *finding)
{
    if (all->count < all->cap)
        all->out[all->count] = *finding;
    all->count++;
}

/* A row about parties is asked of its own role only; a subject that lies in a work
 * area is left out when another one is asked for. */
static bool asked_for(const mf_asked *asked, const mf_subject *subject)
{
    if (subject->row->each == MF_EACH_PARTY && subject->role != subject->row->role)
        return false;
    if (subject->nothing)
        return false;
    return !mf_given(asked->area) || !mf_given(subject->in_area) ||
           mf_same(asked->area, subject->in_area);
}

/* Every subject the row applies to; *why becomes the last reason why not. */
static void walk_subjects(const mf_asked *asked, const mf_audit_row *row, findings *all,
                          const char **why)
{
    size_t n = mf_each_count(asked->job, row->each);
    for (size_t i = 0; i < n; i++) {
        mf_subject subject;
        mf_each_subject(asked->job, row, i, &subject);
        if (!asked_for(asked, &subject))
            continue;
        const char *not_because = row->applies(asked, &subject);
        if (not_because != NULL) {
            *why = not_because;
            continue;
        }
        mf_finding finding = blank(row, subject.id, subject.evidence);
        finding.in_unit = mf_or_empty(subject.unit);
        row->shown(asked, &subject, &finding);
        if (finding.verdict == MF_LACKING)
            mf_excuse(asked, row, &finding);
        add(all, &finding);
    }
}

static void walk_row(const mf_asked *asked, const mf_audit_row *row, findings *all)
{
    mf_finding none = blank(row, "", "");
    size_t before = all->count;
    if (asked->cover.cover == MF_COVER_YES || row->always)
        walk_subjects(asked, row, all, &none.why);
    else
        none.why = "not-covered";
    if (all->count == before)
        add(all, &none);
}

size_t mf_audit(const mf_audit_ask *ask, mf_finding *out, size_t cap)
{
    size_t n_rows;
    const mf_audit_row *rows = mf_audit_rows(&n_rows);
    findings all = {out, cap, 0};
    mf_asked asked;
    mf_reading_index index;
    mf_reading_order order;
    uint32_t room[MF_INDEX_ROOM / sizeof(uint32_t)];
    mf_job job = *ask->job;
    mf_index_begin(&index, &job);
    job.index = &index;
    if (mf_order_of(&job) == NULL && index.keeps_readings && index.keeps_components) {
        mf_order_make(&order, &job, room);
        job.order = &order;
    }
    prepare(ask, &job, &asked);
    for (size_t i = 0; i < n_rows; i++) {
        if (ask->gates == 0 || (rows[i].requirement.gates & ask->gates) != 0)
            walk_row(&asked, &rows[i], &all);
    }
    return all.count;
}

bool mf_audit_yes(const mf_finding *list, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (list[i].verdict == MF_LACKING)
            return false;
    }
    return true;
}
