/* Papers that are signed: receipt of the pamphlet, delivery without a signature,
 * training on the job. What each must hold: 40 CFR 745.84(a)-(b), 745.90(b)(2). */
#include "paper/days.h"
#include "paper/forms.h"
#include "paper/names.h"

#define ROW 26.0F

enum { TRAINING_ROWS = 12 };

/* Whoever may sign for the pamphlet; all parents and all units are told by a sign or a notice. */
static bool signs_for_it(const mf_party *party)
{
    return party->role == MF_ROLE_OWNER || party->role == MF_ROLE_OCCUPANT ||
           party->role == MF_ROLE_FACILITY;
}

static const char *start_words(mf_rec *rec)
{
    bool none = rec->house.start == MF_DAY_NONE || *mf_off_words(rec) != '\0';
    return none ? "" : mf_day_words(rec, rec->house.start);
}

static const char *unit_words(mf_rec *rec, const mf_party *party)
{
    bool own = party != NULL && *party->unit != '\0';
    return mf_join(rec, rec->house.address, ", ", own ? party->unit : rec->house.unit);
}

static const char *firm_words(const mf_rec *rec)
{
    return rec->job == NULL || rec->job->n_firm == 0 ? ""
                                                     : rec->job->firm[rec->job->n_firm - 1].name;
}

static void statement(mf_rec *rec, const char *id)
{
    mf_page_gap(&rec->page, 8);
    mf_page_text(&rec->page, MF_ST_PLAIN, mf_phrase(rec, id));
}

/* With the limit that holds for the job, of a blank one the federal. */
static void limited(mf_rec *rec, const char *id, mf_limit_id limit, mf_day day)
{
    mf_page_gap(&rec->page, 8);
    mf_page_text(&rec->page, MF_ST_PLAIN,
                 mf_fill(rec, id, mf_law_words(rec, limit, day), NULL, NULL));
}

static void receipt(mf_rec *rec, const mf_party *party)
{
    const char *name = party == NULL ? "" : party->name;
    const char *role = party == NULL ? "" : mf_enum(rec, MF_FAM_ROLE, (int)party->role);
    const mf_form_line who[] = {{"form.recipient", name, 2}, {"form.as", role, 1}};
    const mf_form_line where[] = {{"form.unit", unit_words(rec, party), 1}};
    const mf_form_line work[] = {{"form.firm", firm_words(rec), 2},
                                 {"form.start", start_words(rec), 1}};
    mf_form_open(rec, "form.acknowledgement", "acknowledgement", "");
    mf_form_called_off(rec);
    mf_form_lines(rec, who, 2);
    mf_form_lines(rec, where, 1);
    mf_form_lines(rec, work, 2);
    statement(rec, "form.ack-statement");
    statement(rec, "form.ack-before");
    mf_form_bullet(rec, MF_MARK_OPEN, mf_phrase(rec, "form.ack-language"));
    mf_form_signature(rec, "form.sign-recipient");
    limited(rec, "form.ack-note", MF_LIMIT_RETENTION_YEARS, mf_rec_end(rec));
}

/* A sheet for each of the job who may sign: each of them is owed a pamphlet of his or her own. */
void mf_form_acknowledgement(mf_rec *rec, const mf_area *area)
{
    size_t sheets = 0;
    (void)area;
    for (size_t i = 0; rec->job != NULL && i < rec->job->n_party; i++) {
        if (!signs_for_it(&rec->job->party[i]))
            continue;
        if (sheets++ > 0)
            mf_page_break(&rec->page);
        receipt(rec, &rec->job->party[i]);
    }
    if (sheets == 0)
        receipt(rec, NULL);
}

void mf_form_self_certification(mf_rec *rec, const mf_area *area)
{
    const mf_form_line where[] = {{"form.unit", unit_words(rec, NULL), 1}};
    const mf_form_line how[] = {{"form.delivered-on", "", 1}, {"form.delivered-how", "", 2}};
    const mf_form_line who[] = {{"form.deliverers", "", 1}};
    const mf_form_line work[] = {{"form.firm", firm_words(rec), 2},
                                 {"form.start", start_words(rec), 1}};
    (void)area;
    mf_form_lines(rec, where, 1);
    mf_form_lines(rec, how, 2);
    mf_form_lines(rec, who, 1);
    mf_form_lines(rec, work, 2);
    statement(rec, "form.self-statement");
    mf_form_bullet(rec, MF_MARK_OPEN, mf_phrase(rec, "form.self-refused"));
    mf_form_bullet(rec, MF_MARK_OPEN, mf_phrase(rec, "form.self-absent"));
    mf_form_bullet(rec, MF_MARK_OPEN, mf_phrase(rec, "form.self-other"));
    statement(rec, "form.self-left");
    mf_form_signature(rec, "form.sign-deliverer");
    limited(rec, "form.self-note", MF_LIMIT_MAILING_DAYS, mf_rec_start(rec));
}

static void trainee_row(mf_rec *rec, mf_table *table, const char *person)
{
    const mf_cell box = {.mark = MF_MARK_OPEN, .style = MF_ST_CELL};
    const mf_cell cells[9] = {mf_bold(mf_person_words(rec, person)),
                              box,
                              box,
                              box,
                              box,
                              box,
                              box,
                              mf_plain(""),
                              mf_plain("")};
    mf_table_row(table, cells);
}

void mf_form_training(mf_rec *rec, const mf_area *area)
{
    static const mf_col cols[] = {
        {"form.worker", 20, false},        {"form.topic-signs", 10, false},
        {"form.topic-contain", 11, false}, {"form.topic-methods", 11, false},
        {"form.topic-waste", 9, false},    {"form.topic-clean", 10, false},
        {"form.topic-harm", 9, false},     {"form.day", 10, false},
        {"blank.initials", 10, false}};
    mf_form_head(rec, area);
    mf_page_text(&rec->page, MF_ST_BODY, mf_phrase(rec, "form.training-how"));
    mf_table table = mf_table_of(rec, cols, 9);
    table.row_height = ROW;
    table.upright = true;
    size_t filled = 0;
    for (size_t i = 0; rec->job != NULL && i < rec->job->n_assignment; i++)
        if (rec->job->assignment[i].duty == MF_DUTY_WORKER) {
            trainee_row(rec, &table, rec->job->assignment[i].person);
            filled++;
        }
    mf_form_rows(&table, filled < TRAINING_ROWS ? TRAINING_ROWS - filled : 1);
    mf_table_end(&table);
    mf_form_signature(rec, "form.sign-trainer");
}
