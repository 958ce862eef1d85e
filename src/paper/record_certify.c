/* The certified renovator's statement, 40 CFR 745.86(b)(6): each certification on which the file
 * rests, in the words of who made it, and why another is none of this work. Nobody is made to
 * speak as a renovator whom the entries do not show to be one. */
#include "paper/record.h"

#include <mistfold/audit.h>
#include <mistfold/house.h>
#include <mistfold/person.h>
#include <string.h>

#define STATEMENT_H 240.0F

enum { AFTER_SHOWN = 12 };

static const mf_certificate *certificate_of(const mf_rec *rec, const char *person, mf_day day)
{
    return mf_certified(rec->job, person, MF_DISC_RENOVATOR, day, NULL);
}

/* Whose name is put over a statement that is still to be signed: the last assigned renovator who
 * is certified on the day, one who did or directed work before one who did not; NULL = none. */
static const char *may_state(const mf_rec *rec, mf_day day)
{
    const mf_job *job = rec->job;
    const char *any = NULL;
    for (size_t i = job->n_assignment; i > 0; i--) {
        const mf_assignment *it = &job->assignment[i - 1];
        if (it->duty != MF_DUTY_RENOVATOR || certificate_of(rec, it->person, day) == NULL)
            continue;
        if (mf_directed_any(job, it->person))
            return it->person;
        any = any == NULL ? it->person : any;
    }
    return any;
}

static void marked(mf_rec *rec, mf_mark mark, const char *text)
{
    mf_page *page = &rec->page;
    mf_page_gap(page, 3);
    mf_page_need(page, 33);
    mf_mark_draw(page->haru, mark, (mf_point){MF_LEFT, page->y + 1}, 9);
    page->y += mf_page_block(page, MF_ST_BOLD, (mf_point){MF_LEFT + 16, page->y},
                             mf_across(page) - 16, text, true);
}

static void to_sign(mf_rec *rec)
{
    mf_page_need(&rec->page, 43);
    mf_hand_lines(rec, mf_phrase(rec, "sign-renovator"));
}

static void stated(mf_rec *rec, const mf_certification *it)
{
    const mf_certificate *held = certificate_of(rec, it->person, it->on);
    mf_page_need(&rec->page, STATEMENT_H); /* nobody signs at the foot of half a statement */
    mf_page_text(&rec->page, MF_ST_BODY,
                 mf_fill(rec, "cert.opening", mf_person_words(rec, it->person),
                         held == NULL ? mf_phrase(rec, "not-given") : held->number, NULL));
    mf_record_statement(rec, it->person);
    marked(rec, MF_MARK_TICK,
           mf_fill(rec, "cert.logged", mf_person_words(rec, it->person), mf_day_words(rec, it->on),
                   it->src.entry));
    to_sign(rec);
}

/* What the entries show, to be signed by whoever may; nobody's words yet. */
static void not_stated(mf_rec *rec)
{
    const char *person = may_state(rec, rec->ask->today);
    const mf_certificate *held =
        person == NULL ? NULL : certificate_of(rec, person, rec->ask->today);
    mf_page_need(&rec->page, STATEMENT_H);
    mf_page_text(&rec->page, MF_ST_BODY,
                 held == NULL ? mf_phrase(rec, "cert.nobody")
                              : mf_fill(rec, "cert.opening", mf_person_words(rec, person),
                                        held->number, NULL));
    mf_record_statement(rec, person == NULL ? "" : person);
    marked(rec, MF_MARK_OPEN, mf_phrase(rec, "cert.open"));
    to_sign(rec);
}

/* The entries for which it does not certify the work, by number. */
static void list_after(mf_rec *rec, const mf_certification *it, const char *why)
{
    bool unseen = strcmp(why, "certification-unseen") == 0;
    const mf_src *after[AFTER_SHOWN];
    const char *names = "";
    size_t n = mf_certification_after(rec->job, it, after, AFTER_SHOWN);
    for (size_t i = 0; i < n && i < AFTER_SHOWN; i++)
        names = mf_join(rec, names, ", ", after[i]->entry);
    if (n == 0)
        return;
    const char *more = n > AFTER_SHOWN ? mf_count_words(rec, n - AFTER_SHOWN) : NULL;
    mf_page_text(&rec->page, MF_ST_SMALL,
                 mf_fill(rec,
                         more == NULL ? (unseen ? "cert.unseen" : "cert.after")
                         : unseen     ? "cert.unseen-more"
                                      : "cert.after-more",
                         names, more, NULL));
}

static void stands_not(mf_rec *rec, const mf_certification *it, const mf_finding *found)
{
    const char *who = mf_print(rec, "%s, %s", mf_day_words(rec, it->on), it->src.entry);
    marked(
        rec, MF_MARK_CROSS,
        mf_fill(rec, "cert.none", mf_person_words(rec, it->person), who, mf_why_words(rec, found)));
    list_after(rec, it, found->why);
}

/* What came of each of the job, by its number; NULL: memory ran out, and that is said. */
static const mf_finding *judged(mf_rec *rec)
{
    const mf_job *job = rec->job;
    mf_finding *found = mf_arena_alloc(&rec->arena, (job->n_certification + 1) * sizeof *found);
    if (found == NULL)
        mf_page_no_memory(&rec->page);
    for (size_t i = 0; found != NULL && i < job->n_certification; i++) {
        found[i] = mf_finding_blank();
        mf_certification_judge(job, &job->certification[i], &found[i]);
    }
    return found;
}

/* Those that stand, or what is to be signed; then why the others do not. */
static void certifications(mf_rec *rec)
{
    const mf_job *job = rec->job;
    const mf_finding *found = judged(rec);
    bool any = false;
    for (size_t i = 0; found != NULL && i < job->n_certification; i++) {
        if (found[i].verdict == MF_MET)
            stated(rec, &job->certification[i]);
        any = any || found[i].verdict == MF_MET;
    }
    if (!any)
        not_stated(rec);
    for (size_t i = 0; found != NULL && i < job->n_certification; i++)
        if (found[i].verdict != MF_MET)
            stands_not(rec, &job->certification[i], &found[i]);
}

void mf_record_certify(mf_rec *rec)
{
    mf_cover_answer cover;
    mf_cover_judge(rec->job, &cover);
    mf_page_need(&rec->page, STATEMENT_H);
    mf_section(rec, "certification");
    if (cover.cover != MF_COVER_YES) { /* 745.86(b)(6) asks for none: nothing to sign */
        mf_page_text(
            &rec->page, MF_ST_BODY,
            mf_fill(rec, "cert.not-asked", mf_enum(rec, MF_FAM_COVER, (int)cover.why), NULL, NULL));
        return;
    }
    certifications(rec);
    mf_page_text(&rec->page, MF_ST_SMALL, mf_phrase(rec, "cert.checklist"));
}
