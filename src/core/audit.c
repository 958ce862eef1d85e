/* The walker: every requirement, asked of every subject it has. */
#include "core/audit_rows.h"

#include "core/area_off.h"
#include "core/area_openings.h"
#include "core/begins.h"
#include "core/reading_index.h"
#include "core/text.h"
#include "core/versions.h"
#include "core/when.h"
#include "core/worked.h"
#include <mistfold/stage.h>

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

/* Where two devices logged another day each, it is due on the earlier one and kept until the
 * later one. The same where something was done after the day of completion: until somebody says
 * which day is right, the day as logged binds for what is owed (745.86(c)(1) has the earlier of
 * two days), and records are kept from the day on which the work was done. */
void mf_due_dates(const mf_job *job, mf_due *out)
{
    *out = (mf_due){MF_DAY_NONE, MF_DAY_NONE};
    for (size_t i = 0; i < job->n_completion; i++) {
        mf_day on = job->completion[i].on, done = mf_later(on, mf_shown_last(job));
        const mf_limit *days = mf_limit_for(job, MF_LIMIT_HANDOVER_DAYS, on);
        const mf_limit *years = mf_limit_for(job, MF_LIMIT_RETENTION_YEARS, done);
        if (on == MF_DAY_NONE)
            continue;
        out->handover = mf_earlier_of(out->handover, on + (days == NULL ? 0 : (mf_day)days->value));
        out->keep_until = mf_later(out->keep_until,
                                   mf_day_add_years(done, years == NULL ? 0 : (int)years->value));
    }
    for (size_t i = 0; i < job->n_invoice; i++)
        out->handover = mf_earlier_of(out->handover, job->invoice[i].on);
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
                                  .called_off = MF_DAY_NONE,
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

static void prepare(const mf_audit_ask *ask, const mf_job *job, mf_asked *out)
{
    *out = (mf_asked){.job = job, .area = mf_or_empty(ask->area), .today = ask->today};
    out->house = job->n_house == 0 ? &no_house : &job->house[0];
    out->start = out->house->start == MF_DAY_NONE ? ask->today : out->house->start;
    out->completed = mf_completed_on(job);
    out->begins = beginning(out);
    out->begins_common = mf_begins_in_common(out);
    out->shown = mf_shown_last(job);
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
    mf_seen_fn *seen; /* is shown each of them; NULL = nobody is */
    void *data;
} findings;

static mf_finding blank(const mf_audit_row *row, const char *subject, const char *evidence)
{
    mf_finding out = mf_finding_blank();
    out.requirement = &row->requirement;
    out.subject = subject;
    out.evidence = evidence;
    return out;
}

static void add(findings *all, const mf_finding *finding)
{
    if (all->count < all->cap)
        all->out[all->count] = *finding;
    all->count++;
    if (all->seen != NULL)
        all->seen(finding, all->data);
}

/* Whether what is asked of one area before demo is asked of the other as well. */
static bool demo_beyond(const mf_asked *asked, const mf_subject *subject)
{
    unsigned gates = subject->row->requirement.gates;
    return (gates & 1u << MF_GATE_DEMO) != 0 && (gates & 1u << MF_GATE_SIGNS) == 0 &&
           mf_open_into_each_other(asked->job, asked->area, subject->in_area);
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
           mf_same(asked->area, subject->in_area) || demo_beyond(asked, subject);
}

/* The question as each version of the job has it, one that the rule covers first. */
typedef struct versions {
    mf_asked asked[MF_VERSIONS];
    size_t n;
} versions;

static int badness(mf_verdict verdict)
{
    static const int of[MF_VERDICT_COUNT] = {[MF_NOT_DUE] = 0, [MF_MET] = 1,     [MF_WARNING] = 2,
                                             [MF_PENDING] = 3, [MF_NOT_NOW] = 4, [MF_LACKING] = 5};
    return of[verdict];
}

/* By the firm itself: 745.86(c)(3) speaks of the records of its kits, (b)(1)(iii) of chips. */
static bool tested(const mf_job *job)
{
    return job->n_kit_test > 0 || job->n_chip > 0;
}

bool mf_records_owed(const mf_asked *asked)
{
    return asked->cover.cover == MF_COVER_YES ||
           (asked->cover.why == MF_COVER_ALL_FREE && tested(asked->job));
}

static bool holds(const mf_asked *asked, const mf_audit_row *row)
{
    return asked->cover.cover == MF_COVER_YES || row->holds >= MF_HOLDS_ALWAYS ||
           (row->holds == MF_HOLDS_FREE && mf_records_owed(asked));
}

static const mf_job *job_of(const mf_asked *asked, const mf_audit_row *row)
{
    return row->each == MF_EACH_AGAIN ? asked->whole : asked->job;
}

/* Of a work area in which nothing is to be done any more nothing is asked but that, and in which
 * unit it lies, as of its occupants something was told. */
static bool given_up(const mf_asked *asked, const mf_audit_row *row, const mf_subject *subject)
{
    bool of_area =
        row->each == MF_EACH_AREA || row->each == MF_EACH_SURFACE || row->each == MF_EACH_PRACTICE;
    bool all_the_same = row->applies == mf_if_area_off || row->applies == mf_if_area_in_units;
    return of_area && !all_the_same && mf_area_off(asked->whole, subject->in_area, asked->today);
}

/* What one version says of the i-th subject, or why nothing. */
static const char *find(const mf_asked *asked, const mf_audit_row *row, size_t i, mf_finding *out)
{
    mf_subject subject;
    if (!holds(asked, row))
        return "not-covered";
    if (asked->off && row->holds != MF_HOLDS_FILE)
        return "job-called-off";
    mf_each_subject(job_of(asked, row), row, i, &subject);
    if (!asked_for(asked, &subject))
        return "nothing-to-ask";
    if (given_up(asked, row, &subject))
        return "area-called-off";
    const char *not_because = row->applies(asked, &subject);
    if (not_because != NULL)
        /* cppcheck-suppress returnDanglingLifetime ; a name of the words, no part of the subject */
        return not_because;
    *out = blank(row, subject.id, subject.evidence);
    out->in_unit = mf_or_empty(subject.unit);
    row->shown(asked, &subject, out);
    if (out->verdict == MF_LACKING)
        mf_excuse(asked, row, &subject, out);
    return NULL;
}

/* Of each subject the worst that a version says; *why becomes the last reason why nothing. */
static void walk_subjects(const versions *all_of, const mf_audit_row *row, findings *all,
                          const char **why)
{
    size_t n = mf_each_count(job_of(&all_of->asked[0], row), row->each);
    for (size_t i = 0; i < n; i++) {
        mf_finding worst = blank(row, "", ""), it;
        bool any = false;
        for (size_t v = 0; v < all_of->n; v++) {
            const char *not_because = find(&all_of->asked[v], row, i, &it);
            bool worse = !any || badness(it.verdict) > badness(worst.verdict);
            if (not_because == NULL && worse)
                worst = it;
            any = any || not_because == NULL;
            if (not_because != NULL && strcmp(not_because, "nothing-to-ask") != 0)
                *why = not_because;
        }
        if (any)
            add(all, &worst);
    }
}

static void walk_row(const versions *all_of, const mf_audit_row *row, findings *all)
{
    mf_finding none = blank(row, "", "");
    size_t before = all->count;
    bool held = false;
    for (size_t v = 0; v < all_of->n && !held; v++)
        held = holds(&all_of->asked[v], row);
    if (held)
        walk_subjects(all_of, row, all, &none.why);
    else
        none.why = "not-covered";
    if (all->count == before)
        add(all, &none);
}

/* Paint is judged once for a question; where there are several versions, once for the first,
 * as limits go by the house. */
static void prepare_all(const mf_audit_ask *ask, mf_job *jobs, size_t total, versions *out)
{
    const bool off = mf_off_before_work(ask->job, ask->today);
    out->n = total < MF_VERSIONS ? total : MF_VERSIONS;
    for (size_t v = 0; v < out->n; v++) {
        if (v > 0)
            jobs[v].index = NULL;
        prepare(ask, &jobs[v], &out->asked[v]);
        out->asked[v].whole = ask->job;
        out->asked[v].too_many = total > MF_VERSIONS;
        out->asked[v].off = off;
        if (out->asked[v].cover.cover == MF_COVER_YES &&
            out->asked[0].cover.cover != MF_COVER_YES) {
            mf_asked covered = out->asked[v];
            out->asked[v] = out->asked[0];
            out->asked[0] = covered;
        }
    }
}

static void walk(const mf_audit_ask *ask, findings *all)
{
    size_t n_rows;
    const mf_audit_row *rows = mf_audit_rows(&n_rows);
    versions all_of;
    mf_reading_index index;
    mf_reading_order order;
    uint32_t room[MF_INDEX_ROOM / sizeof(uint32_t)];
    mf_job job = *ask->job, jobs[MF_VERSIONS];
    mf_index_begin(&index, &job);
    job.index = &index;
    if (mf_order_of(&job) == NULL && index.keeps_readings && index.keeps_components) {
        mf_order_make(&order, &job, room);
        job.order = &order;
    }
    prepare_all(ask, jobs, mf_versions_of(&job, jobs), &all_of);
    for (size_t i = 0; i < n_rows; i++) {
        if (ask->gates == 0 || (rows[i].requirement.gates & ask->gates) != 0)
            walk_row(&all_of, &rows[i], all);
    }
}

size_t mf_audit(const mf_audit_ask *ask, mf_finding *out, size_t cap)
{
    findings all = {out, cap, 0, NULL, NULL};
    walk(ask, &all);
    return all.count;
}

void mf_audit_each(const mf_audit_ask *ask, mf_seen_fn *seen, void *data)
{
    findings all = {NULL, 0, 0, seen, data};
    walk(ask, &all);
}

/* ---- what it comes to ------------------------------------------------------------------ */

const char *mf_verdict_name(mf_verdict verdict)
{
    static const char *const names[MF_VERDICT_COUNT] = {"met",     "lacking", "warning",
                                                        "not-due", "pending", "not-now"};
    return (size_t)verdict < MF_VERDICT_COUNT ? names[verdict] : "";
}

bool mf_verdict_asks(mf_verdict verdict)
{
    return verdict == MF_LACKING || verdict == MF_PENDING || verdict == MF_NOT_NOW;
}

const char *mf_answer_name(mf_answer answer)
{
    return answer == MF_ANSWER_YES ? "yes" : answer == MF_ANSWER_NOT_YET ? "not-yet" : "no";
}

static mf_answer answer_of(mf_verdict verdict, unsigned gates)
{
    if (verdict == MF_LACKING)
        return MF_ANSWER_NO;
    if (verdict == MF_NOT_NOW && gates != 0)
        return MF_ANSWER_NOT_NOW;
    return verdict == MF_PENDING ? MF_ANSWER_NOT_YET : MF_ANSWER_YES;
}

mf_answer mf_audit_answer(const mf_finding *list, size_t count, unsigned gates)
{
    mf_answer worst = MF_ANSWER_YES;
    for (size_t i = 0; i < count; i++) {
        mf_answer answer = answer_of(list[i].verdict, gates);
        worst = answer < worst ? answer : worst;
    }
    return worst;
}

typedef struct opening {
    unsigned gates;
    mf_answer worst;
    size_t lacking;
} opening;

static void weigh(const mf_finding *finding, void *data)
{
    opening *it = data;
    mf_answer answer = answer_of(finding->verdict, it->gates);
    it->worst = answer < it->worst ? answer : it->worst;
    it->lacking += finding->verdict == MF_LACKING;
}

bool mf_gate_open(const mf_audit_ask *ask, size_t *lacking)
{
    opening it = {ask->gates, MF_ANSWER_YES, 0};
    mf_audit_each(ask, weigh, &it);
    if (lacking != NULL)
        *lacking = it.lacking;
    return it.worst == MF_ANSWER_YES;
}

mf_day mf_audit_due(const mf_finding *list, size_t count)
{
    mf_day due = MF_DAY_NONE;
    for (size_t i = 0; i < count; i++) {
        if (list[i].verdict == MF_PENDING && list[i].d2 != MF_DAY_NONE &&
            (due == MF_DAY_NONE || list[i].d2 < due))
            due = list[i].d2;
    }
    return due;
}
