/* The house, the firm, the people with their certificates, training, notices. */
#include "paper/record.h"

#include <mistfold/assisted.h>
#include <mistfold/emergency.h>
#include <mistfold/notice.h>
#include <mistfold/person.h>
#include <string.h>

static const char *kinds_of_work(mf_rec *rec, const mf_house *house)
{
    const char *all = "";
    for (int work = MF_WORK_WINDOW_REPLACEMENT; work <= MF_WORK_OTHER; work++)
        if (mf_house_does(house, (mf_work_kind)work))
            all = mf_join(rec, all, ", ", mf_enum(rec, MF_FAM_WORK, work));
    return mf_stated(rec, all);
}

static void house(mf_rec *rec)
{
    static const char *const labels[] = {
        "address",      "year-built", "building",  "owner-occupied",    "for-pay", "child-under-6",
        "zero-bedroom", "work-kind",  "emergency", "contract-language", "note"};
    const mf_house *h = &rec->house;
    const char *year = h->year_built == MF_NUM_NONE
                           ? mf_phrase(rec, "year-unknown")
                           : mf_print(rec, "%lld", (long long)h->year_built);
    const char *values[11] = {mf_stated(rec, mf_join(rec, h->address, ", ", h->unit)),
                              year,
                              mf_enum(rec, MF_FAM_BUILDING, (int)h->building),
                              mf_tri_words(rec, h->owner_occupied),
                              mf_tri_words(rec, h->for_compensation),
                              mf_tri_words(rec, h->child_under_6),
                              mf_tri_words(rec, h->zero_bedroom),
                              kinds_of_work(rec, h),
                              h->emergency == MF_UNKNOWN && rec->job->n_emergency > 0
                                  ? mf_phrase(rec, "emergency-below")
                                  : mf_tri_words(rec, h->emergency),
                              mf_language_words(rec, h->language),
                              mf_stated(rec, h->note)};
    mf_pairs(rec, labels, values, 11);
    if (*h->src.correction != '\0')
        mf_page_text(&rec->page, MF_ST_SMALL,
                     mf_fill(rec, "corrected-by", h->src.correction, NULL, NULL));
}

/* ---- people ---------------------------------------------------------------------- */

static bool same(const char *a, const char *b)
{
    return strcmp(a, b) == 0;
}

static bool tested(const mf_job *job, const char *id)
{
    for (size_t i = 0; i < job->n_reading; i++)
        if (same(job->reading[i].operator_id, id))
            return true;
    for (size_t i = 0; i < job->n_kit_test; i++)
        if (same(job->kit_test[i].tester, id))
            return true;
    for (size_t i = 0; i < job->n_chip; i++)
        if (same(job->chip[i].sampler, id))
            return true;
    for (size_t i = 0; i < job->n_determination; i++)
        if (same(job->determination[i].assessor, id))
            return true;
    return false;
}

static bool sampled(const mf_job *job, const char *id, bool required)
{
    for (size_t i = 0; i < job->n_dust_sample; i++) {
        const mf_dust_sample *it = &job->dust_sample[i];
        bool theirs = same(it->sampler, id) || same(it->approved_by, id);
        if (theirs && (it->required == MF_YES) == required)
            return true;
    }
    return false;
}

/* Somebody who looked over the work and has no duty on it did so for the clearance. */
static bool looked(const mf_job *job, const char *id)
{
    for (size_t i = 0; i < job->n_verification; i++) {
        mf_wipe_event event = job->verification[i].event;
        bool look = event == MF_VER_LOOK_CLEAN || event == MF_VER_LOOK_DIRTY;
        if (look && same(job->verification[i].person, id))
            return true;
    }
    return false;
}

static bool worked(const mf_job *job, const char *id)
{
    for (size_t i = 0; i < job->n_assignment; i++)
        if (same(job->assignment[i].person, id))
            return true;
    for (size_t i = 0; i < job->n_training; i++)
        if (same(job->training[i].trainer, id) || same(job->training[i].worker, id))
            return true;
    for (size_t i = 0; i < job->n_tick; i++)
        if (same(job->tick[i].person, id) || same(job->tick[i].renovator, id))
            return true;
    for (size_t i = 0; i < job->n_verification; i++)
        if (same(job->verification[i].person, id))
            return true;
    return false;
}

static const char *duty_of(mf_rec *rec, const char *id)
{
    const char *said = "";
    for (size_t i = 0; i < rec->job->n_assignment; i++) {
        const mf_assignment *given = &rec->job->assignment[i];
        if (same(given->person, id))
            said = mf_join(rec, said, "; ",
                           mf_fill(rec, "from-day", mf_enum(rec, MF_FAM_DUTY, (int)given->duty),
                                   mf_day_words(rec, given->on), NULL));
    }
    if (*said != '\0')
        return said;
    if (tested(rec->job, id))
        said = mf_phrase(rec, "duty.tester");
    if (sampled(rec->job, id, true) || (mf_assisted_holds(rec->job) && looked(rec->job, id)))
        said = mf_join(rec, said, "; ", mf_phrase(rec, "duty.examiner"));
    else if (sampled(rec->job, id, false))
        said = mf_join(rec, said, "; ", mf_phrase(rec, "duty.sampler"));
    return said;
}

static const char *number_of(mf_rec *rec, const mf_certificate *held)
{
    const char *said = mf_join(rec, held->number, "\n", held->issuer);
    if (held->programs == NULL || *held->programs == '\0')
        return said;
    return mf_join(rec, said, "\n", mf_fill(rec, "counts-under", held->programs, NULL, NULL));
}

/* What happened to a firm's certificate: told where its last day stands. */
static const char *kept_up(mf_rec *rec, const mf_certificate *held)
{
    static const char *const ids[] = {"renewal-sent", "renewal-decided", "certificate-changed",
                                      "certificate-amended"};
    const mf_day days[] = {held->renewal_sent, held->renewal_decided, held->changed, held->amended};
    const char *said = "";
    for (size_t i = 0; i < sizeof ids / sizeof ids[0]; i++)
        if (days[i] != MF_DAY_NONE)
            said = mf_join(rec, said, "\n",
                           mf_fill(rec, ids[i], mf_day_words(rec, days[i]), NULL, NULL));
    return said;
}

static void certificate_row(mf_rec *rec, mf_table *table, const mf_certificate *held,
                            mf_cell holder, const char *duty)
{
    mf_cell until = mf_plain(mf_day_words(rec, mf_certificate_last_day_for(rec->job, held)));
    until.below = mf_below(rec, mf_small(kept_up(rec, held)));
    const mf_cell cells[6] = {
        holder,
        mf_plain(duty),
        mf_traced(rec, mf_plain(mf_enum(rec, MF_FAM_DISCIPLINE, (int)held->discipline)),
                  &held->src),
        mf_plain(number_of(rec, held)),
        mf_plain(mf_day_words(rec, held->issued)),
        until};
    mf_table_row(table, cells);
}

static void person_rows(mf_rec *rec, mf_table *table, const char *id, mf_cell shown,
                        const char *duty)
{
    size_t n = 0;
    for (size_t i = 0; i < rec->job->n_certificate; i++) {
        const mf_certificate *held = &rec->job->certificate[i];
        if (!same(held->holder, id))
            continue;
        certificate_row(rec, table, held, n == 0 ? shown : mf_plain(""), n == 0 ? duty : "");
        n++;
    }
    if (n > 0)
        return;
    const mf_cell cells[6] = {shown,        mf_plain(duty), mf_plain(mf_phrase(rec, "none-held")),
                              mf_plain(""), mf_plain(""),   mf_plain("")};
    mf_table_row(table, cells);
}

static void people(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.name", 24, false},         {"col.duty", 18, false},
                                  {"col.certified-as", 15, false}, {"col.number-issuer", 21, false},
                                  {"col.issued", 10, false},       {"col.through", 12, false}};
    const mf_job *job = rec->job;
    mf_subhead(rec, "people");
    mf_table table = mf_table_of(rec, cols, 6);
    table.dense = true;
    const mf_firm *firm = job->n_firm == 0 ? NULL : &job->firm[job->n_firm - 1];
    mf_cell shown = mf_bold(firm == NULL ? mf_phrase(rec, "firm") : firm->name);
    if (firm != NULL)
        shown.below = mf_below(rec, mf_small(mf_join(rec, firm->address, "; ", firm->phone)));
    person_rows(rec, &table, "firm", shown, mf_phrase(rec, "duty.firm"));
    for (size_t i = 0; i < job->n_person; i++) {
        const mf_person *person = &job->person[i];
        const char *duty = duty_of(rec, person->id);
        if (worked(job, person->id) || *duty != '\0')
            person_rows(rec, &table, person->id, mf_bold(person->name), duty);
    }
    mf_table_end(&table);
}

/* The topics of the sheet for training by their names, others as they were typed. */
static const char *topics_words(mf_rec *rec, const char *typed)
{
    static const struct {
        const char *typed, *id;
    } topics[] = {{"signs", "topic.signs"},
                  {"containment", "topic.containment"},
                  {"practices", "topic.practices"},
                  {"waste", "topic.waste"},
                  {"cleaning", "topic.cleaning"}};
    const char *all = "";
    for (const char *at = typed; *at != '\0';) {
        size_t len = strcspn(at, ";");
        size_t blank = len > 0 && *at == ' ';
        const char *one = mf_print(rec, "%.*s", (int)(len - blank), at + blank);
        for (size_t i = 0; i < sizeof topics / sizeof topics[0]; i++)
            if (strcmp(one, topics[i].typed) == 0)
                one = mf_phrase(rec, topics[i].id);
        all = mf_join(rec, all, "; ", one);
        at += len + (at[len] == ';');
    }
    return mf_stated(rec, all);
}

static void training_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_training *given = &rec->job->training[i];
    const mf_cell cells[4] = {
        mf_traced(rec, mf_bold(mf_person_words(rec, given->worker)), &given->src),
        mf_plain(mf_person_words(rec, given->trainer)), mf_plain(mf_day_words(rec, given->on)),
        mf_plain(topics_words(rec, given->topics))};
    mf_table_row(table, cells);
}

static void training(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.worker", 22, false},
                                  {"col.trainer", 22, false},
                                  {"col.day", 11, false},
                                  {"col.topics", 45, false}};
    mf_subhead(rec, "training");
    mf_rows(rec, cols, 4, rec->job->n_training, training_row, "no-training");
}

/* ---- notices ---------------------------------------------------------------------- */

static mf_cell party_cell(mf_rec *rec, const mf_party *party)
{
    mf_cell cell = mf_bold(mf_stated(rec, party->name));
    const char *role = mf_enum(rec, MF_FAM_ROLE, (int)party->role);
    if (*party->unit != '\0')
        role = mf_join(rec, role, ", ", mf_fill(rec, "of-unit", party->unit, NULL, NULL));
    cell.below = mf_below(rec, mf_small(role));
    return cell;
}

/* The days that a notice or sign tells, or "". */
static const char *told_days(mf_rec *rec, const mf_notice *notice)
{
    bool from = notice->work_from != MF_DAY_NONE, until = notice->work_until != MF_DAY_NONE;
    const char *first = from ? mf_day_words(rec, notice->work_from) : "...";
    const char *last = until ? mf_day_words(rec, notice->work_until) : "...";
    return from || until ? mf_fill(rec, "tells-days", first, last, NULL) : "";
}

static const char *notice_remarks(mf_rec *rec, const mf_notice *notice)
{
    const char *words = notice->reason;
    words = mf_join(rec, words, "; ", notice->deliverers);
    words = mf_join(rec, words, "; ", notice->how);
    words = mf_join(rec, words, "; ", notice->unit);
    if (notice->of_change == MF_YES)
        words = mf_join(rec, words, "; ", mf_phrase(rec, "of-change"));
    words = mf_join(rec, words, "; ", told_days(rec, notice));
    if (notice->has_statement == MF_YES)
        words = mf_join(rec, words, "; ", mf_phrase(rec, "has-statement"));
    return words;
}

static bool of_notices(const mf_finding *finding)
{
    static const char *const ids[] = {"pamphlet-", "notice-", "acknowledgement-contents",
                                      "paper-names", "mailing-receipt"};
    bool any = false;
    for (size_t i = 0; i < sizeof ids / sizeof ids[0]; i++)
        any = any || strncmp(finding->requirement->id, ids[i], strlen(ids[i])) == 0;
    return any;
}

/* The gravest that was found of the delivery; NULL = nothing is lacking or warned of. */
static const mf_finding *found_of(const mf_rec *rec, const mf_notice *notice)
{
    const mf_finding *worst = NULL;
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *it = &rec->findings[i];
        bool lacks = it->verdict == MF_LACKING, warns = it->verdict == MF_WARNING;
        if ((!lacks && !warns) || !of_notices(it) || !same(it->evidence, notice->src.entry))
            continue;
        if (worst == NULL || (lacks && worst->verdict == MF_WARNING))
            worst = it;
    }
    return worst;
}

/* Whether the questions take it for the one that was owed: its days count to the beginning of the
 * work there, which need not be the planned start of the job. */
static bool serves(const mf_rec *rec, const mf_notice *notice)
{
    static const char owed[] =
        "pamphlet-owner,pamphlet-occupant,pamphlet-facility,notice-units,notice-parents";
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *it = &rec->findings[i];
        if (it->verdict == MF_MET && same(it->evidence, notice->src.entry) &&
            mf_id_in_list(owed, it->requirement->id))
            return true;
    }
    return false;
}

static bool waived(const mf_rec *rec)
{
    return mf_emergency_claimed(rec->job) &&
           mf_emergency_waives(rec->job, MF_WAIVE_PAMPHLET, MF_DAY_NONE) != NULL;
}

/* What of a fault fell away in an emergency is told with it: 745.82(b). */
static mf_cell fault_cell(mf_rec *rec, mf_notice_fault fault)
{
    const char *words = mf_enum(rec, MF_FAM_NOTICE, (int)fault);
    if (fault != MF_NOTICE_GOOD && waived(rec))
        return mf_marked(MF_MARK_DASH, mf_fill(rec, "notice-waived", words, NULL, NULL));
    return mf_marked(fault == MF_NOTICE_GOOD   ? MF_MARK_TICK
                     : fault == MF_NOTICE_NONE ? MF_MARK_OPEN
                                               : MF_MARK_CROSS,
                     words);
}

/* In time alone is not whole: the paper may be in another language, of another address, signed
 * by somebody else. The questions say so; of a delivery that does not serve, its gaps. */
static mf_cell judged_cell(mf_rec *rec, const mf_party *party, const mf_notice *notice)
{
    mf_notice_fault fault =
        serves(rec, notice) ? MF_NOTICE_GOOD
                            : mf_notice_check_for(rec->job, notice, party->role, rec->house.start);
    const mf_finding *found = found_of(rec, notice);
    if (fault != MF_NOTICE_GOOD)
        return fault_cell(rec, fault);
    if (found == NULL)
        return fault_cell(rec,
                          mf_notice_gaps(notice, party->role) == 0 ? fault : MF_NOTICE_INCOMPLETE);
    mf_cell cell = mf_marked(mf_verdict_mark(found->verdict), mf_phrase(rec, "notice-but"));
    cell.below = mf_below(rec, mf_small(mf_why_words(rec, found)));
    return cell;
}

static void notice_row(mf_rec *rec, mf_table *table, const mf_party *party, const mf_notice *notice)
{
    mf_cell method = mf_plain(mf_enum(rec, MF_FAM_DELIVERY, (int)notice->method));
    method.below = mf_below(rec, mf_small(notice_remarks(rec, notice)));
    const char *signer =
        mf_join(rec, notice->signer, ", ",
                notice->signed_on == MF_DAY_NONE ? "" : mf_day_words(rec, notice->signed_on));
    if (*signer == '\0' && notice->method == MF_DELIVERY_MAILED) /* a receipt stands in for it */
        signer = mf_phrase(rec, "mail-unsigned");
    const mf_cell cells[6] = {party_cell(rec, party),
                              mf_traced(rec, method, &notice->src),
                              mf_plain(mf_day_words(rec, notice->on)),
                              mf_plain(mf_stated(rec, signer)),
                              mf_plain(mf_language_words(rec, notice->language)),
                              judged_cell(rec, party, notice)};
    mf_table_row(table, cells);
}

static void party_rows(mf_rec *rec, mf_table *table, size_t at)
{
    const mf_party *party = &rec->job->party[at];
    size_t n = 0;
    for (size_t i = 0; i < rec->job->n_notice; i++) {
        if (!same(rec->job->notice[i].party, party->id))
            continue;
        notice_row(rec, table, party, &rec->job->notice[i]);
        n++;
    }
    if (n > 0)
        return;
    const mf_cell cells[6] = {party_cell(rec, party), mf_plain(""),
                              mf_plain(""),           mf_plain(""),
                              mf_plain(""),           fault_cell(rec, MF_NOTICE_NONE)};
    mf_table_row(table, cells);
}

/* Units said to be vacant; whether that counts is among the requirements. */
static void vacancies(mf_rec *rec)
{
    for (size_t i = 0; i < rec->job->n_vacancy; i++) {
        const mf_vacancy *it = &rec->job->vacancy[i];
        const char *unit = *it->unit == '\0' ? rec->house.unit : it->unit;
        const char *whose = *unit == '\0' ? mf_phrase(rec, "the-dwelling")
                                          : mf_fill(rec, "of-unit", unit, NULL, NULL);
        mf_page_text(&rec->page, MF_ST_BODY,
                     mf_fill(rec, "vacant", whose, mf_day_words(rec, it->on), it->said_by));
    }
}

static void notices(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.to", 22, false},      {"col.how", 22, false},
                                  {"col.on", 11, false},      {"col.signed", 18, false},
                                  {"col.language", 9, false}, {"col.judged", 18, false}};
    mf_section(rec, "notices");
    vacancies(rec);
    if (rec->job->n_party == 0) {
        mf_none(rec, "no-parties");
        return;
    }
    mf_page_heading(&rec->page, MF_ST_BODY,
                    mf_fill(rec, "notices-for", mf_day_words(rec, rec->house.start),
                            mf_limit_words(rec, MF_LIMIT_PAMPHLET_DAYS, mf_rec_start(rec)),
                            mf_limit_words(rec, MF_LIMIT_MAILING_DAYS, mf_rec_start(rec))));
    mf_rows(rec, cols, 6, rec->job->n_party, party_rows, NULL);
}

void mf_record_house(mf_rec *rec)
{
    mf_section(rec, "house");
    house(rec);
    mf_record_places(rec);
    people(rec);
    training(rec);
    notices(rec);
}
