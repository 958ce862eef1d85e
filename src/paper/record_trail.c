/* Hand-over and retention, and what the journal's chain proves. */
#include "paper/entry.h"
#include "paper/record.h"

static mf_day last_day(const mf_job *job, bool invoice)
{
    if (invoice)
        return job->n_invoice == 0 ? MF_DAY_NONE : job->invoice[job->n_invoice - 1].on;
    return job->n_completion == 0 ? MF_DAY_NONE : job->completion[job->n_completion - 1].on;
}

/* "record" and "summary" as the papers are called; other words as they were typed. */
static const char *paper_words(mf_rec *rec, const char *typed)
{
    const char *words = mf_words2(rec->ask->lang, "paper.named", typed);
    return words == NULL ? typed : words;
}

/* What a paper told, as far as it was said: 745.86(c)(1), (d). */
static const char *told(mf_rec *rec, const mf_handover *given)
{
    const char *said = "";
    if (given->information != MF_UNKNOWN)
        said =
            mf_phrase(rec, given->information == MF_YES ? "handover-tells" : "handover-tells-not");
    if (given->dust_report == MF_UNKNOWN)
        return said;
    return mf_join(
        rec, said, "\n",
        mf_phrase(rec, given->dust_report == MF_YES ? "handover-dust" : "handover-dust-not"));
}

static void handover_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_handover *given = &rec->job->handover[i];
    const mf_party *party = mf_job_party(rec->job, given->party);
    mf_cell to = mf_bold(party == NULL ? given->party : party->name);
    if (party != NULL)
        to.below = mf_below(rec, mf_small(mf_enum(rec, MF_FAM_ROLE, (int)party->role)));
    mf_cell what = mf_plain(paper_words(rec, given->what));
    const char *of_it = told(rec, given);
    if (*of_it != '\0')
        what.below = mf_below(rec, mf_small(of_it));
    const mf_cell cells[5] = {mf_traced(rec, to, &given->src), what, mf_plain(given->how),
                              mf_plain(mf_day_words(rec, given->on)),
                              mf_entry_cell(rec, given->src.entry)};
    mf_table_row(table, cells);
}

static void handover(mf_rec *rec)
{
    static const char *const labels[] = {"completed", "invoiced", "handover-due", "keep-until"};
    static const mf_col cols[] = {{"col.to", 30, false},
                                  {"col.what", 20, false},
                                  {"col.how", 26, false},
                                  {"col.on", 12, false},
                                  {"col.entry", 12, false}};
    mf_due due;
    mf_due_dates(rec->job, &due);
    const char *values[4] = {mf_day_words(rec, last_day(rec->job, false)),
                             mf_day_words(rec, last_day(rec->job, true)),
                             mf_day_words(rec, due.handover), mf_day_words(rec, due.keep_until)};
    mf_section(rec, "handover");
    mf_page_heading(&rec->page, MF_ST_BODY,
                    mf_fill(rec, "handover-note",
                            mf_law_words(rec, MF_LIMIT_HANDOVER_DAYS, mf_rec_end(rec)),
                            mf_law_words(rec, MF_LIMIT_RETENTION_YEARS, mf_rec_end(rec)), NULL));
    mf_pairs(rec, labels, values, 4);
    mf_rows(rec, cols, 5, rec->job->n_handover, handover_row, "no-handover");
}

static void sealed_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_sealed *paper = &rec->job->sealed[i];
    mf_cell hash = {.style = MF_ST_MONO, .text = paper->sha256};
    mf_cell what = mf_plain(paper_words(rec, paper->paper));
    what.below = mf_below(rec, mf_small(mf_phrase2(rec, "paper.sealed-as", paper->capacity)));
    bool named = paper->signer != NULL && *paper->signer != '\0';
    mf_cell key = mf_plain(named ? paper->signer : mf_phrase(rec, "signer-unsaid"));
    key.below = mf_below(rec, mf_small(mf_fill(rec, "sealed-logged",
                                               mf_person_words(rec, paper->person), NULL, NULL)));
    const mf_cell cells[4] = {what, key, mf_plain(mf_day_words(rec, paper->on)), hash};
    mf_table_row(table, cells);
}

static void sealed_before(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.paper", 13, false},
                                  {"col.sealed-by", 17, false},
                                  {"col.on", 10, false},
                                  {"col.sha256", 60, false}};
    if (rec->job->n_sealed == 0)
        return;
    mf_subhead(rec, "sealed-before");
    mf_rows(rec, cols, 4, rec->job->n_sealed, sealed_row, NULL);
}

static void chain(mf_rec *rec)
{
    static const char *const state[] = {"chain-unchecked", "chain-good", "chain-broken"};
    static const mf_mark marks[] = {MF_MARK_OPEN, MF_MARK_TICK, MF_MARK_CROSS};
    mf_page *page = &rec->page;
    mf_section(rec, "chain");
    mf_page_need(page, 60);
    mf_page_text(page, MF_ST_BOLD, mf_phrase(rec, "chain-head"));
    mf_page_text(page, MF_ST_MONO, mf_stated(rec, rec->ask->head));
    mf_mark_draw(page->haru, marks[rec->job->integrity], (mf_point){MF_LEFT, page->y + 1}, 9);
    float height =
        mf_page_block(page, MF_ST_BOLD, (mf_point){MF_LEFT + 16, page->y}, mf_across(page) - 16,
                      mf_phrase(rec, state[rec->job->integrity]), true);
    page->y += height + 3;
    mf_page_text(page, MF_ST_BODY, mf_phrase(rec, "chain-proves"));
    mf_page_text(page, MF_ST_BODY, mf_phrase(rec, "chain-proves-not"));
    sealed_before(rec);
}

void mf_record_trail(mf_rec *rec)
{
    mf_record_fixes(rec);
    handover(rec);
    chain(rec);
}
