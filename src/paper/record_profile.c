/* The performance profile of the instruments, and the retest check with its steps. */
#include "paper/record.h"

#include <mistfold/retest.h>

static const char *range_words(mf_rec *rec, const mf_profile_row *row)
{
    if (row->low_ug_cm2 != MF_NUM_NONE && row->high_ug_cm2 != MF_NUM_NONE)
        return mf_fill(rec, "from-to", mf_loading_words(rec, row->low_ug_cm2, MF_QUAL_EXACT),
                       mf_loading_words(rec, row->high_ug_cm2, MF_QUAL_EXACT), NULL);
    if (row->threshold_ug_cm2 == MF_NUM_NONE)
        return mf_phrase(rec, "threshold-only");
    return mf_fill(rec, "threshold-at", mf_loading_words(rec, row->threshold_ug_cm2, MF_QUAL_EXACT),
                   NULL, NULL);
}

static mf_cell range_cell(mf_rec *rec, const mf_profile_row *row)
{
    static const char *const bounds[] = {"bounds-unknown", "bounds-outside", "bounds-inside"};
    mf_cell cell = mf_plain(range_words(rec, row));
    if (row->low_ug_cm2 != MF_NUM_NONE)
        cell.below = mf_below(rec, mf_small(mf_phrase(rec, bounds[row->bounds_inside])));
    return cell;
}

static const char *tolerance_words(mf_rec *rec, const mf_profile_row *row)
{
    if (row->cal_low_ug_cm2 == MF_NUM_NONE || row->cal_high_ug_cm2 == MF_NUM_NONE)
        return "";
    return mf_fill(rec, "from-to", mf_loading_words(rec, row->cal_low_ug_cm2, MF_QUAL_EXACT),
                   mf_loading_words(rec, row->cal_high_ug_cm2, MF_QUAL_EXACT), NULL);
}

static void profile_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_profile_row *row = &rec->job->profile_row[i];
    const mf_cell cells[6] = {
        mf_traced(rec, mf_bold(row->instrument), &row->src),
        mf_plain(
            mf_join(rec, mf_enum(rec, MF_FAM_SUBSTRATE, (int)row->substrate), ", ", row->mode)),
        range_cell(rec, row),
        mf_plain(mf_phrase(rec, row->correct == MF_YES ? "correct-yes" : "correct-no")),
        mf_plain(tolerance_words(rec, row)),
        mf_plain(row->edition)};
    mf_table_row(table, cells);
}

void mf_record_profile(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.serial", 14, false},       {"col.substrate", 16, false},
                                  {"col.inconclusive", 22, false}, {"col.correction", 12, false},
                                  {"col.tolerance", 14, false},    {"col.edition", 22, false}};
    if (rec->job->n_profile_row == 0)
        return;
    mf_subhead(rec, "profile");
    mf_rows(rec, cols, 6, rec->job->n_profile_row, profile_row, NULL);
}

/* ---- retest check ------------------------------------------------------------------- */

/* Given in 1e-9, cut after six places. */
static const char *nano(mf_rec *rec, int64_t value)
{
    char text[40];
    mf_words_nano(value, 6, text, sizeof text);
    return mf_print(rec, "%s", text);
}

static const char *steps_words(mf_rec *rec, const mf_retest *r)
{
    return mf_fill(rec, "retest-steps", nano(rec, r->c),
                   mf_print(rec, "%s, %s, %s", nano(rec, r->d), nano(rec, r->e), nano(rec, r->f)),
                   nano(rec, r->limit));
}

static void retest_table(mf_rec *rec, const mf_retest *r)
{
    static const mf_col cols[] = {
        {"col.component", 40, false}, {"col.reading", 20, true}, {"col.retest", 20, true}};
    mf_table table = mf_table_of(rec, cols, 3);
    for (int i = 0; i < r->n; i++) {
        const mf_reading *first = r->first[i], *again = r->again[i];
        const mf_cell cells[3] = {
            mf_bold(again->component),
            mf_plain(first == NULL
                         ? mf_phrase(rec, "not-given")
                         : mf_loading_words(rec, first->loading_ug_cm2, first->qualifier)),
            mf_plain(mf_loading_words(rec, again->loading_ug_cm2, again->qualifier))};
        mf_table_row(&table, cells);
    }
    mf_table_end(&table);
}

static void retest_round(mf_rec *rec, const mf_retest *r)
{
    static const char *const verdicts[] = {"retest-verdict0", "retest-verdict1", "retest-verdict2",
                                           "retest-verdict3", "retest-verdict4"};
    mf_page *page = &rec->page;
    mf_page_text(page, MF_ST_BOLD,
                 mf_fill(rec, "retest-head", r->instrument, mf_print(rec, "%d", r->round), NULL));
    retest_table(rec, r);
    if (r->verdict >= MF_RETEST_PASS) {
        mf_page_text(page, MF_ST_SMALL, steps_words(rec, r));
        mf_page_text(page, MF_ST_SMALL,
                     mf_fill(rec, "retest-means", nano(rec, r->mean_first),
                             nano(rec, r->mean_again), nano(rec, r->difference)));
    }
    mf_page_text(page, MF_ST_BODY, mf_phrase(rec, verdicts[r->verdict]));
    if (!r->k.from_profile)
        mf_page_text(page, MF_ST_SMALL, mf_phrase(rec, "retest-recalled"));
}

void mf_record_retests(mf_rec *rec)
{
    size_t n = mf_retests(rec->job, NULL, 0);
    mf_retest *rounds = n == 0 ? NULL : mf_arena_alloc(&rec->arena, n * sizeof *rounds);
    if (n == 0)
        return;
    if (rounds == NULL) {
        mf_page_no_memory(&rec->page);
        return;
    }
    n = mf_retests(rec->job, rounds, n);
    mf_subhead(rec, "retests");
    for (size_t i = 0; i < n; i++)
        retest_round(rec, &rounds[i]);
}
