/* Papers with what somebody may have typed into a book: long words, odd letters, numbers
 * at the ends of their range. The values come into the data of a record that is kept with
 * the seeds, so that most of them pass for logged and are drawn. */
#include "base/json.h"
#include "fuzz/fuzz.h"

#include <mistfold/paper.h>
#include <mistfold/record.h>
#include <stdio.h>
#include <string.h>

enum { LEAVES_MAX = 1024, TEXT_MAX = 8192, SUMMARY = MF_FORM_COUNT, RECORD, PAPERS };

/* A value of an entry: the member `key` of `body`. */
typedef struct leaf {
    json_t *body;
    const char *key;
} leaf;

/* Of tests/fuzz/seeds/record/. */
static const char *const names[] = {"demo",
                                    "assisted-own-work-cleared",
                                    "assisted-minor-cleared-that-day",
                                    "facility-good",
                                    "units-acknowledged",
                                    "file-corrected-two-ways",
                                    "dust-failed-and-cleaned",
                                    "emergency-storm"};
enum { RECORDS = sizeof names / sizeof names[0] };
static json_t *kept[RECORDS];

static void drop_kept(void)
{
    for (size_t i = 0; i < RECORDS; i++)
        json_decref(kept[i]);
}

static json_t *kept_record(unsigned i)
{
    static bool asked;
    char path[160];
    if (!asked)
        atexit(drop_kept);
    asked = true;
    if (kept[i] == NULL) {
        snprintf(path, sizeof path, MF_TESTS "/fuzz/seeds/record/%s.json", names[i]);
        kept[i] = json_load_file(path, 0, NULL);
    }
    FUZZ_HOLDS(kept[i] != NULL);
    return kept[i];
}

static size_t leaves_of(json_t *record, leaf out[LEAVES_MAX])
{
    size_t n = 0, i;
    const char *kind, *key;
    json_t *entries, *entry, *value;
    json_object_foreach(json_object_get(record, "entries"), kind, entries)
    {
        json_array_foreach(entries, i, entry)
        {
            json_t *body = json_object_get(entry, "body");
            json_object_foreach(body, key, value) if (n < LEAVES_MAX) out[n++] = (leaf){body, key};
        }
    }
    FUZZ_HOLDS(n > 0);
    return n;
}

/* "*30 word" is the word thirty times: long texts are rare otherwise. */
static void spread(const char *text, char out[TEXT_MAX])
{
    char *rest = NULL;
    unsigned long times = text[0] == '*' ? strtoul(text + 1, &rest, 10) : 1;
    const char *word = rest == NULL ? text : rest + (*rest == ' ');
    size_t word_len = strlen(word), len = 0;
    for (; times > 0 && word_len > 0 && len + word_len < TEXT_MAX; times--, len += word_len)
        memcpy(out + len, word, word_len);
    out[len] = '\0';
}

/* A value of the same type, so that its reader looks at what it says. */
static void set(const leaf *l, const char *text)
{
    char spelled[TEXT_MAX];
    const json_t *was = json_object_get(l->body, l->key);
    json_t *value = NULL;
    spread(text, spelled);
    if (json_is_integer(was))
        value = json_integer(strtoll(spelled, NULL, 10));
    else if (json_is_boolean(was))
        value = json_boolean(spelled[0] % 2);
    else
        value = json_string(spelled); /* NULL when it is no UTF-8 */
    if (value != NULL)
        FUZZ_HOLDS(json_object_set_new(l->body, l->key, value) == 0);
}

static void draw(const mf_record *record, unsigned which)
{
    mf_bytes out = {0};
    mf_err err = {0};
    mf_paper_blocks blocks;
    mf_paper_ask ask = {.job = record->job,
                        .today = record->today,
                        .lang = which / PAPERS % 2 == 0 ? MF_LANG_EN : MF_LANG_ES,
                        .head = record->head,
                        .printed_at = record->printed_at,
                        .size = which / PAPERS / 2 % 2 == 0 ? MF_SIZE_LETTER : MF_SIZE_A4};
    mf_status status;
    if (which % PAPERS == RECORD)
        status = mf_paper_record(&out, &blocks, &ask, &err);
    else if (which % PAPERS == SUMMARY)
        status = mf_paper_summary(&out, &ask, &err);
    else
        status = mf_paper_blank(&out, (mf_paper_form)(which % PAPERS), "", &ask, &err);
    FUZZ_HOLDS(status == MF_OK || (status == MF_INPUT && err.what[0] != '\0'));
    FUZZ_HOLDS(status != MF_OK || (out.len > 1000 && memcmp(out.data, "%PDF-", 5) == 0));
    mf_bytes_free(&out);
}

/* The first line names the paper, its language and size and the record by a number; each further
 * line is the number of a value and what it is to be. */
void fuzz_draw(const uint8_t *data, size_t len)
{
    static leaf leaves[LEAVES_MAX];
    mf_record *record = NULL;
    char *text = fuzz_text(data, len), *rest = text;
    unsigned which = (unsigned)strtoul(text, NULL, 10);
    json_t *whole = json_deep_copy(kept_record(which / PAPERS / 4 % RECORDS));
    FUZZ_HOLDS(whole != NULL);
    size_t n = leaves_of(whole, leaves);
    for (char *line = strchr(text, '\n'); line != NULL; line = strchr(rest, '\n')) {
        unsigned long at = strtoul(line + 1, &rest, 10);
        char *end = strchr(rest, '\n');
        if (end != NULL)
            *end = '\0';
        set(&leaves[at % n], rest + (*rest == ' '));
        if (end != NULL)
            *end = '\n';
    }
    char *json = json_dumps(whole, JSON_COMPACT | JSON_SORT_KEYS);
    FUZZ_HOLDS(json != NULL);
    if (mf_record_read(&record, json, strlen(json), NULL) == MF_OK)
        draw(record, which);
    mf_record_free(record);
    free(json);
    json_decref(whole);
    free(text);
}
