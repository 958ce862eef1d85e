/* opening list, opening schedule: rows openings by room or elevation, columns components
 * inside and outside, in each cell the worst finding by mark and word, and what each
 * opening needs. The list ends with the openings as they were logged. */
#include "base/fail.h"
#include "cli/json.h"

#include <stdio.h>
#include <string.h>

enum { TYPES = MF_COMP_OTHER + 1, COLUMNS = 3, FIRST = 24, CELL = 13, NEEDS = 8 };

static const char *const verdict_names[] = {"lead", "presumed", "free", "unpainted"};
/* The shapes of the papers: full, half, ring, bar. */
static const char *const marks[] = {"\xE2\x97\x8F", "\xE2\x97\x90", "\xE2\x97\x8B", "\xE2\x80\x93"};
static const char *const side_names[] = {"interior", "exterior"};
static const char *const need_names[] = {"nothing", "none", "containment"};
static const char *const removal_names[] = {"as-logged", "within-frame", "full-frame", NULL};

static const char *type_name(mf_component_type type)
{
    return mf_cli_choice("component", "type", (int)type);
}

/* ---- rows ------------------------------------------------------------------------- */

/* An opening, or a room without one. */
typedef struct row {
    const mf_opening *opening;
    const char *id, *room;
} row;

typedef struct sheet {
    mf_cli *cli;
    const mf_job *job;
    mf_removal removal;
} sheet;

static bool cell_of(const sheet *s, const row *r, mf_component_type type, mf_side side,
                    mf_schedule_cell *out)
{
    mf_schedule_cell_of(s->job, r->id, r->room, type, side, s->removal, out);
    return out->components > 0;
}

/* Whether an earlier component without an opening is in the same place. */
static bool room_seen(const mf_job *job, size_t at)
{
    for (size_t i = 0; i < at; i++)
        if (job->component[i].opening[0] == '\0' &&
            mf_same_room(mf_place_of(job, &job->component[i]),
                         mf_place_of(job, &job->component[at])))
            return true;
    return false;
}

typedef void each_row(const sheet *s, const row *r, void *data);

static void for_rows(const sheet *s, each_row *fn, void *data)
{
    for (size_t i = 0; i < s->job->n_opening; i++) {
        const mf_opening *it = &s->job->opening[i];
        const row r = {it, it->id, ""};
        fn(s, &r, data);
    }
    for (size_t i = 0; i < s->job->n_component; i++) {
        const mf_component *it = &s->job->component[i];
        if (it->opening[0] != '\0' || room_seen(s->job, i))
            continue;
        const row r = {NULL, "", mf_place_of(s->job, it)};
        fn(s, &r, data);
    }
}

/* ---- text ---------------------------------------------------------------------------- */

typedef struct columns {
    mf_side side;
    mf_component_type type[TYPES];
    int from, to, n;
} columns;

static bool has_any(const sheet *s, const row *r, const columns *c)
{
    mf_schedule_cell cell;
    for (int i = c->from; i < c->to; i++)
        if (cell_of(s, r, c->type[i], c->side, &cell))
            return true;
    return false;
}

/* Inside an opening is known by its room, outside by its elevation. */
static void print_label(const row *r, mf_side side)
{
    char label[FIRST * 4];
    if (r->opening == NULL)
        snprintf(label, sizeof label, "%s", r->room);
    else
        snprintf(label, sizeof label, "%s %s", r->id,
                 side == MF_SIDE_INTERIOR ? r->opening->room : r->opening->elevation);
    mf_cli_pad(label, FIRST);
}

static void print_row(const sheet *s, const row *r, void *data)
{
    const columns *c = data;
    char text[64];
    if (!has_any(s, r, c))
        return;
    print_label(r, c->side);
    for (int i = c->from; i < c->to; i++) {
        mf_schedule_cell cell;
        text[0] = '\0';
        if (cell_of(s, r, c->type[i], c->side, &cell))
            snprintf(text, sizeof text, "%s %s%s", marks[cell.worst.verdict],
                     mf_words_verdict(s->cli->lang, cell.worst.verdict),
                     cell.disturbed ? "" : " ~");
        mf_cli_pad(text, CELL + 3);
    }
    putchar('\n');
}

static void mark_types(const sheet *s, const row *r, void *data)
{
    columns *c = data;
    mf_schedule_cell cell;
    for (int type = 0; type < TYPES; type++)
        if (cell_of(s, r, (mf_component_type)type, c->side, &cell))
            c->type[type] = (mf_component_type)1;
}

/* The types that occur on a side, packed to the front. */
static void find_columns(const sheet *s, columns *c)
{
    memset(c->type, 0, sizeof c->type);
    for_rows(s, mark_types, c);
    c->n = 0;
    for (int type = 0; type < TYPES; type++)
        if (c->type[type] != 0)
            c->type[c->n++] = (mf_component_type)type;
}

static void print_side(const sheet *s, mf_side side)
{
    columns c = {.side = side};
    find_columns(s, &c);
    for (c.from = 0; c.from < c.n; c.from = c.to) {
        c.to = c.from + COLUMNS < c.n ? c.from + COLUMNS : c.n;
        putchar('\n');
        mf_cli_pad(
            mf_cli_word(s->cli, side == MF_SIDE_INTERIOR ? "testing.inside" : "testing.outside"),
            FIRST);
        for (int i = c.from; i < c.to; i++)
            mf_cli_pad(type_name(c.type[i]), CELL + 3);
        putchar('\n');
        for_rows(s, print_row, &c);
    }
}

static void print_need(const sheet *s, const row *r, mf_side side)
{
    static const char *const words[2][3] = {
        {"testing.need-nothing-in", "testing.need-none-in", "testing.need-inside"},
        {"testing.need-nothing-out", "testing.need-none-out", "testing.need-outside"}};
    mf_opening_need need;
    char line[400];
    mf_opening_needs(s->job, r->id, side, s->removal, &need);
    const mf_paint_finding *by = &need.decided;
    int used = snprintf(line, sizeof line, "%s", mf_cli_word(s->cli, words[side][need.need]));
    bool unlisted = need.need == MF_NEED_CONTAINMENT && by->component == NULL;
    if (unlisted && used > 0 && (size_t)used < sizeof line)
        snprintf(line + used, sizeof line - (size_t)used, ": %s",
                 mf_cli_word(s->cli, "testing.need-unlisted"));
    if (by->component != NULL && used > 0 && (size_t)used < sizeof line)
        snprintf(line + used, sizeof line - (size_t)used, ": %s, %s%s%s%s%s%s", by->component->id,
                 need.need == MF_NEED_NONE || by->verdict == MF_PAINT_LEAD
                     ? mf_words_basis(s->cli->lang, by->basis)
                     : mf_words_doubt(s->cli->lang, by->doubt),
                 by->by[0] != '\0' ? ", " : "", by->by, by->evidence[0] != '\0' ? " (" : "",
                 by->evidence, by->evidence[0] != '\0' ? ")" : "");
    mf_cli_wrap(line, NEEDS, NEEDS);
}

static void print_needs(const sheet *s, const row *r, void *data)
{
    (void)data;
    if (r->opening == NULL)
        return;
    mf_cli_pad(r->id, NEEDS);
    print_need(s, r, MF_SIDE_INTERIOR);
    printf("%*s", NEEDS, "");
    print_need(s, r, MF_SIDE_EXTERIOR);
}

static void print_sheet(const sheet *s)
{
    static const char *const ids[] = {"testing.removal-logged", "testing.removal-within",
                                      "testing.removal-full"};
    mf_cli_wrap(mf_cli_word(s->cli, ids[s->removal]), 0, 0);
    for (int verdict = 0; verdict < 4; verdict++)
        printf("%s %s   ", marks[verdict],
               mf_words_verdict(s->cli->lang, (mf_paint_verdict)verdict));
    printf("~ %s\n", mf_cli_word(s->cli, "testing.not-disturbed"));
    print_side(s, MF_SIDE_INTERIOR);
    print_side(s, MF_SIDE_EXTERIOR);
    printf("\n%s\n", mf_cli_word(s->cli, "testing.needs"));
    for_rows(s, print_needs, NULL);
}

/* ---- JSON ------------------------------------------------------------------------------ */

static json_t *json_or_null(const char *text)
{
    return text == NULL || text[0] == '\0' ? json_null() : json_string(text);
}

static json_t *json_cells(const sheet *s, const row *r)
{
    json_t *array = json_array();
    for (int at = 0; at < 2 * TYPES; at++) {
        mf_side side = (mf_side)(at / TYPES);
        mf_schedule_cell cell;
        if (!cell_of(s, r, (mf_component_type)(at % TYPES), side, &cell))
            continue;
        json_t *object = json_object();
        json_object_set_new(object, "side", json_string(side_names[side]));
        json_object_set_new(object, "type",
                            json_string(type_name((mf_component_type)(at % TYPES))));
        json_object_set_new(object, "verdict", json_string(verdict_names[cell.worst.verdict]));
        json_object_set_new(object, "components", json_integer(cell.components));
        json_object_set_new(object, "disturbed", json_boolean(cell.disturbed));
        json_object_set_new(object, "worst_ug_cm2",
                            cell.highest == NULL ? json_null()
                                                 : json_integer(cell.highest->loading_ug_cm2));
        json_array_append_new(array, object);
    }
    return array;
}

static json_t *json_need(const sheet *s, const row *r, mf_side side)
{
    mf_opening_need need;
    mf_opening_needs(s->job, r->id, side, s->removal, &need);
    const mf_paint_finding *by = &need.decided;
    json_t *object = json_object();
    json_object_set_new(object, "need", json_string(need_names[need.need]));
    json_object_set_new(object, "disturbed", json_integer(need.disturbed));
    json_object_set_new(object, "component",
                        by->component == NULL ? json_null() : json_string(by->component->id));
    json_object_set_new(object, "verdict",
                        by->component == NULL ? json_null()
                                              : json_string(verdict_names[by->verdict]));
    json_object_set_new(object, "evidence", json_or_null(by->evidence));
    json_object_set_new(object, "by", json_or_null(by->by));
    return object;
}

static void add_json_row(const sheet *s, const row *r, void *data)
{
    json_t *object = json_object();
    json_object_set_new(object, "opening", json_or_null(r->id));
    json_object_set_new(object, "room",
                        json_or_null(r->opening == NULL ? r->room : r->opening->room));
    json_object_set_new(object, "elevation",
                        json_or_null(r->opening == NULL ? "" : r->opening->elevation));
    json_object_set_new(object, "cells", json_cells(s, r));
    if (r->opening != NULL) {
        json_object_set_new(object, "interior", json_need(s, r, MF_SIDE_INTERIOR));
        json_object_set_new(object, "exterior", json_need(s, r, MF_SIDE_EXTERIOR));
    }
    json_array_append_new(data, object);
}

static mf_status json_sheet(const sheet *s)
{
    json_t *root = json_object(), *rows = json_array();
    for_rows(s, add_json_row, rows);
    json_object_set_new(root, "removal", json_string(removal_names[s->removal]));
    json_object_set_new(root, "removal_source", json_string("common practice, no source"));
    json_object_set_new(root, "rows", rows);
    return mf_json_print(root);
}

static void print_text(const sheet *s, bool as_logged)
{
    const mf_job *job = s->job;
    if (as_logged && job->n_opening + job->n_component == 0) {
        puts("no opening was logged yet");
        return;
    }
    print_sheet(s);
    if (as_logged && job->n_opening > 0) {
        putchar('\n');
        mf_list_table(mf_kind_named("opening"), job->opening, job->n_opening);
    }
    mf_cli_caution(s->cli);
}

static mf_status print_schedule(mf_cli *cli, const mf_args *args, bool as_logged)
{
    mf_err err = {0};
    mf_job *job = NULL;
    const char *word = mf_args_value(args, "removal");
    int removal = word == NULL ? MF_REMOVAL_AS_LOGGED : mf_choice(removal_names, word);
    if (removal < 0) {
        mf_fail(&err, MF_INPUT, "--removal", "is not one of the words known here", "",
                "write within-frame or full-frame");
        return mf_cli_fail(&err);
    }
    mf_status status = mf_cli_job(cli, args->word[0], &job, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    const sheet s = {cli, job, (mf_removal)removal};
    if (cli->json)
        status = json_sheet(&s);
    else
        print_text(&s, as_logged);
    mf_book_job_free(job);
    return status;
}

mf_status mf_cmd_opening_schedule(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    (void)cmd;
    return print_schedule(cli, args, false);
}

/* As JSON it is the list that every kind has. */
mf_status mf_cmd_opening_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    return cli->json ? mf_cmd_list(cli, cmd, args) : print_schedule(cli, args, true);
}
