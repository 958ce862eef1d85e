/* Bad news never turns a no into a yes: a positive test, a prohibited method, a dirty look, a
 * failed sample, a step that was not done or a part more makes no answer better; nor does a
 * proof less. Tried on whole jobs in which a few things at random are missing or otherwise.
 * Common sense, no source; the jobs are constructed. SEED and JOBS in the environment try
 * others, and more. */
#include "core/given.h"
#include "core/two_terms.h"
#include "support/case_job.h"
#include "support/sampled.h"
#include <mistfold/audit.h>
#include <mistfold/house.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MAX_FINDINGS = 900, ASKED = 4 };

typedef struct answers {
    bool yes[ASKED], covered;
} answers;

static const mf_gate gates[ASKED] = {MF_GATE_DEMO, MF_GATE_SIGNS, MF_GATE_HANDOVER,
                                     MF_GATE_INSPECTION};
static case_job made;
static mf_finding findings[MAX_FINDINGS];
static unsigned chance_state;
static int noes;         /* answers that bad news could have turned */
static char spoilt[600]; /* what is otherwise in the job at hand */

static unsigned chance(size_t n)
{
    chance_state = chance_state * 1664525U + 1013904223U;
    return n == 0 ? 0 : (chance_state >> 8) % (unsigned)n;
}

static unsigned from_environment(const char *name, unsigned otherwise)
{
    const char *text = getenv(name);
    return text == NULL ? otherwise : (unsigned)strtoul(text, NULL, 10);
}

static void ask(answers *out)
{
    mf_cover_answer cover;
    mf_cover_judge(&made.job, &cover);
    out->covered = cover.cover != MF_COVER_NO;
    for (size_t i = 0; i < ASKED; i++) {
        mf_audit_ask question = {&made.job, day(FX_TODAY), 1U << gates[i], ""};
        size_t n = mf_audit(&question, findings, MAX_FINDINGS);
        assert_true(n <= MAX_FINDINGS);
        out->yes[i] = mf_audit_answer(findings, n, 0) == MF_ANSWER_YES;
    }
}

static void no_better(const answers *before, const char *news)
{
    answers after;
    ask(&after);
    for (size_t i = 0; i < ASKED; i++) {
        if (!before->yes[i] && after.yes[i])
            fail_msg("%s turns the answer to %s into a yes; %s", news, mf_gate_name(gates[i]),
                     spoilt);
        noes += !before->yes[i];
    }
    if (before->covered && !after.covered)
        fail_msg("%s takes the job out of the rule; %s", news, spoilt);
}

/* ---- jobs -------------------------------------------------------------------------------- */

/* A day some weeks off, another word of a choice, a yes for a no, a field less. */
static bool spoil_field(const mf_field *field, unsigned char *item)
{
    mf_day on;
    size_t n = 0;
    if ((field->flags & MF_F_NEEDED) == 0 && chance(2) == 0)
        return case_blank(field, item);
    switch (field->type) {
    case MF_F_DATE:
        memcpy(&on, item + field->offset, sizeof on);
        if (on != MF_DAY_NONE)
            case_set_number(field, item, on + (int)chance(41) - 20);
        return on != MF_DAY_NONE;
    case MF_F_CHOICE:
        while (field->choices[n] != NULL)
            n++;
        case_set_number(field, item, chance(n));
        return true;
    case MF_F_YESNO:
        case_set_number(field, item, chance(2) == 0 ? MF_YES : MF_NOT);
        return true;
    default:
        return false;
    }
}

/* The entry itself, or one more like it where there may be several. Not of ticks: the last
 * counts, and may be the bad news. */
static unsigned char *twin(const mf_kind *kind, size_t *at)
{
    unsigned char copy[1024];
    size_t n = case_count(&made, kind);
    bool may = !kind->once && mf_kind_key(kind) == NULL && strcmp(kind->name, "tick") != 0;
    if (may && n < CASE_LIST && chance(3) == 0) {
        memcpy(copy, case_item(&made, kind, *at), kind->size);
        case_put_back(&made, kind, n, copy);
        *at = n;
    }
    return case_item(&made, kind, *at);
}

static bool spoil_one(void)
{
    size_t n_kinds;
    const mf_kind *kinds = mf_kinds(&n_kinds), *kind = &kinds[chance(n_kinds)];
    size_t n = case_count(&made, kind), len = strlen(spoilt);
    if (n == 0)
        return false;
    size_t at = chance(n);
    const mf_field *field = &kind->fields[chance(kind->n_fields)];
    bool drop = chance(4) == 0;
    if (drop)
        case_take_away(&made, kind, at);
    else if (!spoil_field(field, twin(kind, &at)))
        return false;
    snprintf(spoilt + len, sizeof spoilt - len, " %s %s %zu %s", drop ? "without" : "with other",
             kind->name, at, drop ? "" : field->name);
    return true;
}

static void make_job(void)
{
    static const char *const bases[] = {"dwelling", "facility", "units", "assisted",
                                        "assisted-minor"};
    const char *base = bases[chance(COUNT(bases))];
    assert_true(case_base(&made, base));
    snprintf(spoilt, sizeof spoilt, "%s:", base);
    for (size_t left = chance(4); left > 0;)
        left -= spoil_one();
}

/* ---- bad news ------------------------------------------------------------------------------- */

/* %s is each component, or each work area, in turn. */
static const char *const news[] = {
    "add reading --component %s --instrument SN-TEST --operator rosa --number 99 --result 1.4"
    " --on 2026-08-14 --time 10:00 --substrate wood --purpose paint",
    "add kit_test --component %s --tester rosa --maker M --model T --lot 1 --recognized yes"
    " --result positive --on 2026-08-20",
    "add chip --component %s --sampler rosa --laboratory L --lab-address x --nllap yes"
    " --weight 20000 --on 2026-08-20",
    "add practice --area %s --method open-flame --person lee --on 2026-09-15",
    "add practice --area %s --method machine --person lee --on 2026-09-15 --hepa no",
    "add verification --area %s --event look-dirty --person rosa --on 2026-09-16 --time 20:00",
    "add dust_sample --area %s --surface floor --sampler ines --laboratory L --nllap yes"
    " --result 900 --on 2026-09-17",
    "add tick --area %s --step waste-daily --person lee --renovator rosa --state undone"
    " --on 2026-09-15",
    "add tick --area %s --step sheeting --person lee --renovator rosa --state undone"
    " --on 2026-09-16",
    "add component --id X9 --opening W02 --type other --side interior --substrate wood"
    " --part-of %s",
    "add component --id X8 --type wall --side exterior --substrate brick --room %s",
    "add opening --id X7 --kind window --elevation north --room %s",
    "add area --id X6 --side interior --length 12 --width 10 --place %s",
    "add scope_change --on 2026-09-15 --what %s",
    "add visit --child %s --born 2023-01-01 --on 2026-01-04 --minutes 400 --weekly-until"
    " 2026-12-01"};

static void bring(const answers *before, const char *text, const char *of)
{
    char words[400], kind[30];
    case_line line;
    size_t used = made.used;
    snprintf(words, sizeof words, text, of);
    case_split(&line, words);
    snprintf(kind, sizeof kind, "%s", line.word[1]);
    if (!case_apply(&made, &line))
        fail_msg("%s: %s", text, made.problem);
    no_better(before, text);
    case_take_away(&made, mf_kind_named(kind), case_count(&made, mf_kind_named(kind)) - 1);
    made.used = used;
}

static void bring_all(const answers *before)
{
    for (size_t i = 0; i < COUNT(news); i++) {
        const mf_kind *of = mf_kind_named(strstr(news[i], "--area") ? "area" : "component");
        for (size_t k = 0; k < case_count(&made, of); k++) {
            const char *id;
            memcpy(&id, case_item(&made, of, k) + mf_kind_key(of)->offset, sizeof id);
            bring(before, news[i], id);
        }
    }
}

/* A paper to the same people beside it that tells something else, as of other days. */
static bool told_otherwise(const mf_notice *own)
{
    for (size_t i = 0; i < made.job.n_notice; i++) {
        const mf_notice *it = &made.job.notice[i];
        if (it != own && strcmp(it->party, own->party) == 0)
            return true;
    }
    return false;
}

/* Of two that contradict each other, to take one away settles it. */
static bool contradicted(const mf_kind *kind, const void *item)
{
    if (strcmp(kind->name, "notice") == 0)
        return told_otherwise(item);
    return strcmp(kind->name, "certificate") == 0 &&
           mf_certificate_contradicting(&made.job, item, NULL) != NULL;
}

static void take_proof(const answers *before)
{
    static const char *const proofs[] = {"certificate", "training", "notice",
                                         "tick",        "handover", "certification",
                                         "attachment",  "sealed",   "owner_record"};
    unsigned char kept[1024];
    for (size_t i = 0; i < COUNT(proofs); i++) {
        const mf_kind *kind = mf_kind_named(proofs[i]);
        for (size_t k = 0; k < case_count(&made, kind); k++) {
            if (contradicted(kind, case_item(&made, kind, k)))
                continue;
            memcpy(kept, case_item(&made, kind, k), kind->size);
            case_take_away(&made, kind, k);
            no_better(before, proofs[i]);
            case_put_back(&made, kind, k, kept);
        }
    }
}

static void bad_news_makes_nothing_better(void **state)
{
    (void)state;
    chance_state = from_environment("SEED", 1);
    for (unsigned left = from_environment("JOBS", 40 / ONE_IN); left > 0; left--) {
        answers before;
        make_job();
        ask(&before);
        bring_all(&before);
        take_proof(&before);
        case_free(&made);
    }
    assert_true(noes > 1000 / ONE_IN);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(bad_news_makes_nothing_better)};
    return cmocka_run_group_tests_name("worse", tests, NULL, NULL);
}
