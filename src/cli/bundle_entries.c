/* bundle_entries.c - the entries of a job as JSON lines, with their hashes. */
#include "base/fail.h"
#include "base/json.h"
#include "base/spelled.h"
#include "cli/bundle.h"
#include "cli/export.h"

#include <stdlib.h>
#include <string.h>

/* ---- what names an occupant -------------------------------------------------------------- */

static bool holds(const mf_entries *all, const char *id)
{
    mf_buf word = {0};
    mf_buf_printf(&word, " %s ", id);
    bool held = word.failed || strstr(mf_buf_str(&all->held), mf_buf_str(&word)) != NULL;
    mf_buf_free(&word);
    return held;
}

bool mf_entries_hold(const mf_entries *all, const mf_src *src)
{
    return holds(all, src->entry) || (src->correction[0] != '\0' && holds(all, src->correction));
}

static void note_name(mf_entries *all, const char *name)
{
    if (name[0] != '\0')
        mf_buf_add(&all->names, name, strlen(name) + 1);
}

/* An owner who lives there is an occupant. */
static void note_party(mf_entries *all, const json_t *body)
{
    const char *role = mf_json_string_of(body, "role");
    if (strcmp(role, "occupant") != 0 && (!all->home || strcmp(role, "owner") != 0))
        return;
    note_name(all, mf_json_string_of(body, "name"));
    mf_buf_printf(&all->occupants, " %s ", mf_json_string_of(body, "id"));
}

/* Who signed a notice to an occupant is one, or lives with one. */
static void note_signer(mf_entries *all, const json_t *body)
{
    mf_buf party = {0};
    mf_buf_printf(&party, " %s ", mf_json_string_of(body, "party"));
    if (party.failed || strstr(mf_buf_str(&all->occupants), mf_buf_str(&party)) != NULL)
        note_name(all, mf_json_string_of(body, "signer"));
    mf_buf_free(&party);
}

typedef struct noting {
    mf_entries *all;
    const char *kind; /* of the entries that are noted */
    void (*note)(mf_entries *all, const json_t *body);
} noting;

/* Every name in any version, also one that was corrected or withdrawn since. */
static bool note_entry(const mf_entry *e, void *data)
{
    const noting *to = data;
    mf_err why = {0};
    json_t *body = mf_json_parse(e->body, strlen(e->body), &why);
    to->all->failed = to->all->failed || why.status == MF_SYSTEM; /* no memory for a name */
    if (strcmp(e->kind, to->kind) == 0)
        to->note(to->all, body);
    else if (strcmp(e->kind, "correction") == 0 &&
             strcmp(mf_json_string_of(body, "kind"), to->kind) == 0)
        to->note(to->all, json_object_get(body, "body"));
    json_decref(body);
    return true;
}

static mf_status note_all(mf_entries *out, const mf_cli *cli, const char *job, mf_err *err)
{
    noting parties = {out, "party", note_party}, notices = {out, "notice", note_signer};
    mf_status status = mf_book_entries(cli->book, job, note_entry, &parties, err);
    return status == MF_OK ? mf_book_entries(cli->book, job, note_entry, &notices, err) : status;
}

/* An id is another word where a letter of it is: the worker ida is not Ida who lives there. */
static bool names_one(const mf_entries *all, const char *text, bool id)
{
    bool found = false;
    for (size_t i = 0; !found && i < all->names.len; i += strlen(all->names.data + i) + 1)
        found = id ? strstr(text, all->names.data + i) != NULL
                   : mf_spelled_in(all->names.data + i, text);
    return found;
}

/* Any text of a body. kind says what its members are (NULL = not known here), id that the value is
 * no text but an id or a word of a list. */
static bool body_names(const mf_entries *all, json_t *value, const mf_kind *kind, bool id)
{
    bool found = json_is_string(value) && names_one(all, json_string_value(value), id);
    const mf_kind *within = mf_kind_named(mf_json_string_of(value, "kind")); /* of a correction */
    for (void *at = json_object_iter(value); at != NULL; at = json_object_iter_next(value, at)) {
        const mf_field *field =
            kind == NULL ? NULL : mf_field_named(kind, json_object_iter_key(at));
        found = found || body_names(all, json_object_iter_value(at), within,
                                    field != NULL && field->type != MF_F_TEXT);
    }
    for (size_t i = 0; i < json_array_size(value); i++)
        found = found || body_names(all, json_array_get(value, i), kind, id);
    return found;
}

/* ---- all of them, in the order of their chains -------------------------------------------- */

/* An entry as the files need it; texts are in the arena. */
typedef struct one {
    const char *id, *hash, *line;
    const char *about; /* of an attachment, else "" */
    bool held;
} one;

typedef struct all_of_them {
    const mf_entries *out; /* with the names */
    const mf_job *job;
    one *at;
    size_t n, cap;
    mf_arena arena;
    bool failed;
} all_of_them;

static bool is_person(const mf_job *job, const char *id)
{
    bool found = false;
    for (size_t i = 0; i < job->n_person; i++)
        found = found || strcmp(job->person[i].id, id) == 0;
    return found;
}

/* Whom it is about, and whether it names somebody who is left out. */
static void read_body(all_of_them *all, one *it, const mf_entry *e)
{
    json_t *body = mf_json_parse(e->body, strlen(e->body), NULL);
    it->about = mf_arena_text(&all->arena, mf_json_string_of(body, "about"));
    it->held = names_one(all->out, e->who, is_person(all->job, e->who)) ||
               (body == NULL ? names_one(all->out, e->body, false) /* not what this program wrote */
                             : body_names(all->out, body, mf_kind_named(e->kind), false));
    json_decref(body);
}

static bool collect(const mf_entry *e, void *data)
{
    all_of_them *all = data;
    mf_bytes line = {0};
    one *grown = mf_grown(all->at, all->n, &all->cap, sizeof *grown);
    all->failed = !mf_entry_line(e, &line) || grown == NULL;
    if (grown != NULL) {
        all->at = grown;
        one it = {mf_arena_text(&all->arena, e->id), mf_arena_text(&all->arena, e->hash),
                  mf_arena_text(&all->arena, line.len == 0 ? "" : (const char *)line.data), NULL,
                  false};
        read_body(all, &it, e);
        all->failed =
            all->failed || it.id == NULL || it.hash == NULL || it.line == NULL || it.about == NULL;
        all->at[all->n++] = it;
    }
    mf_bytes_free(&line);
    return !all->failed;
}

/* By device, then number: books that hold the same entries give the same files, in
 * whatever order the entries came into them, and what is linked stands together. */
static int by_chain(const void *a, const void *b)
{
    const char *x = ((const one *)a)->id, *y = ((const one *)b)->id;
    size_t n = strcspn(x, "/"), m = strcspn(y, "/");
    int order = memcmp(x, y, n < m ? n : m);
    if (order != 0 || n != m)
        return order != 0 ? order : n < m ? -1 : 1;
    long long seq = strtoll(x + n + 1, NULL, 10), other = strtoll(y + m + 1, NULL, 10);
    return seq < other ? -1 : seq > other;
}

static void hold(mf_entries *out, one *it)
{
    it->held = true;
    mf_buf_printf(&out->held, " %s ", it->id);
}

/* What names an occupant, and what is about an entry that is left out: its picture may
 * show the name. What it is about may stand behind it, on another device. */
static void hold_all(mf_entries *out, all_of_them *all)
{
    for (size_t i = 0; i < all->n; i++)
        if (all->at[i].held)
            hold(out, &all->at[i]);
    for (bool more = true; more;) {
        more = false;
        for (size_t i = 0; i < all->n; i++)
            if (!all->at[i].held && all->at[i].about[0] != '\0' && holds(out, all->at[i].about)) {
                hold(out, &all->at[i]);
                more = true;
            }
    }
}

/* ---- the files ------------------------------------------------------------------------------ */

static void write_one(mf_entries *out, const one *it)
{
    if (it->held) {
        mf_buf_printf(&out->withheld, "%s  %s\n", it->hash, it->id);
        out->n_withheld++;
        return;
    }
    mf_buf_text(&out->lines, it->line);
    mf_buf_text(&out->lines, "\n");
    mf_buf_printf(&out->hashes, "%s  %s\n", it->hash, it->id);
    out->n++;
}

/* What every entry and the folder itself say cannot be left out. */
static mf_status check_id(const mf_entries *all, const mf_job *job, mf_err *err)
{
    if (!names_one(all, job->id, true))
        return MF_OK;
    return mf_failf(err, MF_INPUT, "--without-occupants",
                    "each of its entries says it, and the name of its folder",
                    "leave out --without-occupants, or the job: give the others by --state or days",
                    "job %.60s is called by the name of somebody who lives there", job->id);
}

static mf_status collect_all(all_of_them *all, const mf_cli *cli, mf_err *err)
{
    mf_status status = mf_book_entries(cli->book, "", collect, all, err); /* the firm's */
    if (status == MF_OK && !all->failed)
        status = mf_book_entries(cli->book, all->job->id, collect, all, err);
    if (all->n > 0 && !all->failed)
        qsort(all->at, all->n, sizeof *all->at, by_chain);
    return status;
}

mf_status mf_entries_read(mf_entries *out, mf_cli *cli, const mf_job *job, bool hide, mf_err *err)
{
    all_of_them all = {.out = out, .job = job};
    *out = (mf_entries){.home = mf_export_at_home(job)};
    mf_status status = hide ? note_all(out, cli, job->id, err) : MF_OK;
    if (status == MF_OK)
        status = check_id(out, job, err);
    if (status == MF_OK)
        status = collect_all(&all, cli, err);
    if (hide && !all.failed)
        hold_all(out, &all);
    for (size_t i = 0; i < all.n && !all.failed; i++)
        write_one(out, &all.at[i]);
    if (status == MF_OK &&
        (all.failed || out->failed || out->lines.failed || out->hashes.failed ||
         out->withheld.failed || out->held.failed || out->names.failed || out->occupants.failed))
        status = mf_fail_memory(err);
    free(all.at);
    mf_arena_free(&all.arena);
    return status;
}

void mf_entries_free(mf_entries *entries)
{
    mf_buf_free(&entries->lines);
    mf_buf_free(&entries->hashes);
    mf_buf_free(&entries->withheld);
    mf_buf_free(&entries->names);
    mf_buf_free(&entries->occupants);
    mf_buf_free(&entries->held);
}
