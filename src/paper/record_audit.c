/* Every requirement with its verdict, its reason and its evidence; then the
 * limits that decided, with how sure we are of each. */
#include "paper/photos.h"
#include "paper/record.h"

#include <mistfold/place.h>

#include <mistfold/contain.h>
#include <mistfold/dust.h>
#include <string.h>

mf_mark mf_verdict_mark(mf_verdict verdict)
{
    static const mf_mark marks[MF_VERDICT_COUNT] = {
        [MF_MET] = MF_MARK_TICK,     [MF_LACKING] = MF_MARK_CROSS, [MF_WARNING] = MF_MARK_WARN,
        [MF_NOT_DUE] = MF_MARK_DASH, [MF_PENDING] = MF_MARK_OPEN,  [MF_NOT_NOW] = MF_MARK_DASH};
    return marks[verdict];
}

const char *mf_why_words(mf_rec *rec, const mf_finding *finding)
{
    size_t size = mf_words_why(rec->ask->lang, finding, NULL, 0) + 1;
    char *text = mf_arena_alloc(&rec->arena, size);
    if (text == NULL) {
        mf_page_no_memory(&rec->page);
        return "";
    }
    mf_words_why(rec->ask->lang, finding, text, size);
    return text;
}

const char *mf_next_words(mf_rec *rec, const mf_finding *finding)
{
    size_t size = mf_words_next(rec->ask->lang, finding, NULL, 0) + 1;
    char *text = mf_arena_alloc(&rec->arena, size);
    if (text == NULL) {
        mf_page_no_memory(&rec->page);
        return "";
    }
    mf_words_next(rec->ask->lang, finding, text, size);
    return text;
}

/* The citation, and how sure we are of it when the words of the rule were not seen. */
static mf_cell citation_part(mf_rec *rec, const mf_requirement *asked)
{
    mf_cell part = mf_small(asked->citation);
    if (asked->status == MF_VERIFIED)
        return part;
    part.mark = MF_MARK_WARN;
    part.text = mf_join(rec, asked->citation, ", ", mf_enum(rec, MF_FAM_FACT, (int)asked->status));
    return part;
}

/* In words once; where it is asked again, by its citation. */
static mf_cell requirement_cell(mf_rec *rec, const mf_finding *finding, bool again)
{
    if (again)
        return mf_small(finding->requirement->citation);
    mf_cell cell = mf_plain(mf_phrase2(rec, "req", finding->requirement->id));
    cell.below = mf_below(rec, citation_part(rec, finding->requirement));
    return cell;
}

/* Shown for the same reason of another thing: told in the same row. */
static bool alike(const mf_finding *a, const mf_finding *b)
{
    return a->requirement == b->requirement && a->verdict == b->verdict && a->verdict == MF_MET &&
           strcmp(a->why, b->why) == 0 && strcmp(a->in_unit, b->in_unit) == 0;
}

/* Where the first of its like stands; i itself when it is the first. */
static size_t first_alike(const mf_rec *rec, size_t i)
{
    size_t first = i;
    while (first > 0 && rec->findings[first - 1].requirement == rec->findings[i].requirement)
        first--;
    while (first < i && !alike(&rec->findings[first], &rec->findings[i]))
        first++;
    return first;
}

enum { SHORT_LIST = 12 }; /* more than these are named without their entries */

/* "W01.sill office/169", with its day where that is another one. */
static const char *other_words(mf_rec *rec, const mf_finding *other, const mf_finding *first,
                               bool brief)
{
    if (brief)
        return other->subject;
    const char *words = mf_join(rec, other->subject, " ", other->evidence);
    bool same_day = other->d1 == first->d1 || other->d1 == MF_DAY_NONE;
    return same_day ? words : mf_join(rec, words, " ", mf_day_words(rec, other->d1));
}

static size_t count_alike(const mf_rec *rec, size_t at)
{
    size_t n = 0;
    for (size_t i = at; i < rec->n_findings; i++)
        n += alike(&rec->findings[at], &rec->findings[i]);
    return n;
}

/* The others of its like, each with its own entry; of a long list these stand in
 * the tables of the paint and the tests. */
static const char *likewise(mf_rec *rec, size_t at)
{
    mf_buf buf = {0};
    const mf_finding *first = &rec->findings[at];
    bool brief = count_alike(rec, at) > SHORT_LIST;
    for (size_t i = at + 1; i < rec->n_findings; i++) {
        if (rec->findings[i].requirement != first->requirement)
            break;
        if (!alike(first, &rec->findings[i]))
            continue;
        if (buf.len > 0)
            mf_buf_text(&buf, ", ");
        mf_buf_text(&buf, other_words(rec, &rec->findings[i], first, brief));
    }
    if (buf.failed)
        mf_page_no_memory(&rec->page);
    const char *words =
        buf.len == 0 ? "" : mf_fill(rec, "audit-likewise", mf_buf_str(&buf), NULL, NULL);
    mf_buf_free(&buf);
    return words;
}

static mf_cell found_cell(mf_rec *rec, size_t at)
{
    const mf_finding *finding = &rec->findings[at];
    mf_cell cell = mf_plain(mf_why_words(rec, finding));
    if (finding->verdict == MF_LACKING || finding->verdict == MF_WARNING ||
        finding->verdict == MF_PENDING)
        cell.below = mf_below(
            rec, mf_small(mf_fill(rec, "next-do", mf_next_words(rec, finding), NULL, NULL)));
    else
        cell.below = mf_below(rec, mf_small(likewise(rec, at)));
    return mf_with_photos(rec, cell, finding->evidence);
}

static void finding_row(mf_rec *rec, mf_table *table, size_t at, bool again)
{
    const mf_finding *finding = &rec->findings[at];
    mf_cell state = {.mark = mf_verdict_mark(finding->verdict),
                     .style = finding->verdict == MF_LACKING ? MF_ST_CELL_BOLD : MF_ST_CELL,
                     .text = mf_enum(rec, MF_FAM_VERDICT, (int)finding->verdict)};
    mf_cell entry = mf_small(finding->evidence);
    entry.link = finding->evidence;
    const mf_cell cells[4] = {state, requirement_cell(rec, finding, again), found_cell(rec, at),
                              entry};
    mf_table_row(table, cells);
}

static void due_table(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.verdict", 11, false},
                                  {"col.requirement", 38, false},
                                  {"col.found", 40, false},
                                  {"col.entry", 11, false}};
    mf_table table = mf_table_of(rec, cols, 4);
    const mf_finding *last = NULL;
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (finding->verdict == MF_NOT_DUE || first_alike(rec, i) != i)
            continue;
        bool again = last != NULL && last->requirement == finding->requirement;
        finding_row(rec, &table, i, again);
        last = finding;
    }
    mf_table_end(&table);
}

/* Whether an earlier finding is not due for the same reason. */
static bool reason_told(const mf_rec *rec, size_t at)
{
    for (size_t i = 0; i < at; i++)
        if (rec->findings[i].verdict == MF_NOT_DUE &&
            strcmp(rec->findings[i].why, rec->findings[at].why) == 0)
            return true;
    return false;
}

/* A reason, and under it what is not due for it. */
static void not_due_group(mf_rec *rec, mf_table *table, size_t at)
{
    const mf_finding *first = &rec->findings[at];
    mf_table_group(table, mf_why_words(rec, first));
    for (size_t i = at; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (finding->verdict != MF_NOT_DUE || strcmp(finding->why, first->why) != 0)
            continue;
        const mf_cell cells[2] = {
            mf_marked(MF_MARK_DASH, mf_phrase2(rec, "req", finding->requirement->id)),
            mf_small(finding->requirement->citation)};
        mf_table_row(table, cells);
    }
}

static void not_due_table(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.not-due", 64, false}, {"col.citation", 36, false}};
    mf_table table = mf_table_of(rec, cols, 2);
    table.dense = true;
    for (size_t i = 0; i < rec->n_findings; i++)
        if (rec->findings[i].verdict == MF_NOT_DUE && !reason_told(rec, i))
            not_due_group(rec, &table, i);
    mf_table_end(&table);
}

/* ---- limits ---------------------------------------------------------------------- */

typedef struct used_limits {
    const mf_limit *row[64];
    size_t n;
} used_limits;

static void use(used_limits *used, const mf_limit *limit)
{
    if (limit == NULL || used->n == sizeof used->row / sizeof used->row[0])
        return;
    for (size_t i = 0; i < used->n; i++)
        if (used->row[i] == limit)
            return;
    used->row[used->n++] = limit;
}

static void use_steps(const mf_rec *rec, used_limits *used)
{
    size_t n = 0;
    const mf_step *steps = mf_steps(&n);
    for (size_t area = 0; area < rec->job->n_area; area++)
        for (size_t i = 0; i < n; i++)
            if (steps[i].extent >= 0 && mf_step_wanted(rec->job, &steps[i], &rec->job->area[area]))
                use(used, mf_limit_for(rec->job, (mf_limit_id)steps[i].extent, rec->house.start));
}

static void collect(const mf_rec *rec, used_limits *used)
{
    use(used, mf_limit_for(rec->job, MF_LIMIT_YEAR_BUILT, rec->house.start));
    if (rec->job->n_reading > 0)
        use(used, mf_limit_for(rec->job, MF_LIMIT_PAINT_LOADING, rec->house.start));
    if (rec->job->n_chip > 0)
        use(used, mf_limit_for(rec->job, MF_LIMIT_PAINT_WEIGHT, rec->house.start));
    use_steps(rec, used);
    for (size_t i = 0; i < rec->job->n_dust_sample; i++) {
        const mf_limit *level = NULL;
        mf_dust_judge(rec->job, &rec->job->dust_sample[i], &level);
        use(used, level);
    }
    for (size_t i = 0; i < rec->n_findings; i++)
        use(used, rec->findings[i].limit), use(used, rec->findings[i].beside);
}

static const char *in_force(mf_rec *rec, const mf_limit *limit)
{
    if (limit->from == MF_DAY_NONE && limit->until == MF_DAY_NONE)
        return mf_phrase(rec, "always");
    if (limit->until == MF_DAY_NONE)
        return mf_fill(rec, "in-force-from", mf_day_words(rec, limit->from), NULL, NULL);
    if (limit->from == MF_DAY_NONE)
        return mf_fill(rec, "until", mf_day_words(rec, limit->until), NULL, NULL);
    return mf_fill(rec, "from-to", mf_day_words(rec, limit->from), mf_day_words(rec, limit->until),
                   NULL);
}

/* The citation, and whose rule it is when it is not the federal one. */
static mf_cell where_cell(mf_rec *rec, const mf_limit *limit)
{
    mf_cell cell = mf_small(limit->citation);
    if (strcmp(limit->place, "US") != 0)
        cell.below = mf_below(rec, mf_bold(limit->place));
    return cell;
}

static void limit_table(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.limit", 36, false},
                                  {"col.value", 13, false},
                                  {"col.in-force", 16, false},
                                  {"col.citation", 22, false},
                                  {"col.fact", 13, false}};
    used_limits used = {.n = 0};
    collect(rec, &used);
    mf_section(rec, "limits");
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "limits-note"));
    mf_table table = mf_table_of(rec, cols, 5);
    for (size_t i = 0; i < used.n; i++) {
        const mf_limit *limit = used.row[i];
        mf_cell status = mf_small(mf_enum(rec, MF_FAM_FACT, (int)limit->status));
        status.mark = limit->status == MF_VERIFIED ? MF_MARK_NONE : MF_MARK_WARN;
        const mf_cell cells[5] = {mf_plain(mf_phrase(rec, mf_print(rec, "limit.%s", limit->name))),
                                  mf_bold(mf_number_words(rec, limit->value, limit->unit)),
                                  mf_plain(in_force(rec, limit)), where_cell(rec, limit), status};
        mf_table_row(&table, cells);
    }
    mf_table_end(&table);
}

void mf_record_audit(mf_rec *rec)
{
    mf_section(rec, "audit");
    mf_page_heading(&rec->page, MF_ST_BODY,
                    mf_fill(rec, "audit-note", mf_day_words(rec, rec->ask->today), NULL, NULL));
    due_table(rec);
    mf_subhead(rec, "audit-not-due");
    not_due_table(rec);
    limit_table(rec);
}
