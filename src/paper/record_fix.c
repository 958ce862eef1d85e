/* Corrections: what an entry said, what it says now, and why. */
#include "paper/entry.h"
#include "paper/record.h"

#include <jansson.h>
#include <mistfold/kind.h>
#include <mistfold/words.h>
#include <stdlib.h>

/* What a field held, as a person would read it; item NULL = nothing any more. */
static const char *held_words(mf_rec *rec, const mf_field *field, const void *item)
{
    char room[MF_WORDS_HELD];
    const mf_value none = {.given = false, .text = ""};
    const mf_value value = item == NULL ? none : mf_item_value(field, item);
    return mf_print(rec, "%s", mf_words_held(rec->ask->lang, field, &value, room));
}

/* A member of a body that no field is known for, as it stands. */
static const char *member_words(mf_rec *rec, const json_t *member)
{
    if (json_is_string(member))
        return mf_stated(rec, mf_print(rec, "%s", json_string_value(member)));
    char *text = json_dumps(member, JSON_ENCODE_ANY | JSON_COMPACT);
    const char *words = mf_stated(rec, text == NULL ? "" : mf_print(rec, "%s", text));
    free(text);
    return words;
}

/* The bodies before and after. */
typedef struct bodies {
    const mf_correction *fix;
    const mf_kind *kind;
    json_t *before, *after;
} bodies;

/* One changed member as three lines: its name, the old struck through, the new;
 * the list grows at its head. */
static const mf_cell *changed(mf_rec *rec, const bodies *of, const char *name, const mf_cell *rest)
{
    const mf_field *field = of->kind == NULL ? NULL : mf_field_named(of->kind, name);
    const bool known = field != NULL;
    mf_cell now = mf_plain(known ? held_words(rec, field, of->fix->now)
                                 : member_words(rec, json_object_get(of->after, name)));
    now.below = rest;
    mf_cell old = mf_plain(known ? held_words(rec, field, of->fix->was)
                                 : member_words(rec, json_object_get(of->before, name)));
    old.flags = MF_CELL_STRUCK;
    old.below = mf_below(rec, now);
    mf_cell label =
        mf_small(known ? mf_words_field(rec->ask->lang, field) : mf_print(rec, "%s", name));
    label.below = mf_below(rec, old);
    return mf_below(rec, label);
}

static const mf_cell *changes(mf_rec *rec, const mf_correction *fix)
{
    const bodies of = {fix, mf_kind_named(fix->kind), json_loads(fix->before, 0, NULL),
                       json_loads(fix->after, 0, NULL)};
    const mf_cell *list = NULL;
    const char *name;
    json_t *value;
    json_object_foreach(of.after, name, value)
    {
        if (!json_equal(value, json_object_get(of.before, name)))
            list = changed(rec, &of, name, list);
    }
    json_object_foreach(of.before, name, value)
    {
        if (json_object_get(of.after, name) == NULL)
            list = changed(rec, &of, name, list);
    }
    json_decref(of.before);
    json_decref(of.after);
    return list;
}

static void fix_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_correction *fix = &rec->job->correction[i];
    mf_cell what = mf_bold(mf_entry_words(rec, fix->target));
    what.below = mf_below(rec, mf_small(mf_phrase2(rec, "paper.kind", fix->kind)));
    const mf_cell *list = changes(rec, fix);
    mf_cell change = list == NULL ? mf_plain(mf_phrase(rec, "no-change")) : *list;
    if (*fix->after == '\0') {
        mf_cell gone = mf_bold(mf_phrase(rec, "withdrawn"));
        gone.below = list;
        change = gone;
    }
    mf_cell who = mf_plain(mf_person_words(rec, fix->src.by));
    who.below = mf_below(rec, mf_small(mf_logged_words(rec, fix->src.at)));
    const mf_cell cells[5] = {what, change, mf_plain(mf_stated(rec, fix->reason)), who,
                              mf_entry_cell(rec, fix->src.entry)};
    mf_table_row(table, cells);
}

void mf_record_fixes(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.entry-first", 16, false},
                                  {"col.change", 30, false},
                                  {"col.reason", 24, false},
                                  {"col.corrected-by", 19, false},
                                  {"col.entry", 11, false}};
    mf_section(rec, "corrections");
    if (rec->job->n_correction == 0) {
        mf_none(rec, "no-corrections");
        return;
    }
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "corrections-note"));
    mf_rows(rec, cols, 5, rec->job->n_correction, fix_row, NULL);
}
