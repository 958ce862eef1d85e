/* bundle_entries.c - the entries of a job as JSON lines, with their hashes. */
#include "base/fail.h"
#include "base/json.h"
#include "cli/bundle.h"

#include <string.h>

static void add_key(mf_buf *out, const char *key, const char *text)
{
    mf_buf_text(out, key);
    mf_json_quote(out, text, strlen(text));
}

/* The canonical line of book.h, whose SHA-256 is the entry's hash. */
static void add_line(mf_buf *out, const mf_entry *e)
{
    const char *slash = strchr(e->id, '/');
    char device[MF_ENTRY_ID] = "";
    if (slash == NULL)
        return;
    memcpy(device, e->id, (size_t)(slash - e->id));
    add_key(out, "{\"at\":", e->at);
    mf_buf_printf(out, ",\"body\":%s", e->body);
    add_key(out, ",\"device\":", device);
    add_key(out, ",\"job\":", e->job);
    add_key(out, ",\"kind\":", e->kind);
    add_key(out, ",\"prev\":", e->prev);
    mf_buf_printf(out, ",\"seq\":%s", slash + 1);
    add_key(out, ",\"who\":", e->who);
    mf_buf_text(out, "}");
}

/* ---- what names an occupant -------------------------------------------------------------- */

bool mf_entries_hold(const mf_entries *all, const char *id)
{
    mf_buf word = {0};
    mf_buf_printf(&word, " %s ", id);
    bool held = word.failed || strstr(mf_buf_str(&all->held), mf_buf_str(&word)) != NULL;
    mf_buf_free(&word);
    return held;
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

static void note_party(mf_entries *all, const json_t *body)
{
    const char *role = json_string_value(json_object_get(body, "role"));
    if (role != NULL && strcmp(role, "occupant") == 0)
        note_name(all, json_string_value(json_object_get(body, "name")));
}

/* Every name that an occupant had in any version, also a corrected one. */
static bool note_names(const mf_entry *e, void *data)
{
    json_t *body = mf_json_parse(e->body, strlen(e->body), NULL);
    const char *kind = json_string_value(json_object_get(body, "kind"));
    if (strcmp(e->kind, "party") == 0)
        note_party(data, body);
    else if (strcmp(e->kind, "correction") == 0 && kind != NULL && strcmp(kind, "party") == 0)
        note_party(data, json_object_get(body, "body"));
    json_decref(body);
    return true;
}

/* Who signed a notice to an occupant is one, or lives with one. */
static void note_signers(mf_entries *all, const mf_job *job)
{
    for (size_t i = 0; i < job->n_notice; i++) {
        const mf_party *party = mf_job_party(job, job->notice[i].party);
        if (party != NULL && party->role == MF_ROLE_OCCUPANT)
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

/* Also what is about an entry that is left out: its picture may show the name. */
static bool is_about_held(const mf_entries *all, const mf_entry *e)
{
    json_t *body = mf_json_parse(e->body, strlen(e->body), NULL);
    const char *about = json_string_value(json_object_get(body, "about"));
    bool held = about != NULL && mf_entries_hold(all, about);
    json_decref(body);
    return held;
}

/* ---- the files ------------------------------------------------------------------------------ */

static bool take(const mf_entry *e, void *data)
{
    mf_entries *all = data;
    mf_buf line = {0};
    add_line(&line, e);
    bool hold = all->hide && (names_one(all, mf_buf_str(&line)) || is_about_held(all, e));
    all->failed = all->failed || line.failed;
    if (hold) {
        mf_buf_printf(&all->withheld, "%s  %s\n", e->hash, e->id);
        mf_buf_printf(&all->held, " %s ", e->id);
        all->n_withheld++;
    } else {
        mf_buf_add(&all->lines, line.data, line.len);
        mf_buf_text(&all->lines, "\n");
        mf_buf_printf(&all->hashes, "%s  %s\n", e->hash, e->id);
        all->n++;
    }
    mf_buf_free(&line);
    return true;
}

mf_status mf_entries_read(mf_entries *out, mf_cli *cli, const mf_job *job, bool hide, mf_err *err)
{
    *out = (mf_entries){.hide = hide};
    mf_status status = MF_OK;
    if (hide) {
        status = mf_book_entries(cli->book, job->id, note_names, out, err);
        note_signers(out, job);
    }
    if (status == MF_OK)
        status = mf_book_entries(cli->book, "", take, out, err); /* the firm's */
    if (status == MF_OK)
        status = mf_book_entries(cli->book, job->id, take, out, err);
    if (status == MF_OK && (out->failed || out->lines.failed || out->hashes.failed ||
                            out->withheld.failed || out->held.failed || out->names.failed))
        status = mf_fail_memory(err);
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
