/* hide_names.c - --no-names: what is left out of any job's texts, as it was logged in all of them.
 * There may be very many: those that begin with other letters than the text are passed by. */
#include "base/fail.h"
#include "base/spelled.h"
#include "cli/export.h"

#include <stdlib.h>
#include <string.h>

struct mf_name {
    uint32_t key; /* of its first letters: mf_spelled_keys */
    const char *text;
};

static int by_key(const void *left, const void *right)
{
    const mf_name *a = left, *b = right;
    if (a->key != b->key)
        return a->key < b->key ? -1 : 1;
    return strcmp(a->text, b->text);
}

static void sort(mf_names *names)
{
    size_t n = 0;
    qsort(names->name, names->n, sizeof names->name[0], by_key);
    for (size_t i = 0; i < names->n; i++)
        if (n == 0 || by_key(&names->name[n - 1], &names->name[i]) != 0)
            names->name[n++] = names->name[i];
    names->n = n;
}

/* Goes through the words once for each name, to be put in order by its letters. */
static bool list(mf_names *names)
{
    const mf_buf *words = &names->words;
    size_t cap = 0;
    for (size_t i = 0; i < words->len; i += strlen(words->data + i) + 1) {
        uint32_t keys[MF_SPELLED_KEYS];
        size_t n = mf_spelled_keys(words->data + i, true, keys);
        if (n == 0)
            continue;
        mf_name *more = mf_grown(names->name, names->n, &cap, sizeof *more);
        if (more == NULL)
            return false;
        names->name = more;
        more[names->n++] = (mf_name){keys[n - 1], words->data + i};
    }
    return true;
}

mf_status mf_names_begin(mf_names *names, mf_cli *cli, bool on, mf_err *err)
{
    *names = (mf_names){0};
    if (!on)
        return MF_OK;
    mf_status status = mf_cli_book(cli, err);
    if (status == MF_OK)
        status = mf_hide_words(&names->words, cli, err);
    if (status != MF_OK)
        return status;
    if (!list(names))
        return mf_fail_memory(err);
    if (names->n > 0)
        sort(names);
    return MF_OK;
}

void mf_names_end(mf_names *names)
{
    free(names->name);
    mf_buf_free(&names->words);
    *names = (mf_names){0};
}

/* The first that has the key, or a greater one. */
static size_t first_of(const mf_names *names, uint32_t key)
{
    size_t from = 0, to = names->n;
    while (from < to) {
        size_t mid = from + (to - from) / 2;
        if (names->name[mid].key < key)
            from = mid + 1;
        else
            to = mid;
    }
    return from;
}

size_t mf_names_at(const mf_names *names, const char *text, const char *at)
{
    uint32_t keys[MF_SPELLED_KEYS];
    size_t found = 0, n = names->n == 0 ? 0 : mf_spelled_keys(at, false, keys);
    for (size_t k = 0; k < n; k++)
        for (size_t i = first_of(names, keys[k]); i < names->n && names->name[i].key == keys[k];
             i++) {
            size_t len = mf_spelled_at(names->name[i].text, text, at);
            found = len > found ? len : found;
        }
    return found;
}
