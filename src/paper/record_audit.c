/* Every requirement with its verdict, its reason and its evidence; then the
 * limits that decided, with how sure we are of each. */
#include "paper/cite.h"
#include "paper/entry.h"
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

/* "W03 stop": what stands where, when no second part of the job is called so; else its id, by
 * which the tables name it. */
static const char *part_name(mf_rec *rec, const mf_component *part)
{
    const mf_job *job = rec->job;
    size_t same = 0;
    for (size_t i = 0; i < job->n_component; i++)
        same += job->component[i].type == part->type &&
                strcmp(job->component[i].opening, part->opening) == 0 &&
                mf_same_room(job->component[i].room, part->room);
    const char *where = *part->opening == '\0' ? part->room : part->opening;
    if (same != 1 || *where == '\0')
        return part->id;
    return mf_join(rec, where, " ",
                   mf_brief_words(rec, mf_enum(rec, MF_FAM_COMPONENT, (int)part->type)));
}

/* Parties, people and parts of the house by their names, all else by what it is called in the
 * tables. */
static const char *subject_words(mf_rec *rec, const char *id)
{
    const mf_component *part = *id == '\0' ? NULL : mf_job_component(rec->job, id);
    if (part != NULL)
        return part_name(rec, part);
    const mf_party *party = *id == '\0' ? NULL : mf_job_party(rec->job, id);
    if (party != NULL && *party->name != '\0')
        return party->name;
    return *id == '\0' || mf_job_person(rec->job, id) == NULL ? id : mf_person_words(rec, id);
}

static mf_finding named(mf_rec *rec, const mf_finding *finding)
{
    mf_finding shown = *finding;
    shown.subject = subject_words(rec, finding->subject);
    return shown;
}

typedef size_t sentence_fn(mf_lang lang, const mf_finding *finding, char *out, size_t size);

static const char *sentence(mf_rec *rec, const mf_finding *finding, sentence_fn *of)
{
    const mf_finding shown = named(rec, finding);
    size_t size = of(rec->ask->lang, &shown, NULL, 0) + 1;
    char *text = mf_arena_alloc(&rec->arena, size);
    if (text == NULL) {
        mf_page_no_memory(&rec->page);
        return "";
    }
    of(rec->ask->lang, &shown, text, size);
    return text;
}

const char *mf_why_words(mf_rec *rec, const mf_finding *finding)
{
    return sentence(rec, finding, mf_words_why);
}

const char *mf_asked_words(mf_rec *rec, const mf_finding *finding)
{
    return sentence(rec, finding, mf_words_asked);
}

const char *mf_next_words(mf_rec *rec, const mf_finding *finding)
{
    return sentence(rec, finding, mf_words_next);
}

/* In words once, with the citation; where it is asked again, by its citation. A triangle and how
 * sure we are of it stand beside when the words of the rule were not seen. */
static mf_cell requirement_cell(mf_rec *rec, const mf_finding *finding, bool again)
{
    const mf_requirement *asked = finding->requirement;
    const char *words = mf_cite(asked->citation);
    if (!again)
        words = mf_print(rec, "%s [%s]", mf_phrase2(rec, "req", asked->id), words);
    if (!again && asked->status != MF_VERIFIED)
        words = mf_print(rec, "%s \u25B2 %s", words, mf_enum(rec, MF_FAM_FACT, (int)asked->status));
    return (mf_cell){
        .mark = mf_verdict_mark(finding->verdict), .style = MF_ST_SMALL, .text = words};
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

enum { SHORT_LIST = 12 }; /* more than these are counted: they stand in the tables before */

/* "W01.sill, 169", with its day where that is another one. */
static const char *other_words(mf_rec *rec, const mf_finding *other, const mf_finding *first)
{
    const char *entry = mf_entry_words(rec, other->evidence);
    const char *words = mf_join(rec, subject_words(rec, other->subject), ", ", entry);
    bool same_day = other->d1 == first->d1 || other->d1 == MF_DAY_NONE;
    return same_day ? words : mf_join(rec, words, ", ", mf_day_words(rec, other->d1));
}

static size_t count_alike(const mf_rec *rec, size_t at)
{
    size_t n = 0;
    for (size_t i = at; i < rec->n_findings; i++)
        n += alike(&rec->findings[at], &rec->findings[i]);
    return n;
}

/* The others of its like, each with its own entry; of many, how many. */
static const char *likewise(mf_rec *rec, size_t at)
{
    mf_buf buf = {0};
    const mf_finding *first = &rec->findings[at];
    size_t n = count_alike(rec, at);
    if (n > SHORT_LIST)
        return mf_fill(rec, "audit-likewise-many", mf_count_words(rec, n - 1), NULL, NULL);
    for (size_t i = at + 1; i < rec->n_findings; i++) {
        if (rec->findings[i].requirement != first->requirement)
            break;
        if (!alike(first, &rec->findings[i]))
            continue;
        if (buf.len > 0)
            mf_buf_text(&buf, "; ");
        mf_buf_text(&buf, other_words(rec, &rec->findings[i], first));
    }
    if (buf.failed)
        mf_page_no_memory(&rec->page);
    const char *words =
        buf.len == 0 ? "" : mf_fill(rec, "audit-likewise", mf_buf_str(&buf), NULL, NULL);
    mf_buf_free(&buf);
    return words;
}

static bool is_shown(const mf_finding *finding)
{
    return finding->verdict == MF_MET;
}

/* Of what is shown in small letters: there is much of it. */
static mf_cell found_cell(mf_rec *rec, size_t at)
{
    const mf_finding *finding = &rec->findings[at];
    const char *why = mf_why_words(rec, finding);
    if (is_shown(finding))
        return mf_with_photos(rec, mf_small(mf_join(rec, why, " ", likewise(rec, at))),
                              finding->evidence);
    mf_cell cell = mf_plain(why);
    if (finding->verdict != MF_NOT_NOW)
        cell.below = mf_below(
            rec, mf_small(mf_fill(rec, "next-do", mf_next_words(rec, finding), NULL, NULL)));
    return mf_with_photos(rec, cell, finding->evidence);
}

static void finding_row(mf_rec *rec, mf_table *table, size_t at, bool again)
{
    const mf_finding *finding = &rec->findings[at];
    const mf_cell cells[3] = {requirement_cell(rec, finding, again), found_cell(rec, at),
                              mf_entry_cell(rec, finding->evidence)};
    mf_table_row(table, cells);
}

/* How many findings have that verdict, before their rows. */
static void verdict_group(mf_rec *rec, mf_table *table, mf_verdict verdict)
{
    size_t n = 0;
    for (size_t i = 0; i < rec->n_findings; i++)
        n += rec->findings[i].verdict == verdict;
    mf_table_group(table, mf_fill(rec, "audit-group", mf_enum(rec, MF_FAM_VERDICT, (int)verdict),
                                  mf_count_words(rec, n), NULL));
}

/* A step done as it was ticked: nothing but its areas and entries is to be said. */
static bool plain_step(const mf_rec *rec, size_t at)
{
    const mf_finding *finding = &rec->findings[at];
    return finding->verdict == MF_MET && strcmp(finding->why, "step-done") == 0 &&
           count_alike(rec, at) <= SHORT_LIST;
}

static void verdict_rows(mf_rec *rec, mf_table *table, mf_verdict verdict)
{
    const mf_finding *last = NULL;
    for (size_t i = 0; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (finding->verdict != verdict || first_alike(rec, i) != i || plain_step(rec, i))
            continue;
        if (last == NULL)
            verdict_group(rec, table, verdict);
        finding_row(rec, table, i, last != NULL && last->requirement == finding->requirement);
        last = finding;
    }
}

static void verdict_table(mf_rec *rec, const mf_col *cols, const mf_verdict *order, size_t n)
{
    mf_table table = mf_table_of(rec, cols, 3);
    table.dense = true;
    for (size_t i = 0; i < n; i++)
        verdict_rows(rec, &table, order[i]);
    if (table.heads_on > 0)
        mf_table_end(&table);
}

/* What lacks, or should be known, comes first, with what to do; then what is shown. */
static void due_table(mf_rec *rec)
{
    static const mf_verdict open[] = {MF_LACKING, MF_NOT_NOW, MF_PENDING, MF_WARNING},
                            shown[] = {MF_MET};
    static const mf_col told[] = {
        {"col.requirement", 37, false}, {"col.found", 56, false}, {"col.entry", 7, false}};
    static const mf_col short_told[] = {
        {"col.requirement", 55, false}, {"col.found", 38, false}, {"col.entry", 7, false}};
    verdict_table(rec, told, open, sizeof open / sizeof open[0]);
    verdict_table(rec, short_told, shown, 1);
}

/* "A1, 338; A2, 345": where the step was done, each by its entry, with its photos. */
static mf_cell done_cell(mf_rec *rec, size_t at)
{
    const mf_finding *first = &rec->findings[at];
    const char *words = mf_join(rec, subject_words(rec, first->subject), ", ",
                                mf_entry_words(rec, first->evidence));
    mf_cell cell = mf_with_photos(rec, mf_small(""), first->evidence);
    for (size_t i = at + 1; i < rec->n_findings; i++) {
        if (!alike(first, &rec->findings[i]))
            continue;
        words = mf_join(rec, words, "; ", other_words(rec, &rec->findings[i], first));
        cell = mf_with_photos(rec, cell, rec->findings[i].evidence);
    }
    cell.text = words;
    if (cell.link == NULL)
        cell.link = first->evidence;
    return cell;
}

/* The steps that were done as ticked: their day and hour stand in the lists before. */
static void step_table(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.requirement", 82, false}, {"col.done-in", 18, false}};
    mf_table table = mf_table_of(rec, cols, 2);
    bool any = false;
    table.dense = true;
    for (size_t i = 0; i < rec->n_findings; i++) {
        if (first_alike(rec, i) != i || !plain_step(rec, i))
            continue;
        if (!any)
            mf_page_heading(&rec->page, MF_ST_HEAD, mf_phrase(rec, "audit-steps"));
        any = true;
        const mf_cell cells[2] = {requirement_cell(rec, &rec->findings[i], false),
                                  done_cell(rec, i)};
        mf_table_row(&table, cells);
    }
    if (any)
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

/* What is not due for the reason of this finding, each with its citation, in one text. */
static const char *not_due_words(mf_rec *rec, size_t at)
{
    mf_buf buf = {0};
    const mf_finding *first = &rec->findings[at];
    for (size_t i = at; i < rec->n_findings; i++) {
        const mf_finding *finding = &rec->findings[i];
        if (finding->verdict != MF_NOT_DUE || strcmp(finding->why, first->why) != 0)
            continue;
        if (buf.len > 0)
            mf_buf_text(&buf, " ");
        mf_buf_printf(&buf, "%s [%s]", mf_phrase2(rec, "req", finding->requirement->id),
                      mf_cite(finding->requirement->citation));
    }
    if (buf.failed)
        mf_page_no_memory(&rec->page);
    const char *words = mf_print(rec, "%s", mf_buf_str(&buf));
    mf_buf_free(&buf);
    return words;
}

/* A reason, and beside it what is not due for it. */
static void not_due_table(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.not-due-why", 21, false}, {"col.not-due", 79, false}};
    mf_table table = mf_table_of(rec, cols, 2);
    table.dense = table.flows = true;
    for (size_t i = 0; i < rec->n_findings; i++) {
        if (rec->findings[i].verdict != MF_NOT_DUE || reason_told(rec, i))
            continue;
        const mf_cell cells[2] = {{.mark = MF_MARK_DASH,
                                   .style = MF_ST_SMALL,
                                   .text = mf_why_words(rec, &rec->findings[i])},
                                  mf_small(not_due_words(rec, i))};
        mf_table_row(&table, cells);
    }
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
    mf_cell cell = mf_small(mf_cite(limit->citation));
    if (strcmp(limit->place, "US") != 0)
        cell.below = mf_below(rec, mf_bold(limit->place));
    return cell;
}

static void limit_table(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.limit", 38, false},
                                  {"col.value", 12, false},
                                  {"col.in-force", 11, false},
                                  {"col.citation", 22, false},
                                  {"col.fact", 17, false}};
    used_limits used = {.n = 0};
    collect(rec, &used);
    mf_section(rec, "limits");
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "limits-note"));
    mf_table table = mf_table_of(rec, cols, 5);
    table.dense = true;
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
    step_table(rec);
    mf_subhead(rec, "audit-not-due");
    not_due_table(rec);
    limit_table(rec);
}
