/* export_hide.c - --no-names: which fields tell who lives there, and such names in other texts. */
#include "cli/export.h"

#include <stdlib.h>
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

static void note(mf_hide *hide, const mf_field *field, const void *item)
{
    const mf_value value = mf_item_value(field, item);
    const char *text = value.text;
    if (!value.given || text[0] == '\0')
        return;
    mf_buf *to = strcmp(field->name, "unit") == 0 && (field->flags & MF_F_HOME) != 0 ? &hide->units
                                                                                     : &hide->words;
    mf_buf_add(to, text, strlen(text) + 1);
}

void mf_hide_begin(mf_hide *hide, const mf_job *job, bool on)
{
    size_t n_kinds, count;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    *hide = (mf_hide){.on = on, .home = on && mf_export_at_home(job)};
    for (size_t k = 0; on && k < n_kinds; k++) {
        const char *items = mf_kind_items(job, &kinds[k], &count);
        for (size_t f = 0; f < kinds[k].n_fields; f++)
            for (size_t i = 0; mf_hide_field(hide, &kinds[k].fields[f]) && i < count; i++)
                note(hide, &kinds[k].fields[f], items + i * kinds[k].size);
    }
}

void mf_hide_end(mf_hide *hide)
{
    mf_buf_free(&hide->words);
    mf_buf_free(&hide->units);
}

/* ---- in other texts ---------------------------------------------------------------------- */

static bool in_word(char c)
{
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
           ((unsigned char)c & 0x80) != 0;
}

/* The length of the longest one that stands here as words of its own; 0 = none does. */
static size_t longest(const mf_buf *words, const char *text, const char *at)
{
    size_t found = 0, step;
    for (size_t i = 0; i < words->len; i += step) {
        const char *word = words->data + i;
        size_t len = strlen(word);
        step = len + 1;
        bool begins = at == text || !in_word(at[-1]) || !in_word(word[0]);
        if (len > found && begins && strncmp(at, word, len) == 0 &&
            (!in_word(word[len - 1]) || !in_word(at[len])))
            found = len;
    }
    return found;
}

/* Appends text, without what is left out; whether that was in it. */
static bool add_plain(const mf_hide *hide, const char *text, mf_buf *out)
{
    bool any = false;
    for (const char *at = text; *at != '\0';) {
        size_t len = longest(&hide->words, text, at);
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
    mf_buf plain = {0};
    bool any = add_plain(hide, text, &plain);
    const char *kept = plain.failed ? NULL : any ? mf_arena_text(arena, mf_buf_str(&plain)) : text;
    mf_buf_free(&plain);
    return kept == NULL ? MF_LEFT_OUT : kept;
}
