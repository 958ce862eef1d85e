/* docs/sources.md maps every paragraph of 40 CFR 745.82-745.90 to the rows that cover
 * it. The table is read both ways against the rows' own citations, so that neither
 * can drift. The list of paragraphs below is written by hand from the rule. */
#include "core/given.h"

#include <mistfold/audit.h>
#include <mistfold/contain.h>
#include <stdio.h>
#include <string.h>

enum { MAX_ROWS = 200, MAX_CITES = 40, DEPTH = 6, LINE = 1024 };

/* ---- paragraphs ---------------------------------------------------------------------- */

/* 745.86(b)(6): section 86 and the groups "b", "6". */
typedef struct paragraph {
    int section;
    int depth;
    char group[DEPTH][6];
} paragraph;

static const char *const romans[] = {"i", "ii", "iii", "iv", "v", "vi", "vii", "viii"};

static int roman(const char *group)
{
    for (int i = 0; i < (int)COUNT(romans); i++)
        if (strcmp(romans[i], group) == 0)
            return i;
    return -1;
}

/* How deep a group stands when it follows another paragraph, as in "(i)(D), (ii)(C)":
 * letter, digit, roman, capital, digit. */
static int level_of(const char *group, int depth_before)
{
    if (group[0] >= '0' && group[0] <= '9')
        return depth_before >= 5 ? 4 : 1;
    if (group[0] >= 'A' && group[0] <= 'Z')
        return 3;
    return roman(group) >= 0 && (group[1] != '\0' || depth_before >= 3) ? 2 : 0;
}

/* Reads one "(x)"; returns what follows it, or NULL. */
static const char *read_group(const char *at, char group[6])
{
    if (*at != '(')
        return NULL;
    size_t len = strcspn(at + 1, ")");
    if (len == 0 || len > 5 || at[len + 1] != ')' ||
        strspn(at + 1, "abcdefghijklmnopqrstuvwxyzABCDEFG0123456789") < len)
        return NULL;
    memcpy(group, at + 1, len);
    group[len] = '\0';
    return at + len + 2;
}

static const char *read_groups(const char *at, paragraph *out)
{
    char group[6];
    const char *next = read_group(at, group);
    for (bool first = true; next != NULL; first = false) {
        if (first && out->depth > 0)
            out->depth = level_of(group, out->depth);
        assert_true(out->depth < DEPTH);
        memcpy(out->group[out->depth++], group, sizeof group);
        at = next;
        next = read_group(at, group);
    }
    return at;
}

/* The next of a series: 1 2 3, a b c, i ii iii. */
static void step_on(char *group, int level)
{
    int at = roman(group);
    if (level == 2)
        snprintf(group, 6, "%s", romans[at + 1]);
    else
        group[0]++;
}

/* "-(3)" after "(a)(1)": also (a)(2) and (a)(3). */
static const char *read_range(const char *at, paragraph *last, paragraph *out, size_t *n)
{
    char until[6];
    const char *end = *at == '-' ? read_group(at + 1, until) : NULL;
    if (end == NULL)
        return at;
    while (strcmp(last->group[last->depth - 1], until) != 0) {
        step_on(last->group[last->depth - 1], last->depth - 1);
        assert_true(*n < MAX_CITES);
        out[(*n)++] = *last;
    }
    return end;
}

/* All paragraphs of part 745 that a citation names. */
static size_t read_cites(const char *text, paragraph *out)
{
    paragraph last = {0};
    size_t n = 0;
    for (const char *at = text; *at != '\0';) {
        int section = 0, len = 0;
        bool begins = at == text || at[-1] == ' ';
        if (begins && strncmp(at, "745.", 4) == 0) {
            while (at[4 + len] >= '0' && at[4 + len] <= '9')
                section = section * 10 + (at[4 + len++] - '0');
            last = (paragraph){.section = section};
            at = read_groups(at + 4 + len, &last);
        } else if (begins && *at == '(' && last.section != 0) {
            const char *end = read_groups(at, &last);
            if (end == at)
                end++;
            at = end;
        } else {
            at++;
            continue;
        }
        assert_true(n < MAX_CITES);
        out[n++] = last;
        at = read_range(at, &last, out, &n);
    }
    return n;
}

static bool in_map(const paragraph *it)
{
    return it->section >= 82 && it->section <= 90;
}

/* One is the other or a part of it. */
static bool related(const paragraph *a, const paragraph *b)
{
    if (a->section != b->section)
        return false;
    for (int i = 0; i < a->depth && i < b->depth; i++)
        if (strcmp(a->group[i], b->group[i]) != 0)
            return false;
    return true;
}

/* ---- the table ------------------------------------------------------------------------- */

typedef struct row {
    char text[48];
    paragraph of;
    char covered_by[LINE];
} row;

static row rows[MAX_ROWS];
static size_t n_rows;

static void read_row(const char *line)
{
    row *it = &rows[n_rows];
    const char *bar = strchr(line + 2, '|');
    if (bar == NULL || strncmp(line, "| 745.", 6) != 0)
        return;
    assert_true(n_rows < MAX_ROWS);
    snprintf(it->text, sizeof it->text, "%.*s", (int)(bar - line - 3), line + 2);
    snprintf(it->covered_by, sizeof it->covered_by, "%s", bar + 2);
    paragraph cites[MAX_CITES];
    if (read_cites(it->text, cites) != 1)
        fail_msg("%s is not one paragraph", it->text);
    it->of = cites[0];
    n_rows++;
}

static int read_table(void **state)
{
    (void)state;
    char line[LINE];
    bool inside = false;
    FILE *file = fopen(MF_TESTS "/../docs/sources.md", "r");
    if (file == NULL)
        return -1;
    while (fgets(line, sizeof line, file) != NULL) {
        if (strncmp(line, "## ", 3) == 0)
            inside = strncmp(line, "## Map of 40 CFR", 16) == 0;
        if (inside)
            read_row(line);
    }
    fclose(file);
    return 0;
}

static bool names(const row *it, const char *token)
{
    char quoted[80];
    snprintf(quoted, sizeof quoted, "`%s`", token);
    return strstr(it->covered_by, quoted) != NULL;
}

/* ---- what can stand in it ----------------------------------------------------------------- */

static const char *citation_of_limit(const char *id, size_t nth)
{
    size_t n;
    const mf_limit *all = mf_limit_rows(&n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(all[i].name, id) == 0 && nth-- == 0)
            return all[i].citation;
    return NULL;
}

static const mf_requirement *requirement_named(const char *id)
{
    size_t n;
    const mf_requirement *const *all = mf_requirements(&n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(all[i]->id, id) == 0)
            return all[i];
    return NULL;
}

static const char *citation_of(const char *token, size_t nth)
{
    if (strncmp(token, "limit:", 6) == 0)
        return citation_of_limit(token + 6, nth);
    if (nth > 0)
        return NULL;
    if (strncmp(token, "step:", 5) == 0) {
        const mf_step *step = mf_step_named(token + 5);
        return step == NULL ? NULL : step->citation;
    }
    const mf_requirement *it = requirement_named(token);
    return it == NULL ? NULL : it->citation;
}

static bool cites(const char *token, const paragraph *wanted)
{
    const char *citation;
    for (size_t nth = 0; (citation = citation_of(token, nth)) != NULL; nth++) {
        paragraph found[MAX_CITES];
        size_t n = read_cites(citation, found);
        for (size_t i = 0; i < n; i++)
            if (related(&found[i], wanted))
                return true;
    }
    return false;
}

/* ---- both ways ------------------------------------------------------------------------------ */

static void check_tokens(const row *it)
{
    char copy[LINE];
    int n = 0;
    snprintf(copy, sizeof copy, "%s", it->covered_by);
    if (strncmp(copy, "none: ", 6) == 0)
        return;
    for (char *at = strchr(copy, '`'); at != NULL; at = strchr(at + 1, '`')) {
        char *end = strchr(at + 1, '`');
        assert_non_null(end);
        *end = '\0';
        if (!cites(at + 1, &it->of))
            fail_msg("%s: %s does not exist or does not cite it", it->text, at + 1);
        n++;
        at = end;
    }
    if (n == 0)
        fail_msg("%s: nothing covers it, and it does not say why", it->text);
}

static void test_what_stands_there_cites_it(void **state)
{
    (void)state;
    for (size_t i = 0; i < n_rows; i++)
        check_tokens(&rows[i]);
}

static void check_listed(const char *token, const char *citation)
{
    paragraph found[MAX_CITES];
    size_t n = read_cites(citation, found);
    for (size_t i = 0; i < n; i++) {
        bool listed = !in_map(&found[i]);
        for (size_t r = 0; r < n_rows && !listed; r++)
            listed = related(&rows[r].of, &found[i]) && names(&rows[r], token);
        if (!listed)
            fail_msg("%s cites %s: put it beside that paragraph in docs/sources.md", token,
                     citation);
    }
}

static void test_what_cites_stands_there(void **state)
{
    (void)state;
    size_t n;
    char token[80];
    const mf_requirement *const *all = mf_requirements(&n);
    for (size_t i = 0; i < n; i++)
        check_listed(all[i]->id, all[i]->citation);
    const mf_step *steps = mf_steps(&n);
    for (size_t i = 0; i < n; i++) {
        snprintf(token, sizeof token, "step:%s", steps[i].id);
        if (requirement_named(steps[i].id) == NULL)
            check_listed(token, steps[i].citation);
    }
    const mf_limit *limits = mf_limit_rows(&n);
    for (size_t i = 0; i < n; i++) {
        snprintf(token, sizeof token, "limit:%s", limits[i].name);
        check_listed(token, limits[i].citation);
    }
}

/* The paragraphs of 40 CFR 745.82-745.90, written by hand; 745.83 is definitions. */
static const char *const paragraphs[] = {
#include "core/paragraphs.inc"
};

static void test_no_paragraph_is_missing(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(paragraphs); i++) {
        size_t n = 0;
        for (size_t r = 0; r < n_rows; r++)
            n += strcmp(rows[r].text, paragraphs[i]) == 0;
        if (n != 1)
            fail_msg("%s stands %zu times in docs/sources.md", paragraphs[i], n);
    }
    assert_int_equal(n_rows, COUNT(paragraphs));
}

/* The reader itself: citations as they are written in the rows, by hand. */
static void test_reading_citations(void **state)
{
    (void)state;
    paragraph out[MAX_CITES];
    assert_int_equal(read_cites("40 CFR 745.84(a)(2); 745.86(b)(2)-(4)", out), 4);
    assert_string_equal(out[3].group[1], "4");
    assert_int_equal(out[3].section, 86);
    assert_int_equal(read_cites("40 CFR 745.85(a)(2)(i)(D), (ii)(C)", out), 2);
    assert_int_equal(out[1].depth, 4);
    assert_string_equal(out[1].group[2], "ii");
    assert_string_equal(out[1].group[3], "C");
    assert_int_equal(read_cites("40 CFR 745.85(b)(1)(ii)(A)(3), (B)(2)", out), 2);
    assert_int_equal(out[1].depth, 5);
    assert_string_equal(out[1].group[3], "B");
    assert_int_equal(read_cites("66 FR 1206; TSCA 401(17)", out), 0);
    assert_int_equal(read_cites("40 CFR 745.83", out), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_reading_citations),
        cmocka_unit_test(test_what_stands_there_cites_it),
        cmocka_unit_test(test_what_cites_stands_there),
        cmocka_unit_test(test_no_paragraph_is_missing),
    };
    return cmocka_run_group_tests_name("sources", tests, read_table, NULL);
}
