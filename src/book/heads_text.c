/* heads_text.c - reading heads back that were printed, typed in or read from a code. */
#include "base/fail.h"
#include "base/hex.h"
#include "base/mem.h"
#include "base/utf8.h"
#include "book/replay.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define LINE_MAX_LEN ((size_t)4096)
#define WORDS_MAX    ((size_t)10) /* device, seq and a hash in eight groups */

static mf_status refuse(size_t line, const char *what, mf_err *err)
{
    char where[40];
    snprintf(where, sizeof where, "line %zu of the heads", line);
    return mf_fail(err, MF_INPUT, where, what,
                   "a line is a head of 64 hex digits, or \"device seq hash\"",
                   "write what \"book head\" printed");
}

/* ---- one line ---------------------------------------------------------------------------------
 */

typedef struct heads_line {
    const char *word[WORDS_MAX]; /* all that are no entries */
    size_t n;
    mf_buf heads; /* "office/415 truck/20" */
    const char *head;
} heads_line;

static void add_entries(heads_line *l, const char *text)
{
    mf_buf_printf(&l->heads, "%s%s", l->heads.len > 0 ? " " : "", text);
}

/* A code begins with "mistfold" and says what it is of by name. */
static void split(heads_line *l, char *text)
{
    char *rest = NULL;
    bool code = false;
    for (char *at = strtok_r(text, " \t\r", &rest); at != NULL && at[0] != '#';
         at = strtok_r(NULL, " \t\r", &rest)) {
        if (strcmp(at, "mistfold") == 0)
            code = true;
        else if (code && strncmp(at, "head=", 5) == 0)
            l->head = at + 5;
        else if (code && strncmp(at, "of=", 3) == 0)
            add_entries(l, at + 3);
        else if (code && strchr(at, '=') != NULL)
            continue;
        else if (strchr(at, '/') != NULL)
            add_entries(l, at);
        else {
            if (l->n < WORDS_MAX)
                l->word[l->n] = at;
            l->n++;
        }
    }
    if (l->head != NULL && l->n == 0)
        l->word[l->n++] = l->head;
}

/* The hash at the end of a line, whole or in groups of eight as "book head --by-hand" prints
 * it; returns how many words stand before it, n when there is none. */
static size_t take_hash(const char *const *word, size_t n, char out[MF_HASH_HEX])
{
    size_t len = 0, at = n;
    while (at > 0 && len + strlen(word[at - 1]) < MF_HASH_HEX)
        len += strlen(word[--at]);
    out[0] = '\0';
    for (size_t i = at, used = 0; i < n; i++) /* they fit together, by the loop above */
        used += (size_t)snprintf(out + used, MF_HASH_HEX - used, "%s", word[i]);
    for (char *c = out; *c != '\0'; c++)
        *c = *c >= 'A' && *c <= 'F' ? (char)(*c + ('a' - 'A')) : *c;
    return mf_hex_is(out, MF_HASH_HEX - 1) ? at : n;
}

/* Beside entries the words of the foot of a paper stand around it, in its language. */
static void drop_prose(heads_line *l)
{
    for (size_t i = 0; l->heads.len > 0 && i < l->n && l->n <= WORDS_MAX; i++)
        if (mf_hex_is(l->word[i], MF_HASH_HEX - 1)) {
            l->word[0] = l->word[i];
            l->n = 1;
        }
    while (l->heads.len > 0 && l->n > 1 && l->n <= WORDS_MAX && strlen(l->word[l->n - 1]) < 8)
        l->n--; /* "of" behind groups of eight */
}

/* ---- the text ----------------------------------------------------------------------------------
 */

typedef struct reading {
    mf_head_line_fn *fn;
    void *data;
    size_t number; /* of the line */
} reading;

static mf_status tell(const reading *r, heads_line *l, mf_err *err)
{
    char id[MF_ENTRY_ID], device[MF_DEVICE_MAX + 1], hash[MF_HASH_HEX];
    mf_head_line line = {.head = ""};
    int64_t seq = 0;
    size_t before = take_hash(l->word, l->n, hash);
    if (before == l->n || before == 1)
        return refuse(r->number, "it holds no head", err);
    if (before > 2 || (before == 2 && l->heads.len > 0))
        return refuse(r->number, "there is too much in it", err);
    if (before == 0) {
        mf_hash_copy(line.head, hash);
    } else {
        snprintf(id, sizeof id, "%.16s/%.16s", l->word[0], l->word[1]);
        if (!mf_entry_id_split(id, device, &seq))
            return refuse(r->number, "the device or the number is none", err);
        mf_buf_printf(&l->heads, "%s %s", id, hash);
    }
    line.heads = mf_buf_str(&l->heads);
    return l->heads.failed ? mf_fail_memory(err) : r->fn(&line, r->data, err);
}

static mf_status take_line(const reading *r, char *text, mf_err *err)
{
    heads_line l = {.n = 0};
    split(&l, text);
    drop_prose(&l);
    mf_status status = l.heads.failed    ? mf_fail_memory(err)
                       : l.n > WORDS_MAX ? refuse(r->number, "there is too much in it", err)
                       : l.n == 0 && l.heads.len == 0 ? MF_OK
                                                      : tell(r, &l, err);
    mf_buf_free(&l.heads);
    return status;
}

mf_status mf_head_lines(const char *text, mf_head_line_fn *fn, void *data, mf_err *err)
{
    char *line = malloc(LINE_MAX_LEN);
    reading r = {fn, data, 0};
    text += mf_utf8_mark(text, strlen(text));
    mf_status status = line == NULL ? mf_fail_memory(err) : MF_OK;
    while (status == MF_OK && *text != '\0') {
        size_t len = strcspn(text, "\n");
        r.number++;
        if (len >= LINE_MAX_LEN) {
            status = refuse(r.number, "it is too long", err);
            break;
        }
        snprintf(line, LINE_MAX_LEN, "%.*s", (int)len, text);
        status = take_line(&r, line, err);
        text += len + (text[len] == '\n');
    }
    free(line);
    return status;
}
