/* The stamps that the book keeps, against the book: each is of a head, a head is of the last
 * entries the devices had, and these must still be in their chains. What was withdrawn or
 * corrected counts as it was logged: a stamp cannot be talked away. */
#include "base/base64.h"
#include "base/fail.h"
#include "base/file.h"
#include "cli/json.h"
#include "cli/tsa.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

typedef struct one {
    char entry[MF_ENTRY_ID], where[MF_ENTRY_ID + 8]; /* of messages */
    json_t *body;
    mf_stamp_report said;
    bool elsewhere; /* a file; not in the book */
    bool gone;      /* what it is of is not in the book any more */
    bool ahead;     /* an entry was logged after the stamp, by the clock of its device */
} one;

struct mf_stamped {
    one *list;
    size_t n, cap;
    bool failed; /* memory ran out */
};

static const char *text_of(const one *it, const char *name)
{
    const char *text = json_string_value(json_object_get(it->body, name));
    return text == NULL ? "" : text;
}

/* Of a file the token tells it, of an entry the entry. */
static const char *head_of(const one *it)
{
    return it->elsewhere ? it->said.imprint : text_of(it, "head");
}

static one *add(mf_stamped *s, const char *entry)
{
    one *list = mf_grown(s->list, s->n, &s->cap, sizeof *list);
    if (list == NULL) {
        s->failed = true;
        return NULL;
    }
    s->list = list;
    one *it = &list[s->n++];
    *it = (one){0};
    snprintf(it->entry, sizeof it->entry, "%s", entry);
    snprintf(it->where, sizeof it->where, "entry %s", it->entry);
    return it;
}

static bool take_entry(const mf_entry *entry, void *data)
{
    mf_stamped *s = data;
    if (strcmp(entry->kind, "stamp") != 0)
        return true;
    one *it = add(s, entry->id);
    if (it != NULL)
        it->body = json_loads(entry->body, 0, NULL);
    return it != NULL;
}

/* ---- the head and the entries it is of --------------------------------------------------- */

static mf_status judge_heads(one *it, mf_book *book, mf_err *err)
{
    mf_head_seen seen = {.head = text_of(it, "head"), .heads = text_of(it, "heads"), .awaited = ""};
    mf_status status = mf_book_replay(book, &seen, 1, err);
    it->ahead = seen.newest > (mf_day)(it->said.before / 86400) + 1;
    if (status != MF_OK || seen.state == MF_HEAD_HELD)
        return status;
    if (seen.state == MF_HEAD_UNFIT)
        return mf_fail(err, MF_NO, it->where, "the head of this stamp is not that of its entries",
                       "what the stamp is said to be of was made up",
                       "rely on no stamp of this book; ask who logged it");
    return mf_failf(err, MF_NO, it->where, "the book was rewritten since the authority stamped it",
                    "keep this book as it is; ask who had it, and go back to a copy that checks",
                    "entry %.40s, which this stamp is of, is no longer in the book as it was",
                    seen.entry);
}

/* ---- the token ---------------------------------------------------------------------------- */

/* What people read of a stamp stands in the entry too, and must be the token's. */
static bool tells_the_token(const one *it)
{
    char told[MF_TSA_TOLD];
    mf_tsa_told(&it->said, told);
    return strcmp(told, text_of(it, "told")) == 0 &&
           strcmp(it->said.authority, text_of(it, "authority")) == 0 &&
           strcmp(it->said.policy, text_of(it, "policy")) == 0 &&
           strcmp(it->said.serial, text_of(it, "serial")) == 0;
}

static mf_status say_state(const one *it, mf_err *err)
{
    if (!mf_stamp_holds(it->said.state))
        return mf_stamp_fault(it->said.state, MF_NO, it->where,
                              "it proves nothing; have the book stamped again", err);
    return tells_the_token(it)
               ? MF_OK
               : mf_fail(err, MF_NO, it->where, "the entry tells something else than its stamp",
                         "its time, authority, policy or number",
                         "rely on the stamp alone; ask who logged it");
}

static mf_status check_token(one *it, const mf_tsa *tsa, mf_err *err)
{
    mf_bytes token = {0};
    mf_status status = MF_OK;
    it->said.state = MF_STAMP_UNREADABLE;
    if (mf_base64_get(&token, text_of(it, "token")))
        status = mf_stamp_judge(&it->said, token.data, token.len, text_of(it, "head"),
                                mf_tsa_roots(tsa), err);
    mf_bytes_free(&token);
    return status == MF_OK ? say_state(it, err) : status;
}

/* ---- all of them ------------------------------------------------------------------------- */

static mf_status judge_all(mf_stamped *s, mf_book *book, const mf_tsa *tsa, mf_err *err)
{
    mf_status first = MF_OK;
    for (size_t i = 0; i < s->n; i++) {
        mf_err why = {0};
        one *it = &s->list[i];
        mf_status token = check_token(it, tsa, &why);
        mf_status status = token == MF_OK ? judge_heads(it, book, &why) : token;
        if (status != MF_OK && status != MF_NO) {
            *err = why;
            return status;
        }
        it->gone = token == MF_OK && status == MF_NO;
        if (status == MF_NO && first == MF_OK) {
            first = status;
            *err = why;
        }
    }
    return first;
}

mf_status mf_stamped_read(mf_stamped **out, const mf_cli *cli, const mf_tsa *tsa, mf_err *err)
{
    mf_stamped *s = *out = calloc(1, sizeof *s);
    if (s == NULL)
        return mf_fail_memory(err);
    mf_status status = mf_book_entries(cli->book, "", take_entry, s, err);
    if (status == MF_OK && s->failed)
        status = mf_fail_memory(err);
    return status == MF_OK ? judge_all(s, cli->book, tsa, err) : status;
}

void mf_stamped_free(mf_stamped *s)
{
    for (size_t i = 0; s != NULL && i < s->n; i++)
        json_decref(s->list[i].body);
    if (s != NULL)
        free(s->list);
    free(s);
}

static bool has_head(const mf_stamped *s, const char *head)
{
    for (size_t i = 0; i < s->n; i++)
        if (!s->list[i].elsewhere && strcmp(text_of(&s->list[i], "head"), head) == 0)
            return true;
    return false;
}

mf_status mf_stamped_elsewhere(mf_stamped *s, const char *path, const mf_tsa *tsa, mf_buf *heads,
                               mf_err *err)
{
    mf_bytes file = {0};
    mf_stamp_report said = {0};
    mf_status status = mf_file_read(&file, path, MF_STAMP_REPLY_MAX, err);
    if (status == MF_OK)
        status = mf_stamp_judge(&said, file.data, file.len, NULL, mf_tsa_roots(tsa), err);
    mf_bytes_free(&file);
    const char *mend = "give the file that the authority sent";
    if (status == MF_OK && said.state == MF_STAMP_UNREADABLE)
        status = mf_fail(err, MF_INPUT, path, "it is not a time stamp", "", mend);
    else if (status == MF_OK && !mf_stamp_holds(said.state))
        status = mf_stamp_fault(said.state, MF_NO, path, mend, err);
    one *it = status == MF_OK ? add(s, path) : NULL;
    if (status != MF_OK)
        return status;
    if (it == NULL)
        return mf_fail_memory(err);
    it->said = said;
    it->elsewhere = true;
    if (!has_head(s, said.imprint))
        mf_buf_printf(heads, "\n%s\n", said.imprint);
    return heads->failed ? mf_fail_memory(err) : MF_OK;
}

/* ---- telling them ------------------------------------------------------------------------ */

void mf_stamped_say(const mf_stamped *s, const mf_cli *cli)
{
    const mf_stamp_report *unverified = NULL;
    bool ahead = false;
    for (size_t i = 0; s != NULL && i < s->n; i++) {
        const one *it = &s->list[i];
        fputs("stamp     ", stdout);
        mf_cli_show(it->entry);
        printf(", %.16s...: ", head_of(it));
        if (it->gone)
            printf("%s; ", mf_cli_word(cli, "stamp.gone"));
        mf_tsa_say(cli, "", &it->said);
        if (it->said.state == MF_STAMP_UNVERIFIED)
            unverified = &it->said;
        ahead = ahead || it->ahead;
    }
    if (ahead)
        mf_cli_wrap(mf_cli_word(cli, "note.book-clock"), 0, 0);
    if (unverified != NULL)
        mf_tsa_say_unverified(cli, unverified);
}

static json_t *json_of(const one *it)
{
    json_t *json = mf_tsa_json(&it->said);
    json_object_set_new(json, "entry", json_string(it->entry));
    json_object_set_new(json, "elsewhere", json_boolean(it->elsewhere));
    json_object_set_new(json, "gone", json_boolean(it->gone));
    json_object_set_new(json, "clock_ahead", json_boolean(it->ahead));
    json_object_set_new(json, "head", json_string(head_of(it)));
    return json;
}

json_t *mf_stamped_json(const mf_stamped *s)
{
    json_t *list = json_array();
    for (size_t i = 0; s != NULL && i < s->n; i++)
        json_array_append_new(list, json_of(&s->list[i]));
    return list;
}

/* ---- what is stamped ------------------------------------------------------------------------ */

typedef struct heads {
    mf_buf *out;
    mf_ends ends;
} heads;

static bool add_head(const char *device, int64_t seq, const char *hash, void *data)
{
    heads *h = data;
    mf_buf_printf(h->out, "%s%s/%" PRId64 " %s", h->out->len == 0 ? "" : ", ", device, seq, hash);
    return mf_ends_put(&h->ends, device, hash);
}

mf_status mf_stamped_heads(mf_buf *out, char head[MF_HASH_HEX], mf_book *book, mf_err *err)
{
    heads h = {.out = out};
    mf_status status = mf_book_heads(book, add_head, &h, err);
    if (status == MF_OK && (out->failed || !mf_ends_head(&h.ends, head)))
        status = mf_fail_memory(err);
    mf_ends_free(&h.ends);
    return status;
}
