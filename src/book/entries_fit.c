#include "book/entries_fit.h"

#include "base/fail.h"
#include "base/utf8.h"
#include "book/attach.h"
#include "book/job_lines.h"
#include "book/known.h"
#include "book/refs.h"
#include "journal/amend.h"
#include "journal/draft.h"
#include "journal/settles.h"
#include <stdio.h>
#include <string.h>

#define LOG_HERE "log in the book what it should have said; nothing was taken over"

static void where_of(const mf_fit *f, const char *entry, char out[MF_WHERE])
{
    snprintf(out, MF_WHERE, "%.80s, entry %.40s", f->m->name, entry);
}

static mf_status refuse(const mf_fit *f, const char *entry, const char *what, const char *why,
                        const char *mend, mf_err *err)
{
    char where[MF_WHERE];
    where_of(f, entry, where);
    return mf_fail(err, MF_INPUT, where, what, why, mend);
}

/* ---- the values of a body --------------------------------------------------------------- */

static mf_slip slip_of_number(const mf_field *field, const json_t *value)
{
    int64_t number = json_integer_value(value);
    if (!json_is_integer(value))
        return MF_SLIP_NUMBER;
    bool any = field->min == 0 && field->max == 0;
    return any || (number >= field->min && number <= field->max) ? MF_SLIP_NONE : MF_SLIP_RANGE;
}

/* Texts, days, times and words stand in a body as they are typed; kind.h says how the others do. */
static mf_slip slip_of(const mf_field *field, const json_t *value, mf_day today)
{
    mf_parsed parsed;
    const char *text = json_string_value(value);
    if (field->type == MF_F_YESNO)
        return json_is_boolean(value) ? MF_SLIP_NONE : MF_SLIP_YESNO;
    if (mf_field_is_number(field->type))
        return slip_of_number(field, value);
    return text == NULL ? MF_SLIP_EMPTY : mf_field_parse(field, text, "", today, &parsed);
}

static mf_status check_value(const mf_fit *f, const mf_field *field, const json_t *value,
                             const char *entry, mf_err *err)
{
    char where[MF_WHERE], option[MF_WHERE];
    mf_slip slip = slip_of(field, value, f->now->today);
    where_of(f, entry, where);
    const mf_candidate at = {.where = where};
    mf_candidate_where(option, &at, field);
    if (json_string_length(value) > mf_draft_most(field))
        return mf_draft_too_long(field, option, LOG_HERE, err);
    if (slip == MF_SLIP_NONE)
        return MF_OK;
    const char *text = json_string_value(value);
    return mf_slip_fail(err, field, option, text == NULL ? "" : text, slip);
}

static mf_status check_values(const mf_fit *f, const mf_kind *kind, const json_t *body,
                              const char *entry, mf_err *err)
{
    json_t *shared = (json_t *)(uintptr_t)body, *value; /* jansson's loops are not const */
    const char *key;
    mf_status status = MF_OK;
    json_object_foreach(shared, key, value)
    {
        const mf_field *field = mf_field_named(kind, key);
        if (field == NULL || strcmp(field->name, key) != 0)
            return refuse(f, entry, "it has a field that is not known here",
                          "a newer version of this program made it, or somebody else did",
                          "use that version; nothing was taken over", err);
        status = check_value(f, field, value, entry, err);
        if (status != MF_OK)
            break;
    }
    return status;
}

/* ---- one new entry ---------------------------------------------------------------------- */

static mf_status check_maker(const mf_fit *f, const mf_line *line, const char *entry, mf_err *err)
{
    char day[MF_DAY_TEXT], who[60], what[160];
    bool known = false;
    mf_utf8_show(who, sizeof who, line->who);
    snprintf(day, sizeof day, "%.10s", line->at);
    if (mf_day_parse(day, NULL) > f->now->today + 1) /* whatever the zone */
        return refuse(
            f, entry, "it was made at a time that is still to come",
            "the clock of the device is wrong, or this one's is",
            "set the clock of this computer right, or log it here anew; nothing was taken over",
            err);
    if (f->who != NULL && strcmp(f->who, line->who) != 0) {
        snprintf(what, sizeof what, "it was made by %s, who was not the one invited", who);
        return refuse(f, entry, what, "an invitation is for one person", LOG_HERE, err);
    }
    const mf_folds folds = mf_book_folds(f->m->book);
    mf_status status = mf_known(&folds, mf_kind_named("person"), "", line->who, &known, err);
    if (status != MF_OK || known)
        return status;
    snprintf(what, sizeof what, "it was made by %s, who is not a person of the book", who);
    return refuse(f, entry, what, "every entry names the person who made it",
                  "log the person first; nothing was taken over", err);
}

/* What only a book itself says: a seal that is logged makes its key known (mf_book_key), who is
 * invited may write, and by its key a device tells what it logged. */
static const struct of_the_book {
    const char *kind, *what, *why, *mend;
} of_the_book[] = {
    {"device_key", "it names the key by which its device signs",
     "a file brings no signatures, so that nobody could tell who logged it",
     "merge the book of that device; nothing was taken over"},
    {"sealed", "it says that a paper was sealed", "only the book in which it was sealed says that",
     "merge that book; nothing was taken over"},
    {"invitation", "it invites somebody", "only the book itself invites", LOG_HERE},
};

static const struct of_the_book *find_of_the_book(const char *kind)
{
    for (size_t i = 0; i < sizeof of_the_book / sizeof of_the_book[0]; i++)
        if (strcmp(of_the_book[i].kind, kind) == 0)
            return &of_the_book[i];
    return NULL;
}

static mf_status check_whose(const mf_fit *f, const mf_line *line, const char *entry, mf_err *err)
{
    char what[200], shown[60];
    const struct of_the_book *own = find_of_the_book(line->kind);
    mf_utf8_show(shown, sizeof shown, line->job);
    if (own != NULL)
        return refuse(f, entry, own->what, own->why, own->mend, err);
    if (line->job[0] == '\0')
        return refuse(f, entry, "it is the firm's, not the job's",
                      "people, certificates and the like are logged in the book", LOG_HERE, err);
    if (strcmp(line->job, f->job) != 0) {
        snprintf(what, sizeof what, "it is of the job %s, and the file is of %.40s", shown, f->job);
        return refuse(f, entry, what, "", "hand over each job by a file of its own", err);
    }
    return MF_OK;
}

static mf_status check_correction(const mf_fit *f, const json_t *tree, const char *entry,
                                  mf_err *err)
{
    const json_t *after = json_object_get(tree, "body");
    const mf_kind *kind = mf_kind_named(mf_json_string_of(tree, "kind"));
    const char *reason = mf_json_string_of(tree, "reason");
    size_t settles = json_object_get(tree, "settles") == NULL ? 0 : 1;
    size_t n = (after == NULL ? 4 : 5) + settles;
    if (kind != NULL && find_of_the_book(kind->name) != NULL)
        return refuse(f, entry, "it changes what only the book says",
                      "seals, invitations and the keys of devices", LOG_HERE, err);
    if (kind == NULL || !mf_reason_fits(reason) || mf_json_string_of(tree, "target")[0] == '\0' ||
        mf_json_string_of(tree, "replaces")[0] == '\0' || json_object_size(tree) != n ||
        (after != NULL && !json_is_object(after)))
        return refuse(f, entry, "it is not a correction that this program writes",
                      "one names its entry and what it replaces, and says why", LOG_HERE, err);
    return after == NULL ? MF_OK : check_values(f, kind, after, entry, err);
}

static mf_status check_body(const mf_fit *f, const mf_line *line, const mf_body *body,
                            const char *entry, mf_err *err)
{
    const mf_kind *kind = mf_kind_named(line->kind);
    if (strcmp(line->kind, MF_KIND_CORRECTION) == 0)
        return check_correction(f, body->tree, entry, err);
    if (kind == NULL)
        return refuse(f, entry, "it is of a kind that is not known here",
                      "a newer version of this program made it, or somebody else did",
                      "use that version; nothing was taken over", err);
    return check_values(f, kind, body->tree, entry, err);
}

mf_status mf_fit_line(const mf_fit *f, const mf_line *line, mf_err *err)
{
    char entry[MF_ENTRY_ID];
    mf_body body = {.tree = NULL};
    mf_line_id(line, entry);
    mf_status status = mf_body_read(&body, line->body, err);
    if (status == MF_OK)
        status = mf_body_tree(&body, err);
    const char *odd = status == MF_OK ? mf_line_oddity(line, &body) : NULL;
    if (odd != NULL)
        status = refuse(f, entry, odd, "no program of ours writes such an entry",
                        "find out who made the file; nothing was taken over", err);
    if (status == MF_OK)
        status = check_whose(f, line, entry, err);
    if (status == MF_OK)
        status = check_maker(f, line, entry, err);
    if (status == MF_OK)
        status = check_body(f, line, &body, entry, err);
    mf_body_free(&body);
    return status;
}

/* ---- beside all others ------------------------------------------------------------------ */

static mf_status check_attached(const mf_fit *f, const json_t *body, const char *entry, mf_err *err)
{
    bool whole = false;
    mf_bytes bytes = {0};
    const mf_field *media = mf_field_named(mf_kind_named(MF_KIND_ATTACHMENT), "media");
    mf_status status = mf_book_attached(f->m->book, mf_json_string_of(body, "sha256"), &bytes, err);
    if (status != MF_OK)
        return status;
    int is = mf_media_of(bytes.data, bytes.len, &whole);
    bool good = is >= 0 && whole && bytes.len <= MF_ATTACH_MAX &&
                is == mf_choice(media->choices, mf_json_string_of(body, "media")) &&
                json_integer_value(json_object_get(body, "size")) == (json_int_t)bytes.len;
    mf_bytes_free(&bytes);
    return good ? MF_OK
                : refuse(f, entry, "its bytes are not the picture or paper that it says",
                         "a whole JPEG, PNG or PDF of that length", LOG_HERE, err);
}

static mf_status check_in_force(const mf_fit *f, const mf_kind *kind, const char *text,
                                const char *entry, mf_err *err)
{
    char where[MF_WHERE];
    mf_body body = {.text = text};
    where_of(f, entry, where);
    mf_status status = mf_body_tree(&body, err);
    const mf_folds folds = mf_book_folds(f->m->book);
    const mf_candidate candidate = {&folds, kind, body.tree, f->job, entry, where, true, f->now};
    if (status == MF_OK)
        status = mf_candidate_check(&candidate, NULL, err);
    if (status == MF_OK && strcmp(kind->name, MF_KIND_ATTACHMENT) == 0)
        status = check_attached(f, body.tree, entry, err);
    mf_body_free(&body);
    return status;
}

static mf_status check_seen(const mf_fit *f, const mf_job_fold *fold, const mf_fold_seen *seen,
                            mf_err *err)
{
    size_t count = 0;
    const mf_correction *force = mf_job_fold_in_force(fold, seen->id, seen->firm);
    const char *by = force == NULL ? seen->id : force->src.entry;
    const char *text = force == NULL ? seen->body : force->after;
    bool is_new = false;
    if (seen->kind < 0 || text[0] == '\0')
        return MF_OK;
    mf_status status = mf_merge_is_new(f->m, by, &is_new, err);
    return status == MF_OK && is_new
               ? check_in_force(f, &mf_kinds(&count)[seen->kind], text, seen->id, err)
               : status;
}

/* ---- corrections ------------------------------------------------------------------------- */

/* What a correction replaces: the entry, or other corrections of it. */
static bool replaces_one(const mf_job_fold *fold, const mf_fold_correction *it)
{
    char id[MF_ENTRY_ID];
    const char *from = it->said.replaces, *list = it->said.settles;
    bool found = strcmp(from, it->said.target) == 0 ||
                 (strcmp(from, it->said.src.entry) != 0 && mf_job_fold_beside(fold, it, from));
    while (found && mf_settles_next(&list, id))
        found = mf_job_fold_beside(fold, it, id);
    return found;
}

/* What an older version did not write stays unsaid. */
static bool same_member(const json_t *was, const json_t *is, const char *name)
{
    const json_t *before = json_object_get(was, name), *after = json_object_get(is, name);
    return (before == NULL && after == NULL) || json_equal(before, after) != 0;
}

static bool keeps(const mf_kind *kind, const char *before, const char *after)
{
    mf_body was = {.text = before}, is = {.text = after};
    bool whole = mf_body_tree(&was, NULL) == MF_OK && mf_body_tree(&is, NULL) == MF_OK;
    bool same = true;
    if (strcmp(kind->name, "house") == 0)
        same = strcmp(mf_json_string_of(was.tree, "id"), mf_json_string_of(is.tree, "id")) == 0;
    if (strcmp(kind->name, MF_KIND_ATTACHMENT) == 0)
        same = mf_attach_same(was.tree, is.tree);
    for (size_t i = 0; i < kind->n_fields; i++)
        if (!mf_field_is_typed(&kind->fields[i])) /* no correction of ours touches it */
            same = same && same_member(was.tree, is.tree, kind->fields[i].name);
    mf_body_free(&was);
    mf_body_free(&is);
    return whole && same;
}

static mf_status check_corrected(const mf_fit *f, const mf_job_fold *fold,
                                 const mf_fold_correction *it, mf_err *err)
{
    size_t count = 0;
    const mf_correction *said = &it->said;
    bool is_new = false;
    mf_status status = mf_merge_is_new(f->m, said->src.entry, &is_new, err);
    if (status != MF_OK || !is_new)
        return status;
    const mf_fold_seen *target = mf_job_fold_seen(fold, said->target);
    const mf_kind *kind =
        target == NULL || target->kind < 0 ? NULL : &mf_kinds(&count)[target->kind];
    if (kind == NULL || strcmp(kind->name, said->kind) != 0 || !replaces_one(fold, it))
        return refuse(f, said->src.entry, "it corrects an entry that is not there",
                      "one corrects an entry of its job, or a correction of that", LOG_HERE, err);
    if (said->after[0] != '\0' && !keeps(kind, target->body, said->after))
        return refuse(f, said->src.entry, "it changes what cannot be changed",
                      "the id of a job, the bytes of an attachment, and what a book writes by "
                      "itself",
                      LOG_HERE, err);
    return MF_OK;
}

mf_status mf_fit_all(const mf_fit *f, mf_err *err)
{
    mf_job_fold *fold = NULL;
    if (f->m->out->added == 0)
        return MF_OK;
    mf_status status = mf_job_fold_of(&fold, f->m->book, f->job, NULL, MF_WITHOUT_FIRM, err);
    for (size_t i = 0; status == MF_OK && i < fold->n_corrections; i++)
        status = check_corrected(f, fold, &fold->corrections[i], err);
    for (size_t i = 0; status == MF_OK && i < fold->n_seen; i++)
        status = check_seen(f, fold, &fold->seen[i], err);
    mf_job_fold_free(fold);
    return status;
}
