/* bundle_entries.c - the entries of a job as JSON lines, with their hashes. */
#include "base/fail.h"
#include "base/json.h"
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
    mf_buf quoted = {0};
    if (name == NULL || name[0] == '\0')
        return;
    mf_json_quote(&quoted, name, strlen(name));
    if (quoted.len > 2)
        mf_buf_add(&all->names, quoted.data + 1, quoted.len - 2);
    mf_buf_text(&all->names, "\n");
    all->failed = all->failed || quoted.failed;
    mf_buf_free(&quoted);
}

/* An owner who lives there is an occupant. */
static void note_party(mf_entries *all, const json_t *body)
{
    const char *role = mf_json_string_of(body, "role");
    if (strcmp(role, "occupant") == 0 || (all->home && strcmp(role, "owner") == 0))
        note_name(all, mf_json_string_of(body, "name"));
}

/* Every name that an occupant had in any version, also a corrected one. */
static bool note_names(const mf_entry *e, void *data)
{
    json_t *body = mf_json_parse(e->body, strlen(e->body), NULL);
    if (strcmp(e->kind, "party") == 0)
        note_party(data, body);
    else if (strcmp(e->kind, "correction") == 0 &&
             strcmp(mf_json_string_of(body, "kind"), "party") == 0)
        note_party(data, json_object_get(body, "body"));
    json_decref(body);
    return true;
}

/* Who signed a notice to an occupant is one, or lives with one. */
static void note_signers(mf_entries *all, const mf_job *job)
{
    for (size_t i = 0; i < job->n_notice; i++) {
        const mf_party *party = mf_job_party(job, job->notice[i].party);
        if (party != NULL &&
            (party->role == MF_ROLE_OCCUPANT || (all->home && party->role == MF_ROLE_OWNER)))
            note_name(all, job->notice[i].signer);
    }
}

static bool names_one(const mf_entries *all, const char *line)
{
    const char *at = mf_buf_str(&all->names);
    bool found = false;
    while (!found && *at != '\0') {
        size_t len = strcspn(at, "\n");
        mf_buf name = {0};
        mf_buf_add(&name, at, len);
        found = name.failed || strstr(line, mf_buf_str(&name)) != NULL;
        mf_buf_free(&name);
        at += len + 1;
    }
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
    one *at;
    size_t n, cap;
    mf_arena arena;
    bool failed;
} all_of_them;

static const char *about_of(mf_arena *arena, const mf_entry *e)
{
    json_t *body = mf_json_parse(e->body, strlen(e->body), NULL);
    const char *kept = mf_arena_text(arena, mf_json_string_of(body, "about"));
    json_decref(body);
    return kept;
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
                  mf_arena_text(&all->arena, line.len == 0 ? "" : (const char *)line.data),
                  about_of(&all->arena, e), false};
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
        if (names_one(out, all->at[i].line))
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

mf_status mf_entries_read(mf_entries *out, mf_cli *cli, const mf_job *job, bool hide, mf_err *err)
{
    all_of_them all = {0};
    *out = (mf_entries){.home = mf_export_at_home(job)};
    mf_status status = MF_OK;
    if (hide) {
        status = mf_book_entries(cli->book, job->id, note_names, out, err);
        note_signers(out, job);
    }
    if (status == MF_OK)
        status = mf_book_entries(cli->book, "", collect, &all, err); /* the firm's */
    if (status == MF_OK && !all.failed)
        status = mf_book_entries(cli->book, job->id, collect, &all, err);
    if (all.n > 0 && !all.failed)
        qsort(all.at, all.n, sizeof *all.at, by_chain);
    if (hide && !all.failed)
        hold_all(out, &all);
    for (size_t i = 0; i < all.n && !all.failed; i++)
        write_one(out, &all.at[i]);
    if (status == MF_OK && (all.failed || out->failed || out->lines.failed || out->hashes.failed ||
                            out->withheld.failed || out->held.failed || out->names.failed))
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
    mf_buf_free(&entries->held);
}
