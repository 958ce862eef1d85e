/* What makes this house and this job particular: stricter limits of its places,
 * children's visits, the owner's records, an emergency, other jobs of the same
 * rooms, occupants of assisted housing. Each is drawn only where there is one. */
#include "paper/record.h"

#include <mistfold/assisted.h>
#include <mistfold/place.h>

/* ---- stricter limits ------------------------------------------------------------- */

static const char *span_words(mf_rec *rec, mf_day from, mf_day until)
{
    if (from == MF_DAY_NONE && until == MF_DAY_NONE)
        return mf_phrase(rec, "always");
    if (until == MF_DAY_NONE)
        return mf_fill(rec, "in-force-from", mf_day_words(rec, from), NULL, NULL);
    if (from == MF_DAY_NONE)
        return mf_fill(rec, "until", mf_day_words(rec, until), NULL, NULL);
    return mf_fill(rec, "from-to", mf_day_words(rec, from), mf_day_words(rec, until), NULL);
}

static void limit_row(mf_rec *rec, mf_table *table, const mf_local_limit *local)
{
    const mf_limit *row = &local->row;
    const mf_limit *federal = mf_limit_on(row->id, rec->house.start);
    mf_cell status = mf_small(mf_enum(rec, MF_FAM_FACT, (int)row->status));
    status.mark = row->status == MF_VERIFIED ? MF_MARK_NONE : MF_MARK_WARN;
    mf_cell value = mf_bold(
        mf_print(rec, "%s %s", mf_cmp_text(row->cmp), mf_number_words(rec, row->value, row->unit)));
    if (federal != NULL)
        value.below = mf_below(
            rec, mf_small(mf_fill(rec, "federal-is",
                                  mf_print(rec, "%s %s", mf_cmp_text(federal->cmp),
                                           mf_number_words(rec, federal->value, federal->unit)),
                                  NULL, NULL)));
    mf_cell name = mf_plain(mf_phrase(rec, mf_print(rec, "limit.%s", row->name)));
    name.below = mf_below(rec, mf_small(row->note));
    const mf_cell cells[6] = {mf_traced(rec, mf_bold(row->place), &local->src),
                              name,
                              value,
                              mf_plain(span_words(rec, row->from, row->until)),
                              mf_small(row->citation),
                              status};
    mf_table_row(table, cells);
}

static size_t limits_that_hold(const mf_job *job)
{
    size_t n = 0;
    for (size_t i = 0; i < job->n_local_limit; i++)
        n += mf_local_limit_holds(job, &job->local_limit[i]);
    return n;
}

static void local_limits(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.place", 12, false},    {"col.limit", 30, false},
                                  {"col.value", 16, false},    {"col.in-force", 13, false},
                                  {"col.citation", 18, false}, {"col.fact", 11, false}};
    const mf_job *job = rec->job;
    if (limits_that_hold(job) == 0)
        return;
    mf_subhead(rec, "local-limits");
    mf_table table = mf_table_of(rec, cols, 6);
    for (size_t i = 0; i < job->n_local_limit; i++)
        if (mf_local_limit_holds(job, &job->local_limit[i]))
            limit_row(rec, &table, &job->local_limit[i]);
    mf_table_end(&table);
}

/* ---- visits of children ------------------------------------------------------------ */

static void visit_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_visit *it = &rec->job->visit[i];
    const mf_cell cells[5] = {mf_traced(rec, mf_bold(it->child), &it->src),
                              mf_plain(mf_day_words(rec, it->born)),
                              mf_plain(mf_day_words(rec, it->on)),
                              mf_plain(mf_number_words(rec, it->minutes, MF_UNIT_MINUTES)),
                              mf_plain(mf_day_words(rec, it->weekly_until))};
    mf_table_row(table, cells);
}

static void visits(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.child", 30, false},
                                  {"col.born", 16, false},
                                  {"col.day", 16, false},
                                  {"col.minutes", 16, true},
                                  {"col.weekly-until", 22, false}};
    mf_facility_answer found;
    if (rec->job->n_visit == 0)
        return;
    mf_facility_judge(rec->job, &found);
    mf_subhead(rec, "visits");
    mf_page_heading(&rec->page, MF_ST_BODY,
                    mf_phrase(rec, found.reached ? "visits-facility" : "visits-none"));
    if (*rec->house.visits_all_by != '\0')
        mf_page_text(&rec->page, MF_ST_BODY,
                     mf_fill(rec, "visits-all", rec->house.visits_all_by, NULL, NULL));
    mf_rows(rec, cols, 5, rec->job->n_visit, visit_row, NULL);
}

/* ---- the owner's records, other jobs -------------------------------------------------- */

static void owner_record_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_owner_record *it = &rec->job->owner_record[i];
    bool whole = mf_owner_record_whole(rec->job, it);
    mf_cell who = mf_plain(it->assessor);
    who.below = mf_below(rec, mf_small(mf_join(rec, it->number, ", ", it->issuer)));
    const mf_cell cells[5] = {
        mf_traced(rec, mf_bold(it->report), &it->src), who, mf_plain(mf_day_words(rec, it->on)),
        mf_plain(*it->components == '\0' ? mf_phrase(rec, "all-components") : it->components),
        mf_marked(whole ? MF_MARK_TICK : MF_MARK_CROSS,
                  mf_phrase(rec, whole ? "record-whole" : "record-not-whole"))};
    mf_table_row(table, cells);
}

static void owner_records(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.report", 26, false},
                                  {"col.assessor", 28, false},
                                  {"col.day", 11, false},
                                  {"col.component", 17, false},
                                  {"col.judged", 18, false}};
    if (rec->job->n_owner_record == 0)
        return;
    mf_subhead(rec, "owner-records");
    mf_rows(rec, cols, 5, rec->job->n_owner_record, owner_record_row, NULL);
}

static void earlier_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_earlier *it = &rec->job->earlier[i];
    const char *room = it->side == MF_SIDE_EXTERIOR
                           ? mf_enum(rec, MF_FAM_SIDE, (int)MF_SIDE_EXTERIOR)
                           : mf_stated(rec, it->room);
    const char *area = it->disturbed_sqft_100 == MF_NUM_NONE
                           ? mf_phrase(rec, "not-given")
                           : mf_number_words(rec, it->disturbed_sqft_100, MF_UNIT_SQFT_100);
    const mf_cell cells[4] = {mf_traced(rec, mf_bold(it->job), &it->src),
                              mf_plain(mf_day_words(rec, it->on)), mf_plain(room), mf_plain(area)};
    mf_table_row(table, cells);
}

static void other_jobs(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.job", 30, false},
                                  {"col.day", 20, false},
                                  {"col.room", 30, false},
                                  {"col.disturbed", 20, true}};
    if (rec->job->n_earlier == 0)
        return;
    mf_subhead(rec, "other-jobs");
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "other-jobs-note"));
    mf_rows(rec, cols, 4, rec->job->n_earlier, earlier_row, NULL);
}

/* ---- emergency, assisted housing --------------------------------------------------------- */

static void emergency(mf_rec *rec)
{
    static const char *const labels[] = {"nature", "emergency-day", "cause", "waived",
                                         "why-waived"};
    if (rec->job->n_emergency == 0)
        return;
    const mf_emergency *it = &rec->job->emergency[rec->job->n_emergency - 1];
    const char *cause = it->cause == MF_CAUSE_BLOOD_LEAD ? "cause.blood-lead" : "cause.sudden";
    const char *values[5] = {it->nature, mf_day_words(rec, it->on), mf_phrase(rec, cause),
                             *it->waived == '\0' ? mf_phrase(rec, "waived-nothing")
                                                 : mf_tokens_words(rec, "waive", it->waived),
                             mf_stated(rec, it->reason)};
    mf_subhead(rec, "emergency-head");
    mf_pairs(rec, labels, values, 5);
    mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "emergency-note"));
}

static const char *stay_words(const mf_rec *rec, mf_stay stay)
{
    static const char *const ids[] = {"stay.relocated", "stay.no-hazard", "stay.exterior",
                                      "stay.one-day", "stay.few-days"};
    return mf_phrase(rec, ids[stay]);
}

static void assisted(mf_rec *rec)
{
    static const char *const labels[] = {"de-minimis", "occupants", "kept-out", "stay-days"};
    mf_assisted_answer found;
    if (rec->house.assisted != MF_YES)
        return;
    mf_assisted_judge(rec->job, &found);
    const mf_occupancy *it =
        rec->job->n_occupancy == 0 ? NULL : &rec->job->occupancy[rec->job->n_occupancy - 1];
    const char *scope = found.over            ? "de-minimis-over"
                        : found.limit == NULL ? "de-minimis-none"
                                              : "de-minimis-under";
    const char *values[4] = {
        mf_phrase(rec, found.holds ? scope : "part-35-exempt"),
        it == NULL ? mf_phrase(rec, "not-given") : stay_words(rec, it->stay),
        it == NULL ? mf_phrase(rec, "not-given") : mf_tri_words(rec, it->kept_out),
        it == NULL
            ? mf_phrase(rec, "not-given")
            : mf_join(rec, mf_day_words(rec, it->from), " - ", mf_day_words(rec, it->until))};
    mf_subhead(rec, "assisted-head");
    mf_pairs(rec, labels, values, 4);
}

void mf_record_places(mf_rec *rec)
{
    local_limits(rec);
    visits(rec);
    owner_records(rec);
    other_jobs(rec);
    emergency(rec);
    assisted(rec);
}
