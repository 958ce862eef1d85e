#include "book/import_heads.h"

#include "base/fail.h"
#include "base/letters.h"
#include "base/utf8.h"
#include "book/job_lines.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const mf_column mf_columns[MF_COL_COUNT] = {
    [MF_COL_NUMBER] = {"number", offsetof(mf_reading, number), true},
    [MF_COL_INSTRUMENT] = {"instrument", offsetof(mf_reading, instrument), true},
    [MF_COL_OPERATOR] = {"operator", offsetof(mf_reading, operator_id), true},
    [MF_COL_DATE] = {"date", offsetof(mf_reading, on), true},
    [MF_COL_TIME] = {"time", offsetof(mf_reading, at_minute), true},
    [MF_COL_OPENING] = {"opening", MF_NO_MEMBER, false},
    [MF_COL_COMPONENT] = {"component", offsetof(mf_reading, component), true},
    [MF_COL_SIDE] = {"side", MF_NO_MEMBER, false},
    [MF_COL_SUBSTRATE] = {"substrate", offsetof(mf_reading, substrate), true},
    [MF_COL_COLOUR] = {"colour", offsetof(mf_reading, colour), false},
    [MF_COL_RESULT] = {"result", offsetof(mf_reading, loading_ug_cm2), true},
    [MF_COL_UNIT] = {"unit", MF_NO_MEMBER, false},
    [MF_COL_PURPOSE] = {"purpose", MF_NO_MEMBER, false},
    [MF_COL_FILM] = {"film", offsetof(mf_reading, film_ug_cm2), false},
    [MF_COL_MODE] = {"mode", offsetof(mf_reading, mode), false},
};

enum { NOT_KNOWN = -1, LEFT_OUT = -2 };

/* One pair of a map. serial "" = given on this run. */
typedef struct pair {
    const char *serial, *head;
    int column;
} pair;

typedef struct map {
    pair *pairs;
    size_t n, cap;
    mf_arena arena;
} map;

static void free_map(map *m)
{
    free(m->pairs);
    mf_arena_free(&m->arena);
}

/* As an instrument sold in the country of this rule spells it, too. */
static const char *spelled(const char *name)
{
    return mf_same_but_case(name, "color") ? mf_columns[MF_COL_COLOUR].head : name;
}

static int column_named(const char *name)
{
    for (int i = 0; i < MF_COL_COUNT; i++)
        if (mf_same_but_case(mf_columns[i].head, spelled(name)))
            return i;
    return strcmp(name, "-") == 0 ? LEFT_OUT : NOT_KNOWN;
}

static void list_columns(mf_buf *out)
{
    for (size_t i = 0; i < MF_COL_COUNT; i++)
        mf_buf_printf(out, "%s %s", i == 0 ? "" : ",", mf_columns[i].head);
}

/* ---- a unit in the head: "PbC (mg/cm2)" --------------------------------------------- */

/* Cuts the unit off the end of a head; false when there is none. */
static bool split_unit(const char *head, char base[80], char unit[24])
{
    size_t len = strlen(head);
    char close = len > 0 ? head[len - 1] : '\0';
    const char *open = close == ')' ? strrchr(head, '(') : close == ']' ? strrchr(head, '[') : NULL;
    size_t before = open == NULL ? 0 : (size_t)(open - head);
    while (before > 0 && head[before - 1] == ' ')
        before--;
    size_t inside = open == NULL ? 0 : len - 2 - (size_t)(open - head);
    if (before == 0 || before >= 80 || inside == 0 || inside >= 24)
        return false;
    snprintf(base, 80, "%.*s", (int)before, head);
    snprintf(unit, 24, "%.*s", (int)inside, open + 1);
    return true;
}

static bool is_head(const char *head, const char *named)
{
    char base[80], unit[24];
    return mf_same_but_case(head, named) ||
           (split_unit(head, base, unit) && mf_same_but_case(base, named));
}

/* ---- maps ---------------------------------------------------------------------------- */

static mf_status add_pair(map *m, const char *serial, const char *head, int column, mf_err *err)
{
    pair *grown = mf_grown(m->pairs, m->n, &m->cap, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    m->pairs = grown;
    pair made = {mf_arena_text(&m->arena, serial), mf_arena_text(&m->arena, head), column};
    if (made.serial == NULL || made.head == NULL)
        return mf_fail_memory(err);
    m->pairs[m->n++] = made;
    return MF_OK;
}

static mf_status bad_map(const char *text, mf_err *err)
{
    char shown[60];
    mf_buf mend = {0};
    mf_utf8_show(shown, sizeof shown, text);
    mf_buf_text(&mend, "write \"Head=column,Head=column\"; - leaves one out; columns are:");
    list_columns(&mend);
    mf_status status = mf_failf(err, MF_INPUT, "--map", "", mf_buf_str(&mend),
                                "\"%s\" does not say which column it is", shown);
    mf_buf_free(&mend);
    return status;
}

/* "Reading No=number,PbC=result" */
static mf_status read_given(map *m, const char *text, mf_err *err)
{
    mf_status status = MF_OK;
    while (status == MF_OK && *text != '\0') {
        char part[200], *equals;
        size_t len = strcspn(text, ",");
        snprintf(part, sizeof part, "%.*s", (int)(len < 199 ? len : 199), text);
        equals = strrchr(part, '=');
        if (equals == NULL || equals == part || column_named(equals + 1) == NOT_KNOWN)
            return bad_map(part, err);
        *equals = '\0';
        status = add_pair(m, "", part + strspn(part, " "), column_named(equals + 1), err);
        text += len + (text[len] == ',');
    }
    return status;
}

static bool is_column_map(const mf_kind *kind)
{
    return strcmp(kind->name, "column_map") == 0;
}

/* In the order in which they were said, whichever device said them: the last holds. */
static mf_status read_saved(map *m, const mf_import *in, mf_err *err)
{
    mf_job_fold *fold = NULL;
    mf_status status = mf_job_fold_of(&fold, in->book, "", is_column_map, MF_WITHOUT_FIRM, err);
    if (status == MF_OK)
        status = mf_job_fold_finish(fold, err);
    for (size_t i = 0; status == MF_OK && i < fold->job.n_column_map; i++) {
        const mf_column_map *it = &fold->job.column_map[i];
        status = add_pair(m, it->instrument, it->head, column_named(it->column), err);
    }
    mf_job_fold_free(fold);
    return status;
}

/* What a head means to the given map, to our names, to the map of serial. */
static int meaning(const map *m, const char *serial, const char *head)
{
    int found = NOT_KNOWN;
    for (size_t i = 0; i < m->n; i++)
        if (m->pairs[i].serial[0] == '\0' && is_head(head, m->pairs[i].head))
            return m->pairs[i].column;
    for (int i = 0; i < MF_COL_COUNT; i++)
        if (is_head(spelled(head), mf_columns[i].head))
            return i;
    for (size_t i = 0; i < m->n; i++)
        if (serial[0] != '\0' && strcmp(m->pairs[i].serial, serial) == 0 &&
            is_head(head, m->pairs[i].head))
            found = m->pairs[i].column; /* the last one said holds */
    return found;
}

static bool knows_all(const mf_import *in, const map *m, const char *serial)
{
    const mf_csv_row *heads = &in->csv.rows[0];
    for (size_t i = 0; i < heads->n_cells; i++)
        if (meaning(m, serial, heads->cells[i]) == NOT_KNOWN)
            return false;
    return true;
}

/* The instrument whose saved map knows every head that is not known without. */
static const char *serial_for(const mf_import *in, const map *m)
{
    const char *said = in->ask == NULL || in->ask->instrument == NULL ? "" : in->ask->instrument;
    if (knows_all(in, m, ""))
        return "";
    for (size_t i = m->n; i > 0; i--) {
        const char *serial = m->pairs[i - 1].serial;
        bool may = serial[0] != '\0' && (said[0] == '\0' || strcmp(serial, said) == 0);
        if (may && knows_all(in, m, serial))
            return serial;
    }
    return "";
}

/* ---- heads ------------------------------------------------------------------------------ */

/* All heads that are not known, told at once; more than one as a list. */
static mf_status unknown_heads(const mf_import *in, const map *m, const char *serial, size_t first,
                               mf_err *err)
{
    const mf_csv_row *heads = &in->csv.rows[0];
    mf_buf mend = {0}, list = {0};
    size_t n = 0;
    for (size_t i = first; i < heads->n_cells; i++) {
        char shown[48];
        if (meaning(m, serial, heads->cells[i]) != NOT_KNOWN)
            continue;
        mf_utf8_show(shown, sizeof shown, heads->cells[i]);
        mf_buf_printf(&list, "%s%s", n++ > 0 ? ", " : "there are no such columns: ", shown);
    }
    mf_buf_text(&mend, "take the column out, or say what it is: --map \"Head=column\" (- leaves it "
                       "out); known are:");
    list_columns(&mend);
    mf_status status =
        mf_import_refuse(in, 0, first, n > 1 ? mf_buf_str(&list) : "there is no such column",
                         "nothing is left out silently", mf_buf_str(&mend), err);
    mf_buf_free(&mend);
    mf_buf_free(&list);
    return status;
}

/* Which head stands for which column, for the report; a head that is the column's own name says
 * nothing. */
static void note_head(mf_import *in, const char *head, int column)
{
    char shown[48];
    size_t len = strlen(in->out->columns), size = sizeof in->out->columns;
    if (mf_same_but_case(head, mf_columns[column].head) || len + 100 > size)
        return;
    mf_utf8_show(shown, sizeof shown, head);
    snprintf(in->out->columns + len, size - len, "%s%s = %s", len > 0 ? ", " : "", shown,
             mf_columns[column].head);
}

static mf_status place(mf_import *in, const map *m, const char *serial, mf_heads *out, mf_err *err)
{
    const mf_csv_row *heads = &in->csv.rows[0];
    char base[80];
    for (size_t i = 0; i < MF_COL_COUNT; i++)
        out->at[i] = MF_NO_COLUMN;
    for (size_t i = 0; i < heads->n_cells; i++) {
        int column = meaning(m, serial, heads->cells[i]);
        if (column == NOT_KNOWN)
            return unknown_heads(in, m, serial, i, err);
        if (column == LEFT_OUT)
            continue;
        if (out->at[column] != MF_NO_COLUMN)
            return mf_import_refuse(in, 0, i, "two columns mean the same", mf_columns[column].head,
                                    "leave one out: --map \"Head=-\"", err);
        out->at[column] = i;
        note_head(in, heads->cells[i], column);
        if (column == MF_COL_RESULT && !split_unit(heads->cells[i], base, out->unit))
            out->unit[0] = '\0';
    }
    return MF_OK;
}

/* Whether a value for all rows was given in place of the column. */
static bool given_for_all(const mf_import *in, size_t column)
{
    if (in->ask == NULL)
        return false;
    const char *value = column == MF_COL_INSTRUMENT ? in->ask->instrument
                        : column == MF_COL_OPERATOR ? in->ask->operator_id
                                                    : NULL;
    return value != NULL && value[0] != '\0';
}

static mf_status check_needed(const mf_import *in, const mf_heads *heads, mf_err *err)
{
    for (size_t i = 0; i < MF_COL_COUNT; i++) {
        char what[80];
        if (heads->at[i] != MF_NO_COLUMN || !mf_columns[i].needed || given_for_all(in, i))
            continue;
        snprintf(what, sizeof what, "the column %s is missing", mf_columns[i].head);
        bool option = i == MF_COL_INSTRUMENT || i == MF_COL_OPERATOR;
        return mf_import_refuse(in, 0, MF_NO_COLUMN, what, "docs/intake.md lists the columns",
                                option ? "add the column, or give the option of that name"
                                       : "add the column, its cells may be empty where nothing "
                                         "is to be said; or name it: --map \"Head=column\"",
                                err);
    }
    return MF_OK;
}

mf_status mf_heads_read(mf_import *in, mf_heads *out, mf_err *err)
{
    map m = {.pairs = NULL};
    const char *given = in->ask == NULL || in->ask->map == NULL ? "" : in->ask->map;
    mf_status status = read_given(&m, given, err);
    if (status == MF_OK)
        status = read_saved(&m, in, err);
    if (status == MF_OK) {
        const char *serial = serial_for(in, &m);
        snprintf(in->out->map_of, sizeof in->out->map_of, "%s", serial);
        status = place(in, &m, serial, out, err);
    }
    if (status == MF_OK)
        status = check_needed(in, out, err);
    free_map(&m);
    return status;
}

static mf_status keep_pair(mf_import *in, const char *serial, const pair *it, mf_err *err)
{
    mf_draft *draft = NULL;
    const char *column = it->column == LEFT_OUT ? "-" : mf_columns[it->column].head;
    const char *const pairs[][2] = {{"instrument", serial}, {"head", it->head}, {"column", column}};
    mf_status status = mf_draft_of(&draft, "column_map", pairs, 3, "--map", in->now->today, err);
    if (status == MF_OK)
        status = mf_book_write(in->book, draft, "", in->now, "--map", NULL, err);
    mf_draft_free(draft);
    return status;
}

/* Whether the map kept for the instrument says just that. */
static bool is_kept(const map *m, const char *serial, const pair *it)
{
    bool kept = false;
    for (size_t i = 0; i < m->n; i++)
        if (strcmp(m->pairs[i].serial, serial) == 0 && strcmp(m->pairs[i].head, it->head) == 0)
            kept = m->pairs[i].column == it->column; /* the last one said holds */
    return kept;
}

mf_status mf_heads_keep(mf_import *in, const char *serial, mf_err *err)
{
    map given = {.pairs = NULL}, kept = {.pairs = NULL};
    mf_status status = read_given(&given, in->ask->map, err);
    if (status == MF_OK)
        status = read_saved(&kept, in, err);
    for (size_t i = 0; status == MF_OK && i < given.n; i++)
        if (!is_kept(&kept, serial, &given.pairs[i]))
            status = keep_pair(in, serial, &given.pairs[i], err);
    free_map(&given);
    free_map(&kept);
    return status;
}
