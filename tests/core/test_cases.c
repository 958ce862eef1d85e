/* Whole jobs as small text files: tests/cases/NAME.case, described in
 * tests/cases/README.md. What is expected is written by hand in the files, each with
 * the paragraph of 40 CFR part 745 beside it; the jobs are constructed. Everything
 * that is lacking, pending or warned of must be expected, and every requirement must be
 * found lacking (or warned of, where it never blocks) in some case. */
#include "core/given.h"
#include "support/case_job.h"

#include <dirent.h>
#include <mistfold/audit.h>
#include <mistfold/house.h>
#include <mistfold/stage.h>
#include <mistfold/words.h>
#include <stdio.h>
#include <string.h>

enum { MAX_FINDINGS = 700, MAX_WANTED = 120, MAX_ROWS = 400, MAX_CASES = 1000, MIN_CASES = 60 };

/* One expected finding. */
typedef struct wanted {
    mf_verdict verdict;
    char id[48], subject[64], why[48]; /* subject "*" = any, why "" = any */
    bool seen;
} wanted;

typedef struct whole_case {
    char file[128];
    case_job made;
    char today[16], area[24];
    wanted want[MAX_WANTED];
    size_t n_want;
    char answer[MF_GATE_COUNT][8]; /* "" = not asked */
    mf_stage stage;                /* MF_STAGE_COUNT = not asked */
    bool based;
    unsigned only; /* the findings of this question alone; 0 = of all */
} whole_case;

static whole_case one;
static mf_finding found[MAX_FINDINGS];
static bool covered[MAX_ROWS], staged[MF_STAGE_COUNT];
static int faults;

/* All faults of all cases are told at once: whoever writes cases mends many. */
#define FAULT(...)                                                                                 \
    do {                                                                                           \
        print_error("%s: ", one.file);                                                             \
        print_error(__VA_ARGS__);                                                                  \
        print_error("\n");                                                                         \
        faults++;                                                                                  \
    } while (0)

/* ---- reading ------------------------------------------------------------------------- */

static const char *const verdict_words[] = {"met",     "lacking", "warns",
                                            "not-due", "pending", "not-now"};

static int verdict_named(const char *word)
{
    for (int i = 0; i < (int)COUNT(verdict_words); i++)
        if (strcmp(verdict_words[i], word) == 0)
            return i;
    return -1;
}

static size_t row_of(const char *id)
{
    size_t n, i = 0;
    const mf_requirement *const *all = mf_requirements(&n);
    while (i < n && strcmp(all[i]->id, id) != 0)
        i++;
    if (i == n)
        FAULT("there is no requirement %s", id);
    return i < n ? i : 0;
}

/* The comment names the section that asks for it: "# 745.84(a)(2)", "# 35.140". */
static void check_paragraph(const char *id, const char *comment)
{
    size_t n;
    char section[16] = "";
    const mf_requirement *row = mf_requirements(&n)[row_of(id)];
    const char *at = comment == NULL ? "" : comment;
    bool named = false;
    for (at += strcspn(at, "0123456789"); *at != '\0' && !named; at += strcspn(at, "0123456789")) {
        size_t len = strspn(at, "0123456789.");
        while (len > 0 && at[len - 1] == '.')
            len--;
        snprintf(section, sizeof section, "%.*s", (int)len, at);
        named = strchr(section, '.') != NULL && strstr(row->citation, section) != NULL;
        at += len == 0 ? 1 : len;
    }
    if (!named)
        FAULT("%s needs its paragraph in a comment, as in %s", id, row->citation);
}

static void read_wanted(const case_line *line, int verdict, const char *comment)
{
    assert_true(one.n_want < MAX_WANTED);
    if (line->n < 3) {
        FAULT("%s needs a requirement and a subject", line->word[0]);
        return;
    }
    wanted *it = &one.want[one.n_want++];
    it->verdict = (mf_verdict)verdict;
    it->seen = false;
    snprintf(it->id, sizeof it->id, "%s", line->word[1]);
    snprintf(it->subject, sizeof it->subject, "%s", line->word[2]);
    snprintf(it->why, sizeof it->why, "%s", line->n > 3 ? line->word[3] : "");
    check_paragraph(it->id, comment);
}

static void read_answer(const case_line *line)
{
    mf_gate gate = line->n == 3 ? mf_gate_named(line->word[1]) : MF_GATE_COUNT;
    if (gate == MF_GATE_COUNT) {
        FAULT("answer GATE yes|no|not-yet|over");
        return;
    }
    snprintf(one.answer[gate], sizeof one.answer[gate], "%s", line->word[2]);
}

static void read_line(char *text)
{
    case_line line;
    char *comment = strchr(text, '#');
    case_split(&line, text);
    if (line.n == 0)
        return;
    int verdict = verdict_named(line.word[0]);
    if (strcmp(line.word[0], "base") == 0 && line.n == 2)
        one.based = case_base(&one.made, line.word[1]);
    else if (strcmp(line.word[0], "today") == 0 && line.n == 2)
        snprintf(one.today, sizeof one.today, "%s", line.word[1]);
    else if (strcmp(line.word[0], "area") == 0 && line.n == 2)
        snprintf(one.area, sizeof one.area, "%s", line.word[1]);
    else if (strcmp(line.word[0], "only") == 0 && line.n == 2)
        one.only = 1u << mf_gate_named(line.word[1]);
    else if (strcmp(line.word[0], "answer") == 0)
        read_answer(&line);
    else if (strcmp(line.word[0], "stage") == 0 && line.n == 2)
        one.stage = mf_stage_named(line.word[1]);
    else if (verdict >= 0)
        read_wanted(&line, verdict, comment);
    else if (!one.based || !case_apply(&one.made, &line))
        FAULT("%s %s: %s", line.word[0], line.n > 1 ? line.word[1] : "", one.made.problem);
}

static void read_case(const char *name)
{
    char path[512], text[512];
    memset(&one, 0, sizeof one);
    snprintf(one.file, sizeof one.file, "%s", name);
    snprintf(one.today, sizeof one.today, FX_TODAY);
    one.stage = MF_STAGE_COUNT;
    snprintf(path, sizeof path, MF_TESTS "/cases/%s", name);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    while (fgets(text, sizeof text, file) != NULL)
        read_line(text);
    fclose(file);
    assert_true(one.based);
}

/* ---- judging --------------------------------------------------------------------------- */

static bool gives(const mf_finding *it, const char *why)
{
    bool named = strcmp(why, it->why) == 0;
    for (size_t i = 0; i < it->n_also; i++)
        named = named || strcmp(why, it->also[i]) == 0;
    return named;
}

static bool fits(const wanted *want, const mf_finding *it)
{
    return strcmp(want->id, it->requirement->id) == 0 && want->verdict == it->verdict &&
           (strcmp(want->subject, "*") == 0 || strcmp(want->subject, it->subject) == 0) &&
           (want->why[0] == '\0' || want->why[0] == '*' || gives(it, want->why));
}

static bool expected(const mf_finding *it)
{
    bool any = false;
    for (size_t i = 0; i < one.n_want; i++) {
        if (!fits(&one.want[i], it))
            continue;
        one.want[i].seen = any = true;
    }
    return any;
}

static size_t ask(unsigned gates)
{
    mf_audit_ask question = {&one.made.job, day(one.today), gates, one.area};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    assert_true(n <= MAX_FINDINGS);
    return n;
}

/* What only tells how the house and the work are judged: finding it is enough. */
static bool never_lacking(const char *id)
{
    return strcmp(id, "covered") == 0 || strcmp(id, "minor-area") == 0 ||
           strcmp(id, "assisted-scope") == 0;
}

/* No sentence has a hole where a day or a number was to stand. */
static void check_holes(const mf_finding *it)
{
    const struct {
        const char *name;
        bool empty;
    } parts[] = {{"{d1}", it->d1 == MF_DAY_NONE},
                 {"{d2}", it->d2 == MF_DAY_NONE},
                 {"{n1}", it->n1 == MF_NUM_NONE},
                 {"{n2}", it->n2 == MF_NUM_NONE},
                 {"{s}", it->subject == NULL || it->subject[0] == '\0'}};
    const char *words = mf_words2(MF_LANG_EN, "why", it->why);
    for (size_t i = 0; words != NULL && i < sizeof parts / sizeof parts[0]; i++)
        if (parts[i].empty && strstr(words, parts[i].name) != NULL)
            FAULT("%s says %s without its %s", it->requirement->id, it->why, parts[i].name);
}

static void check_findings(void)
{
    size_t n = ask(one.only);
    for (size_t i = 0; i < n; i++) {
        check_holes(&found[i]);
        /* What falls due with the end of the job stands in every job that goes on. */
        bool later = strcmp(found[i].why, "handover-when-completed") == 0;
        /* A caution stands wherever paint is disturbed; it need not be expected. */
        bool caution = strncmp(found[i].requirement->citation, "29 CFR 1926.62", 14) == 0;
        bool told = found[i].verdict == MF_LACKING || (found[i].verdict == MF_PENDING && !later) ||
                    (found[i].verdict == MF_WARNING && !caution);
        if (!expected(&found[i]) && told)
            FAULT("not expected: %s %s \"%s\" %s", verdict_words[found[i].verdict],
                  found[i].requirement->id, found[i].subject, found[i].why);
    }
    for (size_t i = 0; i < one.n_want; i++) {
        const wanted *want = &one.want[i];
        if (!want->seen)
            FAULT("not found: %s %s %s %s", verdict_words[want->verdict], want->id, want->subject,
                  want->why);
        if (want->verdict == MF_LACKING || want->verdict == MF_WARNING ||
            want->verdict == MF_NOT_NOW || never_lacking(want->id))
            covered[row_of(want->id)] = true;
    }
}

/* "over" = no for the time alone: before the start, or the work is over. */
static const char *answer_to(unsigned gate)
{
    mf_cover_answer cover;
    size_t n = ask(1u << gate);
    mf_cover_judge(&one.made.job, &cover);
    if (gate == MF_GATE_RULE)
        return cover.cover == MF_COVER_YES ? "yes" : "no";
    mf_answer answer = mf_audit_answer(found, n, 1u << gate);
    return answer == MF_ANSWER_NOT_NOW ? "over" : mf_answer_name(answer);
}

static void check_answers(void)
{
    int asked = 0;
    for (unsigned gate = 0; gate < MF_GATE_COUNT; gate++) {
        if (one.answer[gate][0] == '\0')
            continue;
        const char *answer = answer_to(gate);
        if (strcmp(answer, one.answer[gate]) != 0)
            FAULT("the answer to %s is %s", mf_gate_name((mf_gate)gate), answer);
        asked++;
    }
    if (asked == 0)
        FAULT("asks no question");
}

static void check_stage(void)
{
    if (one.stage == MF_STAGE_COUNT)
        return;
    mf_stage stage = mf_stage_of(&one.made.job, day(one.today));
    if (stage != one.stage)
        FAULT("its stage is %s", mf_stage_name(stage));
    staged[stage] = true;
}

static bool is_case(const char *name)
{
    size_t len = strlen(name);
    return len > 5 && strcmp(name + len - 5, ".case") == 0;
}

static void test_all_cases(void **state)
{
    (void)state;
    size_t n = 0;
    DIR *folder = opendir(MF_TESTS "/cases");
    assert_non_null(folder);
    for (struct dirent *it = readdir(folder); it != NULL; it = readdir(folder)) {
        if (!is_case(it->d_name))
            continue;
        read_case(it->d_name);
        check_findings();
        check_answers();
        check_stage();
        case_free(&one.made);
        n++;
    }
    closedir(folder);
    assert_true(n >= MIN_CASES);
    assert_int_equal(faults, 0);
}

/* Runs after the cases: a requirement that no case breaks fails here. */
static void test_every_requirement_in_a_case(void **state)
{
    (void)state;
    size_t n, missing = 0;
    const mf_requirement *const *all = mf_requirements(&n);
    assert_true(n <= MAX_ROWS);
    for (size_t i = 0; i < n; i++) {
        if (covered[i])
            continue;
        print_error("no case for %s (%s)\n", all[i]->id, all[i]->citation);
        missing++;
    }
    assert_int_equal(missing, 0);
}

static void test_every_stage_in_a_case(void **state)
{
    (void)state;
    for (int i = 0; i < MF_STAGE_COUNT; i++)
        if (!staged[i])
            fail_msg("no case is %s", mf_stage_name((mf_stage)i));
    assert_string_equal(mf_stage_name(MF_STAGE_COUNT), "");
    assert_int_equal(mf_stage_named("handed"), MF_STAGE_COUNT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_cases),
        cmocka_unit_test(test_every_requirement_in_a_case),
        cmocka_unit_test(test_every_stage_in_a_case),
    };
    return cmocka_run_group_tests_name("cases", tests, NULL, NULL);
}
