/* What the certified renovator states, 40 CFR 745.86(b)(6): a sentence for each thing that the
 * record shows; what it does not show, or shows otherwise, is said so. Nobody is asked to sign
 * a sentence that the record contradicts. */
#include "paper/claims.h"
#include "paper/days.h"
#include "paper/record.h"

#include <mistfold/assisted.h>
#include <mistfold/person.h>
#include <string.h>

typedef struct item {
    const mf_claim *claim;
    const char *text;
    mf_mark mark; /* none: a dot */
} item;

enum { ITEMS_MAX = 16 };

typedef struct items {
    item of[ITEMS_MAX];
    size_t n;
} items;

static void say(items *all, mf_mark mark, const char *text)
{
    if (all->n < ITEMS_MAX)
        all->of[all->n++] = (item){NULL, text, mark};
}

static const char *words_of(mf_rec *rec, const mf_claim *claim, const char *tail, const char *with)
{
    return mf_fill(rec, mf_print(rec, "cert.%s%s", claim->id, tail), with, NULL, NULL);
}

static void say_claim(mf_rec *rec, items *all, const mf_claim *claim)
{
    mf_claim_tally sum = mf_claim_count(rec, claim);
    if (sum.lacking > 0 || sum.shown + sum.waived + sum.left_out == 0)
        say(all, MF_MARK_OPEN, words_of(rec, claim, "-not", NULL));
    else if (sum.waived > 0)
        say(all, MF_MARK_WARN, words_of(rec, claim, "-waived", NULL));
    else if (sum.left_out > 0)
        say(all, MF_MARK_WARN, words_of(rec, claim, "-left-out", NULL));
    else
        say(all, MF_MARK_NONE, words_of(rec, claim, "", NULL));
}

/* ---- those with more than one way to be so ------------------------------------------- */

static bool has_worker(const mf_job *job)
{
    for (size_t i = 0; i < job->n_assignment; i++)
        if (job->assignment[i].duty == MF_DUTY_WORKER)
            return true;
    return false;
}

static bool uncertified(const mf_job *job, const char *person, mf_day on)
{
    return person != NULL && person[0] != '\0' &&
           mf_certified(job, person, MF_DISC_RENOVATOR, on, NULL) == NULL;
}

/* A look for the clearance is no work of the crew: whoever may clear has a certificate for it, if
 * not as a renovator (745.90(c), 24 CFR 35.1340(b)(1)). */
static bool examined(const mf_job *job, const mf_verification *it)
{
    static const mf_discipline may[] = {MF_DISC_INSPECTOR, MF_DISC_RISK_ASSESSOR,
                                        MF_DISC_DUST_TECHNICIAN};
    bool look = it->event == MF_VER_LOOK_CLEAN || it->event == MF_VER_LOOK_DIRTY, held = false;
    for (size_t i = 0; look && i < sizeof may / sizeof may[0]; i++)
        held = held || mf_certified(job, it->person, may[i], it->on, NULL) != NULL;
    return held;
}

/* Whether somebody without a certificate did something, also of whom nobody put on the list. */
static bool did_without(const mf_job *job)
{
    for (size_t i = 0; i < job->n_practice; i++) {
        const mf_practice *it = &job->practice[i];
        if (it->planned != MF_YES && uncertified(job, it->person, it->on))
            return true;
    }
    for (size_t i = 0; i < job->n_tick; i++) {
        const mf_tick *it = &job->tick[i];
        if (it->state == MF_TICK_DONE && uncertified(job, it->person, it->on))
            return true;
    }
    for (size_t i = 0; i < job->n_verification; i++) {
        const mf_verification *it = &job->verification[i];
        if (uncertified(job, it->person, it->on) && !examined(job, it))
            return true;
    }
    return false;
}

static void trained(mf_rec *rec, items *all)
{
    mf_claim_tally sum = mf_claim_count(rec, &mf_claim_trained);
    if (has_worker(rec->job) || did_without(rec->job) || sum.lacking > 0)
        say_claim(rec, all, &mf_claim_trained);
    else
        say(all, MF_MARK_NONE, mf_phrase(rec, "cert.trained-nobody"));
}

/* What was prohibited is stated as it is recorded. */
static void methods(mf_rec *rec, items *all)
{
    const char *used = mf_claim_refused(rec, true), *unsaid = mf_claim_refused(rec, false);
    if (*used != '\0')
        say(all, MF_MARK_CROSS, words_of(rec, &mf_claim_methods, "-refused", used));
    if (*unsaid != '\0')
        say(all, MF_MARK_OPEN, words_of(rec, &mf_claim_methods, "-unsaid", unsaid));
    if (*used == '\0' && *unsaid == '\0')
        say_claim(rec, all, &mf_claim_methods);
}

static bool any_on(const mf_rec *rec, unsigned side)
{
    for (size_t i = 0; i < rec->job->n_area; i++)
        if (mf_claim_side(&rec->job->area[i]) == side && !mf_area_is_off(rec, &rec->job->area[i]))
            return true;
    return false;
}

/* What the events of the verification show of who did it: looking and wiping are a certified
 * renovator's (745.85(b)); cleaning again is not, nor is an examiner's look. */
typedef struct verifiers {
    const char *seen;       /* ids that were told, parted by commas */
    const char *renovators; /* names of those who are certified, but for the one who states */
    const char *examiners;  /* names of those who are not, and looked for the clearance */
    const char *others;     /* names of the rest */
    bool own;               /* whoever states it looked or wiped too, and is certified */
    bool wiped;             /* a cloth was used */
} verifiers;

static void add_verifier(mf_rec *rec, const mf_verification *it, const char *person, verifiers *out)
{
    bool look = it->event == MF_VER_LOOK_CLEAN || it->event == MF_VER_LOOK_DIRTY;
    bool cloth = it->event == MF_VER_WET_MATCH || it->event == MF_VER_WET_DARKER ||
                 it->event == MF_VER_DRY_WIPE;
    out->wiped = out->wiped || cloth;
    bool certified = mf_certified(rec->job, it->person, MF_DISC_RENOVATOR, it->on, NULL) != NULL;
    bool own = strcmp(it->person, person) == 0;
    out->own = out->own || (own && certified && (look || cloth));
    if ((!look && !cloth) || (own && certified) || mf_id_in_list(out->seen, it->person))
        return;
    bool clearance = mf_assisted_holds(rec->job) && examined(rec->job, it);
    const char **names = certified ? &out->renovators : clearance ? &out->examiners : &out->others;
    out->seen = mf_join(rec, out->seen, ",", it->person);
    *names = mf_join(rec, *names, ", ", mf_person_words(rec, it->person));
}

static verifiers verifiers_of(mf_rec *rec, const char *person)
{
    verifiers all = {"", "", "", "", false, false};
    for (size_t i = 0; i < rec->job->n_verification; i++)
        add_verifier(rec, &rec->job->verification[i], person, &all);
    return all;
}

static bool any_sampled(mf_rec *rec)
{
    mf_day on;
    for (size_t i = 0; i < rec->job->n_area; i++)
        if (mf_rec_cleared(rec, &rec->job->area[i], &on) == MF_CLEARED_BY_SAMPLES)
            return true;
    return false;
}

/* ---- who did or directed the work ------------------------------------------------------ */

/* Of the tasks of 745.85(a) that were done: whether the person did or directed one, and the names
 * of who did or directed the others. */
typedef struct direction {
    bool own;
    const char *seen, *others;
} direction;

static void add_director(mf_rec *rec, const char *who, direction *out)
{
    if (mf_id_in_list(out->seen, who))
        return;
    out->seen = mf_join(rec, out->seen, ",", who);
    out->others = mf_join(rec, out->others, ", ", mf_person_words(rec, who));
}

static direction direction_of(mf_rec *rec, const char *person)
{
    direction all = {false, "", ""};
    for (size_t i = 0; i < rec->job->n_tick; i++) {
        const mf_tick *it = &rec->job->tick[i];
        bool own = mf_task_directed_by(rec->job, it, person);
        bool named = mf_task_directed_by(rec->job, it, it->renovator);
        all.own = all.own || own;
        if (!own && (named || mf_task_directed_by(rec->job, it, it->person)))
            add_director(rec, named ? it->renovator : it->person, &all);
    }
    return all;
}

/* Nobody states of work that another directed that it was their own. */
static void assigned(mf_rec *rec, items *all, const char *person)
{
    mf_claim_tally sum = mf_claim_count(rec, &mf_claim_assigned);
    const direction by = direction_of(rec, person);
    bool shown = sum.lacking == 0 && sum.shown > 0;
    if (!shown || *by.others == '\0')
        say_claim(rec, all, &mf_claim_assigned);
    else if (by.own)
        say(all, MF_MARK_NONE, words_of(rec, &mf_claim_assigned, "-in-part", by.others));
    else
        say(all, MF_MARK_NONE, words_of(rec, &mf_claim_assigned, "-others", by.others));
}

static void verified(mf_rec *rec, items *all, const char *person)
{
    mf_claim_tally sum = mf_claim_count(rec, &mf_claim_verified);
    const verifiers by = verifiers_of(rec, person);
    const char *way = by.wiped ? "cert.verified" : "cert.looked";
    if (sum.lacking > 0 || sum.shown == 0)
        say(all, MF_MARK_OPEN, mf_phrase(rec, "cert.verified-not"));
    else if (*by.renovators != '\0')
        say(all, MF_MARK_NONE,
            mf_fill(rec, mf_print(rec, by.own ? "%s-with" : "%s-by", way), by.renovators, NULL,
                    NULL));
    else if (by.own)
        say(all, MF_MARK_NONE, mf_phrase(rec, way));
    if (*by.examiners != '\0')
        say(all, MF_MARK_NONE, mf_fill(rec, "cert.looked-cleared", by.examiners, NULL, NULL));
    if (*by.others != '\0')
        say(all, MF_MARK_NONE, mf_fill(rec, "cert.looked-too", by.others, NULL, NULL));
    if (any_sampled(rec))
        say(all, MF_MARK_NONE, mf_phrase(rec, "cert.verified-sampled"));
}

/* What is stated of each work area is stated of those in which work was done. */
static void areas_off(mf_rec *rec, items *all)
{
    for (size_t i = 0; i < rec->job->n_area; i++)
        if (mf_area_is_off(rec, &rec->job->area[i]))
            say(all, MF_MARK_NONE, mf_area_off_words(rec, &rec->job->area[i]));
}

static void collect(mf_rec *rec, items *all, const char *person)
{
    areas_off(rec, all);
    assigned(rec, all, person);
    trained(rec, all);
    say_claim(rec, all, &mf_claim_signs);
    say_claim(rec, all, &mf_claim_contained);
    methods(rec, all);
    say_claim(rec, all, &mf_claim_waste);
    if (any_on(rec, MF_ON_INTERIOR) || rec->job->n_area == 0)
        say_claim(rec, all, &mf_claim_cleaned);
    if (any_on(rec, MF_ON_EXTERIOR))
        say_claim(rec, all, &mf_claim_cleaned_outside);
    verified(rec, all, person);
    if (rec->job->n_kit_test > 0)
        say(all, MF_MARK_NONE, mf_phrase(rec, "cert.kits"));
    if (rec->job->n_chip > 0)
        say(all, MF_MARK_NONE, mf_phrase(rec, "cert.chips"));
}

static void draw(mf_rec *rec, const item *it)
{
    mf_page *page = &rec->page;
    const float width = mf_across(page) - 14;
    float height = mf_page_block(page, MF_ST_BODY, (mf_point){0, 0}, width, it->text, false);
    mf_page_need(page, height);
    if (it->mark == MF_MARK_NONE)
        mf_haru_disc(page->haru, MF_INK_BLACK, MF_INK_NONE, 0, (mf_point){MF_LEFT + 4, page->y + 6},
                     1.3F);
    else
        mf_mark_draw(page->haru, it->mark, (mf_point){MF_LEFT, page->y + 1}, 9);
    mf_page_block(page, MF_ST_BODY, (mf_point){MF_LEFT + 14, page->y}, width, it->text, true);
    page->y += height + 1;
}

/* Stated first; then, under a line of its own, what is not. */
void mf_record_statement(mf_rec *rec, const char *person)
{
    items all = {.n = 0};
    bool any = false;
    collect(rec, &all, person);
    for (size_t i = 0; i < all.n; i++)
        if (all.of[i].mark != MF_MARK_OPEN)
            draw(rec, &all.of[i]);
    for (size_t i = 0; i < all.n; i++) {
        if (all.of[i].mark != MF_MARK_OPEN)
            continue;
        if (!any)
            mf_page_text(&rec->page, MF_ST_BOLD, mf_phrase(rec, "cert.not-stated"));
        any = true;
        draw(rec, &all.of[i]);
    }
}
