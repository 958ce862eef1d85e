/* What the evidence says of each component, and why no more than that. */
#include "paper/entry.h"
#include "paper/record.h"

#include <string.h>

static mf_cell verdict_cell(mf_rec *rec, const mf_paint_finding *found)
{
    return (mf_cell){.mark = mf_paint_mark(found->verdict),
                     .style = MF_ST_CELL_BOLD,
                     .text = mf_enum(rec, MF_FAM_PAINT, (int)found->verdict)};
}

/* The ground of what is said: what speaks against more, and what it rests on. */
static const char *reason_words(mf_rec *rec, const mf_paint_finding *found)
{
    const char *basis = mf_enum(rec, MF_FAM_BASIS, (int)found->basis);
    if (found->verdict == MF_PAINT_FREE && found->basis == MF_BASIS_XRF)
        basis = mf_phrase(rec, "basis.xrf-free");
    if (found->doubt == MF_DOUBT_NONE)
        return basis;
    const char *doubt = mf_enum(rec, MF_FAM_DOUBT, (int)found->doubt);
    return found->basis == MF_BASIS_NONE ? doubt : mf_join(rec, doubt, "; ", basis);
}

/* "interior sill, wood" */
static const char *kind_words(mf_rec *rec, size_t at)
{
    const mf_component *component = &rec->job->component[at];
    const char *type = mf_brief_words(rec, mf_enum(rec, MF_FAM_COMPONENT, (int)component->type));
    return mf_join(rec, mf_join(rec, type, ", ", component->label), ", ",
                   mf_enum(rec, MF_FAM_SUBSTRATE, (int)component->substrate));
}

/* ---- the grounds that most have ------------------------------------------------------- */

enum { VERDICTS = MF_PAINT_UNPAINTED + 1 };

/* What is listed: the components that the work disturbs, their grounds, and of each verdict
 * the ground that most of them have, told once before the rows; NULL = each tells its own. */
typedef struct listed {
    const char **ground; /* by component; NULL = not listed row by row */
    const char **alike;  /* by component; what those of one row share; NULL = in none */
    const char *usual[VERDICTS];
    size_t untouched, untested;
} listed;

/* Nobody tested it and nothing more is to be said of it: one of many in a row. */
static bool untested(const mf_rec *rec, size_t at, const mf_paint_finding *found)
{
    const mf_component *component = &rec->job->component[at];
    return found->verdict == MF_PAINT_PRESUMED && *found->evidence == '\0' &&
           found->worst == NULL && *component->src.correction == '\0' &&
           mf_disturbed_area(rec->job, component) == MF_NUM_NONE;
}

static size_t count_ground(mf_rec *rec, const listed *all, const char *ground, int verdict)
{
    size_t n = 0;
    for (size_t i = 0; i < rec->job->n_component; i++)
        n += all->ground[i] != NULL && (int)mf_rec_paint(rec, i).verdict == verdict &&
             strcmp(all->ground[i], ground) == 0;
    return n;
}

/* A ground that only one component has is told in its row. */
static void find_usual(mf_rec *rec, listed *all)
{
    size_t most[VERDICTS] = {0};
    for (size_t i = 0; i < rec->job->n_component; i++) {
        if (all->ground[i] == NULL)
            continue;
        int verdict = (int)mf_rec_paint(rec, i).verdict;
        if (all->usual[verdict] != NULL && strcmp(all->usual[verdict], all->ground[i]) == 0)
            continue;
        size_t n = count_ground(rec, all, all->ground[i], verdict);
        if (n > 1 && n > most[verdict]) {
            most[verdict] = n;
            all->usual[verdict] = all->ground[i];
        }
    }
}

static bool list_components(mf_rec *rec, listed *all)
{
    const size_t n = rec->job->n_component;
    *all = (listed){.ground = mf_arena_alloc(&rec->arena, n * sizeof *all->ground),
                    .alike = mf_arena_alloc(&rec->arena, n * sizeof *all->alike)};
    if (all->ground == NULL || all->alike == NULL) {
        mf_page_no_memory(&rec->page);
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        mf_paint_finding found = mf_rec_paint(rec, i);
        bool disturbed = mf_component_disturbed(&rec->job->component[i]);
        bool plain = disturbed && untested(rec, i, &found);
        all->untouched += !disturbed;
        all->untested += plain;
        const char *why = disturbed ? reason_words(rec, &found) : NULL;
        all->ground[i] = plain ? NULL : why;
        all->alike[i] = plain ? mf_join(rec, kind_words(rec, i), "\n", why) : NULL;
    }
    find_usual(rec, all);
    return true;
}

/* "LEAD, XRF readings; free, XRF readings and a written determination" */
static void usual_line(mf_rec *rec, const listed *all)
{
    const char *words = "";
    for (int verdict = 0; verdict < VERDICTS; verdict++)
        if (all->usual[verdict] != NULL)
            words = mf_join(
                rec, words, "; ",
                mf_join(rec, mf_enum(rec, MF_FAM_PAINT, verdict), ", ", all->usual[verdict]));
    if (*words != '\0')
        mf_page_heading(&rec->page, MF_ST_BODY, mf_fill(rec, "paint-usual", words, NULL, NULL));
}

/* ---- rows ------------------------------------------------------------------------------ */

/* The opening, or the room of what has none. */
static void place_group(mf_rec *rec, mf_table *table, const mf_component *component)
{
    const mf_opening *opening = mf_job_opening(rec->job, component->opening);
    if (opening == NULL) {
        mf_table_group(table, mf_stated(rec, component->room));
        return;
    }
    const char *words =
        mf_join(rec, opening->id, ", ", mf_enum(rec, MF_FAM_OPENING, (int)opening->kind));
    words = mf_join(rec, words, ", ", opening->room);
    mf_table_group(table, mf_join(rec, words, ", ", opening->elevation));
}

static bool same_place(const mf_component *a, const mf_component *b)
{
    return strcmp(a->opening, b->opening) == 0 &&
           (*a->opening != '\0' || mf_same_room(a->room, b->room));
}

/* What it is; below it the area that is disturbed, and a ground that most do not have. */
static mf_cell what_cell(mf_rec *rec, size_t at, const char *ground, const char *usual)
{
    const mf_component *component = &rec->job->component[at];
    const int64_t area = mf_disturbed_area(rec->job, component);
    const char *own = usual != NULL && strcmp(ground, usual) == 0 ? "" : ground;
    mf_cell cell = mf_small(kind_words(rec, at));
    mf_cell more = mf_small(own);
    if (area != MF_NUM_NONE) {
        more = mf_small(mf_fill(rec, "disturbed-area", mf_number_words(rec, area, MF_UNIT_SQFT_100),
                                NULL, NULL));
        more.below = mf_below(rec, mf_small(own));
    }
    cell.below = mf_below(rec, more);
    return cell;
}

/* There may be hundreds: two stand on one line. */
enum { PART_COLS = 5, BESIDE = 2 };

static void part_cells(mf_rec *rec, mf_cell *cells, const listed *all, size_t at)
{
    const mf_component *component = &rec->job->component[at];
    mf_paint_finding found = mf_rec_paint(rec, at);
    cells[0] = mf_traced(rec, mf_bold(component->id), &component->src);
    cells[1] = what_cell(rec, at, all->ground[at], all->usual[found.verdict]);
    cells[2] = verdict_cell(rec, &found);
    cells[3] = mf_plain(mf_deciding_words(rec, &found));
    cells[4] = mf_entry_cell(rec, found.evidence); /* its row has the person and the day */
}

/* A place's components that are listed row by row, from the one at; returns where they end. */
static size_t place_rows(mf_rec *rec, mf_table *table, const listed *all, size_t at)
{
    mf_cell cells[BESIDE * PART_COLS] = {0};
    const mf_component *first = &rec->job->component[at];
    size_t beside = 0;
    place_group(rec, table, first);
    for (; at < rec->job->n_component && same_place(first, &rec->job->component[at]); at++) {
        if (all->ground[at] == NULL)
            continue;
        part_cells(rec, &cells[beside++ * PART_COLS], all, at);
        if (beside == BESIDE) {
            mf_table_row(table, cells);
            memset(cells, 0, sizeof cells);
            beside = 0;
        }
    }
    if (beside > 0)
        mf_table_row(table, cells);
    return at;
}

static void rows(mf_rec *rec, const listed *all)
{
    static const mf_col cols[BESIDE * PART_COLS] = {
        {"col.component", 25, false},  {"col.what-it-is", 30, false},  {"col.paint", 21, false},
        {"col.highest", 13, true},     {"col.entry-brief", 11, false}, {"col.component", 25, false},
        {"col.what-it-is", 30, false}, {"col.paint", 21, false},       {"col.highest", 13, true},
        {"col.entry-brief", 11, false}};
    mf_table table = mf_table_of(rec, cols, sizeof cols / sizeof cols[0]);
    size_t at = 0, n = rec->job->n_component;
    bool any = false;
    table.dense = true;
    while (at < n && table.n > 0) {
        if (all->ground[at] == NULL) {
            at++;
            continue;
        }
        any = true;
        at = place_rows(rec, &table, all, at);
    }
    if (any)
        mf_table_end(&table);
}

/* ---- what nobody tested ------------------------------------------------------------------ */

/* The names of all that are alike with the one at, which is the first; each is told by it, and
 * becomes a place that links find. */
static void untested_row(mf_rec *rec, mf_table *table, const listed *all, size_t at)
{
    const char *alike = all->alike[at];
    mf_buf buf = {0};
    mf_paint_finding found = mf_rec_paint(rec, at);
    size_t n = 0;
    for (size_t i = at; i < rec->job->n_component; i++) {
        if (all->alike[i] == NULL || strcmp(all->alike[i], alike) != 0)
            continue;
        all->alike[i] = NULL;
        mf_buf_printf(&buf, "%s%s", n++ > 0 ? ", " : "", rec->job->component[i].id);
        mf_page_anchor(&rec->page, rec->job->component[i].src.entry);
    }
    if (buf.failed)
        mf_page_no_memory(&rec->page);
    const mf_cell cells[4] = {mf_marked(MF_MARK_HALF, kind_words(rec, at)),
                              mf_small(reason_words(rec, &found)), mf_plain(mf_count_words(rec, n)),
                              mf_small(mf_print(rec, "%s", mf_buf_str(&buf)))};
    mf_buf_free(&buf);
    mf_table_row(table, cells);
}

/* Hundreds of components that nobody tested are alike: a row for each kind of them. */
static void untested_rows(mf_rec *rec, const listed *all)
{
    static const mf_col cols[] = {{"col.what-it-is", 24, false},
                                  {"col.because", 20, false},
                                  {"col.count", 8, true},
                                  {"col.component", 48, false}};
    mf_table table = mf_table_of(rec, cols, 4);
    if (all->untested == 0 || table.n == 0)
        return;
    table.dense = true;
    mf_page_heading(&rec->page, MF_ST_HEAD,
                    mf_fill(rec, "paint-untested", mf_count_words(rec, all->untested), NULL, NULL));
    for (size_t i = 0; i < rec->job->n_component; i++)
        if (all->alike[i] != NULL)
            untested_row(rec, &table, all, i);
    mf_table_end(&table);
}

void mf_record_paint(mf_rec *rec)
{
    listed all;
    mf_section(rec, "paint");
    if (rec->job->n_component == 0) {
        mf_none(rec, "no-components");
        return;
    }
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "paint-note"));
    if (!list_components(rec, &all))
        return;
    usual_line(rec, &all);
    rows(rec, &all);
    untested_rows(rec, &all);
    if (all.untouched > 0)
        mf_page_text(
            &rec->page, MF_ST_BODY,
            mf_fill(rec, "paint-untouched", mf_count_words(rec, all.untouched), NULL, NULL));
}
