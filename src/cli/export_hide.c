/* export_hide.c - --no-names: which fields tell who lives there, and such names in other texts. */
#include "base/fail.h"
#include "base/json.h"
#include "base/letters.h"
#include "base/spelled.h"
#include "cli/export.h"

#include <string.h>

bool mf_export_at_home(const mf_job *job)
{
    bool home = false;
    for (size_t i = 0; i < job->n_house; i++)
        home = home || job->house[i].owner_occupied != MF_NOT;
    return home;
}

/* ---- what is left out ------------------------------------------------------------------ */

bool mf_hide_field(const mf_hide *hide, const mf_field *field)
{
    return (hide->on && (field->flags & MF_F_WHO) != 0) ||
           (hide->home && (field->flags & MF_F_HOME) != 0);
}

/* An address as it is typed in a hurry: without its commas, or its first line alone. */
static void note_address(mf_buf *to, const char *text)
{
    const size_t line = strcspn(text, ",");
    if (text[line] == '\0')
        return;
    for (const char *at = text; *at != '\0'; at++)
        if (*at != ',')
            mf_buf_add(to, at, 1);
    mf_buf_add(to, "", 1);
    if (strcspn(text, "0123456789") < line) { /* a town or a house by its name says less */
        mf_buf_add(to, text, line);
        mf_buf_add(to, "", 1);
    }
}

static void note(mf_hide *hide, const mf_field *field, const char *text)
{
    if (hide->any && strcmp(field->name, "unit") == 0 && strchr(text, ' ') == NULL)
        return; /* a number or a letter, which stands in the texts of every house */
    mf_buf *to = strcmp(field->name, "unit") == 0 && (field->flags & MF_F_HOME) != 0 ? &hide->units
                                                                                     : &hide->words;
    if (text[0] != '\0')
        mf_buf_add(to, text, strlen(text) + 1);
    if (strcmp(field->name, "address") == 0)
        note_address(to, text);
}

static void note_body(mf_hide *hide, const char *kind_name, const json_t *body)
{
    const mf_kind *kind = mf_kind_named(kind_name);
    for (size_t f = 0; kind != NULL && f < kind->n_fields; f++)
        if (mf_hide_field(hide, &kind->fields[f]))
            note(hide, &kind->fields[f], mf_json_string_of(body, kind->fields[f].name));
}

/* As it was ever logged: before it was corrected, and what was withdrawn since. */
static bool note_entry(const mf_entry *entry, void *data)
{
    mf_hide *hide = data;
    mf_err why = {0};
    json_t *body = mf_json_parse(entry->body, strlen(entry->body), &why);
    hide->words.failed = hide->words.failed || why.status == MF_SYSTEM; /* no memory for a name */
    if (strcmp(entry->kind, "correction") == 0)
        note_body(hide, mf_json_string_of(body, "kind"), json_object_get(body, "body"));
    else
        note_body(hide, entry->kind, body);
    json_decref(body);
    return true;
}

mf_status mf_hide_begin(mf_hide *hide, const mf_cli *cli, const mf_job *job, bool on, mf_err *err)
{
    *hide = (mf_hide){.on = on,
                      .home = on && mf_export_at_home(job),
                      .crew = mf_field_named(mf_kind_named("person"), "name")};
    mf_status status = on ? mf_book_entries(cli->book, "", note_entry, hide, err) : MF_OK;
    if (on && status == MF_OK && job->id[0] != '\0') /* else it is the firm's own */
        status = mf_book_entries(cli->book, job->id, note_entry, hide, err);
    /* As a list that is short of a name would tell it. */
    return status == MF_OK && (hide->words.failed || hide->units.failed) ? mf_fail_memory(err)
                                                                         : status;
}

/* Of any job: where the entry does not say that its owner lives elsewhere, it may be his home. */
static bool note_any(const mf_entry *entry, void *data)
{
    mf_hide *hide = data;
    mf_err why = {0};
    json_t *body = mf_json_parse(entry->body, strlen(entry->body), &why);
    const json_t *is =
        strcmp(entry->kind, "correction") == 0 ? json_object_get(body, "body") : body;
    hide->home = strcmp(mf_json_string_of(is, "owner_occupied"), "no") != 0;
    json_decref(body);
    return note_entry(entry, hide);
}

mf_status mf_hide_words(mf_buf *words, const mf_cli *cli, mf_err *err)
{
    mf_hide any = {.on = true, .any = true};
    mf_status status = mf_book_entries(cli->book, NULL, note_any, &any, err);
    *words = any.words;
    mf_buf_free(&any.units);
    return status == MF_OK && words->failed ? mf_fail_memory(err) : status;
}

void mf_hide_end(mf_hide *hide)
{
    mf_buf_free(&hide->words);
    mf_buf_free(&hide->units);
}

/* ---- in other texts ---------------------------------------------------------------------- */

/* A side of the house, whoever is called so. */
static bool is_side(const mf_field *field, const char *text)
{
    if (strcmp(field->name, "elevation") != 0 && strcmp(field->name, "place") != 0)
        return false;
    static const char *const sides[] = {"north", "east", "south", "west",
                                        "norte", "este", "sur",   "oeste"};
    bool found = false;
    for (size_t i = 0; i < sizeof sides / sizeof sides[0]; i++)
        found = found || mf_same_but_case(text, sides[i]);
    return found;
}

/* The length of the longest one that stands here as words of its own; 0 = none does. One of the
 * crew, who has a first name of somebody who lives there, is another one. */
static size_t longest(const mf_buf *words, const char *text, const char *at, bool crew)
{
    size_t found = 0;
    for (size_t i = 0; i < words->len; i += strlen(words->data + i) + 1) {
        const bool first = crew && strchr(words->data + i, ' ') == NULL;
        size_t len = first ? 0 : mf_spelled_at(words->data + i, text, at);
        found = len > found ? len : found;
    }
    return found;
}

/* Appends text, without what is left out; whether that was in it. */
static bool add_plain(const mf_hide *hide, const char *text, bool crew, mf_buf *out)
{
    bool any = false;
    for (const char *at = text; *at != '\0';) {
        size_t len = longest(&hide->words, text, at, crew);
        const size_t other = hide->names == NULL || crew ? 0 : mf_names_at(hide->names, text, at);
        len = other > len ? other : len;
        mf_buf_add(out, len > 0 ? MF_LEFT_OUT : at, len > 0 ? strlen(MF_LEFT_OUT) : 1);
        any = any || len > 0;
        at += len > 0 ? len : 1;
    }
    return any;
}

static bool is_unit(const mf_hide *hide, const char *text)
{
    bool found = false;
    for (size_t i = 0; text != NULL && i < hide->units.len; i += strlen(hide->units.data + i) + 1)
        found = found || strcmp(hide->units.data + i, text) == 0;
    return found;
}

mf_finding mf_hide_finding(const mf_hide *hide, const mf_finding *finding)
{
    mf_finding out = *finding;
    const char **const said[] = {&out.subject, &out.told, &out.in_unit};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++)
        if (is_unit(hide, *said[i]))
            *said[i] = MF_LEFT_OUT;
    return out;
}

const char *mf_hide_cell(const mf_hide *hide, const mf_field *field, const char *text,
                         mf_arena *arena)
{
    if (!hide->on || text[0] == '\0')
        return text;
    if (field != NULL && mf_hide_field(hide, field))
        return MF_LEFT_OUT;
    if (field != NULL && (field->type != MF_F_TEXT || (field->flags & MF_F_HOME) != 0))
        return text; /* where the work is may be told, also where an occupant gets notices there */
    if (field != NULL && is_side(field, text))
        return text;
    mf_buf plain = {0};
    bool any = add_plain(hide, text, field != NULL && field == hide->crew, &plain);
    const char *kept = plain.failed ? NULL : any ? mf_arena_text(arena, mf_buf_str(&plain)) : text;
    mf_buf_free(&plain);
    return kept == NULL ? MF_LEFT_OUT : kept;
}
